"""What a person holds is marked wherever it shows, says what it costs, and can be let go (convention 4.6)."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

from tests.screens.cast import MENDED, Site, bring, site

PLANE = "framing.walls.L.hold"
STUD = "framing.studs.B4.hold"
EDGE = "the tile edge next door"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def hold(at: Site, job: str) -> None:
    at.send(
        job,
        {"fact": f"{PLANE}.offset", "value": "1/4"},
        {"fact": f"{PLANE}.reason", "value": EDGE},
        {"fact": f"{STUD}.treatment", "value": "replace"},
        {"fact": f"{STUD}.reason", "value": "it is split"},
    )


def money(text: str) -> Fraction:
    return Fraction(text.removeprefix("$").replace(",", ""))


@pytest.mark.parametrize(
    ("language", "plane", "stud"),
    [("en", f"Held: {EDGE}.", "Held: it is split."), ("es", f"Fijado: {EDGE}.", "Fijado: it is split.")],
)
def test_it_is_marked_on_plan_moves_stud_and_crew_sheet(
    at: Site, language: str, plane: str, stud: str
) -> None:
    job = bring(at, "hand")
    hold(at, job)
    for screen in ("plan", "moves"):
        walls = {
            each["wall"]: each["held"] for each in at.twin(f"/job/{job}/{screen}", lang=language)["walls"]
        }
        assert walls["L"]["text"] == plane
        assert walls["B"] is walls["R"] is None
        assert plane in at.page(f"/job/{job}/{screen}", lang=language)
    studs = {
        each["name"]: each["held"]
        for wall in at.twin(f"/job/{job}/plan", lang=language)["walls"]
        for each in wall["studs"]
    }
    assert {name: text for name, text in studs.items() if text} == {"B4": stud}
    told = at.twin(f"/job/{job}/stud/B4", lang=language)
    assert told["is_held"]["text"] == stud
    assert stud not in [step["text"] for step in told["doing"]["steps"]]
    assert at.twin(f"/job/{job}/stud/B1", lang=language)["is_held"] is None
    sheet = at.twin(f"/job/{job}/papers/crew", lang=language)["sheet"]
    planes = {each["wall"]: each["plane"] for each in sheet["walls"]}
    assert [wall for wall, text in planes.items() if text.endswith(plane)] == ["L"]
    steps = {card["name"]: card["steps"][0]["text"] for wall in sheet["walls"] for card in wall["cards"]}
    assert [name for name, text in steps.items() if text == stud] == ["B4"]


def test_a_held_stud_that_is_left_says_so_on_the_crew_sheet(at: Site) -> None:
    job = bring(at, "hand")
    at.send(
        job,
        {"fact": "framing.studs.B1.hold.treatment", "value": "leave"},
        {"fact": "framing.studs.B1.hold.reason", "value": "no dust here"},
    )
    sheet = at.twin(f"/job/{job}/papers/crew")["sheet"]
    told = {name: text for wall in sheet["walls"] for name, text in wall["small"]}
    assert told["B1"].startswith("Held: no dust here. leave")


def test_the_cost_of_what_is_held_is_against_the_plan_that_stood_before(at: Site) -> None:
    """published: convention 8, 43 minutes at $95 an hour for the room with nothing held, and two or three
    dimes of material beside it; the rest by subtraction."""
    job = bring(at, "hand")
    before = at.twin(f"/job/{job}/plan")
    assert before["held"] is None
    assert before["total"]["proof"] == "Proved: no plan costs less."
    hold(at, job)
    after = at.twin(f"/job/{job}/plan")
    more = money(after["total"]["cost"]) - money(before["total"]["cost"])
    assert more > 0
    assert after["held"]["text"] == (
        f"What is held costs ${float(more):.2f} more: {after['total']['cost']} with it, "
        f"{before['total']['cost']} without."
    )
    assert after["total"]["proof"] == "Proved: no plan with what is held costs less."
    moves = at.twin(f"/job/{job}/moves")
    assert moves["cost"]["why"] == "the least with what is held"
    assert moves["held"] == after["held"]


def test_where_the_plan_without_it_is_not_known_it_says_so_and_can_be_asked(at: Site) -> None:
    """independent: the whole program's own plan of the bundled room, which no hold ever touched."""
    job = bring(at, "hand")
    hold(at, job)
    told = at.twin(f"/job/{job}/plan")["held"]
    assert told["text"].startswith("What the hold costs is not known yet")
    path, _, query = told["href"].partition("?")
    asked = at.twin(path, **dict([query.split("=")]))["held"]
    other = site()
    least = other.twin(f"/job/{bring(other, 'hand')}/plan")["total"]["cost"]
    other.store.close()
    assert f"{least} without." in asked["text"]
    assert at.twin(f"/job/{job}/moves")["held"] == asked


def test_letting_go_supersedes_and_erases_nothing(at: Site) -> None:
    job = bring(at, "hand")
    free = at.twin(f"/job/{job}/plan")
    hold(at, job)
    kept = {entry.id for entry in at.store.log(job)}
    for part in (
        next(each["held"] for each in at.twin(f"/job/{job}/plan")["walls"] if each["wall"] == "L"),
        at.twin(f"/job/{job}/stud/B4")["is_held"],
    ):
        form: dict[str, str] = {}
        for n, row in enumerate(part["rows"]):
            form |= {f"fact.{n}": row["fact"], f"stands.{n}": " ".join(row["stands"]), f"withdraw.{n}": "1"}
        assert at.client.post(f"/job/{job}/entries", data=form).status_code == 200
    assert kept <= {entry.id for entry in at.store.log(job)}
    for fact in (f"{PLANE}.offset", f"{PLANE}.reason", f"{STUD}.treatment", f"{STUD}.reason"):
        assert at.value(job, fact) is None
    assert at.twin(f"/job/{job}/plan") == free


def test_a_reason_alone_holds_nothing(at: Site) -> None:
    job = bring(at, "hand")
    at.send(job, {"fact": f"{PLANE}.reason", "value": "later"})
    told = at.twin(f"/job/{job}/plan")
    assert told["held"] is None
    assert not any(each["held"] for each in told["walls"])


DOUBTED = {"en": "in doubt: {}", "es": "dudosa: {}"}


def held_in_doubt(at: Site) -> str:
    """B4 at 36 and L3 at 54 are planted slips (docs/examples.md); B4, B1, L and R are held."""
    job = bring(at, "old-alcove")
    for base, key, value in (
        ("framing.studs.B4.hold", "treatment", "replace"),
        ("framing.studs.B1.hold", "treatment", "leave"),
        ("framing.walls.L.hold", "offset", "1/4"),
        ("framing.walls.R.hold", "offset", "1/16"),
    ):
        at.send(job, {"fact": f"{base}.{key}", "value": value}, {"fact": f"{base}.reason", "value": EDGE})
    return job


@pytest.mark.parametrize(
    ("language", "at_36", "at_54"), [("en", "B4 at 36", "L3 at 54"), ("es", "B4 a 36", "L3 a 54")]
)
def test_what_is_held_over_a_reading_in_doubt_is_marked_so(
    at: Site, language: str, at_36: str, at_54: str
) -> None:
    """independent: the two readings that were planted wrong, and none of the others."""
    job = held_in_doubt(at)
    words = DOUBTED[language]
    plan = at.twin(f"/job/{job}/plan", lang=language, typed="1")
    planes = {wall["wall"]: wall["held"]["doubt"] for wall in plan["walls"] if wall["held"]}
    assert words.format(at_54) in planes["L"]["text"]
    assert planes["L"]["href"].startswith(f"/job/{job}/read/L?at=")
    assert planes["R"] is None
    studs = {each["name"]: each["doubt"] for wall in plan["walls"] for each in wall["studs"]}
    assert words.format(at_36) in studs["B4"]["text"]
    assert [name for name, doubt in studs.items() if doubt] == ["B4"], "B1 is held too, and not in doubt"
    page = at.page(f"/job/{job}/plan", lang=language, typed="1")
    assert words.format(at_36) in page
    assert words.format(at_54) in page
    assert words.format(at_54) in at.page(f"/job/{job}/moves", lang=language, typed="1")
    assert words.format(at_36) in at.twin(f"/job/{job}/stud/B4", lang=language)["is_held"]["doubt"]["text"]
    assert words.format(at_36) in at.page(f"/job/{job}/stud/B4", lang=language)
    assert at.twin(f"/job/{job}/stud/B1", lang=language)["is_held"]["doubt"] is None


def test_read_again_the_hold_is_no_longer_in_doubt(at: Site) -> None:
    job = held_in_doubt(at)
    for fact, value in MENDED.items():
        at.send(job, {"fact": fact, "value": value})
    plan = at.twin(f"/job/{job}/plan")
    assert {wall["wall"] for wall in plan["walls"] if wall["held"]} == {"L", "R"}
    assert not [wall for wall in plan["walls"] if wall["held"] and wall["held"]["doubt"]]
    assert not [each for wall in plan["walls"] for each in wall["studs"] if each["doubt"]]


@pytest.mark.parametrize(
    ("language", "at_36", "at_54"), [("en", "B4 at 36", "L3 at 54"), ("es", "B4 a 36", "L3 a 54")]
)
def test_the_crew_sheet_on_the_phone_carries_the_mark(
    at: Site, language: str, at_36: str, at_54: str
) -> None:
    """independent: word for word what the plan's own screen says of the same hold."""
    job = held_in_doubt(at)
    plan = at.twin(f"/job/{job}/plan", lang=language, typed="1")
    shown = {wall["wall"]: wall["held"]["doubt"] for wall in plan["walls"] if wall["held"]}["L"]["text"]
    page = at.page(f"/job/{job}/papers/crew", lang=language, typed="1")
    assert shown in page
    assert at_54 in shown
    assert DOUBTED[language].format(at_36) in page
