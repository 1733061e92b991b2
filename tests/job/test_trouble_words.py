"""What the reader of lengths refuses is said in the person's language, with the text as it was typed."""

from __future__ import annotations

import pytest

from tests.screens.cast import site, typed
from undertile.errors import LengthError
from undertile.job.trouble import Trouble, refused
from undertile.lengths import parse_length
from undertile.packet.told import foreign, told
from undertile.packet.words import Words
from undertile.sentence import Sentence

ES = Words("es")
ODD = (
    *("3,5", "1,203 mm", "3..5", "abc", "3 m", "3 5", "6-0", "3-7", "4' 13\"", "1/3", "5/4", "1/0"),
    *("3 strong", "-3/8 strong", "1/64 shy", "0/1 shy", "3.5", "3.5'", "3 1/2 mm", "1 in 2 mm", "1/2'"),
    *("--3", "3 - 1/2", "strong 3", "1 2 3", "/3", "\u0663", "a" * 90, "12", "in"),
)


@pytest.mark.parametrize("text", ODD)
@pytest.mark.parametrize("unit", ["in", "mm", None])
def test_no_refusal_stays_english(text: str, unit: str | None) -> None:
    """independent: the two languages' sentences; numbers and what was typed are in both."""
    error = refusal(text, unit)
    if error is None:
        return
    found, do = refused(error)
    finding = Trouble(("pan", "drain", "x"), "a length", found, do).finding()
    for said in (finding.found, finding.next_step):
        assert isinstance(said, Sentence), said
        assert not foreign(said, ES), said
        assert told(said, ES) != said
    assert str(error).endswith(f"; {do}")


def refusal(text: str, unit: str | None) -> LengthError | None:
    try:
        parse_length(text, unit)  # type: ignore[arg-type]
    except LengthError as error:
        return error
    return None


def test_they_refuse_what_they_should() -> None:
    """So that the test above is not empty: each text is refused in one unit at least."""
    for text in ODD:
        assert any(refusal(text, unit) for unit in ("in", "mm", None)), text


def test_a_finding_says_it_in_spanish_on_the_screen() -> None:
    at = site()
    job = typed(at, (("unit", "in"), ("pan.drain.y", "16"), ("survey.walls.B.nominal", "6,5")))
    page = at.page(f"/job/{job}/doubts", lang="es")
    assert "tiene una coma" in page
    assert "which marks thousands" not in page
