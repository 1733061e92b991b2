"""What floor and water leave open, a line each: the same on the plan's page, its screen and the papers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from undertile.findings import Finding, Severity
from undertile.floor.carrying import failing
from undertile.floor.result import FloorResult
from undertile.job import Rebuild
from undertile.packet.cover import cover_line, may_cover
from undertile.packet.floor import fail_lines
from undertile.packet.places import place_words
from undertile.packet.told import titled
from undertile.packet.words import Words
from undertile.sentence import with_first
from undertile.wood.result import WoodResult


@dataclass(frozen=True)
class OpenPart:
    """A part of the job that is not settled.

    Attributes
    ----------
    part : {"floor", "water"}
        Also the command and the screen where it stands.
    text : str
        One line.
    settle_first : bool
        True: a check fails or work stops, to be settled before the first cut. False: nothing may be covered.
    fails : tuple of str
        Each check that fails, with what to do.
    """

    part: Literal["floor", "water"]
    text: str
    settle_first: bool
    fails: tuple[str, ...] = ()


def open_parts(rebuild: Rebuild, words: Words) -> tuple[OpenPart, ...]:
    """What floor and water leave open.

    Parameters
    ----------
    rebuild : Rebuild
        With the answers of ``wood`` and ``floor`` among its results.
    words : Words

    Returns
    -------
    tuple of OpenPart
        Empty where nothing fails, nothing stops and what was wet may be covered.
    """
    return (*_floor(rebuild, words), *_water(rebuild, words))


def _floor(rebuild: Rebuild, words: Words) -> Iterator[OpenPart]:
    found: FloorResult | None = rebuild.results.get("floor")
    if found is None:
        return
    fails = failing(found.checks, [each.joist for each in found.joists])
    told = []
    if stops := _stops(rebuild, found.findings, words):
        told.append(words("open-floor-stops", where=words.listed(stops)))
    if fails:
        titles = dict.fromkeys(with_first(titled(check, words), "lower") for check in fails)
        told.append(words("open-floor-fails", what=", ".join(titles)))
    if told:
        yield OpenPart("floor", " ".join(told), True, tuple(dict.fromkeys(fail_lines(found, words))))


def _water(rebuild: Rebuild, words: Words) -> Iterator[OpenPart]:
    found: WoodResult | None = rebuild.results.get("wood")
    if found is None:
        return
    told = []
    if stops := _stops(rebuild, found.findings, words):
        told.append(words("open-water-stops", where=words.listed(stops)))
    if not may_cover(found):
        told.append(words("open-water", cover=cover_line(found, words)))
    if told:
        yield OpenPart("water", " ".join(told), bool(stops))


def _stops(rebuild: Rebuild, findings: Iterable[Finding], words: Words) -> tuple[str, ...]:
    """Where work stops, what a person lifted left out."""
    stand = (each for each in rebuild.lifted(findings) if each.severity is Severity.STOP)
    return tuple(dict.fromkeys(place_words(each.where, words) for each in stand))
