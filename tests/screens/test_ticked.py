"""A tick stands for what the plan asked when it was made; a plan that changed since does not call it done."""

from __future__ import annotations

import html
from collections.abc import Iterator
from typing import Any

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.forms import Form, forms_of, press
from undertile.screens.ticked import did_words
from undertile.screens.words import Says

AT_48 = "survey.walls.B.studs.B2.readings.48"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def tick_form(at: Site, job: str, stud: str) -> Form:
    """The form of a stud's tick, as a browser without a script sends it."""
    forms = [each for each in forms_of(at, f"/job/{job}/work") if f"recheck.done.{stud}.by" in each.facts()]
    return forms[0]


def stud_of(at: Site, job: str, name: str) -> dict[str, Any]:
    studs = at.twin(f"/job/{job}/work")["studs"]
    found: dict[str, Any] = next(each for each in studs if each["name"] == name)
    return found


def again(at: Site, job: str, value: str, fact: str = AT_48) -> None:
    """A reading of the survey typed anew."""
    ids = [entry.id for entry in at.store.log(job) if entry.fact == fact]
    at.send(job, {"fact": fact, "value": value, "supersedes": ids})


def test_a_tick_outlives_no_plan_that_asks_something_else(at: Site) -> None:
    """independent: convention 8. B2 stands 3/16 proud at 48: two passes. Read anew as 5-3/4 it stands 1/4
    proud, 1/16 may stay: three passes (13-1/2; the plane 1/16 forward: 12 and four shims, 16)."""
    job = bring(at, "hand")
    press(at, tick_form(at, job, "B2"), {"recheck.done.B2.minutes": "14"})
    assert at.value(job, "recheck.done.B2.did") == "plane; 48: -1/8"
    assert stud_of(at, job, "B2")["done"]
    assert at.twin(f"/job/{job}")["next"]["text"] == "B4 next; 1 stud left"

    again(at, job, "5-3/4")
    stud = stud_of(at, job, "B2")
    assert not stud["done"]
    assert stud["stale"] == [
        "Ticked for an earlier plan: Plane, -1/8 at 48. Not counted as done.",
        "The plan now asks: Plane, -3/16 at 48, counted from the face as first read.",
    ]
    told = at.twin(f"/job/{job}")
    assert told["next"]["text"] == "B2 next; 2 studs left"
    assert {each["key"]: each["state"] for each in told["steps"]}["work"] == "0 of 2 done"
    assert at.twin(f"/job/{job}/work")["planned"] == "", "no minutes planned for what is not done"
    assert stud["actual"]["value"] == "14", "what was noted is kept"
    done = at.twin(f"/job/{job}/proof")["proof"]["done"]
    assert [(each["stud"], each["tick"]) for each in done] == [
        ("B2", "Ticked for an earlier plan: Plane, -1/8 at 48. Not counted as done.")
    ]

    page = at.page(f"/job/{job}/work", lang="es")
    assert "Se marcó hecho para un plan anterior: Cepillar, -1/8 a 48. No cuenta como hecho." in page
    assert "Está como pide el plan ahora" in page
    at.client.cookies.clear()

    form = tick_form(at, job, "B2")
    before = len(at.store.log(job))
    press(at, form)
    assert at.value(job, "recheck.done.B2.did") == "plane; 48: -3/16"
    assert len(at.store.log(job)) == before + 1, "a person says that it holds: one entry, the minutes stay"
    assert stud_of(at, job, "B2")["done"]
    assert at.value(job, "recheck.done.B2.minutes") == "14"


def test_the_plan_comes_back_and_with_it_what_was_done(at: Site) -> None:
    job = bring(at, "hand")
    press(at, tick_form(at, job, "B2"))
    again(at, job, "5-3/4")
    assert not stud_of(at, job, "B2")["done"]
    again(at, job, "5-13/16")
    assert stud_of(at, job, "B2")["done"]


def test_what_the_change_does_not_touch_stays_done(at: Site) -> None:
    job = bring(at, "hand")
    press(at, tick_form(at, job, "B4"))
    again(at, job, "5-3/4")
    assert stud_of(at, job, "B4")["done"]


def test_a_stud_the_plan_now_leaves_is_still_named_and_read_again(at: Site) -> None:
    """independent: B2 read anew as 6-0 is in line: nothing is asked of it, but it was planed."""
    job = bring(at, "hand")
    press(at, tick_form(at, job, "B2"))
    again(at, job, "6-0")
    told = at.twin(f"/job/{job}/work")
    stud = next(each for each in told["studs"] if each["name"] == "B2")
    assert not stud["done"]
    assert stud["stale"][1].startswith("The plan now leaves it as first read.")
    assert told["left"] == 1, "B4: of B2 nothing is asked"
    rows = at.twin(f"/job/{job}/recheck/pad")["rows"]
    assert ("B2", "48") in {(row["label"], row["at"]) for row in rows}


def test_an_old_tick_does_not_say_what_for(at: Site) -> None:
    job = bring(at, "hand")
    at.send(job, {"fact": "recheck.done.B2.by", "value": "Ana"})
    stud = stud_of(at, job, "B2")
    assert not stud["done"]
    assert stud["stale"][0] == "Ticked; not known for which plan. Not counted as done."
    press(at, tick_form(at, job, "B2"))
    assert stud_of(at, job, "B2")["done"]


def test_taken_back_the_tick_leaves_nothing(at: Site) -> None:
    job = bring(at, "hand")
    press(at, tick_form(at, job, "B2"), {"recheck.done.B2.minutes": "14"})
    _, back = [each for each in forms_of(at, f"/job/{job}/work") if "recheck.done.B2.by" in each.facts()]
    press(at, back)
    assert at.value(job, "recheck.done.B2.did") is None
    stud = stud_of(at, job, "B2")
    assert not stud["done"]
    assert stud["stale"] == []


def test_the_record_says_it_in_words(at: Site) -> None:
    job = bring(at, "hand")
    press(at, tick_form(at, job, "B2"))
    page = html.unescape(at.page(f"/job/{job}/history", lang="es"))
    assert "Cepillar, -1/8 a 48" in page
    assert "plane; 48" not in page


@pytest.mark.parametrize(
    ("text", "unit", "words"),
    [
        ("plane + shim; 48: -1/8; 54: -1/16", "in", "Plane + Shim, -1/8 at 48, -1/16 at 54"),
        ("strip; 48: +41/200", "in", "Strip, ~+7/32 at 48"),
        ("plane; 1200: -3", "mm", "Plane, -3 mm at 1200 mm"),
        ("leave", "in", "Leave"),
        ("weld; 48: +1", "in", "weld; 48: +1"),
        ("what I did", "in", "what I did"),
    ],
)
def test_words_of_a_tick(text: str, unit: Any, words: str) -> None:
    assert did_words(Says("en", unit=unit), text, unit) == words
