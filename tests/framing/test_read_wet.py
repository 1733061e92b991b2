"""Studs that dried after their faces were read: the plan keeps what they went back, and asks for them again.

Independent throughout: the wet corner as its third visit leaves it says how far B1 and L1 go back; what is
read later of the wood changes nothing of readings that were taken then.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from tests.wood.test_honest_job import as_toml, dried, example, merged
from undertile.findings import Finding
from undertile.framing.dries import dries_of
from undertile.framing.stage import build
from undertile.job import Job, fold, plan, read_job, write_job
from undertile.job.entry import Entry, Pen, merge
from undertile.job.plain import entries_of
from undertile.job.stages import STAGES
from undertile.packet.plan_view import PlanView
from undertile.packet.told import told
from undertile.packet.words import Words
from undertile.wood.result import WoodResult

STUDS = ("B1", "L1")
OPENED, LAST = "2026-03-22T08:00:00Z", "2026-03-21"


def job_of(table: dict[str, Any]) -> Job:
    return read_job("\n".join(f"{key} = {as_toml(value)}" for key, value in table.items()).encode())


def read_on(day: str, *studs: str) -> dict[str, Any]:
    return {"framing": {"studs": {name: {"read_on": day} for name in studs or STUDS}}}


@cache
def honest() -> Job:
    """The wet corner with two dry visits more, as a file that says nothing of when its studs were read."""
    return job_of(dried(example()))


def asked(job: Job) -> dict[str, Finding]:
    """What the plan says of the two studs, with no search."""
    survey = next(stage for stage in STAGES if stage.key == "survey")
    facts = {"unit": job.unit, **job.facts()}
    found = build(facts, {"survey": survey.run(facts, {})}).findings
    return {each.where: each for each in found if each.where in STUDS and each.code.startswith("stud-")}


def codes(job: Job) -> set[str]:
    found = asked(job)
    assert len({each.code for each in found.values()}) <= 1
    assert set(found) in (set(), set(STUDS))
    return {each.code for each in found.values()}


def reach(job: Job) -> dict[str, tuple[Any, Any]]:
    return {each.stud: (each.least, each.most) for each in dries_of(job.facts()) if each.stud in STUDS}


# From a file --------------------------------------------------------------------------------------------


def test_a_file_that_does_not_say_when_a_stud_was_read_keeps_asking_once_it_is_dry() -> None:
    wet = read_job(as_file(example()))
    assert codes(wet) == {"stud-dry-first"}
    assert codes(honest()) == {"stud-read-when"}
    for stud, (_, most) in reach(honest()).items():  # its wettest reading is no drier than the third visit's
        assert most >= reach(wet)[stud][1]


def as_file(table: dict[str, Any]) -> bytes:
    return "\n".join(f"{key} = {as_toml(value)}" for key, value in table.items()).encode()


@pytest.mark.parametrize(
    ("day", "code"),
    [
        ("2026-02-20", "stud-read-wet"),
        ("2026-03-06", "stud-read-wet"),
        ("2026-03-18", "stud-read-wet"),
        ("2026-03-19", ""),
        ("2026-03-19 08:00", ""),
        ("2026-03-22", ""),
    ],
)
def test_read_before_the_first_dry_visit_is_read_wet(day: str, code: str) -> None:
    assert codes(job_of(merged(dried(example()), read_on(day)))) == ({code} if code else set())


def test_what_a_stud_read_wet_went_back_stays_in_the_plan() -> None:
    third = read_job(as_file(example()))
    for day in ("2026-03-06", "2026-03-18"):
        job = job_of(merged(dried(example()), read_on(day)))
        assert reach(job) == reach(third)
    early = job_of(merged(dried(example()), read_on("2026-03-02")))
    assert all(early_most > reach(third)[stud][1] for stud, (_, early_most) in reach(early).items())


def test_a_stud_still_wet_counts_as_wet_as_it_was_read() -> None:
    """Read on the first visit it has gone further back than its third visit alone says; then as ever."""
    third = reach(read_job(as_file(example())))
    first = reach(job_of(merged(example(), read_on("2026-03-02"))))
    assert all(most > third[stud][1] for stud, (_, most) in first.items())
    assert reach(job_of(merged(example(), read_on("2026-03-07")))) == third


def test_a_stud_that_was_never_wet_is_not_asked_for() -> None:
    # independent: R1 was only ever read at 11 and under
    assert "R1" not in {each.stud for each in dries_of(honest().facts())}


def test_water_and_plan_say_the_same() -> None:
    for table, since in ((read_on("2026-03-06"), "read wet"), ({}, "not known")):
        job = job_of(merged(dried(example()), table))
        stages = [each for each in STAGES if each.key in ("safety", "wood")]
        wood: WoodResult = plan(job, stages).results["wood"]
        shrunk = {each.stud: each for each in wood.shrinkage if each.stud in STUDS}
        assert {name: (each.least, each.most) for name, each in shrunk.items()} == reach(job)
        assert {each.since for each in shrunk.values()} == {since}
        said = [each for each in wood.findings if each.code == "stud-will-shrink" and each.where in STUDS]
        assert [each.next_step for each in said] == [asked(job)[each.where].next_step for each in said]


# From a record ------------------------------------------------------------------------------------------


def opened(job: Job) -> tuple[Entry, ...]:
    """As a file is opened: everything in one act."""
    return entries_of(job, Pen("file", "Ann", OPENED))


def typed(log: tuple[Entry, ...], time: str, studs: tuple[str, ...] = STUDS, heights: str = "") -> Any:
    """The readings of these studs typed again, the same figures."""
    pen = Pen("phone-" + time[:10], "Ben", time)
    return merge(
        log,
        [
            pen.write(each.fact, each.value, [each.id])
            for each in log
            if any(f".studs.{stud}.readings.{heights}" in each.fact for stud in studs)
            and each.fact.startswith("survey.")
            and not any(each.id in other.supersedes for other in log)
        ],
    )


def test_the_time_a_file_was_opened_is_not_when_its_studs_were_read() -> None:
    folded = fold(opened(honest()))
    assert folded.job == honest()
    assert codes(folded.job) == {"stud-read-when"}


def test_readings_typed_while_it_was_wet_keep_asking_until_every_one_is_typed_again() -> None:
    log = typed(opened(honest()), "2026-03-06T17:00:00Z")
    assert codes(fold(log).job) == {"stud-read-wet"}
    part = typed(log, "2026-03-22T09:00:00Z", heights="48")
    assert part != log
    assert codes(fold(part).job) == {"stud-read-wet"}
    again = typed(log, "2026-03-22T09:00:00Z")
    assert codes(fold(again).job) == set()
    one = asked(fold(typed(log, "2026-03-22T09:00:00Z", studs=("B1",))).job)
    assert set(one) == {"L1"}


def test_the_file_of_a_record_says_what_the_record_says() -> None:
    for time in ("2026-03-06T17:00:00Z", "2026-03-22T09:00:00Z"):
        job = fold(typed(opened(honest()), time)).job
        copy = read_job(write_job(job).encode())
        assert copy == job
        assert asked(copy) == asked(job)
        assert copy.framing.studs["B1"].read_on == time[:10]
        # and opened elsewhere, where its entries are all of one later moment
        assert asked(fold(opened(copy)).job) == asked(job)


def test_a_day_that_was_typed_stands_until_the_readings_are_typed_after_it() -> None:
    log = opened(job_of(merged(dried(example()), read_on("2026-03-06"))))
    assert codes(fold(log).job) == {"stud-read-wet"}
    assert codes(fold(typed(log, "2026-03-22T09:00:00Z")).job) == set()
    late = typed(opened(honest()), "2026-03-22T09:00:00Z")  # from paper of the 6th
    pen = Pen("pad", "Ann", "2026-03-22T10:00:00Z")
    days = [pen.write(f"framing.studs.{stud}.read_on", "2026-03-06") for stud in STUDS]
    assert codes(fold(merge(late, days)).job) == {"stud-read-wet"}


def test_times_that_are_none_tell_nothing() -> None:
    log = typed(opened(honest()), "in the morning")
    assert codes(fold(log).job) == {"stud-read-when"}


# What a crew reads --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("table", "steps"),
    [
        (
            read_on("2026-03-06"),
            (
                "Read every height of B1 and L1 again before they are trued.",
                "Lea otra vez todas las alturas de B1 y L1 antes de ponerlos a plano.",
            ),
        ),
        (
            {},
            (
                "Read B1 and L1 again before they are trued, or write the days their faces were read.",
                "Lea otra vez B1 y L1 antes de ponerlos a plano, o escriba los días en que se leyeron sus "
                "caras.",
            ),
        ),
    ],
)
def test_the_order_of_work_has_it_before_the_walls_in_both_languages(
    table: dict[str, Any], steps: tuple[str, str]
) -> None:
    rebuild = plan(job_of(merged(dried(example()), table)), whole=False)
    (step,) = [each for each in PlanView(rebuild).steps if each.kind == "dry first"]
    assert step.studs == STUDS
    assert (step.text, told(step.text, Words("es"))) == steps
    failed = {each.where for each in rebuild.findings if each.code.startswith("fails-dries")}
    assert not failed & set(STUDS)  # said once
    for each in asked(rebuild.job).values():
        for part in (each.expected, each.found, each.next_step):
            assert told(part, Words("es")) != part
