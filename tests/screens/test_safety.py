"""The screen of safety: what is typed there, what it says, a stop lifted there, in both languages."""

from __future__ import annotations

from typing import Any

from tests.screens.cast import Site, bring, site, typed
from undertile.screens.labels import said
from undertile.screens.words import Says

FACTS = [
    ("unit", "in"),
    ("safety.year", "1962"),
    ("safety.water", "sewage"),
    ("safety.mold.wall B.square_feet", "14"),
    ("safety.asbestos.flooring.answer", "not yet"),
    ("safety.shared.R.whose", "number 16"),
]


def both(at: Site, path: str) -> tuple[str, str]:
    return at.page(path, lang="en"), at.page(path, lang="es")


def test_nothing_entered_says_the_hold_line_and_no_more() -> None:
    at = site()
    job = bring(at, "hand")
    told = at.twin(f"/job/{job}/safety")
    assert (told["stops"], told["findings"]) == ([], [])
    assert "Circuit dead and proved" in at.page(f"/job/{job}/safety")
    at.store.close()


def test_what_is_typed_is_judged_and_said_where_water_and_floor_are() -> None:
    at = site()
    job = typed(at, FACTS)
    told = at.twin(f"/job/{job}/safety")
    assert [each["severity"] for each in told["stops"]] == ["stop"]
    # independent: lead, asbestos, mold, wall R, and power and water not said to be off
    assert len(told["findings"]) == 6
    for path in ("water", "floor/type"):
        assert at.page(f"/job/{job}/{path}")
    assert "1962" in at.page(f"/job/{job}/water")
    at.store.close()


def test_a_stop_is_lifted_on_the_screen_and_stays_as_a_note() -> None:
    at = site()
    job = typed(at, FACTS)
    (stop,) = at.twin(f"/job/{job}/safety")["stops"]
    form: dict[str, Any] = {}
    for n, row in enumerate(stop["rows"]):
        form |= {f"fact.{n}": row["fact"], f"stands.{n}": "", f"was.{n}": ""}
        form[f"value.{n}"] = ["Ben", "disinfected and dry", "2026-03-04"][n]
    for n, more in enumerate(stop["with"], 10):
        form |= {f"fact.{n}": more["fact"], f"value.{n}": more["value"], f"with.{n}": "0"}
    at.client.post(f"/job/{job}/entries", data=form)
    told = at.twin(f"/job/{job}/safety")
    assert told["stops"] == []
    assert any("disinfected and dry" in each["text"] for each in told["findings"])
    assert [each["name"] for each in told["lifts"]["items"]] == ["water-sewage everything it reached"]
    at.store.close()


def test_a_stop_of_the_plan_leads_to_the_boxes_it_is_answered_in() -> None:
    """independent: the boxes on the screen it leads to lift it, and the plan's own screen stops no more."""
    at = site()
    job = bring(at, "hand")
    hold = "framing.studs.B2.hold."
    at.send(
        job,
        {"fact": "framing.studs.B2.bearing", "value": "yes"},
        {"fact": hold + "treatment", "value": "replace"},
        {"fact": hold + "reason", "value": "split"},
    )
    told = at.twin(f"/job/{job}/plan")
    (stop,) = told["stops"]
    assert told["lift"] == told["next"]["href"] == f"/job/{job}/safety"
    for lang, words in (("en", "Say who answered"), ("es", "Diga quién respondió")):
        assert words in at.page(f"/job/{job}/plan", lang=lang)
    answered = at.twin(told["lift"])
    boxes = [each for each in answered["stops"] if each["code"] == stop["code"] == "bearing-stud-out"]
    assert len(boxes) == 1
    assert 'class="next" href' not in at.page(told["lift"]), "it is here"
    said = ["P. Dorn", "shored", "2026-03-04"]
    facts = [{"fact": row["fact"], "value": value} for row, value in zip(boxes[0]["rows"], said, strict=True)]
    at.send(job, *facts, *boxes[0]["with"])
    after = at.twin(f"/job/{job}/plan")
    assert (after["stops"], after["lift"]) == ([], "")
    at.store.close()


def test_its_facts_have_names_in_both_languages() -> None:
    for language in ("en", "es"):
        says = Says(language)
        for fact, _ in FACTS[1:]:
            text = said(says, fact)
            assert "_" not in text
            assert ":" in text
            assert "safety" not in text


def test_the_screen_is_spanish_in_spanish() -> None:
    at = site()
    job = typed(at, FACTS)
    english, spanish = both(at, f"/job/{job}/safety")
    assert "What can hurt someone" in english
    for words in (
        "Lo que puede lastimar a alguien",
        "aguas negras",
        "moho",
        "piso viejo: con muestra",
        "Levantar este ALTO",
    ):
        assert words in spanish, words
    at.store.close()
