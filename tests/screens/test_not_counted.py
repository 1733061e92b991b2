"""The gate on the screens while something typed does not count: two phones, two values for one fact."""

from __future__ import annotations

from typing import Any

from tests.screens.cast import Site, bring, site
from tests.store.cast import NEWER


def typed(at: Site, job: str, **query: str) -> list[dict[str, Any]]:
    """What the gate names as typed and not counted."""
    told = at.twin(f"/job/{job}/water/gate", **query)
    return [one for kind in told["kinds"] if kind["kind"] == "typed" for one in kind["missing"]]


def test_a_clash_keeps_the_gate_shut_and_leads_to_where_it_is_settled() -> None:
    at = site()
    job = bring(at, "wet-corner")
    assert typed(at, job) == []
    for who, value in (("dev8", "1/2"), ("dev9", "0")):
        at.store.pen(who, "Cy", "2026-11-24T09:00:00").write(job, "wood.points.B1-2.awl.3", value)
    (one,) = typed(at, job)
    assert one["what"].startswith("one value does not count")
    assert one["href"].endswith("/doubts")
    (spanish,) = typed(at, job, lang="es")
    assert spanish["what"].startswith("un valor no cuenta")
    assert "Escrito, no cuenta" in at.page(f"/job/{job}/water/gate", lang="es")
    assert "algo escrito que no cuenta" in at.page(f"/job/{job}/floor")
    at.store.close()


def test_a_reading_whose_visit_is_typed_twice_is_asked_for_at_its_own_place() -> None:
    at = site()
    job = bring(at, "wet-corner")
    for who, value in (("dev8", "2026-03-07 10:00"), ("dev9", "2026-03-07 11:00")):
        at.store.pen(who, "Cy", "2026-11-24T09:00:00").write(job, "wood.visits.4.when", value)
    at.store.pen("dev8", "Cy", "2026-11-24T09:00:00").write(job, "wood.points.B1-2.shown.4", "25")
    whole, place = typed(at, job)
    assert whole["href"].endswith("/doubts")
    assert place["what"] == "read on visit 4, which is none of the job's"
    assert "B1-2" in place["href"]
    at.store.close()


def test_what_only_a_newer_version_can_read_keeps_the_gate_shut() -> None:
    """It may be the wet reading: it is kept, nobody here can count it, and the step says what helps."""
    at = site()
    job = bring(at, "wet-corner")
    at.store.append_lines(job, [NEWER])
    assert at.store.unread(job), "or this test tests nothing"
    (one,) = typed(at, job)
    assert one["what"] == "written by a newer version, which this one cannot read: 1"
    assert one["do"].startswith("Update the tool on this device")
    (spanish,) = typed(at, job, lang="es")
    assert spanish["do"].startswith("Actualice la herramienta")
    at.store.close()
