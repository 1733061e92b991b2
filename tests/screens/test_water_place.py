"""A place is added as a person does: the form that is shown, filled in and sent as a browser sends it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import parse_qsl, urlsplit

import pytest

from tests.screens.cast import Site, bring, site, typed
from tests.screens.forms import Form, Forms, form_of, press
from tests.screens.watercast import wood
from undertile.job.address import join
from undertile.screens.pages.water_point import WOODS
from undertile.wood.run import water

PLACES: dict[str, tuple[dict[str, str], str, dict[str, str]]] = {
    "plate": ({"wall": "R", "along": "52"}, "plate-R-52", {"wall": "R", "along": "52"}),
    "stud": ({"name": "B1", "height": "50"}, "B1-50", {"name": "B1", "wall": "B", "height": "50"}),
    "joist": ({"name": "J7", "along": "13"}, "joist-J7-13", {"name": "J7", "along": "13"}),
    "subfloor": ({"x": "33", "y": "7", "layer": "2"}, "floor2-33-7", {"x": "33", "y": "7", "layer": "2"}),
    "other": ({"called": "sill behind the door"}, "sill behind the door", {}),
}
"""Of each kind of wood: what is typed in its form, the name the place gets, and the facts it then has."""


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def asking(at: Site, path: str, **query: str) -> Form:
    """The form that asks where a place is."""
    page = at.page(path, **query)
    (form,) = [each for each in Forms(page).forms if each.method == "get"]
    return form


def sent(form: Form, boxes: dict[str, str]) -> dict[str, str]:
    """Its query as the browser puts it together: only boxes that are there can be filled in."""
    there = dict(form.values)
    assert boxes.keys() <= there.keys(), f"no box for {boxes.keys() - there.keys()}"
    return there | boxes


def of(at: Site, job: str, name: str) -> dict[str, str]:
    """The facts of a place, as typed."""
    point = wood(at, job).points[name].model_dump(exclude_defaults=True, exclude={"shown"})
    return {key: str(value["text"] if isinstance(value, dict) else value) for key, value in point.items()}


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("job_named", ["wet-corner", "a new job"])
@pytest.mark.parametrize("kind", WOODS)
def test_a_place_of_every_kind_is_added_by_its_own_form(
    at: Site, kind: str, job_named: str, language: str
) -> None:
    """independent: what the shown form holds is sent back as it is; the record then has what was typed."""
    job = bring(at, job_named) if job_named == "wet-corner" else typed(at, [("unit", "in")])
    path = f"/job/{job}/water/point"
    boxes, name, facts = PLACES[kind]
    page = at.page(path, lang=language)
    (link,) = re.findall(rf'href="([^"]*[?&;]member={kind})"', page)
    parts = urlsplit(link.replace("&amp;", "&"))
    query = sent(asking(at, parts.path, **dict(parse_qsl(parts.query)), lang=language), boxes)
    known = set(wood(at, job).points)
    fact = join(("wood", "points", name, "material"))
    back = press(at, form_of(at, path, fact, **query, lang=language), {fact: "lumber"})
    assert set(wood(at, job).points) - known == {name}
    assert of(at, job, name).items() >= {"member": kind, "material": "lumber", **facts}.items()
    parts = urlsplit(back)
    assert dict(parse_qsl(parts.query))["name"] == name
    at.page(parts.path, **dict(parse_qsl(parts.query)), lang=language)


def pressed(at: Site, job: str, page: str, name: str, changes: dict[str, str], /, **query: str) -> str:
    """The form of a place sent with some of its facts typed."""
    facts = {join(("wood", "points", name, *key.split("/"))): text for key, text in changes.items()}
    return press(at, form_of(at, page, next(iter(facts)), **query), facts)


@pytest.mark.parametrize(("language", "head"), [("en", "New wood at"), ("es", "Madera nueva en")])
def test_the_gate_leads_to_where_new_wood_is_entered_in_one_go(at: Site, language: str, head: str) -> None:
    """independent: the link is followed and its one form sent; then the record and the gate."""
    job = bring(at, "wet-corner")
    path, gate = f"/job/{job}/water/point", f"/job/{job}/water/gate"
    old = next(name for name, each in wood(at, job).points.items() if each.member == "plate")
    pressed(at, job, path, old, {"out": "2026-03-08"}, name=old)

    def asked() -> list[dict[str, str]]:
        told = at.twin(gate, lang=language)
        return [each for kind in told["kinds"] if kind["kind"] == "new" for each in kind["missing"]]

    (missing,) = asked()
    parts = urlsplit(missing["href"])
    query = dict(parse_qsl(parts.query)) | {"lang": language}
    told = at.twin(parts.path, **query)
    assert told["title"] == f"{head} {missing['where']}"
    known = set(wood(at, job).points)
    rows = [each["fact"] for each in told["fresh"]["rows"]]
    assert sum(each.endswith(".new") for each in rows) == 1
    assert not [each for each in rows if ".shown." in each], "no reading of a visit before it was put in"
    (fact,) = [each for each in rows if each.endswith(".new")]
    press(at, form_of(at, parts.path, fact, **query), {fact: "2026-03-08"})
    (new,) = set(wood(at, job).points) - known
    point, was = wood(at, job).points[new], wood(at, job).points[old]
    assert (point.new, point.out, was.new, was.out) == ("2026-03-08", "", "", "2026-03-08")
    assert (point.wall, point.along) == (was.wall, was.along)
    (missing,) = asked()  # put in and not read: asked at its own place
    assert dict(parse_qsl(urlsplit(missing["href"]).query))["name"] == new
    pen = at.store.pen("dev0", "Bo", "2026-11-24T10:00:00")
    pen.write(job, "wood.visits.9.when", "2026-03-09")
    pen.write(job, join(("wood", "points", new, "shown", "9")), "11")
    assert asked() == []


def test_the_day_of_new_wood_is_not_asked_for_at_what_is_gone_and_renames_nothing(at: Site) -> None:
    job = bring(at, "wet-corner")
    path = f"/job/{job}/water/point"
    old = next(name for name, each in wood(at, job).points.items() if each.member == "plate")
    title = at.twin(path, name=old)["title"]
    pressed(at, job, path, old, {"out": "2026-03-08"}, name=old)

    def day_asked() -> bool:
        rows = [each["fact"] for part in at.twin(path, name=old)["point"]["parts"] for each in part["rows"]]
        return join(("wood", "points", old, "new")) in rows

    assert not day_asked()
    at.store.pen("dev0", "Bo", "2026-11-24T10:00:00").write(
        job, join(("wood", "points", old, "new")), "2026-03-08"
    )
    assert at.twin(path, name=old)["title"] == title
    assert day_asked(), "what was typed can be taken out again"
    assert "new-on-gone" in {each.code for each in water(wood(at, job)).findings}


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_wall_is_chosen_for_a_plate_and_a_joist_has_no_corner(at: Site, language: str) -> None:
    job = typed(at, [("unit", "in")])
    path = f"/job/{job}/water/point"
    form = asking(at, path, member="plate", lang=language)
    assert dict(form.values)["wall"] == ""
    told = at.twin(path, **sent(form, {"along": "12"}), lang=language)
    assert told["fresh"] is None
    assert told["place"]["fields"][0]["value"] == ""
    (label,) = [
        each["label"]
        for each in at.twin(path, member="joist", lang=language)["place"]["fields"]
        if each["name"] == "along"
    ]
    assert not {"corner", "esquina"} & set(label.replace(",", " ").split())


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_stud_typed_again_is_the_place_that_is_there(at: Site, language: str) -> None:
    job = bring(at, "wet-corner")
    path = f"/job/{job}/water/point"
    query = sent(asking(at, path, member="stud", lang=language), {"name": "B1", "height": "2"})
    told = at.twin(path, **query, lang=language)
    assert told["fresh"] is None
    assert told["point"]["readings"], "its readings"


def test_a_dry_reference_is_added_by_its_own_form(at: Site) -> None:
    job = bring(at, "wet-corner")
    path = f"/job/{job}/water/point"
    query = sent(asking(at, path, member="other", reference="true"), {"called": "hall stud"})
    fact = join(("wood", "points", "hall stud", "reference"))
    press(at, form_of(at, path, fact, **query), {})
    assert wood(at, job).points["hall stud"].reference


@pytest.mark.parametrize(("language", "said"), [("en", "first of its kind"), ("es", "primero de su clase")])
def test_the_first_place_of_its_kind_is_like_no_other(at: Site, language: str, said: str) -> None:
    job = typed(at, [("unit", "in")])
    path = f"/job/{job}/water/point"
    query = {"member": "plate", "wall": "B", "along": "6"}
    told = at.twin(path, **query, lang=language)
    assert said in told["next"]["text"]
    fact = "wood.points.plate-B-6.material"
    press(at, form_of(at, path, fact, **query), {fact: "lumber"})
    told = at.twin(path, **query | {"along": "18"}, lang=language)
    assert said not in told["next"]["text"]


@pytest.mark.parametrize(("language", "begin"), [("en", "Begin visit 4"), ("es", "Empezar la visita 4")])
def test_a_place_added_before_todays_visit_is_begun_is_offered_to_begin_it(
    at: Site, language: str, begin: str
) -> None:
    """independent: the visit is begun by the form the link leads to, on the clock's day; then asked anew."""
    job = bring(at, "wet-corner")
    path = f"/job/{job}/water/point"
    query = {"member": "plate", "wall": "R", "along": "52", "lang": language}

    def readings() -> list[str]:
        rows = [each["fact"] for each in at.twin(path, **query)["fresh"]["rows"]]
        return [each for each in rows if ".shown." in each or ".awl." in each]

    told = at.twin(path, **query)["fresh"]
    assert readings() == [], "no reading under a visit of another day"
    assert told["begin"]["text"] == begin
    assert "2026-03-06" in told["title"]
    parts = urlsplit(told["begin"]["href"])
    fact = "wood.visits.4.when"
    form = form_of(at, parts.path, fact, **dict(parse_qsl(parts.query)), lang=language)
    press(at, form, {fact: "2026-11-25 09:00"})
    assert readings() == ["wood.points.plate-R-52.shown.4", "wood.points.plate-R-52.awl.4"]
    assert at.twin(path, **query)["fresh"]["begin"] is None
