"""Another unit for a job in which things are typed: every bare number keeps what it says.

A number without a mark is in the job's unit, so a job that goes over to mm would read its ``31`` as 31 mm and
its ``5-15/16`` not at all. What stands is written again with its mark before the unit changes.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator, Mapping
from fractions import Fraction
from typing import get_args

from undertile.errors import InputError, LengthError
from undertile.framing.say import bare_place
from undertile.job.address import Path, join
from undertile.job.shape import Leaf
from undertile.job.standing import Fact
from undertile.length_text import Whole
from undertile.lengths import Unit, format_length, parse_length
from undertile.recheck.did import did_in

_WORD = re.compile(r"[^\s,]+")
UNIT: Path = ("unit",)


class UnsettledError(InputError):
    """Several values of a fact stand, typed without their unit: a person settles them first."""


_LAST_DIGIT = re.compile(r"([0-9\u00bc-\u00be\u2150-\u215e])([^0-9\u00bc-\u00be\u2150-\u215e]*)\Z")


def rewritten(
    facts: Mapping[Path, Fact], unit: Unit, left_out: Collection[str]
) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """What must be typed again so that a job in another unit says what it says now.

    Parameters
    ----------
    facts : mapping of path to Fact
        Of the log as it stands.
    unit : {"in", "mm"}
        The unit to come.
    left_out : collection of str
        Addresses that cannot be used as they are typed: of two meanings none is taken for them.

    Yields
    ------
    address : str
    text : str
    stands : tuple of str
        Ids of what it takes the place of.

    Raises
    ------
    UnsettledError
        With its address, if several values of one fact wait for a person and would be read anew.
    """
    now = _unit_of(facts)
    if now is None or now == unit:
        return
    for path, fact in facts.items():
        address = join(path)
        sure = address not in left_out
        for entry in fact.standing:
            if entry.value is None:
                continue
            text = _said(path, fact.leaf, entry.value, now, unit, sure)
            if text == entry.value:
                continue
            if len(fact.standing) > 1:
                raise UnsettledError(address)
            yield address, text, (entry.id,)


def _unit_of(facts: Mapping[Path, Fact]) -> Unit | None:
    fact = facts.get(UNIT)
    if fact is None or len(fact.standing) != 1 or fact.standing[0].value not in get_args(Unit):
        return None
    return fact.standing[0].value  # type: ignore[return-value]


def _said(path: Path, leaf: Leaf, text: str, now: Unit, then: Unit, sure: bool) -> str:
    """The same, so that it means the same in the other unit."""
    if path[:2] == ("recheck", "done") and path[-1] == "did":
        return did_in(text, now, then)
    if path[:2] == ("recheck", "straightedges") and path[-1] == "at":
        return _WORD.sub(lambda found: _placed(found[0], now, then), text)
    if leaf.kind not in ("length", "reading"):
        return text
    sure = sure or leaf.kind == "reading"
    if not leaf.many:
        return _marked(text, now, then, sure)
    try:
        parts = json.loads(text)
    except ValueError:
        return text
    if not isinstance(parts, list) or not all(isinstance(part, str) for part in parts):
        return text
    return json.dumps([_marked(part, now, then, sure) for part in parts], ensure_ascii=False)


def _placed(word: str, now: Unit, then: Unit) -> str:
    """A height among words, ``L2 at 26``, as places are called in the other unit; any other word as it is."""
    size = _size(word, now, None) if word[:1].isdigit() else None
    return word if size is None else bare_place(size, then)


def _marked(text: str, now: Unit, then: Unit, sure: bool) -> str:
    """A length with its mark; as it is where it is none, or says the same in the other unit.

    ``6-0`` is 6 inches where a reading is asked for and refused elsewhere: what is in use is such a reading.
    """
    size = _size(text, now, None)
    if size is None and sure:
        size = _size(text, now, "inches")
    if size is None:
        return text
    mark = '"' if now == "in" else " mm"
    for each in (text, _LAST_DIGIT.sub(rf"\1{mark}\2", text.strip())):
        if _size(each, then, None) == size:
            return each
    return format_length(size, now, mark=True)  # 6-0 is no length with a mark behind it


def _size(text: str, unit: Unit, whole: Whole | None) -> Fraction | None:
    try:
        return parse_length(text, unit, whole=whole).inches
    except LengthError:
        return None
