"""Facts that contradict each other or cannot be: said of a file before it is used, of a log while it folds.

Judged against the conventions of the record only (names, numbering, what a fact refers to); whether a
reading is likely is the survey's question.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from undertile.errors import LengthError
from undertile.framing.prices import DEFAULTS as PRICES
from undertile.framing.prices import MOST, usable
from undertile.job.address import Path
from undertile.job.near import nearest
from undertile.job.trouble import Trouble, shown
from undertile.lengths import Unit, parse_length
from undertile.sentence import Sentence, listed

MAX_SAID = 12
MAX_STRANGERS = 100
"""Past this many unknown studs no nearest name is looked up any more."""

_STUD = re.compile(r"([LBR])([1-9][0-9]{0,2})([a-z]?)")


def contradictions(plain: Mapping[str, Any], unit: Unit) -> list[Trouble]:
    """Everything that contradicts in a job's nested table.

    Parameters
    ----------
    plain : mapping
        Tables, texts, flags and numbers of known keys and kinds; heights as their wall spells them.
    unit : {"in", "mm"}
        Unit of a number without a mark.
    """
    room = _Room(plain, unit)
    return [
        *room.heights(),
        *room.numbering(),
        *room.strangers(),
        *room.upside_down(),
        *room.prices(),
    ]


class _Room:
    """The same table with what the checks look up in it."""

    def __init__(self, plain: Mapping[str, Any], unit: Unit) -> None:
        self.plain = plain
        self.unit = unit
        self.told = 0
        self.walls: Mapping[str, Any] = _at(plain, "survey", "walls")
        self.studs: dict[str, str] = {
            stud: wall for wall, facts in self.walls.items() for stud in facts.get("studs", {})
        }

    def exact(self, text: Any) -> Fraction | None:
        """A length's exact value, None when it is missing or unreadable (which is said elsewhere)."""
        try:
            return parse_length(text, self.unit, whole="inches").inches if isinstance(text, str) else None
        except LengthError:
            return None

    def heights(self) -> Iterator[Trouble]:
        again = _at(self.plain, "recheck", "walls")
        walls = [("survey", *each) for each in self.walls.items()]
        for stage, wall, facts in [*walls, *(("recheck", *each) for each in again.items())]:
            seen: dict[Fraction, str] = {}
            for text in facts.get("heights", ()):
                height = self.exact(text)
                if height is None:
                    continue
                path = (stage, "walls", wall, "heights")
                if height < 0:
                    yield Trouble(
                        path, Sentence("heights above the subfloor"), shown(text), Sentence("correct it")
                    )
                elif height in seen:
                    twice = Sentence("{first} and {then}", first=shown(text), then=shown(seen[height]))
                    yield Trouble(
                        path,
                        Sentence("each height once"),
                        twice,
                        Sentence("take one out, with its column of readings"),
                    )
                seen.setdefault(height, text)

    def numbering(self) -> Iterator[Trouble]:
        """Stud names and their order along the wall (convention 1.2)."""
        for wall, facts in self.walls.items():
            placed: list[tuple[tuple[int, str], str, Fraction, str]] = []
            for stud, its in facts.get("studs", {}).items():
                path = ("survey", "walls", wall, "studs", stud)
                name = _STUD.fullmatch(stud)
                if name is None or name[1] != wall:
                    yield _misnamed(path, stud, wall, name)
                    continue
                along = self.exact(its.get("along"))
                if along is not None and along < 0:
                    yield Trouble(
                        (*path, "along"),
                        Sentence("0 or more, from the wall's own corner (convention 1.2)"),
                        shown(its["along"]),
                        Sentence("measure it along the wall from that corner"),
                        "along-outside-wall",
                    )
                elif along is not None:
                    placed.append(((int(name[2]), name[3]), stud, along, its["along"]))
            yield from _order(wall, sorted(placed))

    def strangers(self) -> Iterator[Trouble]:
        """Facts about studs and heights that were never surveyed."""
        for kind in ("levels", "repeats"):
            for key, its in _at(self.plain, "survey", kind).items():
                group: Path = ("survey", kind, key)
                stud = its.get("stud")
                if isinstance(stud, str) and stud not in self.studs:
                    yield self.stranger((*group, "stud"), stud, group)
                elif kind == "repeats":
                    yield from self.repeat(group, its)
        for stud, its in _at(self.plain, "framing", "studs").items():
            group = ("framing", "studs", stud)
            if stud not in self.studs:
                yield self.stranger((*group, "hold") if "hold" in its else group, stud, group)
        yield from self.read_again()

    def read_again(self) -> Iterator[Trouble]:
        """The same of what was read again after the work."""
        again = _at(self.plain, "recheck")
        for wall, its in _at(again, "walls").items():
            for stud in its.get("studs", {}):
                path: Path = ("recheck", "walls", wall, "studs", stud)
                if stud not in self.studs:
                    yield self.stranger(path, stud, path)
                elif self.studs[stud] != wall:
                    do = Sentence("move it to recheck.walls.{wall}", wall=self.studs[stud])
                    yield Trouble(
                        path,
                        Sentence("a stud of wall {wall}", wall=wall),
                        shown(stud),
                        do,
                        "stud-misnamed",
                        (path,),
                    )
        for stud in _at(again, "done"):
            if stud not in self.studs:
                yield self.stranger(("recheck", "done", stud), stud, ("recheck", "done", stud))
        for key, its in _at(again, "straightedges").items():
            stud, group = its.get("stud"), ("recheck", "straightedges", key)
            if stud and stud not in self.studs:
                yield self.stranger((*group, "stud"), stud, group)

    def stranger(self, path: Path, stud: str, group: Path) -> Trouble:
        self.told += 1
        do = (
            Sentence("{instead}, or add it to its wall", instead=nearest(stud, self.studs))
            if self.studs and self.told <= MAX_STRANGERS
            else Sentence("add the stud to its wall")
        )
        return Trouble(path, Sentence("a stud of the survey"), shown(stud), do, "stud-unknown", (group,))

    def repeat(self, path: Path, its: Mapping[str, Any]) -> Iterator[Trouble]:
        stud, height = its.get("stud"), self.exact(its.get("height"))
        if stud not in self.studs or height is None:
            return
        heights = self.walls[self.studs[stud]].get("heights", ())
        if height not in {self.exact(text) for text in heights}:
            yield Trouble(
                (*path, "height"),
                Sentence(
                    "a height of wall {wall} ({listed})",
                    wall=self.studs[stud],
                    listed=", ".join(heights[:MAX_SAID]) or Sentence("none listed yet"),
                ),
                shown(its["height"]),
                Sentence("correct it, or add it to the wall's `heights`"),
                "height-not-listed",
                (path,),
            )

    def upside_down(self) -> Iterator[Trouble]:
        """Pairs of which the first must be the smaller."""
        pairs: list[tuple[Path, Mapping[str, Any], str, str]] = [
            (("survey", "levels", key), its, "low", "high")
            for key, its in _at(self.plain, "survey", "levels").items()
        ]
        pairs.append((("framing", "valve"), _at(self.plain, "framing", "valve"), "window_low", "window_high"))
        pairs += [
            (("framing", "studs", stud), its, "notch", "depth")
            for stud, its in _at(self.plain, "framing", "studs").items()
        ]
        for path, its, low, high in pairs:
            first, second = self.exact(its.get(low)), self.exact(its.get(high))
            if first is None or second is None or first < second:
                continue
            found = Sentence("{first} and {then}", first=shown(its[low]), then=shown(its[high]))
            yield Trouble(
                path,
                Sentence("`{low}` less than `{high}`", low=low, high=high),
                found,
                Sentence("correct one of them"),
                "facts-contradict",
            )

    def prices(self) -> Iterator[Trouble]:
        """Names and amounts of what work costs here."""
        for name, value in _at(self.plain, "framing", "prices").items():
            path = ("framing", "prices", name)
            if name not in PRICES:
                yield Trouble(
                    path, Sentence("a price of this job"), shown(name), nearest(name, PRICES), "key-unknown"
                )
            elif not usable(Decimal(value)):
                what = Sentence("dollars") if PRICES[name].dollars else Sentence("minutes")
                most = Sentence("{what} from 0 to {most}, four decimals at most", what=what, most=f"{MOST:,}")
                yield Trouble(
                    path,
                    most,
                    shown(value),
                    Sentence("write the {what} for: {work}", what=what, work=PRICES[name].what),
                )


def _at(table: Any, *path: str) -> Mapping[str, Any]:
    for key in path:
        table = table.get(key, {}) if isinstance(table, Mapping) else {}
    return table if isinstance(table, Mapping) else {}


def _misnamed(path: Path, stud: str, wall: str, name: re.Match[str] | None) -> Trouble:
    if name is not None:
        do = Sentence(
            "move it to wall {name}, or name it {wall}{number}{letter}",
            name=name[1],
            wall=wall,
            number=name[2],
            letter=name[3],
        )
    else:
        do = Sentence("name it {wall}1, {wall}2, ... from the corner on", wall=wall)
    return Trouble(
        path,
        Sentence("a stud of wall {wall}, like {wall}1", wall=wall),
        shown(stud),
        do,
        "stud-misnamed",
    )


def _order(wall: str, placed: Iterable[tuple[tuple[int, str], str, Fraction, str]]) -> Iterator[Trouble]:
    path = ("survey", "walls", wall, "studs")
    at: dict[Fraction, list[str]] = defaultdict(list)
    before: tuple[str, Fraction, str] | None = None
    for _, stud, along, text in placed:
        at[along].append(stud)
        if before is not None and along < before[1]:
            both = tuple((*path, name, "along") for name in (before[0], stud))
            yield Trouble(
                (*path, stud, "along"),
                Sentence(
                    "more than {stud}, at {along}: studs are numbered along the wall",
                    stud=before[0],
                    along=shown(before[2]),
                ),
                shown(text),
                Sentence("correct one of the two, or number them in order"),
                "along-not-rising",
                both,
            )
        before = (stud, along, text)
    for studs in at.values():
        if len(studs) > 1:
            all_of_them = tuple((*path, name, "along") for name in studs)
            yield Trouble(
                all_of_them[-1],
                Sentence("one stud at one place"),
                Sentence("{studs} at the same `along`", studs=listed(studs)),
                Sentence("correct all but one"),
                "studs-at-one-place",
                all_of_them,
            )
