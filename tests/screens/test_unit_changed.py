"""A job goes over to another unit: everything typed goes on meaning what it meant."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from pydantic import BaseModel

from tests.screens.cast import NOW, Site, site, typed
from undertile.bundled import ORDER
from undertile.framing.plan import FramingPlan
from undertile.job import Job, fold, plan
from undertile.job.entry import Entry
from undertile.lengths import Length, Unit, parse_length
from undertile.recheck.result import RecheckResult
from undertile.screens.answers import Answers
from undertile.screens.older import older_laid


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def meant(value: Any, unit: Unit, by_height: bool = False) -> Any:
    """Facts with every length, and every height that is a name, as its size however it is written."""
    if isinstance(value, Length):
        return value.inches
    if isinstance(value, BaseModel):
        return {
            key: meant(getattr(value, key), unit, key in ("readings", "arris"))
            for key in type(value).model_fields
        }
    if isinstance(value, Mapping):
        return {
            parse_length(key, unit).inches if by_height else key: meant(each, unit)
            for key, each in value.items()
        }
    if isinstance(value, tuple | list):
        return [meant(each, unit) for each in value]
    return value


def of(at: Site, job: str) -> Job:
    found = fold(at.store.log(job))
    assert not found.left_out
    return found.job


def facts_of(job: Job) -> dict[str, Any]:
    facts: dict[str, Any] = {key: meant(each, job.unit) for key, each in job.facts().items()}
    for done in facts["recheck"]["done"].values():
        done["did"] = ""  # rational numbers of the job's unit: a test of its own below
    for laid in facts["recheck"]["straightedges"].values():
        laid["at"] = re.sub("660.4|1270|1879.6", lambda mm: str(int(float(mm[0]) / 25.4)), laid["at"])
    return facts


def change(at: Site, job: str, unit: str) -> str:
    answer = at.client.post(
        f"/job/{job}/entries", data={"fact": "unit", "value": unit}, follow_redirects=False
    )
    assert answer.status_code == 303, answer.text
    return answer.headers["location"]


def bundled(at: Site, name: str) -> str:
    answer = at.client.post("/", data={"bundled": name}, follow_redirects=False)
    return answer.headers["location"].split("/")[2].partition("?")[0]


@pytest.mark.parametrize("name", ORDER)
def test_every_length_of_a_bundled_job_stays_as_long_there_and_back(at: Site, name: str) -> None:
    """independent: the same facts read before and after, each length compared as an exact size."""
    job = bundled(at, name)
    before = of(at, job)
    other = "mm" if before.unit == "in" else "in"
    for unit in (other, before.unit):
        assert "kept=1" in change(at, job, unit)  # what was written anew is no news to the person
        assert of(at, job).unit == unit
        assert facts_of(of(at, job)) == facts_of(before)


def test_one_undo_takes_back_the_unit_and_nothing_else_changes(at: Site) -> None:
    job = bundled(at, "old-alcove")
    before = of(at, job)
    change(at, job, "mm")
    at.client.post(f"/job/{job}/undo", data={"count": "1"})
    assert of(at, job).unit == "in"
    assert facts_of(of(at, job)) == facts_of(before)


def test_the_plan_and_what_was_ticked_hold_in_the_other_unit(at: Site) -> None:
    """independent: the job as it stood, planned; a tick holds only if it says what the plan asks."""
    job = bundled(at, "hand")
    first = plan(of(at, job)).results["framing"]
    assert isinstance(first, FramingPlan)
    from undertile.recheck.did import asks_of

    ticked = [
        {"fact": f"recheck.done.{stud}.did", "value": did} for stud, did in asks_of(first, "in").items()
    ]
    assert at.client.post(f"/job/{job}/entries", json={"drafts": ticked}).status_code == 200
    change(at, job, "mm")
    then = plan(of(at, job)).results["framing"]
    assert isinstance(then, FramingPlan)
    assert (then.cost, then.planes) == (first.cost, first.planes)
    asked = asks_of(then, "mm")
    assert {stud: each.did for stud, each in of(at, job).facts()["recheck"].done.items()} == asked  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("text", "unit", "then"),
    [
        ("31", "in", '31"'),
        ("5-15/16", "in", '5-15/16"'),
        ("6-0", "in", '6"'),
        ("6-1/8+", "in", '6-1/8"+'),
        ("5 7/8 strong", "in", '5 7/8" strong'),
        ('72-1/4"', "in", '72-1/4"'),
        ("1/2", "in", '1/2"'),
        ("1203 mm", "in", "1203 mm"),
        ("x", "in", "x"),
        ("150", "mm", "150 mm"),
        ("150.5", "mm", "150.5 mm"),
        ("0", "in", "0"),
    ],
)
def test_a_reading_is_written_with_its_mark(at: Site, text: str, unit: str, then: str) -> None:
    """By hand; and independent: what is written reads in the other unit as what was typed did in its own."""
    fact = "survey.walls.B.studs.B2.readings.48"
    job = typed(at, [("unit", unit), ("survey.walls.B.heights", '["48 in"]'), (fact, text)])
    other = "mm" if unit == "in" else "in"
    change(at, job, other)
    assert at.value(job, fact) == then
    if text != "x":
        assert parse_length(then, other).inches == parse_length(text, unit, whole="inches").inches  # type: ignore[arg-type]


@pytest.mark.parametrize("name", ["wet-corner", "old-alcove"])
def test_nothing_counts_as_read_on_the_day_the_unit_was_changed(at: Site, name: str) -> None:
    """independent: the job as it stood: the days its studs were read, and whether its straightedges count."""
    job = bundled(at, name)
    log = at.store.log(job)
    read = [each for each in log if each.fact.startswith("survey.walls.L.studs.L1.readings")]
    reading = read[0].fact
    laid = "recheck.straightedges.L up 24 in."
    later = [("wall", "L"), ("way", "up"), ("length", "24 in"), ("gap", "0")]
    at.host.now = lambda: "2026-03-05T10:00:00Z"
    at.send(job, *({"fact": each.fact, "value": "5-15/16", "supersedes": [each.id]} for each in read))
    at.host.now = lambda: "2026-03-06T10:00:00Z"
    at.send(job, *({"fact": laid + key, "value": value} for key, value in later))
    before = fold(at.store.log(job)).job
    at.host.now = lambda: "2026-04-07T10:00:00Z"
    change(at, job, "mm")
    after = fold(at.store.log(job)).job
    days = [{stud: its.read_on for stud, its in each.framing.studs.items()} for each in (before, after)]
    assert days[0] == days[1]
    assert (days[0].get("L1") == "2026-03-05") == (name == "wet-corner"), "told of studs that were wet"
    assert not older_laid(Answers().of("", lambda: at.store.log(job)))
    at.host.now = lambda: "2026-04-08T10:00:00Z"
    at.send(job, {"fact": reading, "value": '6"', "supersedes": list(ids(at, job, reading))})
    assert older_laid(Answers().of("", lambda: at.store.log(job))) == {"L up 24 in"}, (
        "what is read after it makes it old"
    )


def ids(at: Site, job: str, fact: str) -> tuple[str, ...]:
    log = [entry for entry in at.store.log(job) if entry.fact == fact]
    gone = {each for entry in log for each in entry.supersedes}
    return tuple(entry.id for entry in log if entry.id not in gone)


def test_the_history_shows_who_typed_it_and_brings_back_nothing_of_the_other_unit(at: Site) -> None:
    job = bundled(at, "hand")
    fact = "survey.walls.B.studs.B2.readings.48"
    at.send(job, {"fact": fact, "value": "6", "supersedes": list(ids(at, job, fact))})
    change(at, job, "mm")
    told = at.twin(f"/job/{job}/history")["entries"]
    assert [each["fact"] for each in told[:2]] == ["unit", fact]
    assert told[1]["stands"]
    own = at.twin(f"/job/{job}/history", fact=fact)["entries"]
    assert [each["as_typed"] for each in own][-2:] == ["6", '6"']
    assert not any(each["again"] for each in own[:-1])
    assert "its unit written to it" in at.page(f"/job/{job}/history", fact=fact)
    assert "su unidad escrita" in at.page(f"/job/{job}/history", fact=fact, lang="es")
    for _ in range(3):
        at.client.post(f"/job/{job}/undo", data={"count": "1"})
    assert at.value(job, "unit") == "in"
    assert at.value(job, fact) == '6"', "no value of before comes back under another unit"


def test_what_the_straightedges_showed_holds_in_the_other_unit(at: Site) -> None:
    """independent: every verdict of the job read again, as it was before; a place is words, "L2 at 26"."""
    job = bundled(at, "read-again")
    verdicts = []
    for unit in ("in", "mm"):
        if unit == "mm":
            change(at, job, unit)
        again = plan(of(at, job)).results["recheck"]
        assert isinstance(again, RecheckResult)
        checks = [check for wall in again.walls for check in wall.checks]
        checks += [check for wall in again.walls for stud in wall.studs for check in stud.checks]
        verdicts.append([(each.code, each.verdict) for each in checks])
    assert verdicts[0] == verdicts[1]
    assert at.value(job, "recheck.straightedges.left-up.at") == "L2 at 660.4"


def test_two_values_nobody_has_settled_are_asked_about_first(at: Site) -> None:
    fact = "survey.walls.B.studs.B2.readings.48"
    job = typed(at, [("unit", "in"), ("survey.walls.B.heights", '["48"]'), (fact, "6")])
    at.store.append(job, [Entry("phone-1", fact, "6-1/8", NOW, "José", "phone")])
    answer = at.client.post(f"/job/{job}/entries", data={"fact": "unit", "value": "mm"})
    assert answer.status_code == 400
    assert "B2 at 48: two values wait for a person" in answer.text
    assert at.value(job, "unit") == "in"


def test_the_room_says_so_before_the_unit_is_changed(at: Site) -> None:
    job = bundled(at, "old-alcove")
    assert "stays as long as it is" in at.page(f"/job/{job}/room")
    assert "sigue midiendo lo mismo" in at.page(f"/job/{job}/room", lang="es")
