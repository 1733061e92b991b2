"""Addresses of facts: one spelling for one fact."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.errors import InputError
from undertile.job.address import canonical, join, say, split
from undertile.job.model import job_shape

PARTS = st.lists(st.text(st.characters(codec="utf-8"), max_size=4), min_size=1, max_size=5)


@given(PARTS)
def test_any_keys_read_back_from_their_address(parts: list[str]) -> None:
    assert split(join(parts)) == tuple(parts)


@pytest.mark.parametrize("height", ["48", '48"', "4' 0\"", "4'", "1219.2 mm", "121.92 cm"])
def test_one_height_is_one_fact_however_it_is_typed(height: str) -> None:
    # independent: 4 ft = 48 in; 48 x 25.4 = 1219.2 mm by hand
    path, leaf = canonical(("survey", "walls", "B", "studs", "B2", "readings", height), job_shape())
    assert join(path) == "survey.walls.B.studs.B2.readings.48"
    assert leaf.kind == "reading"


def test_an_address_typed_with_feet_and_inches_needs_no_quotes() -> None:
    assert split("survey.walls.B.studs.B2.readings.4' 0\"")[-1] == "4' 0\""


def test_a_bare_height_is_inches_in_an_address_whatever_the_job_says() -> None:
    wall = ("survey", "walls", "B", "studs", "B2", "readings")
    assert canonical((*wall, "1203 mm"), job_shape())[0][-1] == "1203 mm"
    assert canonical((*wall, "1203"), job_shape(), "mm")[0][-1] == "1203 mm"


def test_a_dot_in_a_name_stands_in_quotes() -> None:
    address = join(("framing", "stock", "0.205 ply", "thickness"))
    assert address == 'framing.stock."0.205 ply".thickness'
    assert split(address) == ("framing", "stock", "0.205 ply", "thickness")


@pytest.mark.parametrize(
    ("address", "says"),
    [
        ("survey.walls.B.stds.B1.along", "write studs"),
        ("survey.walls.X.nominal", "write one of L, B, R"),
        ("survey.walls.B", "is a table"),
        ("name.first", "goes past name"),
        ("survey.walls.B.studs.B1.readings.knee", "the height"),
        ("", "is no address"),
        ("a..b", "is no address"),
        ('a."b"c', "expected a dot"),
        ('a."b\\x"', "quoted part"),
        ("a" * 301, "301 characters"),
    ],
)
def test_what_is_no_fact_is_refused_in_one_line_with_what_to_write(address: str, says: str) -> None:
    with pytest.raises(InputError, match=says) as refused:
        canonical(split(address), job_shape())
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("path", "words"),
    [
        (("survey", "walls", "B", "studs", "B2", "readings", "48"), "B2 at 48"),
        (("survey", "walls", "B", "studs", "B2", "along"), "B2, along"),
        (("survey", "walls", "B", "top"), "wall B, top"),
        (("framing", "studs", "B2", "hold"), "B2, hold"),
        (("wood", "points", "corner", "shown", "2"), "corner, visit 2"),
        (("wood", "points", "corner", "awl", "2"), "corner, awl, 2"),
        (("wood", "visits", "2", "when"), "visit 2, when"),
        (("wood", "leak", "pours", "q"), "leak, pours, q"),
        (("floor", "joists", "J3", "depth"), "joist J3, depth"),
        (("floor", "level", "spots", "b2", "reading"), "floor at b2"),
        (("floor", "patch", "lower", "thickness"), "patch, lower, thickness"),
        (("pan", "pan", "width"), "pan, width"),
        (("pan", "drain", "x"), "pan, drain, x"),
        ((), "job"),
    ],
)
def test_a_place_is_said_in_the_words_of_the_room(path: tuple[str, ...], words: str) -> None:
    assert say(path) == words
