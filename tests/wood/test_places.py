"""One place has one name: the pad's, by the walls it is measured from, on every face."""

from __future__ import annotations

from pathlib import Path

import pytest

from undertile.drawing.dryingdata import place
from undertile.drawing.labels import words as drawn
from undertile.job import plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.places import place_words
from undertile.packet.words import Language, Words
from undertile.wood.result import WoodResult

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"


def water(text: str) -> WoodResult:
    job = read_job(text.encode())
    found: WoodResult = plan(job, [each for each in STAGES if each.key == "wood"]).results["wood"]
    return found


@pytest.mark.parametrize(
    ("language", "layered", "said"),
    [
        ("en", False, "subfloor L 6, B 18"),
        ("es", False, "subpiso L 6, B 18"),
        ("en", True, "subfloor, layer 1 L 6, B 18"),
        ("es", True, "subpiso, capa 1 L 6, B 18"),
    ],
)
def test_table_record_and_chart_name_a_place_as_the_pad_does(
    language: Language, layered: bool, said: str
) -> None:
    """independent: the words are the pad's own; the layer is told only where two are read."""
    text = EXAMPLE.read_text("utf-8")
    if layered:
        here = 'x = "30"\ny = "6"'
        assert here in text
        text = text.replace(here, f"layer = 2\n{here}")
    found = water(text)
    (series,) = [each for each in found.series if each.name == "floor-6-18"]
    point = found.point("floor-6-18")
    assert point is not None
    assert place_words(point.where, Words(language)) == said
    assert place(series.name, series.facts, drawn(language), layered=series.layered) == said


def test_a_place_to_read_next_has_the_same_form() -> None:
    told = [each for each in water(EXAMPLE.read_text("utf-8")).cut_words if "subfloor" in each]
    assert told
    assert not [each for each in told if "layer" in each or "subfloor at" in each]
    assert any("subfloor L " in each and ", B " in each for each in told)


NEW = """
[wood.points.{name}-new]
{where}
material = "lumber"
species = "Douglas-fir"
new = "2026-03-06"
"""


@pytest.mark.parametrize(
    ("old", "where", "english", "spanish"),
    [
        (
            "plate-B-4",
            'member = "plate"\nwall = "B"\nalong = "4"',
            "plate B at 4, new",
            "solera B a 4, madera nueva",
        ),
        (
            "B1-2",
            'member = "stud"\nname = "B1"\nwall = "B"\nheight = "2"',
            "B1 at 2, new",
            "B1 a 2, madera nueva",
        ),
    ],
)
def test_new_wood_is_told_apart_from_what_stood_there(
    old: str, where: str, english: str, spanish: str
) -> None:
    """independent: two places of one name, put in one after the other; each face says which is which."""
    found = water(EXAMPLE.read_text("utf-8") + NEW.format(name=old, where=where))
    names = {each.name: each.where for each in found.series}
    assert names[f"{old}-new"] == english
    assert names[old] == english.removesuffix(", new")
    assert len(set(names.values())) == len(names), "no two places of one name"
    new = next(each for each in found.series if each.name == f"{old}-new")
    for language, said in (("en", english), ("es", spanish)):
        papers = Words(language)  # type: ignore[arg-type]
        wall = papers.wall("B")
        assert place_words(new.where, papers).replace(wall, "B") in (said, said.replace("B", wall))
        chart = place(new.name, new.facts, drawn(language))  # type: ignore[arg-type]
        assert chart == said
