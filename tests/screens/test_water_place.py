"""A place is added as a person does: the form that is shown, filled in and sent as a browser sends it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import parse_qsl, urlsplit

import pytest

from tests.screens.cast import Site, bring, site, typed
from tests.screens.forms import Form, Forms, form_of, press
from tests.screens.test_water import wood
from undertile.job.address import join
from undertile.screens.pages.water_point import WOODS

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
    fact = join(("wood", "points", "hall stud", "shown", "3"))
    press(at, form_of(at, path, fact, **query), {fact: "9.5"})
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
