"""The floor on the plan's screens: it is done first, and where it fails the plan says so."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.cast import EXAMPLES, NOW, Site, bring, site
from tests.screens.test_amiss import words as words_of
from undertile.job import fold, read_job
from undertile.job import plan as plan_job
from undertile.packet.open_parts import open_parts
from undertile.packet.order import order_steps
from undertile.packet.plan_view import PlanView
from undertile.packet.words import Words
from undertile.screens.slices import key_of


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_plan_and_the_work_do_the_floor_first_and_say_that_it_fails(at: Site, language: str) -> None:
    """independent: the papers' own lines of the same job, planned whole."""
    job = bring(at, "wet-corner")
    rebuild = plan_job(read_job(EXAMPLES / "wet-corner.toml"))
    words = Words(language)  # type: ignore[arg-type]
    told = at.twin(f"/job/{job}/plan", lang=language)
    assert [each["text"] for each in told["open"]] == [each.text for each in open_parts(rebuild, words)]
    assert [each["href"].rpartition(f"{job}/")[2] for each in told["open"]] == ["floor", "water/gate"]
    steps = [step.text for step in order_steps(PlanView(rebuild), words, today=NOW[:10])]
    assert [each["text"] for each in told["order"]] == steps
    assert any("P1" in step for step in steps)
    work = at.twin(f"/job/{job}/work", lang=language)
    assert [each["text"] for each in work["order"]] == steps
    page = at.page(f"/job/{job}/plan", lang=language)
    assert told["open"][0]["text"] in words_of(page)
    dry = bring(at, "hand")
    assert at.twin(f"/job/{dry}/plan", lang=language)["open"] == []


def test_a_floor_read_anew_is_done_anew_and_the_plan_stays(at: Site) -> None:
    """independent: the plan's key is the same, and the joist's step goes with what was entered of it."""
    job = bring(at, "wet-corner")
    before = [each["text"] for each in at.twin(f"/job/{job}/plan")["order"]]
    assert any("J1 soft corner" in step for step in before)
    log = at.store.log(job)
    for entry in log:
        if entry.fact.startswith("floor.joists.J1.soft."):
            at.send(job, {"fact": entry.fact, "value": None, "supersedes": [entry.id]})
    after = [each["text"] for each in at.twin(f"/job/{job}/plan")["order"]]
    assert not any("J1 soft corner" in step for step in after)
    assert key_of(fold(at.store.log(job)).job) == key_of(fold(log).job)
