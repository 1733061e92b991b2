"""The search as a job of its own: told how far, given up, found elsewhere; ticks do not restart it."""

from __future__ import annotations

import pickle
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from tests.screens.cast import Site, bring, plans_of, site
from undertile.job import Pen, fold, read_job
from undertile.job.plain import entries_of
from undertile.screens.slices import (
    GivenUp,
    Progress,
    _told,
    found,
    key_of,
    log_text,
    rebuild_of,
    search,
)


class Elsewhere:
    """A host's searches that are done when told to be."""

    def __init__(self) -> None:
        self.logs: dict[str, str] = {}
        self.done: dict[str, bytes] = {}
        self.given_up: list[str] = []

    def start(self, job: str, key: str, log: str) -> None:
        self.logs.setdefault(key, log)

    def progress(self, key: str) -> Progress | None:
        return Progress(128, Fraction(41)) if key in self.logs else None

    def found(self, key: str) -> bytes | None:
        return self.done.get(key)

    def cancel(self, key: str) -> None:
        self.given_up.append(key)


def test_the_page_says_how_far_it_is_and_shows_the_plan_once_found() -> None:
    searches = Elsewhere()
    at = site(searches=searches)
    job = bring(at, "hand")
    told = at.twin(f"/job/{job}/plan")
    assert told["gate"]["state"] == "searching"
    assert told["gate"]["looked"] == "128 places tried"
    assert told["gate"]["bound"] == "nothing costs less than $41.00"
    assert not plans_of(at), "nothing was searched for in the page's own time"
    assert "data-search" in at.page(f"/job/{job}/plan")
    ((key, log),) = searches.logs.items()
    first, whole = search(log)
    searches.done[key] = first
    told = at.twin(f"/job/{job}/plan")
    assert told["total"]["time"] == "43 min"
    assert told["later"]
    assert not told["losers"]
    assert "data-later" in at.page(f"/job/{job}/plan")
    for language, proof, later in (
        ("en", "Proved: no plan costs less.", "The plan is found and proved. Still being worked out:"),
        ("es", "Probado: ningún plan cuesta menos.", "El plan está hallado y probado. Todavía se calcula"),
    ):
        page = at.page(f"/job/{job}/plan", lang=language)
        assert proof in page
        assert later in page, "what is proved is not said to be open"
    searches.done[key] = whole
    told = at.twin(f"/job/{job}/plan")
    assert told["losers"]
    assert not told["later"]
    assert "data-later" not in at.page(f"/job/{job}/plan")
    assert at.twin(f"/job/{job}/work")["left"] == 2
    at.store.close()


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_pad_of_the_recheck_waits_for_the_plan_and_is_the_pad_once_found(language: str) -> None:
    """Opened first of all: not known yet is not "nothing to read"."""
    searches = Elsewhere()
    at = site(searches=searches)
    job = bring(at, "hand")
    told = at.twin(f"/job/{job}/recheck/pad", lang=language)
    assert told["gate"]["state"] == "searching"
    page = at.page(f"/job/{job}/recheck/pad", lang=language)
    assert "data-search" in page, "the page looks again by itself"
    assert 'id="pad-sheet"' not in page
    ((key, log),) = searches.logs.items()
    searches.done[key], _ = search(log)
    assert at.twin(f"/job/{job}/recheck/pad", lang=language)["rows"]
    assert 'id="pad-sheet"' in at.page(f"/job/{job}/recheck/pad", lang=language)
    at.store.close()


def test_a_search_is_given_up() -> None:
    searches = Elsewhere()
    at = site(searches=searches)
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    assert at.twin(f"/job/{job}/plan", stop="1")["gate"]["state"] == "stopped"
    assert searches.given_up == list(searches.logs)
    at.store.close()


def test_it_tells_how_far_and_stops_when_told() -> None:
    at = site()
    log = at.store.log(bring(at, "old-alcove"))
    heard: list[Progress] = []

    def look(progress: Progress) -> bool:
        heard.append(progress)
        return len(heard) < 2

    with pytest.raises(GivenUp):
        rebuild_of(log, look)
    assert len(heard) == 2
    assert heard[0].looked <= heard[1].looked
    at.store.close()


def test_the_answer_travels_whole() -> None:
    """independent: the same search here and through bytes comes to the same plan; at first without losers."""
    at = site()
    log = at.store.log(bring(at, "hand"))
    here, (first, there) = rebuild_of(log), map(found, search(log_text(log)))
    assert here.results["framing"] == there.results["framing"]
    assert here.job == there.job
    assert (here.whole, there.whole, first.whole) == (True, True, False)
    assert first.findings == there.findings
    assert replace(there.results["framing"], runner_ups=()) == first.results["framing"]
    at.store.close()


def test_only_an_answer_of_a_search_is_taken() -> None:
    with pytest.raises(ValueError, match="what a search came to"):
        found(pickle.dumps({"cost": 0}))


@pytest.mark.parametrize(
    ("fact", "value", "same"),
    [
        ("name", "another name", True),
        ("recheck.done.B2.minutes", "12", True),
        ("survey.walls.B.studs.B2.readings.48", "5-7/8", False),
        ("framing.rate", "80", False),
        ("floor.joists.J1.at", "8", True),
        ("pan.pan.width", "59-7/8", False),
        ("unit", "mm", False),
    ],
)
def test_only_what_a_plan_depends_on_sets_it_going_again(fact: str, value: str, same: bool) -> None:
    at: Site = site()
    job = bring(at, "hand")
    before = key_of(fold(at.store.log(job)).job)
    ids = [entry.id for entry in at.store.log(job) if entry.fact == fact]
    at.send(job, {"fact": fact, "value": value, "supersedes": ids})
    assert (key_of(fold(at.store.log(job)).job) == before) is same
    at.store.close()


WET = [
    ("framing.walls.B.depth", "1-1/2"),
    ("wood.meters.pins.kind", "pin"),
    ("wood.meters.pins.set_to", "Douglas-fir"),
    ("wood.visits.1.when", "2026-03-02 16:00"),
    ("wood.visits.1.wood", "70 F"),
    *(
        (f"wood.points.ref-{n}.{key}", value)
        for n in "abc"
        for key, value in (
            ("member", "other"),
            ("material", "lumber"),
            ("species", "Douglas-fir"),
            ("reference", "true"),
            ("shown.1", "10"),
        )
    ),
    ("wood.points.foot.member", "stud"),
    ("wood.points.foot.name", "B3"),
    ("wood.points.foot.height", "2"),
    ("wood.points.foot.material", "lumber"),
    ("wood.points.foot.species", "Douglas-fir"),
    ("wood.points.foot.shown.1", "18"),
]
"""The hand-worked room with B3 laid flat and wet at its foot, three dry references beside it."""


@pytest.mark.parametrize(
    ("fact", "value", "same"),
    [
        # a second round: of the floor, of the stud a hair drier, of the stud dry
        ("wood.points.floor.member", "subfloor", True),
        ("wood.points.foot.shown.1", "18.1", True),
        ("wood.points.foot.shown.1", "13", False),
        ("wood.points.foot.shown.1", "25", False),
        ("wood.points.foot.out", "2026-03-04", False),
        ("framing.walls.B.depth", "2-1/2", False),
    ],
)
def test_of_the_water_a_plan_knows_how_far_each_stud_goes_back(fact: str, value: str, same: bool) -> None:
    at: Site = site()
    job = bring(at, "hand")
    for name, given in WET:
        at.send(job, {"fact": name, "value": given})
    folded = fold(at.store.log(job))
    assert not folded.left_out
    before = key_of(folded.job)
    ids = [entry.id for entry in at.store.log(job) if entry.fact == fact]
    at.send(job, {"fact": fact, "value": value, "supersedes": ids})
    after = fold(at.store.log(job))
    assert not after.left_out
    assert (key_of(after.job) == before) is same
    at.store.close()


def test_a_bundled_job_whose_wood_is_dry_keeps_the_key_of_one_without_water() -> None:
    """independent: nothing to dry, nothing told."""
    at: Site = site()
    job = bring(at, "hand")
    before = key_of(fold(at.store.log(job)).job)
    for name, given in WET:
        at.send(job, {"fact": name, "value": "11" if name.endswith("foot.shown.1") else given})
    ids = [entry.id for entry in at.store.log(job) if entry.fact == "framing.walls.B.depth"]
    at.send(job, {"fact": "framing.walls.B.depth", "value": None, "supersedes": ids})
    assert key_of(fold(at.store.log(job)).job) == before
    at.store.close()


def keeping(heard: list[Progress]) -> Callable[[Progress], bool]:
    """A listener that lets the search go on."""

    def look(progress: Progress) -> bool:
        heard.append(progress)
        return True

    return look


def test_progress_of_walls_searched_one_by_one_never_goes_back() -> None:
    """independent: added up by hand; a bound of some walls is one of the room: none costs less than 0."""
    heard: list[Progress] = []
    told = _told(keeping(heard))
    for nodes, bound in ((64, 40), (128, 55), (64, 10), (192, 70), (64, 5)):
        told(nodes, Fraction(bound))
    assert [(each.looked, int(each.bound)) for each in heard] == [
        (64, 40),
        (128, 55),
        (128 + 64, 55),
        (128 + 192, 70),
        (128 + 192 + 64, 70),
    ]


def test_progress_of_a_real_room_never_goes_back_and_stays_under_its_cost() -> None:
    log = entries_of(read_job("examples/steel-unit.toml"), Pen("import", "Bo", "2026-11-24T08:00:00"))
    heard: list[Progress] = []
    found = rebuild_of(log, keeping(heard))
    assert heard, "a room that takes long enough to be told of"
    assert heard == sorted(heard, key=lambda each: (each.looked, each.bound))
    cost = found.results["framing"].cost
    assert all(each.bound <= cost for each in heard)
