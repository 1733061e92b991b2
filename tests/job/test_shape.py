"""The tree of what a job can hold, read off the stages' facts."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

import pytest
from pydantic import Field

from undertile.job import read_job
from undertile.job.model import HEAD, Job, job_shape
from undertile.job.shape import ByName, Leaf, Table, keys_of, table_of
from undertile.job.stages import STAGES
from undertile.lengths import LengthField
from undertile.survey.facts import Facts, Reading


class Spot(Facts):
    """A spot."""

    depth: LengthField = Field(description="how deep")


class Tiles(Facts):
    """Facts of a stage that does not exist yet."""

    kind: Literal["stone", "clay"] = "clay"
    count: int = Field(default=1, ge=1)
    price: Decimal | None = Field(default=None, gt=0)
    sealed: bool = False
    note: Annotated[str, Field(description="in words")] = ""
    rows: tuple[LengthField, ...] = ()
    spots: dict[str, Spot] = Field(default_factory=dict)
    faces: dict[str, Reading] = Field(default_factory=dict)
    walls: dict[Literal["L", "B"], Spot] = Field(default_factory=dict)
    spot: Spot | None = None


def test_every_kind_of_fact_is_recognised() -> None:
    spot = Table({"depth": Leaf("length", doc="how deep")}, ("depth",), "A spot.")
    reading = Leaf("reading", False, ("", "x"), "reading; blank = not measured, x = cannot reach")
    assert table_of(Tiles).fields == {
        "kind": Leaf("choice", False, ("stone", "clay")),
        "count": Leaf("whole", limits=(("minimum", 1),)),
        "price": Leaf("number", limits=(("exclusiveMinimum", 0),)),
        "sealed": Leaf("flag"),
        "note": Leaf("text", doc="in words"),
        "rows": Leaf("length", True),
        "spots": ByName(spot),
        "faces": ByName(reading, by_height=True),
        "walls": ByName(spot, ("L", "B")),
        "spot": spot,
    }


@pytest.mark.parametrize(
    "annotation", [float, list[str], tuple[Spot, ...], tuple[str, int], str | int, object]
)
def test_a_fact_that_no_file_can_hold_is_refused_when_it_is_asked_for(annotation: object) -> None:
    odd = type("Odd", (Facts,), {"__annotations__": {"size": annotation}})
    with pytest.raises(TypeError, match=r"Odd\.size"):
        list(keys_of(table_of(odd)))


def test_every_fact_of_the_job_fits_in_a_file() -> None:
    assert sum(isinstance(node, Leaf) for _, node in keys_of(job_shape())) > 200


def test_the_job_is_its_head_and_one_table_for_each_stage() -> None:
    assert tuple(Job.model_fields) == (*HEAD, *(stage.key for stage in STAGES))
    assert [stage.key for stage in STAGES] == [
        "survey",
        "safety",
        "wood",
        "floor",
        "framing",
        "pan",
        "recheck",
    ]
    assert "version" not in job_shape().fields


def test_keys_of_lists_every_key_once_with_names_and_heights_left_open() -> None:
    keys = [".".join(path) for path, _ in keys_of(job_shape())]
    assert len(keys) == len(set(keys))
    assert "survey.walls.*.studs.*.readings.height" in keys


def test_a_job_can_be_made_by_hand_with_every_stage() -> None:
    job = Job(unit="in")
    assert list(job.facts()) == [stage.key for stage in STAGES]
    assert job == read_job('version = 2\nunit = "in"\n')
