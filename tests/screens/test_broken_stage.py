"""No one stage's fault takes down what mends it: record, jobs, taking back, the screens that take in facts.

independent: the fault is put in from outside; what must stand is the requirement itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.screens.cast import Site, bring, site

FAULTS = {
    "wood": "undertile.wood.run.water",
    "floor": "undertile.floor.run.floor",
    "what goes out with the patch": "undertile.floor.goesout.amended",
    "survey": "undertile.survey.judge",
    "framing": "undertile.screens.slices.dries_of",
}
PART = {
    "what goes out with the patch": "Floor",
    "wood": "Water",
    "floor": "Floor",
    "survey": "Read the walls",
    "framing": "What to do",
}
MEND = ("", "/history", "/room", "/pan", "/water/round", "/water/round/3", "/water/rounds", "/photos")
POINT = {"name": "plate-L-6"}
SAID = "something broke. Take back what was typed last, or correct it in the record"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def breaks(*_given: Any, **_named: Any) -> Any:
    raise ZeroDivisionError("float division by zero")


@pytest.mark.parametrize("stage", FAULTS)
def test_the_screens_that_mend_stand_and_say_which_part_broke(
    at: Site, monkeypatch: pytest.MonkeyPatch, stage: str
) -> None:
    job = bring(at, "wet-corner")
    monkeypatch.setattr(FAULTS[stage], breaks)
    for path in MEND:
        assert at.page(f"/job/{job}{path}")
    assert at.page("/")
    for path in ("", "/history"):
        told = at.twin(f"/job/{job}{path}", lang="en")["next"]
        assert told["text"] == f"{PART[stage]}: {SAID}"
        assert told["href"] == f"/job/{job}/history"
        spanish = at.twin(f"/job/{job}{path}", lang="es")["next"]
        assert "algo falló" in spanish["text"]
    fact = at.twin(f"/job/{job}/history", fact="wood.points.plate-L-6.shown.3")
    assert fact["row"]["value"] == at.value(job, "wood.points.plate-L-6.shown.3")
    assert at.twin(f"/job/{job}/water/point", **POINT)["point"]["visits"]


@pytest.mark.parametrize("stage", FAULTS)
def test_what_broke_it_is_taken_back_and_all_stands_again(
    at: Site, monkeypatch: pytest.MonkeyPatch, stage: str
) -> None:
    job = bring(at, "wet-corner")
    fact = "wood.points.plate-L-6.shown.3"
    before = at.value(job, fact)
    stands = at.twin(f"/job/{job}/history", fact=fact)["stands"].split()
    with monkeypatch.context() as fault:
        fault.setattr(FAULTS[stage], breaks)
        told = at.send(job, {"fact": fact, "value": "450", "supersedes": stands})
        assert len(told["new"]) == 1
        assert at.value(job, fact) == "450"
        answer = at.client.post(f"/job/{job}/undo", headers={"accept": "application/json"})
        assert answer.status_code == 200
        assert answer.json()["undone"] == 1
        assert at.value(job, fact) == before
    at.answers._kept.clear()  # the fault is gone, not the log it was met on
    assert "broke" not in at.page(f"/job/{job}")


def test_a_readings_history_may_break_too_and_its_place_still_takes_readings(
    at: Site, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = bring(at, "wet-corner")
    monkeypatch.setattr("undertile.wood.run.history", breaks)
    monkeypatch.setattr("undertile.wood.history.history", breaks)
    told = at.twin(f"/job/{job}/water/point", **POINT)
    assert told["next"]["href"] == f"/job/{job}/history"
    assert told["point"]["parts"]
    assert at.client.get(f"/job/{job}/water").status_code == 503
    assert f'href="/job/{job}/history"' in at.client.get(f"/job/{job}/water").text
    assert "something broke" in at.client.get(f"/job/{job}/water").text


def test_a_fault_is_logged_with_where_it_was(
    at: Site, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    job = bring(at, "wet-corner")
    monkeypatch.setattr(FAULTS["wood"], breaks)
    at.page(f"/job/{job}")
    (found,) = [each for each in caplog.records if each.message == "stage wood broke"][:1]
    assert found.exc_info is not None
    assert found.exc_info[0] is ZeroDivisionError
