"""Sizes that look nominal (a 4, or what the carton says) where the actual one is asked: never changed, asked.

A nominal size is never used as an actual one, and nothing in a number says which it is. So a bare ``4`` is
asked about; ``4-0`` says that the rule showed 4 in and no sixteenths, and is believed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from undertile.findings import Finding, Severity
from undertile.job.address import Path, join
from undertile.job.trouble import shown
from undertile.lengths import MM, Length
from undertile.sentence import Sentence

DRESSED = {
    Fraction(2): "1-1/2",
    Fraction(3): "2-1/2",
    Fraction(4): "3-1/2",
    Fraction(6): "5-1/2",
    Fraction(8): "7-1/4",
    Fraction(10): "9-1/4",
    Fraction(12): "11-1/4",
}
"""Dressed dry lumber by its nominal width (PS 20). [in]"""
METRIC = {50 * MM: "38", 75 * MM: "64", 100 * MM: "89", 150 * MM: "140"}
"""The same pieces by the names they have in millimetres. [mm]"""
PANEL = {
    Fraction(1, 4): "7/32",
    Fraction(3, 8): "11/32",
    Fraction(1, 2): "15/32",
    Fraction(5, 8): "19/32",
    Fraction(3, 4): "23/32",
}
"""Plywood by the name it is sold under, and what a rule usually shows (common practice). [in]"""
_STUD, _IT = Sentence("a stud"), Sentence("it")
_SIDES = {"width": Sentence("width"), "depth": Sentence("depth")}
_PLY = re.compile(r"\b(ply|plywood|sheathing)\b", re.IGNORECASE)
_MEASURED = re.compile(r"\d-0\b")


def nominal_sizes(facts: dict[str, Any]) -> Iterator[Finding]:
    """Ask about every size that may be nominal.

    Parameters
    ----------
    facts : mapping of stage key to its facts
    """
    framing, pan = facts["framing"], facts["pan"].pan
    for group in ("walls", "studs"):
        for name, its in getattr(framing, group).items():
            path: Path = ("framing", group, name, "depth")
            where = f"wall {name}, depth of its studs" if group == "walls" else f"{name}, depth"
            yield from _stud(where, path, its.depth)
    yield from joists_by_name(facts["floor"])
    for name, item in framing.stock.items():
        if item.wood and item.thickness.inches in PANEL and _PLY.search(name) and _bare(item.thickness):
            actual = PANEL[item.thickness.inches]
            yield _ask(
                f"stock {name}",
                ("framing", "stock", name, "thickness"),
                Severity.NOTE,
                Sentence(
                    "actual thickness; plywood sold as {text} is often {actual}",
                    text=item.thickness.text,
                    actual=actual,
                ),
                item.thickness,
                Sentence("Measure a strip of {name} and write what it is.", name=name),
            )
    for side in ("width", "depth"):
        size, carton = getattr(pan, side), getattr(pan, f"carton_{side}")
        if size is not None and carton is not None and size.inches == carton.inches and _bare(size):
            yield _ask(
                f"pan, {side}",
                ("pan", "pan", side),
                Severity.ACT,
                Sentence("actual {side} over the outside faces of the flanges", side=_SIDES[side]),
                size,
                Sentence("The carton says the same. Measure the pan; {then}", then=_so(size)),
            )


def joists_by_name(floor: Any) -> Iterator[Finding]:
    """A 2 by 10 among the joists, and a sister's: what is judged with it passes too easily.

    Parameters
    ----------
    floor : FloorFacts
    """
    rows: list[tuple[str, Path, Any]] = [("all joists", ("floor", "all_joists"), floor.all_joists)]
    for name, joist in floor.joists.items():
        rows.append((f"joist {name}", ("floor", "joists", name), joist))
        if joist.sister is not None:
            rows.append((f"sister of joist {name}", ("floor", "joists", name, "sister"), joist.sister))
    if floor.sister_stock is not None:
        rows.append(("sister stock", ("floor", "sister_stock"), floor.sister_stock))
    for where, path, its in rows:
        for side in ("width", "depth"):
            for found in _stud(f"{where}, {side}", (*path, side), getattr(its, side), _IT, side):
                yield _joist_said(found, getattr(its, side))


def _joist_said(asked: Finding, typed: Length) -> Finding:
    """What is typed and what to do, as a screen of the floor says it in either language."""
    name = typed.text
    if typed.unit == "mm":
        return replace(asked, found=Sentence("{name} is typed, the name of a size", name=name))
    step = Sentence(
        "A caliper usually shows {actual}. Measure it; if it really is {name}, write {name}-0.",
        actual=DRESSED[typed.inches],
        name=str(typed.inches),
    )
    return replace(asked, found=Sentence("{name} is typed, the name of a size", name=name), next_step=step)


def _stud(
    where: str, path: Path, depth: Length | None, on: str = _STUD, side: str = "depth"
) -> Iterator[Finding]:
    if depth is None or not _bare(depth):
        return
    if depth.inches in DRESSED and depth.unit == "in":
        actual = Sentence(
            "actual {side}; a dressed piece sold as {text} is {dressed}",
            side=_SIDES[side],
            text=depth.text,
            dressed=DRESSED[depth.inches],
        )
        yield _ask(
            where,
            path,
            Severity.ACT,
            actual,
            depth,
            Sentence("Put a rule on {on}; {then}", on=on, then=_so(depth)),
            "ps20",
        )
    elif depth.inches in METRIC and depth.unit == "mm":
        actual = Sentence(
            "actual {side}; a piece called {text} is often {metric} mm",
            side=_SIDES[side],
            text=depth.text,
            metric=METRIC[depth.inches],
        )
        do = Sentence("Put a rule on {on} and write what it shows.", on=on)
        yield _ask(where, path, Severity.NOTE, actual, depth, do, "ps20")


def _bare(length: Length) -> bool:
    return not _MEASURED.search(length.text)


def _so(length: Length) -> str:
    if length.unit == "in" and length.inches.denominator == 1:
        return Sentence("if it really is, write {inches}-0.", inches=length.inches)
    return Sentence("if it really is, nothing is to be done.")


def _ask(
    where: str,
    path: Path,
    severity: Severity,
    expected: str,
    typed: Length,
    do: str,
    source: str = "convention-3",
) -> Finding:
    return Finding(
        "size-looks-nominal",
        severity,
        where,
        expected,
        shown(typed.text),
        do,
        source,
        {"fact": join(path)},
    )
