"""Notch, hole and rip limits by code section after the work, and the stiffness that is left.

IRC R602.6: a notch takes at most 25 % of a bearing or exterior stud's depth, 40 % of another's; a hole's
edge keeps 5/8 in and shares no section with a cut. Planing is a notch in effect. An unknown stud counts as
bearing.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.facts import Hole
from undertile.framing.plan import MemberPlan
from undertile.framing.planing import HOLE_EDGE, NOTCH_BEARING, NOTCH_FREE, section_of
from undertile.framing.stud_is import StudIs
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.say import window
from undertile.sentence import Sentence

BORED_BEARING = Fraction(2, 5)
BORED_FREE = Fraction(3, 5)
"""Share of the depth a hole may take, IRC R602.6: bearing (60 % when doubled), and not bearing."""


def stiffness_left(depth: Fraction, planed: Fraction) -> Fraction:
    """Share of the bending stiffness left after planing: ``((d - p) / d) ** 3``.

    Parameters
    ----------
    depth, planed : Fraction
        [in]

    Returns
    -------
    Fraction
        0 to 1, as if planed over the full height: the cautious case.

    Raises
    ------
    ValueError
        If the depth is not more than what is planed off.
    """
    if not 0 <= planed < depth:
        raise ValueError(f"planing takes 0 or more and less than the depth {depth} in; {planed} in came")
    return ((depth - planed) / depth) ** 3


def cut_checks(built: Built) -> tuple[list[Check], list[Finding]]:
    """A check for each planed or notched stud and each hole, and a note on stiffness.

    Returns
    -------
    checks : list of Check
    findings : list of Finding
    """
    checks: list[Check] = []
    findings: list[Finding] = []
    for wall in built.walls:
        for member in built.members(wall):
            stud = built.stud(member)
            if "replace" in member.recipe.families or stud.kind in ("steel", "batten"):
                continue
            planed = member.recipe.depth or tuple(ZERO for _ in member.heights)
            if any(planed) or stud.notch:
                checks.append(_notch(built, member, stud, max(planed)))
                findings += _stiffness(built, member, stud, max(planed))
            checks += [_hole(built, member, stud, planed, name, hole) for name, hole in stud.holes]
    return checks, findings


def _percent(share: Fraction) -> str:
    """Rounded up to a whole percent: a share used never prints as less."""
    return f"{-floor(-share * 100)} %"


def _bears(stud: StudIs) -> str:
    if stud.bearing == "unknown":
        return Sentence("not known, so counted as bearing")
    return Sentence("bearing") if stud.bearing == "yes" else Sentence("not bearing")


def _notch(built: Built, member: MemberPlan, stud: StudIs, planed: Fraction) -> Check:
    topic = Topic(f"notch-{member.name}", "Cut against the notch limit", member.name, "irc-r602.6")
    share = NOTCH_BEARING if stud.bears else NOTCH_FREE
    limit = Sentence("at most {share} of the depth", share=_percent(share))
    if stud.depth is None:
        return topic.not_shown(
            limit, Sentence("Measure the depth of {name}, face to back.", name=member.name)
        )
    cut = planed + stud.notch
    may = built.down(share * stud.depth)
    because = [
        Sentence(
            "{name} is {bears}, {depth} deep: {may} may go",
            name=member.name,
            bears=_bears(stud),
            depth=built.near(stud.depth),
            may=may,
        )
    ]
    if planed:
        because.append(Sentence("planed {planed}", planed=built.up(planed)))
    if stud.notch:
        because.append(Sentence("notched {notch} already", notch=built.near(stud.notch)))
    verdict = Verdict.PASS if cut <= share * stud.depth else Verdict.FAIL
    if stud.bears and planed and all(member.recipe.depth):
        because.append(Sentence("planed over its full height: a rip changes the grade"))
        verdict = Verdict.FAIL
    if "sister" in member.recipe.families:
        because.append(Sentence("a sister stands beside it"))
    return topic.said(
        verdict,
        Sentence("{cut}, {share} of the depth", cut=built.up(cut), share=_percent(cut / stud.depth)),
        limit,
        margin=built.down(share * stud.depth - cut, signed=True),
        because=because,
        eats=Sentence("planing {planed}", planed=built.up(planed)) if planed else "",
        step=Sentence(
            "Stop and ask an engineer before {name} is cut; or plane less, sister it, or move the plane.",
            name=member.name,
        ),
    )


def _stiffness(built: Built, member: MemberPlan, stud: StudIs, planed: Fraction) -> list[Finding]:
    if not planed or stud.depth is None or planed >= stud.depth or "sister" in member.recipe.families:
        return []
    left = floor(stiffness_left(stud.depth, planed) * 100)
    return [
        Finding(
            "stiffness-left",
            Severity.NOTE,
            member.name,
            Sentence("the stiffness of the whole depth"),
            Sentence(
                "planed {planed} off {depth}: about {left} % of its bending stiffness is left",
                planed=built.up(planed),
                depth=built.near(stud.depth),
                left=left,
            ),
            Sentence("Nothing to do unless it carries a door, a bar or a load: then sister it."),
            "depth-cubed",
            {"percent": str(left)},
        )
    ]


def _hole(
    built: Built, member: MemberPlan, stud: StudIs, planed: tuple[Fraction, ...], name: str, hole: Hole
) -> Check:
    """A hole's edge to the new face, its size, and no cut in its section."""
    height = hole.height.inches
    topic = Topic(
        f"hole-{member.name}-{name}", f"Hole {name}", f"{member.name} at {built.near(height)}", "irc-r602.6"
    )
    section = [planed[i] for i in section_of(height, member.heights)]
    cut = max(section, default=ZERO)
    left = hole.edge.inches - cut
    because = [Sentence("edge of the hole {hole} from the face as read", hole=built.down(hole.edge.inches))]
    if cut:
        because.append(Sentence("planed {cut} in its section", cut=built.up(cut)))
        return topic.said(
            Verdict.FAIL,
            Sentence("{left} to the face", left=built.down(left)),
            Sentence("{edge}, and no cut in its section", edge=window(HOLE_EDGE, None, built.unit)),
            because=because,
            eats=Sentence("planing {cut}", cut=built.up(cut)),
            step=Sentence(
                "Do not plane {name} at the hole: a hole and a cut may not share a section.", name=member.name
            ),
        )
    share = BORED_BEARING if stud.bears else BORED_FREE
    if stud.depth is None:
        limit = Sentence(
            "{edge}, at most {share} of the depth",
            edge=window(HOLE_EDGE, None, built.unit),
            share=_percent(share),
        )
        return topic.not_shown(
            limit, Sentence("Measure the depth of {name}, face to back.", name=member.name), because
        )
    part = hole.diameter.inches / stud.depth
    because.append(
        Sentence(
            "{part} of the depth, at most {share} ({bears})",
            part=_percent(part),
            share=_percent(share),
            bears=_bears(stud),
        )
    )
    check = topic.judge(
        left,
        HOLE_EDGE,
        None,
        built.unit,
        shown=lambda value: Sentence("{left} to the face", left=value),
        because=because,
        fix=Sentence(
            "Sister {name} past the hole, or a stud shoe as its sheet allows; ask the inspector.",
            name=member.name,
        ),
    )
    if part > share:
        return topic.said(
            Verdict.FAIL,
            Sentence("{edge}, {part} of the depth", edge=check.value, part=_percent(part)),
            Sentence("{edge}, at most {share} of the depth", edge=check.limit, share=_percent(share)),
            because=because,
            step=Sentence(
                "Sister {name} or a stud shoe as its sheet allows; ask the inspector.", name=member.name
            ),
        )
    return check
