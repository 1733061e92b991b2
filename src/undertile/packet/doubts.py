"""What the crew sheet says of readings in doubt: what to settle, to read again, what is held over them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from undertile.framing.facts import FramingFacts
from undertile.packet.content import Doubt
from undertile.packet.figures import place
from undertile.packet.held import held_over, plane_held, stud_held
from undertile.packet.places import place_words
from undertile.packet.plan_view import PlanView
from undertile.packet.words import Words
from undertile.survey.result import Suspect

_FROM = re.compile(r"wall ([LBR]) from ([LBR]\w+) at (.+) on")
_STUD = re.compile(r"[LBR]\d+\w* at [^/]+")
"""How the survey names a moved line, and a reading that ``--if`` takes."""


def settle(view: PlanView, words: Words) -> tuple[str, ...]:
    """Why there is no amount yet, and what to do."""
    lines = []
    if view.suspects:
        lines.append(words("settle-doubt"))
    if view.plan is None:
        conflict = view.no_plan.conflict if view.no_plan is not None else None
        if view.no_plan is None:
            lines.append(words("settle-nothing"))
        elif view.no_plan.state == "none":
            lines.append(words("settle-no-plan"))
        else:
            lines.append(words("settle-time"))
        if conflict is not None and words.language == "en":
            lines += [words("conflict-demands"), *(f"- {each}" for each in conflict.demands)]
            lines += [words("conflict-frees"), *(f"- {change}" for _, change in conflict.frees)]
        if conflict is not None:
            lines.append(words("conflict-see"))
    if view.suspects:
        lines.append(words("settle-then"))
    return tuple(lines)


def doubts(view: PlanView, words: Words) -> tuple[Doubt, ...]:
    """Each reading in doubt, with the boxes for a new one."""
    out = []
    for group in view.suspects:
        first = group[0]
        where, slip = place_words(first.where, words), words.slip(first.code)
        if first.typed:
            text = words("doubt", where=where, typed=first.typed, slip=slip)
        else:
            text = words("doubt-untyped", where=where, slip=slip)
        if first.changes:
            text += " " + words("doubt-offered", offered=first.offered)
        spots = [spot for spot, _ in first.changes] or [first.where]
        out.append(Doubt(where, text, _boxes(view, first, words), _holds(view, spots, words)))
    return tuple(out)


def _boxes(view: PlanView, suspect: Suspect, words: Words) -> tuple[str, ...]:
    """Where to read again for one doubt: each place named, or all from where a line moved on."""
    if moved := _FROM.fullmatch(suspect.where):
        wall = view.read(moved[1])  # its places have the names they were typed with
        spots = [f"{stud.name} at {place(z, view.own_unit)}" for stud in wall.studs for z in wall.heights]
        start = f"{moved[2]} at {moved[3]}".removesuffix(" mm")
        later = spots[spots.index(start) :] if start in spots else spots
        return tuple(place_words(spot, words) for spot in later)
    return tuple(place_words(spot, words) for spot, _ in suspect.changes) or ("",)


def settled(view: PlanView) -> str:
    """The command for the sheet as offered; "" where a doubt has no exact reading to offer."""
    offers = [group[0].changes for group in view.suspects]
    known = [f'--if "{spot} = {reading}"' for changes in offers for spot, reading in changes]
    studs = all(_STUD.fullmatch(spot) for changes in offers for spot, _ in changes)
    if not offers or not all(offers) or not studs:
        return ""
    return f"undertile papers JOB --out FOLDER {' '.join(known)}"


def place_of(wish: str) -> str:
    """Which reading a wish is about: ``L3 at 54 = 5-7/8``."""
    return wish.partition("=")[0].strip()


def as_if_told(view: PlanView, wish: str, words: Words) -> Doubt:
    """A reading that the sheet was made with and nobody has entered."""
    where = place_words(place_of(wish), words)
    value = wish.partition("=")[2].strip()
    return Doubt(where, f"{where} = {value}", held=_holds(view, [place_of(wish)], words))


def holds_in_doubt(view: PlanView, spots: Sequence[str], words: Words) -> dict[str, str]:
    """By the name of each wall and stud that is held: what of these places stands under it."""
    job = view.rebuild.job
    return held_over(job.framing, job.survey, spots, words)


def _holds(view: PlanView, spots: Sequence[str], words: Words) -> tuple[str, ...]:
    """Each wall and stud that is held over one of these places: which, what was said, and to read again."""
    framing: FramingFacts = view.rebuild.job.framing
    out = []
    for name, said in holds_in_doubt(view, spots, words).items():
        stud = stud_held(framing, name, words)
        whose = name if stud else words.wall(name)
        out.append(f"{whose[:1].upper()}{whose[1:]}. {stud or plane_held(framing, name, words)} {said}")
    return tuple(out)
