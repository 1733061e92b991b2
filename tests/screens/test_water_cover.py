"""Do not cover yet, wherever covering could start, and what opens it."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.forms import form_of, press
from tests.screens.test_photos import png
from tests.screens.watercast import after, line_of, strings, wood


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.mark.parametrize(("language", "word"), [("en", "Dry here"), ("es", "Seco aquí")])
def test_a_dry_place_says_so_and_only_the_gate_says_that_it_may_be_closed(
    at: Site, language: str, word: str
) -> None:
    """independent: the gate of the wet corner is shut, and several of its places are dry twice and sound."""
    job = bring(at, "wet-corner")
    (group,) = [
        each for each in at.twin(f"/job/{job}/water", lang=language)["groups"] if each["call"] == "close"
    ]
    names = [each["name"] for each in group["points"]]
    assert (group["title"], group["number"]) == (word, len(names))
    assert len(names) > 1
    pages = [at.page(f"/job/{job}/water", lang=language)]
    pages += [at.page(f"/job/{job}/water/point", name=name, lang=language) for name in names]
    assert all(word in page for page in pages)
    told = list(strings(at.twin(f"/job/{job}/water/round/3", lang=language)))
    said = [line for line in told if line.startswith(word)]
    assert len(said) == len(names), "on the pad, at each of them"
    record = at.page(f"/job/{job}/papers/water", lang=language)
    assert record.count(word.lower()) >= len(names), "on the record"
    order = re.compile(r">(Close|Cerrar|Se puede cerrar)[ .]?[(<]")
    assert not [page for page in (*pages, record) if order.search(page)]
    assert not [line for line in told if line.startswith(("Close", "Cerrar", "Se puede cerrar"))]


COVERING = ("work", "recheck", "proof")


def test_do_not_cover_stands_wherever_covering_could_start(at: Site) -> None:
    job = bring(at, "wet-corner")
    at.page(f"/job/{job}/plan")
    line = line_of(at, job)
    for screen in COVERING:
        assert at.twin(f"/job/{job}/{screen}")["cover"]["text"] == line, screen
        assert line in html.unescape(re.sub("<[^>]*>", "", at.page(f"/job/{job}/{screen}")))
    order = [step["text"] for step in at.twin(f"/job/{job}/work")["order"]]
    covers = next(
        index
        for index, text in enumerate(order)
        if text.startswith(("Set the pan", "Push the pan", "Centre", "Set it")) or "flange shims" in text
    )
    assert order.index(line) < covers, "before the pan covers the floor"
    dry = bring(at, "hand")
    at.page(f"/job/{dry}/plan")
    for screen in COVERING:
        assert at.twin(f"/job/{dry}/{screen}")["cover"] is None, "nobody speaks of water there"


def test_nothing_read_is_not_shown_and_never_a_pass(at: Site) -> None:
    job = bring(at, "hand")
    at.send(job, {"fact": "wood.leak.symptom", "value": "wet after rain"})
    at.page(f"/job/{job}/plan")
    line = at.twin(f"/job/{job}/work")["cover"]
    assert line["text"].startswith("Do not cover yet: moisture not shown, 8 sources of water not ruled out")
    assert not line["may"]
    assert at.twin(f"/job/{job}")["steps"][2] == {
        "key": "water",
        "text": "Water",
        "state": "not read yet",
        "loud": False,
        "href": f"/job/{job}/water",
    }


def test_the_tile_and_the_gate_count_alike(at: Site) -> None:
    """independent: the example's record notes photos of two walls on 2026-03-02 and has no picture; of its 16
    places nine are not dry, three of them in wood that the patch takes out with two dry ones; nothing is
    read on the right wall."""
    job = bring(at, "wet-corner")
    states = {each["key"]: each["state"] for each in at.twin(f"/job/{job}")["steps"]}
    assert states["photos"] == "0 here; 2 noted"
    assert states["water"] == "6 of 11 not dry"
    line = line_of(at, job)
    assert line.startswith("Do not cover yet: 6 places not dry, right wall not read, 5 places to cut out")
    spanish = line_of(at, job, "es")
    assert spanish.startswith("No tape todavía: 6 lugares sin secar, sin leer: pared derecha, 5 lugares")
    dry = bring(at, "hand")
    assert {each["key"]: each["state"] for each in at.twin(f"/job/{dry}")["steps"]}["photos"] == "0"


@pytest.mark.parametrize("visit", ["1", "2", "3"])
@pytest.mark.parametrize(
    ("language", "more"), [("en", r"\. (\d+) more below\.$"), ("es", r"\. Abajo, (\d+) más\.$")]
)
def test_the_gates_answer_is_one_glance_and_the_list_says_the_rest(
    at: Site, visit: str, language: str, more: str
) -> None:
    """independent: what the large line leaves out is counted in the list under the headings."""
    job = after(at, visit)
    told = at.twin(f"/job/{job}/water/gate", lang=language)
    assert len(told["answer"]) <= 90, told["answer"]
    found = re.search(more, told["answer"])
    assert found is not None
    shut = [kind for kind in told["kinds"] if kind["missing"]]
    assert int(found[1]) == sum(len(kind["missing"]) for kind in shut[1:])
    places = sum(each["what"] != "no reading in it" for each in shut[0]["missing"])
    assert shut[0]["kind"] == "moisture"
    assert language == "es" or f"{places} places not dry" in told["answer"]


def test_a_stop_stands_before_the_next_test(at: Site) -> None:
    """independent: the same job with and without a soft stud; its lift gives the test its place back."""
    job = bring(at, "wet-corner")
    before = at.twin(f"/job/{job}/water/gate")["next"]
    at.send(job, {"fact": "framing.studs.B1.soft", "value": "true"})
    stop = at.twin(f"/job/{job}/water/gate")
    assert stop["next"]["text"] == "B1: the stud is soft"
    assert stop["next"]["href"] == f"/job/{job}/stud/B1"
    assert stop["answer"].startswith("Do not cover yet: one stop stands. ")
    at.send(job, {"fact": "safety.water", "value": "sewage"})
    first = at.twin(f"/job/{job}/water/gate")
    assert first["next"]["text"].startswith("everything it reached"), "what can hurt someone before all"
    assert first["answer"].startswith("Do not cover yet: one thing that can hurt someone stands. ")
    lifts = (("stud-soft", "B1"), ("water-sewage", "everything it reached"))
    for n, (code, where) in enumerate(lifts):
        its = {"stop": code, "where": where, "by": "Ben", "reason": "seen to"}
        at.send(job, *({"fact": f"safety.lifted.l{n}.{key}", "value": value} for key, value in its.items()))
    assert at.twin(f"/job/{job}/water/gate")["next"] == before


def test_a_stop_of_the_wood_that_a_person_lifted_is_no_longer_next(at: Site) -> None:
    job = bring(at, "wet-corner")
    air = {"when": "2026-03-01", "medium": "air", "first": "30", "last": "30", "minutes": "15"}
    at.send(job, *({"fact": f"wood.leak.pressures.air.{key}", "value": value} for key, value in air.items()))
    where = "pressure test, air"
    assert where in at.twin(f"/job/{job}/water")["next"]["text"]
    its = {"stop": "air-test", "where": where, "by": "Ben", "reason": "let off"}
    at.send(job, *({"fact": f"safety.lifted.a.{key}", "value": value} for key, value in its.items()))
    assert where not in at.twin(f"/job/{job}/water")["next"]["text"]


def test_a_photo_before_covering_counts_when_a_person_says_so(at: Site) -> None:
    job = bring(at, "wet-corner")
    picture = {"photo": ("a.png", png(10), "image/png")}
    at.client.post(f"/job/{job}/photos", data={"place": "wall R", "stage": "covered"}, files=picture)
    assert "wall R" not in wood(at, job).cover.photos
    for path in ("photos", "water/gate"):
        (offer,) = at.twin(f"/job/{job}/{path}")["confirm"]
        assert offer["row"]["fact"] == "wood.cover.photos.wall R"
    press(at, form_of(at, f"/job/{job}/photos", "wood.cover.photos.wall R"))
    assert wood(at, job).cover.photos["wall R"] == "2026-11-25"
    assert at.twin(f"/job/{job}/photos")["confirm"] == []
