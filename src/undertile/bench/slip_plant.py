"""Slips planted in a simulated survey, as written down in ``docs/methods/slips.md``."""

from __future__ import annotations

import random
from fractions import Fraction

from undertile.bench.slip_rooms import MM, Planted, Survey, clean_survey

KINDS = (
    "mirror inch",
    "mirror half",
    "inch off",
    "six nine",
    "transposed",
    "wrong sixteenths",
    "misheard",
    "row reversed",
    "swapped",
    "sign lost",
    "tape case",
    "cm side",
    "line moved",
    "other",
)
NATURAL = dict(zip(KINDS, (20, 20, 18, 4, 5, 10, 3, 4, 4, 4, 3, 2, 5, 8), strict=True))
"""How often one kind happens beside another in the natural mix."""
NATURAL_SLIPS = 0.7
"""Slips a survey in the natural mix (Poisson mean)."""


def plant(rng: random.Random, survey: Survey, kind: str) -> bool:
    """Make one slip of a kind in a survey; False when nothing in it can suffer that kind."""
    for _ in range(40):
        changed = _attempt(rng, survey, kind)
        if changed is None:
            return False
        taken = {place for slip in survey.planted for place in slip.right}
        moved = {p: v for p, v in changed.items() if v != survey.values[p]}
        if not moved or taken & set(moved):
            continue
        sizes = [abs(float(v - survey.values[p])) for p, v in moved.items()]
        right = {p: survey.text(survey.values[p]) for p in moved}
        survey.planted.append(Planted(kind, right, max(sizes), any(p in survey.covered for p in moved)))
        survey.values.update(moved)
        return True
    return False


def _attempt(rng: random.Random, survey: Survey, kind: str) -> dict[str, Fraction] | None:
    readings = [p for places in survey.order.values() for p in places]
    checks = [p for p in survey.values if p.startswith(("width", "diagonal"))]
    if kind in ("row reversed", "swapped"):
        return _rearranged(rng, survey, kind)
    if kind == "line moved":
        return _moved(rng, survey)
    if kind == "sign lost":
        signed = [p for p in survey.values if p.startswith(("level", "square"))]
        place = rng.choice(signed)
        return {place: -survey.values[place]}
    if kind == "tape case":
        taped = [p for p in checks if p.startswith("diagonal") or survey.tool == "tape"]
        case = rng.choice((Fraction(5, 2), Fraction(11, 4), Fraction(3), Fraction(13, 4), Fraction(7, 2)))
        if survey.unit == "mm":
            case = round(case / MM / 5) * 5 * MM
        place = rng.choice(taped)
        return {place: survey.values[place] - case}
    place = rng.choice(checks) if rng.random() < 0.2 or kind == "transposed" else rng.choice(readings)
    wrong = _misread(rng, survey, kind, survey.values[place])
    return {} if wrong is None else {place: wrong}


def _misread(rng: random.Random, survey: Survey, kind: str, value: Fraction) -> Fraction | None:
    if survey.unit == "mm":
        return _misread_mm(rng, kind, value)
    whole, part = divmod(value, 1)
    if kind == "mirror inch":
        near = whole if part < Fraction(1, 2) else whole + 1
        return None if part in (0, Fraction(1, 2)) else 2 * near - value
    if kind == "mirror half":
        return None if part in (0, Fraction(1, 2)) else whole + 1 - part
    if kind == "inch off":
        return value + rng.choice((-1, 1))
    if kind == "six nine":
        return _digits(whole, {"6": "9", "9": "6"}, rng, part)
    if kind == "transposed":
        text = str(int(whole))
        return None if len(text) != 2 or text[0] == text[1] else Fraction(int(text[::-1])) + part
    if kind == "wrong sixteenths":
        if part.denominator not in (8, 16):
            return None
        if part.denominator == 16:
            wrong = part * 2
            return whole + wrong if wrong < 1 else None
        return whole + part / 2
    if kind == "misheard":
        pairs = {3: 5, 5: 3}
        top = part.numerator
        if part.denominator in (8, 16) and top in pairs:
            return whole + Fraction(pairs[top], part.denominator)
        teens = {13: 30, 14: 40, 15: 50, 16: 60, 50: 15, 60: 16, 40: 14, 30: 13}
        return Fraction(teens[int(whole)]) + part if int(whole) in teens else None
    if kind == "cm side":
        return round(value * Fraction(254, 100) * 2) * Fraction(1, 2)
    return value + rng.choice((-1, 1)) * Fraction(rng.randint(2, 32), 16)


def _misread_mm(rng: random.Random, kind: str, value: Fraction) -> Fraction | None:
    mm = int(value / MM)
    if kind == "mirror inch":
        near = round(mm / 10) * 10
        return None if mm % 5 == 0 else (2 * near - mm) * MM
    if kind == "inch off":
        return value + rng.choice((-10, 10, -100, 100)) * MM
    if kind == "six nine":
        wrong = _digits(mm, {"6": "9", "9": "6"}, rng, Fraction(0))
        return None if wrong is None else wrong * MM
    if kind == "transposed":
        text = str(mm)
        at = rng.randrange(len(text) - 1)
        swapped = text[:at] + text[at + 1] + text[at] + text[at + 2 :]
        return None if swapped[0] == "0" else int(swapped) * MM
    if kind == "other":
        return value + rng.choice((-1, 1)) * rng.randint(3, 50) * MM
    return None


def _digits(whole: int, pairs: dict[str, str], rng: random.Random, part: Fraction) -> Fraction | None:
    text = str(int(whole))
    spots = [i for i, c in enumerate(text) if c in pairs]
    if not spots:
        return None
    at = rng.choice(spots)
    return Fraction(int(text[:at] + pairs[text[at]] + text[at + 1 :])) + part


def _rearranged(rng: random.Random, survey: Survey, kind: str) -> dict[str, Fraction]:
    """A row typed in the other direction, or two rows or two studs exchanged."""
    wall = rng.choice(list(survey.order))
    studs = list(survey.layout["walls"][wall])
    labels = [survey.label(z) for z in survey.layout["heights"]]

    def line(fixed: str, row: bool) -> list[str]:
        places = [f"{s} at {fixed}" for s in studs] if row else [f"{fixed} at {z}" for z in labels]
        return [p for p in places if p in survey.values]

    row = rng.random() < 0.7
    if kind == "row reversed":
        places = line(rng.choice(labels) if row else rng.choice(studs), row)
        return dict(zip(places, [survey.values[p] for p in reversed(places)], strict=True))
    names = labels if row else studs
    at = rng.randrange(len(names) - 1)
    first, second = line(names[at], row), line(names[at + 1], row)
    if len(first) != len(second):
        return {}
    return {a: survey.values[b] for a, b in zip(first + second, second + first, strict=True)}


def _moved(rng: random.Random, survey: Survey) -> dict[str, Fraction]:
    """The laser bumped part-way: every later reading of the wall, and its repeat, shifted and tilted."""
    wall = rng.choice(list(survey.order))
    places = survey.order[wall]
    at = rng.randrange(2, max(3, len(places) - 1))
    step = MM if survey.unit == "mm" else Fraction(1, 16)
    shift = rng.choice((-1, 1)) * rng.uniform(1 / 16, 1 / 2)
    slope = rng.gauss(0, 1 / 32) / max(1, len(places))
    late = places[at:] + ([survey.repeats[wall]] if wall in survey.repeats else [])
    return {
        p: survey.values[p] + round(Fraction(shift + slope * i) / step) * step for i, p in enumerate(late)
    }


def natural_survey(rng: random.Random) -> Survey:
    """A survey of the natural mix: none, one or several slips, kinds by ``NATURAL``."""
    survey = clean_survey(rng)
    left = rng.expovariate(1.0)
    while left < NATURAL_SLIPS:
        for _ in range(10):
            if plant(rng, survey, rng.choices(KINDS, tuple(NATURAL.values()))[0]):
                break
        left += rng.expovariate(1.0)
    return survey
