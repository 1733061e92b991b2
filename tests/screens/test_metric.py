"""A job in mm is not spoken to in inches, feet, gallons and pounds where the screen speaks by itself."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tests.screens.cast import bring, site, typed, wall
from tests.screens.test_amiss import words
from undertile.lengths import parse_length
from undertile.packet.weights import a_square, volume
from undertile.packet.words import Words
from undertile.screens.words import Says
from undertile.screens.words.metric import METRIC
from undertile.wood.say import as_typed

INCHES = re.compile(r"\b(inch(es)?|pulgadas?|feet|foot|pies?|gallons? of|lb|cu ft|1/\d+)\b|pies³")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("key", METRIC)
def test_words_in_mm_hold_no_inches(key: str, language: str) -> None:
    """independent: a list of the words of feet and inches."""
    there, mm = Says(language), Says(language, "mm")  # type: ignore[arg-type]
    assert there(key) != mm(key)
    assert not INCHES.search(mm(key)), mm(key)


@pytest.mark.parametrize(
    ("lang", "hint", "not_so"),
    [("en", "50, 600, 1200", "2, 24, 48"), ("es", "en mm, como 150", "6-0 son seis pulgadas")],
)
def test_the_room_of_a_job_in_mm_speaks_mm(lang: str, hint: str, not_so: str) -> None:
    at = site()
    told = words(at.page(f"/job/{typed(at, [('unit', 'mm')])}/room", lang=lang))
    assert hint in told
    assert not_so not in told
    assert not_so in words(at.page(f"/job/{typed(at, [('unit', 'in')])}/room", lang=lang))
    at.store.close()


def test_water_down_the_drain_is_asked_for_in_liters() -> None:
    """By hand: 5 US gallons are 18.93 liters, so 20 are no less."""
    assert 5 * 3.785411784 < 20
    at = site()
    job = typed(at, [*wall("B", 3, "mm"), ("wood.leak.symptom", "when used")])
    for lang, mm, inch in (("en", "20 liters", "5 gallons"), ("es", "20 litros", "5 galones")):
        told = words(at.page(f"/job/{job}/water/leak", lang=lang))
        assert mm in told
        assert inch not in told
    other = bring(at, "wet-corner")
    assert "5 gallons" in words(at.page(f"/job/{other}/water/leak", lang="en"))
    at.store.close()


def test_loads_and_volumes_in_mm_are_rounded_up_and_marked() -> None:
    """published: 1 lb = 0.45359237 kg and 1 ft = 0.3048 m, exactly (NIST SP 811, B.8).

    By hand: 40 lb a sq ft are 195.3 kg a square meter.
    """
    assert a_square(Fraction(40), "in") == "40"
    assert a_square(Fraction(40), "mm") == "196"
    assert volume(Fraction(1), Words("en"), "mm") == "about 29 liters", "28.317 and up"
    assert volume(Fraction(1), Words("en"), "in") == "1.00 cu ft"


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [("4", "mm", "4 mm"), ("3/16", "in", '3/16"'), ("4 mm", "in", "4 mm"), ("1' 2\"", "in", "1' 2\"")],
)
def test_a_bare_length_is_said_with_its_unit(text: str, unit: str, said: str) -> None:
    assert as_typed(parse_length(text, unit, whole="inches")) == said  # type: ignore[arg-type]


def test_a_meter_that_never_moved_is_said_without_needless_decimals() -> None:
    """By hand: a mark of 2 gallons in a minute is 2880 a day."""
    at = site()
    base = "wood.leak.dials.Ana 1"
    facts = {
        "when": "2026-03-04",
        "first": "10",
        "last": "10",
        "minutes": "1",
        "finest": "2",
        "unit": "gallons",
    }
    job = typed(at, [("unit", "in"), *((f"{base}.{key}", value) for key, value in facts.items())])
    told = words(at.page(f"/job/{job}/water/leak"))
    assert "2,880 gal a day" in told
    assert ".0 gal" not in told
    assert ".0 h" not in told
    at.store.close()


@pytest.mark.parametrize(("unit", "far", "not_so"), [("mm", "2 m", "6 ft"), ("in", "6 ft", "2 m")])
def test_how_far_off_a_dry_joist_is_read_is_said_in_the_job_s_unit(unit: str, far: str, not_so: str) -> None:
    at = site()
    point = "wood.points.wet"
    facts = [("unit", unit), ("wood.visits.1.when", "2026-11-20"), (f"{point}.member", "other")]
    job = typed(at, [*facts, (f"{point}.material", "lumber"), (f"{point}.shown.1", "24")])
    for lang, joist in (("en", "a joist {} off"), ("es", "una vigueta a {}")):
        told = words(at.page(f"/job/{job}/water", lang=lang))
        is_ft = "6 pies" if lang == "es" else "6 ft"
        assert joist.format(is_ft if far == "6 ft" else far) in told
        assert joist.format(is_ft if not_so == "6 ft" else not_so) not in told
    at.store.close()


@pytest.mark.parametrize(
    ("unit", "asks", "not_so"),
    [("mm", ("litres",), ("gallons",)), ("in", ("gallons",), ("litres",))],
)
def test_a_test_s_form_asks_in_the_unit_of_the_job(
    unit: str, asks: tuple[str, ...], not_so: tuple[str, ...]
) -> None:
    """independent: the form's own rows; what is typed in the other unit stays in sight."""
    at = site()
    job = typed(at, [("unit", unit), ("wood.visits.1.when", "2026-11-20")])
    kinds = {kind["key"]: kind for kind in at.twin(f"/job/{job}/water/leak")["tests"]}
    rows = {
        row["fact"].rpartition(".")[2]: row["label"] for kind in kinds.values() for row in kind["blank"] or ()
    }
    assert rows.keys() >= set(asks)
    assert not rows.keys() & set(not_so)
    (gauge,) = [row for row in kinds["pressures"]["blank"] if row["fact"].endswith("gauge")]
    assert gauge.get("offer", "") == ("psi" if unit == "in" else ""), "seen, and kept with the first number"
    at.store.close()


def test_what_is_typed_in_the_other_unit_stays_in_sight() -> None:
    at = site()
    job = typed(at, [("unit", "in"), ("wood.leak.pours.a.litres", "20")])
    (kind,) = [one for one in at.twin(f"/job/{job}/water/leak")["tests"] if one["key"] == "pours"]
    (made,) = [item["rows"] for item in kind["items"] if item["name"] == "a"]
    told = {row["fact"].rpartition(".")[2]: (row["label"], row["value"]) for row in made}
    assert told["litres"] == ("Liters poured", "20")
    assert told["gallons"] == ("Gallons poured", "")
    at.store.close()
