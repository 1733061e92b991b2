"""How deep a stud may be planed at each height, and what says so (docs/methods/limits.md)."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from undertile.framing.facts import Kind, Service
from undertile.framing.say import SERVICES, place, said
from undertile.framing.stud_is import Standing, StudIs
from undertile.lengths import Unit
from undertile.sentence import Sentence

CRAFT = Fraction(1, 4)
"""Planing a stud alone, 4 passes [in] (convention 4.3, 4.4; common practice)."""
CRAFT_SISTERED = Fraction(1, 2)
"""Planing a stud that gets a sister, 8 passes [in] (convention 4.3)."""
NOTCH_BEARING = Fraction(1, 4)
NOTCH_FREE = Fraction(2, 5)
"""Share of the stud's depth that may be notched, IRC R602.6: bearing or exterior, and not bearing."""
LEAST_STUD = Fraction(3, 2)
"""Depth taken for a stud not measured: two-by lumber laid flat, the shallowest in use (ours). [in]"""
LEAST_BATTEN = Fraction(3, 4)
"""Thickness taken for a batten not measured: one-by (ours). [in]"""
HOLE_EDGE = Fraction(5, 8)
"""A hole's edge to the face, IRC R602.6. [in]"""
SERVICE = Fraction(5, 4)
"""A pipe or cable to the face without a plate, NEC 300.4 and IRC P2603.2.1. [in]"""
PLATED = Fraction(1, 4)
"""Wood kept before a pipe or cable behind a plate (ours, after the screw tip's 1/4). [in]"""

Why = dict[str, tuple[str, str]]

_NOT_PLANED: dict[Kind, tuple[str, str]] = {
    "steel": (Sentence("steel is never planed"), "convention-4"),
    "treated": (Sentence("treated wood is never planed: the treatment is in the face"), "convention-4"),
    "engineered": (Sentence("an engineered member is never cut"), "convention-4"),
    "unknown": (
        Sentence("what the stud is made of is not known, and unknown stuff is not planed"),
        "convention-4",
    ),
}


def section_of(height: Fraction, heights: Sequence[Fraction]) -> tuple[int, ...]:
    """Heights (by index) whose depth decides the cut at one height.

    The face runs straight between the heights read: on one of them, that one; between two, both; past the
    last one read, the nearest, for the cut runs on.
    """
    if height <= heights[0]:
        return (0,)
    if height >= heights[-1]:
        return (len(heights) - 1,)
    for h, z in enumerate(heights):
        if z == height:
            return (h,)
        if z > height:
            return (h - 1, h)
    raise AssertionError("heights rise")  # pragma: no cover


def _sections(low: Fraction, high: Fraction, heights: Sequence[Fraction]) -> tuple[int, ...]:
    """Heights (by index) whose depth decides the cut anywhere between two heights."""
    within = {h for h, z in enumerate(heights) if low <= z <= high}
    return tuple(sorted(within | set(section_of(low, heights)) | set(section_of(high, heights))))


def stands(standing: Standing, unit: Unit) -> str:
    """What stands at a stud, and where nothing is planed, in words."""
    return Sentence(
        "{thing} at {height} stands at this stud: nothing is planed from {low} to {high}",
        thing=standing.said,
        height=place(standing.height, unit),
        low=place(standing.low, unit),
        high=place(standing.high, unit),
    )


def plane_depths(
    stud: StudIs, heights: Sequence[Fraction], *, sistered: bool = False, unit: Unit = "in"
) -> tuple[tuple[Fraction, ...], Why]:
    """The most that may be planed off a stud at each height, and what says so.

    The smallest counts (convention 4.4): craft; the notch share less what is notched already; no hole and
    cut in one section; a pipe or cable keeps its distance to the new face unless a plate covers it; nothing
    is planed where a valve or pipe stands at the stud.

    Parameters
    ----------
    stud : StudIs
    heights : sequence of Fraction, rising
        [in]
    sistered : bool
        Whether a sister stands beside it.
    unit : {"in", "mm"}
        For words.

    Returns
    -------
    depths : tuple of Fraction, one per height
        0 = never. [in]
    why : dict
        ``plane`` for what holds over the whole stud, ``plane at 48`` for one height.
    """
    nothing = tuple(Fraction(0) for _ in heights)
    refused = _never_planed(stud)
    if refused is not None:
        return nothing, {"plane": refused}
    craft = CRAFT_SISTERED if sistered and stud.kind == "wood" else CRAFT
    share, words, source = _notch_share(stud, unit)
    depth: Fraction = craft
    why: tuple[str, str] = (Sentence("craft: at most {craft}", craft=said(craft, unit)), "practice-planing")
    if share < craft:
        depth, why = max(share, Fraction(0)), (words, source)
    if depth == 0:
        return nothing, {"plane": why}
    depths = [depth] * len(heights)
    reasons: Why = {"plane limit": why}
    for name, hole in stud.holes:
        for h in section_of(hole.height.inches, heights):
            depths[h] = Fraction(0)
            reasons[f"plane at {place(heights[h], unit)}"] = (
                Sentence(
                    "hole {name} at {height}: no hole and cut in one section",
                    name=name,
                    height=place(hole.height.inches, unit),
                ),
                "irc-r602.6",
            )
    for name, service in stud.services:
        limit, text = _service_limit(name, service, unit)
        for h in section_of(service.height.inches, heights):
            if limit < depths[h]:
                depths[h] = limit
                source = "irc-p2603.2.1" if service.what == "pipe" else "nec-300.4"
                reasons[f"plane at {place(heights[h], unit)}"] = (text, source)
    for standing in stud.standing:
        for h in _sections(standing.low, standing.high, heights):
            depths[h] = Fraction(0)
            reasons[f"plane at {place(heights[h], unit)}"] = (stands(standing, unit), "practice-keep-off")
    return tuple(depths), reasons


def _never_planed(stud: StudIs) -> tuple[str, str] | None:
    if stud.kind in _NOT_PLANED:
        return _NOT_PLANED[stud.kind]
    if stud.brace:
        return (Sentence("a let-in brace crosses its face, and a brace is never cut"), "convention-4")
    if stud.soft:
        return (Sentence("soft wood is cut out, not planed"), "convention-4")
    return None


def _notch_share(stud: StudIs, unit: Unit) -> tuple[Fraction, str, str]:
    """What the code leaves to be taken, in words, with its source."""
    if stud.kind == "batten":
        depth = stud.depth if stud.depth is not None else LEAST_BATTEN
        left = NOTCH_BEARING * depth
        words = Sentence(
            "a batten keeps three quarters of its thickness ({depth})", depth=_depth(stud, depth, unit)
        )
        return left, words, "convention-4"
    depth = stud.depth if stud.depth is not None else LEAST_STUD
    share = NOTCH_BEARING if stud.bears else NOTCH_FREE
    left = share * depth - stud.notch
    words = Sentence(
        "notches: 25 % of a bearing stud's depth ({depth})"
        if stud.bears
        else "notches: 40 % of the depth ({depth})",
        depth=_depth(stud, depth, unit),
    )
    if stud.notch:
        words = Sentence("{limit}, {notch} is notched already", limit=words, notch=said(stud.notch, unit))
    return left, words, "irc-r602.6"


def _depth(stud: StudIs, depth: Fraction, unit: Unit) -> str:
    text = said(depth, unit)
    return text if stud.depth is not None else Sentence("depth not measured, {depth} taken", depth=text)


def _service_limit(name: str, service: Service, unit: Unit) -> tuple[Fraction, str]:
    clear = service.clear.inches
    slots = {
        "what": SERVICES[service.what],
        "name": name,
        "height": place(service.height.inches, unit),
    }
    if service.plated:
        return max(clear - PLATED, Fraction(0)), Sentence(
            "{what} {name} at {height} is plated: {left} of wood stays before it",
            left=said(PLATED, unit),
            **slots,
        )
    limit = max(clear - SERVICE, Fraction(0))
    return limit, Sentence(
        "{what} {name} at {height} is {clear} behind the face and keeps {least} to the new one; put a nail "
        "plate there and say so to plane deeper",
        clear=said(clear, unit),
        least=said(SERVICE, unit),
        **slots,
    )
