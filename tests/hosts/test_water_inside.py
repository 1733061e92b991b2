"""The water's screens as the phone's worker asks for them: no network, addresses as its bar spells them."""

from __future__ import annotations

import json

import pytest

from tests.hosts.test_inside import JOB, NOW, Phone
from undertile.job import Pen, read_job
from undertile.job.plain import entries_of

HALL = "wood.points.baño 1/2.member"


def phone() -> Phone:
    log = entries_of(read_job("examples/wet-corner.toml"), Pen("e" * 32, "Kim", NOW))
    own = {**json.loads(log[0].to_line()), "id": "f-1", "fact": HALL, "value": "other", "device": "f"}
    out = Phone()
    lines = [entry.to_line() for entry in log]
    out.inside.replay(JOB, "\n".join([*lines, json.dumps(own, ensure_ascii=False, separators=(",", ":"))]))
    return out


@pytest.mark.parametrize(
    "path",
    [
        "water",
        "water/leak?type=fills",
        "water/gate?type=inspection",
        "water/rounds",
        "water/point?probe=1",
        "water/point?member=plate&wall=B&along=52",
        "water/point?name=baño 1%2F2",
        "water/point?name=ba%C3%B1o+1%2F2",
    ],
)
def test_a_screen_of_the_water_on_the_phone(path: str) -> None:
    answer = phone().ask("GET", f"/job/{JOB}/{path}", accept="text/html")
    assert answer["status"] == 200, answer["body"][:300]
    if "name=" in path:
        assert "baño 1/2" in bytes(answer["body"]).decode()


def test_a_test_is_typed_on_the_phone_and_handed_back_to_be_kept() -> None:
    at = phone()
    form = (
        "fact.1=wood.leak.pours.Ann+1.gallons&value.1=5&was.1=&stands.1=&fact.2=wood.leak.pours.Ann+1.by&value.2=Ann"
        "&was.2=&stands.2=&with.2=1"
    )
    answer = at.ask("POST", f"/job/{JOB}/entries", form.encode(), "application/x-www-form-urlencoded")
    made = [json.loads(line)["fact"] for line in answer["made"][JOB]]
    assert made == ["wood.leak.pours.Ann 1.gallons", "wood.leak.pours.Ann 1.by"]
