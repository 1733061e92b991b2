"""The floor's screens: what is next, what is typed, one clear line for what cannot be, pad, papers."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from typing import Any

import pytest

from tests.screens.cast import Site, bring, plans_of, site, typed
from undertile.job import fold, plan
from undertile.packet.floor import floor_sheet
from undertile.screens.slices import key_of

KNOWN = [
    ("unit", "in"),
    ("floor.joists_run", "out from the back wall"),
    ("floor.tile", "ceramic"),
    ("floor.all_joists.make", "sawn"),
    ("floor.all_joists.width", "1-1/2"),
    ("floor.all_joists.depth", "9-1/4"),
    ("floor.all_joists.species", "douglas fir-larch"),
    ("floor.all_joists.grade", "no 2"),
    ("floor.all_joists.span", "144"),
    ("floor.all_joists.bearing", "3-1/2"),
    *((f"floor.joists.J{k}.at", str(16 * k - 8)) for k in range(1, 6)),
    ("floor.loads.on_top.tile.what", "ceramic tile"),
    ("floor.loads.on_top.tile.thickness", "3/8"),
]
"""Joists of which everything is known: dry 2x10, 12 ft clear, 16 in apart, under tile."""
ON_TOP = "floor.loads.on_top."


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def without(facts: list[tuple[str, str]], gone: str) -> list[tuple[str, str]]:
    return [each for each in facts if each[0] != gone]


def post(at: Site, job: str, **rows: str) -> str:
    """A form as a browser without script sends it: where it sends the person."""
    answer = at.client.post(f"/job/{job}/entries", data=rows, follow_redirects=False)
    assert answer.status_code == 303, answer.text[:300]
    return str(answer.headers["location"])


def lines(told: dict[str, Any]) -> list[str]:
    return [each["text"] for each in told["findings"]]


def test_a_floor_just_begun_asks_for_joists_first_and_no_other_screen_does(at: Site) -> None:
    job = at.store.create()
    at.send(job, {"fact": "unit", "value": "in"})
    told = at.twin(f"/job/{job}/floor")
    assert told["next"]["text"] == "Measure the joists from below"
    assert told["next"]["href"].endswith("/floor/type")
    assert "Joists first" in told["empty"]
    assert at.twin(f"/job/{job}")["next"]["text"] == "Say which walls and studs there are", (
        "not begun: not asked"
    )
    assert at.twin(f"/job/{job}/papers/floor")["sheet"] is None
    assert "papers/floor" not in at.page(f"/job/{job}/papers")


def test_it_is_answered_at_once_and_sets_no_search_going(at: Site) -> None:
    """independent: the planner's key is the hash of the facts of the planner's stages."""
    job = bring(at, "wet-corner")
    before = key_of(fold(at.store.log(job)).job)
    told = at.twin(f"/job/{job}/floor")
    assert told["verdict"] == "fail"
    assert told["next"]["text"] == "Have an engineer say what carries it; do not cut more here."
    assert told["next"]["why"] == "Does not pass: Depth of the notch, J2 notch pipe"
    at.page(f"/job/{job}/floor/type")
    at.page(f"/job/{job}/papers/floor")
    ids = [entry.id for entry in at.store.log(job) if entry.fact == "floor.joists.J2.notches.pipe.depth"]
    at.send(job, {"fact": "floor.joists.J2.notches.pipe.depth", "value": "1", "supersedes": ids})
    again = at.twin(f"/job/{job}/floor")
    assert not any(check["code"] == "joist-notch-depth-J2-pipe" for check in again["groups"][0]["checks"])
    assert key_of(fold(at.store.log(job)).job) == before
    assert not plans_of(at), "nothing was searched for"


def test_what_fails_leads_to_where_it_is_typed_and_the_joist_says_that_it_fails(at: Site) -> None:
    """independent: the same notch, judged on its joist's own screen."""
    job = bring(at, "wet-corner")
    joist = f"/job/{job}/floor/joist/J2"
    told = at.twin(f"/job/{job}/floor")
    assert told["next"]["href"] == joist
    said = {each["name"]: each["verdict"] for each in told["joists"]}
    fails = [each for each in at.twin(joist)["checks"] if each["verdict"] == "fail"]
    assert [each["code"] for each in fails] == ["joist-notch-depth-J2-pipe"]
    assert said["J2"] == fails[0]["word"]
    assert {said[each] for each in ("J1", "J3", "J4", "J5")} == {"not shown"}
    page = at.page(joist)
    assert f'class="next" href="{joist}"' not in page, "a step leads nowhere from where it is done"
    opened = re.findall(r'<details class="part" open>\s*<summary><h2>([^<]*)', page)
    assert [html.unescape(each) for each in opened] == ["An engineer's word"]
    word = "floor.joists.J2.engineer."
    for key, value in (
        ("carries", "yes"),
        ("by", "P. Dorn"),
        ("when", "2026-03-08"),
        ("says", "two-by beside it"),
    ):
        at.send(job, {"fact": word + key, "value": value})
    after = at.twin(f"/job/{job}/floor")
    assert {each["name"]: each["verdict"] for each in after["joists"]}["J2"] == "An engineer's word"
    assert after["next"]["href"] == f"/job/{job}/floor/type", "the panel is next: it is typed there"
    assert "open" not in "".join(re.findall(r'<details class="part"[^>]*>', at.page(joist)))


def test_known_joists_carry_the_tile(at: Site) -> None:
    """published: IRC table R502.3.1(2) lets a Douglas fir-larch no. 2 2x10 at 16 in span more than 12 ft."""
    job = typed(at, KNOWN)
    told = at.twin(f"/job/{job}/floor")
    joists = told["joists"]
    assert [each["name"] for each in joists] == ["J1", "J2", "J3", "J4", "J5"]
    assert all(each["passes"] for each in joists)
    at.page(f"/job/{job}/floor/joist/J3")


@pytest.mark.parametrize(
    ("lang", "asks"),
    [
        ("en", "Enter what goes on the subfloor, bed, board, mortar and tile, each with its thickness."),
        ("es", "Anote lo que va sobre el subpiso: cama, tablero, mortero y loseta, cada uno con su grueso."),
    ],
)
def test_what_lies_on_top_is_asked_for_and_is_no_pass_till_then(at: Site, lang: str, asks: str) -> None:
    job = typed(at, [each for each in KNOWN if not each[0].startswith(ON_TOP)])
    told = at.twin(f"/job/{job}/floor", lang=lang)
    assert told["verdict"] == "not shown"
    assert (told["next"]["text"], told["next"]["href"]) == (asks, f"/job/{job}/floor/type")
    assert not any(each["passes"] for each in told["joists"])
    at.send(job, *({"fact": fact, "value": value} for fact, value in KNOWN if fact.startswith(ON_TOP)))
    assert all(each["passes"] for each in at.twin(f"/job/{job}/floor")["joists"])


@pytest.mark.parametrize(
    ("lang", "asks"),
    [("en", "Floor: one thing to measure"), ("es", "Piso: falta una medida")],
)
def test_a_span_that_is_none_is_asked_again(at: Site, lang: str, asks: str) -> None:
    job = typed(at, [*without(KNOWN, "floor.all_joists.span"), ("floor.all_joists.span", "11")])
    told = at.twin(f"/job/{job}/floor", lang=lang)
    assert told["verdict"] == "not shown"
    assert told["next"]["text"] == asks
    assert "L/" not in str(told["groups"][0]["passes"])


def test_a_joist_without_a_span_is_one_line_and_nothing_is_lost(at: Site) -> None:
    job = typed(at, without(KNOWN, "floor.all_joists.span"))
    at.send(job, {"fact": "floor.joists.J1.span", "value": "144"})
    told = at.twin(f"/job/{job}/floor")
    asked = [line for line in lines(told) if "span" in line]
    assert len(asked) == 1, "J2 to J5 alike, told once; J1 has its own"
    assert asked[0] == (
        "joist J2, joist J3, joist J4 and joist J5: the span is not measured; expected its clear span, "
        "bearing to bearing. "
        "Measure it from below, inside face to inside face of what "
        "carries it."
    )
    assert told["next"]["text"] == "Floor: one thing to measure", "one thing, said once"
    assert {each["name"]: each["passes"] for each in told["joists"]} == {
        "J1": True,
        **dict.fromkeys(("J2", "J3", "J4", "J5"), False),
    }
    assert at.value(job, "floor.joists.J2.at") == "24"
    spanish = lines(at.twin(f"/job/{job}/floor", lang="es"))
    assert "y vigueta J5: el claro no está medido; se esperaba su claro libre" in " ".join(spanish)


@pytest.mark.parametrize(("lang", "asks"), [("en", "Measure it from below"), ("es", "Mídalo desde abajo")])
def test_a_stop_at_a_joist_without_a_span_asks_for_the_span_first(at: Site, lang: str, asks: str) -> None:
    """independent: where the middle third is, the span tells; with it the same place is no stop."""
    base = "floor.joists.J2.soft.a"
    soft = [(f"{base}.start", "12"), (f"{base}.length", "6"), (f"{base}.depth", "1")]
    first = at.twin(f"/job/{typed(at, [*without(KNOWN, 'floor.all_joists.span'), *soft])}/floor", lang=lang)
    assert "J2" in first["next"]["text"]
    assert first["next"]["why"].startswith(asks)
    known = at.twin(f"/job/{typed(at, [*KNOWN, *soft])}/floor", lang=lang)
    assert not known["stops"]


def test_a_hole_larger_than_the_joist_is_one_line_and_the_rest_is_judged(at: Site) -> None:
    base = "floor.joists.J3.holes.drain"
    facts = [(f"{base}.at", "30"), (f"{base}.diameter", "12"), (f"{base}.top", "2")]
    good = [
        ("floor.joists.J3.holes.vent.at", "60"),
        ("floor.joists.J3.holes.vent.diameter", "2"),
        ("floor.joists.J3.holes.vent.top", "3"),
    ]
    job = typed(at, [*KNOWN, *facts, *good])
    told = at.twin(f"/job/{job}/floor")
    assert [line for line in lines(told) if "drain" in line] == [
        'J3 hole drain: the hole is 12" wide; expected a hole inside the joist\'s 9-1/4". '
        "Measure it and the joist again."
    ]
    codes = [check["code"] for group in told["groups"] for check in (*group["checks"], *group["passes"])]
    assert "joist-hole-J3-vent" in codes
    assert "joist-hole-J3-drain" not in codes, "what cannot be is not judged"
    joist = at.page(f"/job/{job}/floor/joist/J3")
    assert 'value="12"' in joist, "what was typed stands in its box"
    text = " ".join(lines(at.twin(f"/job/{job}/floor", lang="es")))
    assert (
        'J3, agujero drain: el agujero mide 12"; se esperaba un agujero dentro de los 9-1/4" de la vigueta.'
        in text
    )


@pytest.mark.parametrize(
    ("fact", "typed_as"),
    [
        ("floor.joists.J2.at", "two feet"),
        ("floor.joists.J2.span", "-4"),
        ("floor.joists.J2.notches.pipe.depth", "1-3/7"),
        ("floor.loads.live", "forty"),
        ("floor.level.spots.a1.reading", "4 8"),
        ("floor.patch.panels.shop.on_van", "-1"),
    ],
)
def test_what_is_no_length_or_number_is_one_line_at_its_box_and_nothing_else_is_lost(
    at: Site, fact: str, typed_as: str
) -> None:
    needed = {
        "floor.joists.J2.notches.pipe.depth": [
            ("floor.joists.J2.notches.pipe.start", "8"),
            ("floor.joists.J2.notches.pipe.length", "2"),
        ],
        "floor.level.spots.a1.reading": [("floor.level.spots.a1.x", "0"), ("floor.level.spots.a1.y", "0")],
        "floor.patch.panels.shop.on_van": [("floor.patch.panels.shop.thickness", "23/32")],
    }
    job = typed(at, [*without(KNOWN, fact), *needed.get(fact, [])])
    at.send(job, {"fact": fact, "value": typed_as})
    told = at.twin(f"/job/{job}/doubts")
    assert len([each for each in told["left_out"] if each["fact"] == fact]) == 1, told["left_out"]
    path = "joist/J2" if ".joists." in fact else "read" if fact.endswith(".reading") else "type"
    page = html.unescape(at.page(f"/job/{job}/floor/{path}"))
    assert typed_as in page
    assert ('class="field wrong"' in page) or path == "read"
    assert at.value(job, fact) == typed_as
    names = [each["name"] for each in at.twin(f"/job/{job}/floor")["joists"]]
    assert {"J1", "J3", "J4", "J5"} <= set(names)


def decayed() -> list[tuple[str, str]]:
    base = "floor.joists.J1.soft.end"
    return [*KNOWN, (f"{base}.start", "0"), (f"{base}.length", "9"), (f"{base}.depth", "1/2")]


def test_a_stop_is_first_on_every_screen_and_lifted_only_by_a_person_with_a_reason(at: Site) -> None:
    job = typed(at, decayed())
    at.send(job, {"fact": "survey.walls.B.nominal", "value": "6"})
    at.send(job, {"fact": "survey.walls.B.heights", "value": '["2", "48"]'})
    at.send(job, {"fact": "survey.walls.B.studs.B1.along", "value": "8"})
    assert at.twin(f"/job/{job}")["next"]["text"] == "STOP at the floor: J1 soft end"
    told = at.twin(f"/job/{job}/floor")
    (stop,) = told["stops"]
    assert stop["severity"] == "stop"
    rows = {row["fact"]: row for row in stop["rows"]}
    by = next(fact for fact in rows if fact.endswith(".by"))
    reason = next(fact for fact in rows if fact.endswith(".reason"))
    hidden = {each["fact"]: each["value"] for each in stop["with"]}
    only_name = {
        **{"fact.1": by, "value.1": "Ann", "was.1": "", "stands.1": ""},
        **{
            name: value
            for n, (fact, text) in enumerate(hidden.items())
            for name, value in ((f"fact.w{n}", fact), (f"value.w{n}", text), (f"with.w{n}", "1"))
        },
    }
    post(at, job, **only_name)
    assert at.twin(f"/job/{job}/floor")["stops"], "without a reason it stands"
    assert any("reason" in each["lacks"] for each in at.twin(f"/job/{job}/doubts")["left_out"])
    post(at, job, **{"fact.1": reason, "value.1": "shored, engineer was here", "was.1": "", "stands.1": ""})
    told = at.twin(f"/job/{job}/floor")
    assert told["stops"] == []
    assert any("lifted by Ann: shored, engineer was here" in line for line in lines(told))
    assert at.twin(f"/job/{job}")["next"]["href"].endswith("/read/B"), "then on with the walls"
    sheet = at.twin(f"/job/{job}/papers/floor")["sheet"]
    assert sheet["stops"] == []


def test_an_empty_lift_form_writes_nothing(at: Site) -> None:
    job = typed(at, decayed())
    page = at.page(f"/job/{job}/floor")
    form = re.search(r"<form[^>]*>(?:(?!</form>).)*lifted(?:(?!</form>).)*</form>", page, re.DOTALL)
    assert form
    fields = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', html.unescape(form[0])))
    assert any(name.startswith("with.") for name in fields)
    before = len(at.store.log(job))
    post(at, job, **fields)
    assert len(at.store.log(job)) == before


def test_the_places_to_read_are_laid_out_at_one_tap_and_read_on_the_pad(at: Site) -> None:
    job = typed(at, [*KNOWN, ("pan.pan.width", "60"), ("pan.pan.depth", "32")])
    assert at.twin(f"/job/{job}/floor")["next"]["text"] == "Say where to read the floor under the pan"
    grid = at.twin(f"/job/{job}/floor/type")["grid"]
    assert grid["text"] == "Lay out 24 places to read"
    rows = {
        name: value
        for n, each in enumerate(grid["facts"])
        for name, value in ((f"fact.g{n}", each["fact"]), (f"value.g{n}", each["value"]))
    }
    post(at, job, **rows)
    assert at.twin(f"/job/{job}/floor/type")["grid"] is None
    pad = at.twin(f"/job/{job}/floor/read")
    labels = [row["label"] for row in pad["rows"]]
    assert labels[:8] == ["a1", "b1", "c1", "d1", "e1", "f1", "f2", "e2"], "there and back, as it is walked"
    assert pad["rows"][7]["at"] == "48 from the left, 11 from the back"
    assert pad["unit"] == "in"
    assert at.twin(f"/job/{job}/floor")["next"]["text"] == "Read the floor under the pan: 24 to go"
    for row in pad["rows"][:-1]:
        assert at.send(job, {"fact": row["fact"], "value": "48"})["refused"] == []
    last = pad["rows"][-1]["fact"]
    assert at.twin(f"/job/{job}/floor")["level"]["verdict"] == "not shown", "its corner is not read"
    sent = at.send(job, {"fact": last, "value": "x"})
    assert sent["judged"]["looks"] == []
    told = at.twin(f"/job/{job}/floor")
    assert told["level"]["verdict"] == "not shown", "cannot reach is no reading"
    assert "to go" not in told["next"]["text"], "but somebody tried"
    at.send(job, {"fact": last, "value": "48-1/16", "supersedes": list(sent["ids"].values())})
    assert at.twin(f"/job/{job}/floor")["level"]["verdict"] == "pass"


def test_what_is_read_on_the_new_panel_counts_and_is_asked_for_once_one_is(at: Site) -> None:
    """independent: nine places lie inside the piece cut out; what carries nothing is left as it is."""
    job = bring(at, "wet-corner")
    names = [f"{column}{row}" for column in "abc" for row in "123"]
    pad = {row["fact"]: row["label"] for row in at.twin(f"/job/{job}/floor/read")["rows"]}
    assert [pad[f"floor.level.spots.{name}.on_new"] for name in names] == [f"{name} new" for name in names]
    level = at.twin(f"/job/{job}/floor")["level"]
    assert (level["verdict"], level["work"]) == ("not shown", [])
    assert "to go" not in at.twin(f"/job/{job}")["next"]["text"], "nothing to read before it lies"
    at.send(job, {"fact": "floor.level.spots.a1.on_new", "value": "48-1/16"})
    assert at.twin(f"/job/{job}/floor")["next"]["text"] == "Read the floor on the new panel: 8 to go"
    at.send(job, *({"fact": f"floor.level.spots.{name}.on_new", "value": "48-1/16"} for name in names[1:]))
    told = at.twin(f"/job/{job}/floor")
    assert told["level"]["verdict"] == "fail", "47-15/16 at d2 and 48-1/8 at f1 stay 3/16 apart"
    assert told["level"]["work"]
    assert "to go" not in told["next"]["text"]
    spanish = at.twin(f"/job/{job}/floor/read", lang="es")["rows"]
    assert [row["label"] for row in spanish if row["fact"].endswith("a1.on_new")] == ["a1 nueva"]


def test_a_joist_by_its_name_is_asked_about_on_the_floor_s_own_screen(at: Site) -> None:
    """published: PS 20, a dry 2x10 is 9-1/4 deep."""
    named = [*without(KNOWN, "floor.all_joists.depth"), ("floor.all_joists.depth", "10")]
    told = at.twin(f"/job/{typed(at, named)}/floor")
    (found,) = [each for each in told["findings"] if each["code"] == "size-looks-nominal"]
    assert "A caliper usually shows 9-1/4" in found["text"]
    assert at.twin(f"/job/{typed(at, KNOWN)}/floor")["findings"] == []


def test_a_place_far_from_the_others_is_said_on_the_pad_with_the_key_press(at: Site) -> None:
    job = bring(at, "wet-corner")
    fact = "floor.level.spots.c3.reading"
    ids = [entry.id for entry in at.store.log(job) if entry.fact == fact]
    sent = at.send(job, {"fact": "floor.level.spots.g1.x", "value": "30"})
    at.send(job, {"fact": "floor.level.spots.g1.y", "value": "30"})
    sent = at.send(job, {"fact": "floor.level.spots.g1.reading", "value": "49-1/16"})
    assert [look["fact"] for look in sent["judged"]["looks"]] == ["floor.level.spots.g1.reading"]
    assert ids
    assert at.twin(f"/job/{job}/floor/read")["judged"]["looks"][0]["where"] == "floor at g1"


def test_a_list_without_script_types_the_level_too(at: Site) -> None:
    job = bring(at, "wet-corner")
    page = at.page(f"/job/{job}/floor/read")
    assert page.count('name="value.') == 24 + 9, "and nine again on the new panel"
    assert ">place</th>" in page
    at.page(f"/job/{job}/floor/read", lang="es")


@pytest.mark.parametrize("path", ["floor", "floor/joist/J1", "floor/type"])
def test_in_spanish_nothing_but_a_source_is_left_in_english(at: Site, path: str) -> None:
    job = bring(at, "wet-corner")
    at.send(job, {"fact": "floor.bed.width", "value": "36"}, {"fact": "floor.bed.depth", "value": "36"})
    at.send(job, {"fact": "floor.bed.drain_x", "value": "10"}, {"fact": "floor.bed.drain_y", "value": "18"})
    page = at.page(f"/job/{job}/{path}", lang="es")
    bare = re.sub(r'<p class="source">.*?</p>', "", page, flags=re.DOTALL)
    assert 'lang="en"' not in bare


def test_the_paper_says_on_the_page_all_that_the_sheet_says(at: Site) -> None:
    """independent: the sheet made from the whole plan of the job, as the command line makes it."""
    job = bring(at, "wet-corner")
    for language in ("en", "es"):
        twin = at.twin(f"/job/{job}/papers/floor", lang=language)
        page = html.unescape(re.sub(r"<[^>]*>", " ", at.page(f"/job/{job}/papers/floor", lang=language)))
        flat = "".join(page.split())
        said = list(texts(twin["sheet"]))
        assert len(said) > 50
        for text in said:
            assert "".join(text.split()) in flat, text
    assert at.page(f"/job/{job}/papers/floor").count("<svg") == 2, "the patch, and the panels to cut"
    whole = floor_sheet(plan(fold(at.store.log(job)).job), date="2026-11-25")
    assert whole is not None
    sheet = at.twin(f"/job/{job}/papers/floor", lang="en")["sheet"]
    assert sheet["order"] == list(whole.order)
    assert sheet["cuts"][0]["rows"][0]["pieces"] == list(whole.cuts[0].rows[0].pieces)
    assert "Floor sheet" in at.page(f"/job/{job}/papers")


def texts(told: Any) -> Iterator[str]:
    if isinstance(told, dict):
        for key, value in told.items():
            if key not in ("head", "title", "verdict", "then", "along", "unit"):
                yield from texts(value)
    elif isinstance(told, list):
        for each in told:
            yield from texts(each)
    elif isinstance(told, str) and told:
        yield told


@pytest.mark.parametrize(("language", "head"), [("en", "What moved since"), ("es", "Lo que cambió desde")])
def test_the_crew_sheet_says_what_moved(at: Site, language: str, head: str) -> None:
    wet, dry = bring(at, "wet-corner"), bring(at, "hand")
    assert head in at.page(f"/job/{wet}/papers/crew", lang=language)
    assert head not in at.page(f"/job/{dry}/papers/crew", lang=language)
    moved = at.twin(f"/job/{wet}/papers/crew", lang=language)["sheet"]["moved"]
    assert len(moved["out"]) == 1, "the plate cut out beside the corner"
    assert any("B1" in line for line in moved["shrinks"])
    assert at.twin(f"/job/{dry}/papers/crew", lang=language)["sheet"]["moved"] is None
