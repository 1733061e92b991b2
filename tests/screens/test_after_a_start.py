"""What is next is the same after a start: what the plan last came to stands while what it comes from does."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.screens.cast import Site, bring, host, site
from tests.screens.forms import press
from tests.screens.test_next_step import next_of
from tests.screens.test_ticked import again, tick_form
from undertile.screens import create_app
from undertile.screens.seen import NAME


class Memory:
    """Notes that outlive the app."""

    def __init__(self) -> None:
        self.kept: dict[tuple[str, str], str] = {}
        self.times = 0

    def read(self, job: str, name: str) -> str:
        return self.kept.get((job, name), "")

    def keep(self, job: str, name: str, text: str) -> None:
        self.times += 1
        self.kept[job, name] = text


class Nowhere:
    """Searches that never come to an end: what is asked for here is not worked out."""

    def __init__(self) -> None:
        self.started: list[str] = []

    def start(self, job: str, key: str, log: str) -> None:
        self.started.append(key)

    def progress(self, key: str) -> None:
        return None

    def found(self, key: str) -> None:
        return None

    def cancel(self, key: str) -> None:
        pass


@pytest.fixture
def notes() -> Memory:
    return Memory()


@pytest.fixture
def at(notes: Memory) -> Iterator[Site]:
    found = site(notes=notes)
    yield found
    found.store.close()


def started(at: Site, notes: Any) -> Site:
    """The same store after a start: nothing of the app before is left, and no plan is looked for."""
    told = host(notes=notes, searches=Nowhere())
    return Site(at.store, told, TestClient(create_app(at.store, told)))


@pytest.mark.parametrize("name", ["hand", "old-alcove", "read-again", "wet-corner"])
def test_next_is_the_same_after_a_start(at: Site, notes: Memory, name: str) -> None:
    """independent: what the app says that has the plan, in either language, on the home of the job."""
    job = bring(at, name)
    at.page(f"/job/{job}/plan", typed="1")
    for language in ("en", "es"):
        before = at.twin(f"/job/{job}", lang=language)
        after = started(at, notes).twin(f"/job/{job}", lang=language)
        assert (after["next"], after["then"]) == (before["next"], before["then"])
        assert after["steps"] == before["steps"]


def test_each_step_of_the_work_is_the_same_after_a_start(at: Site, notes: Memory) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    said = []
    for stud in ("B2", "B4"):
        said.append(next_of(at, job))
        assert next_of(started(at, notes), job) == said[-1]
        press(at, tick_form(at, job, stud))
    said.append(next_of(at, job))
    assert next_of(started(at, notes), job) == said[-1]
    assert [text for text, _ in said] == [
        "Start with B2",
        "B4 next; 1 stud left",
        "Read again what was worked on",
    ]


def test_another_log_is_looked_for_anew(at: Site, notes: Memory) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    again(at, job, "5-3/4")
    assert next_of(started(at, notes), job) == ("See what to do to each stud", "plan")
    again(at, job, "5-13/16")  # back as it was: so the plan stands again
    assert next_of(started(at, notes), job) == ("Start with B2", "work")


def test_a_plan_that_comes_back_is_kept_again(at: Site, notes: Memory) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    again(at, job, "5-3/4")
    at.page(f"/job/{job}/plan")
    again(at, job, "5-13/16")
    next_of(at, job)
    assert next_of(started(at, notes), job) == ("Start with B2", "work")


def test_it_is_kept_once_and_not_with_every_screen(at: Site, notes: Memory) -> None:
    job = bring(at, "hand")
    for _ in range(3):
        at.page(f"/job/{job}/plan")
        at.page(f"/job/{job}")
    assert notes.times == 1


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"key": 1}', "null", '{"key": "x", "planned": true, "touched": 3}', "[" * 9000]
)
def test_a_note_that_is_not_whole_is_as_none(at: Site, notes: Memory, text: str) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    notes.kept[job, NAME] = text
    assert next_of(started(at, notes), job) == ("See what to do to each stud", "plan")


def test_a_note_of_another_version_is_as_none(at: Site, notes: Memory) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    told = json.loads(notes.kept[job, NAME])
    notes.kept[job, NAME] = json.dumps({**told, "key": f"0.0.0 {told['key'].split()[-1]}"})
    assert next_of(started(at, notes), job) == ("See what to do to each stud", "plan")


def test_a_stop_stands_after_the_start_until_it_is_lifted(at: Site, notes: Memory) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    told = json.loads(notes.kept[job, NAME])
    notes.kept[job, NAME] = json.dumps({**told, "stops": [["made-up", "B2"]]})
    fresh = started(at, notes)
    assert next_of(fresh, job)[1] == "plan", "a stop is settled there"
    facts = {"stop": "made-up", "where": "B2", "by": "Ana", "reason": "seen"}
    fresh.send(job, *({"fact": f"safety.lifted.1.{key}", "value": value} for key, value in facts.items()))
    assert next_of(fresh, job) == ("Start with B2", "work")
