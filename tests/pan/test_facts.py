"""Pans that cannot be are refused in one line each."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from tests.pan.cast import inch
from undertile.pan.facts import Pan, PanFacts


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ({"width": inch(0)}, r"width\n.*more than 0, found 0 in"),
        ({"depth": inch(-1)}, r"depth\n.*more than 0, found -1 in"),
        ({"play_low": inch("1/4")}, "no window"),
        ({"play_low": inch("-1/16")}, "has no sign, found -1/16 in"),
        ({"play_high": inch("1/32")}, "no window"),
        ({"depth": inch(32), "outlet": {"x": inch(1), "y": inch(33)}}, "back flange face"),
        ({"width": inch(60), "outlet": {"x": inch(61), "y": inch(1)}}, "outlet x"),
        ({"outlet": {"x": inch(1), "y": inch(-1)}}, r"outlet.y\n.*0 or more"),
    ],
)
def test_a_pan_that_cannot_be_is_refused(table: dict[str, object], words: str):
    with pytest.raises(ValidationError, match=words):
        Pan.model_validate(table)


def test_all_that_is_wrong_is_said_in_one_run():
    with pytest.raises(ValidationError) as refused:
        Pan.model_validate({"width": inch(0), "depth": inch(0), "play_low": inch(-1)})
    text = str(refused.value)
    assert all(words in text for words in ("width", "depth", "play_low"))


def test_a_job_just_begun_is_no_error():
    assert PanFacts().pan.width is None


def test_an_unknown_key_is_an_error():
    with pytest.raises(ValidationError):
        PanFacts.model_validate({"tub": {}})
