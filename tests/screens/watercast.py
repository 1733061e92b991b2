"""The wet corner after each of its visits, and all that opens its gate, typed as the screens send it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import parse_qsl, urlsplit

from tests.screens.cast import EXAMPLES, Site
from tests.screens.forms import form_of, forms_of, press
from undertile.job import fold, plan, read_job
from undertile.job.entry import Pen
from undertile.job.plain import entries_of
from undertile.packet.cover import cover_line
from undertile.packet.words import Language, Words
from undertile.wood.asof import as_of
from undertile.wood.facts import WoodFacts

SCREENS = ("water", "water/point", "water/rounds", "water/leak", "water/gate")
LATER = "2026-04-10"


def entries_until(visit: str) -> list[Any]:
    """The wet corner's entries as they stood after a visit's day."""
    job = read_job(EXAMPLES / "wet-corner.toml")
    before = job.model_copy(update={"wood": as_of(job.facts()["wood"], visit)})  # type: ignore[arg-type]
    made = entries_of(before, Pen("import", "Bo", "2026-03-02T18:00:00"))
    return [entry for entry in made if entry.value]


def after(at: Site, visit: str) -> str:
    job = at.store.create()
    at.store.append(job, entries_until(visit))
    return job


def go_on(at: Site, job: str, visit: str) -> None:
    """Everything typed between what stands and the end of a visit's day, sent as the screens send it."""
    stands = {entry.fact for entry in at.store.log(job)}
    new = [each for each in entries_until(visit) if each.fact not in stands]
    assert new
    at.send(job, *({"fact": each.fact, "value": each.value} for each in new))


def wood(at: Site, job: str) -> WoodFacts:
    return fold(at.store.log(job)).job.wood  # type: ignore[no-any-return]


def line_of(at: Site, job: str, language: Language = "en") -> str:
    """The one line of every face, of the whole job answered by itself."""
    whole = plan(fold(at.store.log(job)).job, whole=False, today=at.host.now()[:10])
    return cover_line(whole.results["wood"], Words(language))


def stands(at: Site, job: str, fact: str) -> str:
    """The id of the one entry of a fact."""
    (only,) = [entry.id for entry in at.store.log(job) if entry.fact == fact]
    return only


def look(at: Site, href: str, **more: str) -> dict[str, Any]:
    """The twin of a whole address, its query too."""
    parts = urlsplit(href)
    return at.twin(parts.path, **dict(parse_qsl(parts.query)), **more)


def groups(told: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {point["name"]: point for group in told["groups"] for point in group["points"]}


PATCHED = ("floor-6-6", "floor-18-6", "floor-30-6", "floor-6-18", "floor-18-18")
"""Independent: by their places inside the cut lines of patch 1, 0 to 35-3/4 by 0 to 30."""


def settle(at: Site, job: str) -> None:
    """The rest of the tests in the screen's own forms, two more rounds, photos and the inspection."""
    base, path = "wood.leak", f"/job/{job}/water/leak"

    def test(kind: str, **its: str) -> None:
        fresh = next(
            form
            for form in forms_of(at, path)
            if any(f".{kind}.Ana " in fact for fact in form.facts())
            and not any(name.startswith("was.") and value for name, value in form.values)
        )
        name = next(fact for fact in fresh.facts()).split(".")[3]
        press(at, fresh, {f"{base}.{kind}.{name}.{key}": value for key, value in its.items()})

    test("pours", gallons="5", minutes="15", below="dry")
    begun = str(datetime.fromisoformat(at.host.now()[:16]) - timedelta(days=1))[:16]
    test("fills", when=begun, plug="at the strainer", drop="1/32", bowl="1/32", hours="24", below="dry")
    for zone in ("curb", "corners", "lower walls", "valve", "upper walls", "door"):
        test("sprays", zone=zone, minutes="10", shows="dry", drain="plugged")
    press(
        at,
        form_of(at, path, f"{base}.not_here.roof or window.reason"),
        {f"{base}.not_here.roof or window.reason": "no window"},
    )
    assert at.twin(path)["stands"] == []
    # the clock of these tests stands long after: how old a reading may be is tried elsewhere
    drafts = [
        {"fact": "wood.allowed.read_within", "value": "365"},
        {"fact": "wood.allowed.reason", "value": "the clock stands"},
    ]
    for visit, day in (("4", "2026-04-08"), ("5", LATER)):
        drafts += [
            {"fact": f"wood.visits.{visit}.when", "value": f"{day} 16:00"},
            {"fact": f"wood.visits.{visit}.air", "value": "72 F"},
            {"fact": f"wood.visits.{visit}.humidity", "value": "38"},
        ]
        for name, point in wood(at, job).points.items():
            if name in PATCHED:  # cut out with the patch, and typed so
                drafts += [{"fact": f"wood.points.{name}.out", "value": "2026-04-07"}] * (visit == "4")
            elif not point.reference and not point.out:
                drafts.append({"fact": f"wood.points.{name}.shown.{visit}", "value": "12"})
                drafts.append({"fact": f"wood.points.{name}.awl.{visit}", "value": "0"})
        drafts.append({"fact": f"wood.points.plate-R-6.shown.{visit}", "value": "11"})
    drafts += [
        {"fact": "wood.points.plate-R-6.member", "value": "plate"},
        {"fact": "wood.points.plate-R-6.wall", "value": "R"},
        {"fact": "wood.points.plate-R-6.along", "value": "6"},
        {"fact": "wood.points.plate-R-6.material", "value": "lumber"},
        {"fact": "wood.points.plate-R-6.awl.5", "value": "0"},
    ]
    at.send(job, *drafts)
    left = {kind["kind"] for kind in at.twin(f"/job/{job}/water/gate")["kinds"] if kind["missing"]}
    assert left == {"new", "joists", "plan", "photo", "inspection"}, "numbers and tests alone do not open it"
    put_back(at, job)
    at.send(job, *sound())
    kinds = at.twin(f"/job/{job}/water/gate")["kinds"]
    left = {kind["kind"]: [each["where"] for each in kind["missing"]] for kind in kinds if kind["missing"]}
    assert list(left) == ["plan", "photo", "inspection"], left
    gate = f"/job/{job}/water/gate"
    photos = form_of(at, gate, "wood.cover.photos.floor")
    surfaces = ("wall L", "wall B", "wall R", "floor")  # those of the first day are of before the repair
    press(at, photos, {f"wood.cover.photos.{each}": "2026-04-10" for each in surfaces})
    inspection = form_of(at, gate, "wood.cover.inspection")
    press(at, inspection, {"wood.cover.inspection": "passed", "wood.cover.inspected": "2026-04-10"})


def put_back(at: Site, job: str) -> None:
    """New plate where the corner's was cut out, by the form of a new place there; read on both visits."""
    (asked,) = [
        each
        for kind in at.twin(f"/job/{job}/water/gate")["kinds"]
        for each in kind["missing"]
        if kind["kind"] == "new"
    ]
    assert asked["where"] == "plate B at 4"
    assert "2026-03-05" in asked["what"]
    spanish = at.twin(f"/job/{job}/water/gate", lang="es")["kinds"]
    (said,) = [each for kind in spanish for each in kind["missing"] if kind["kind"] == "new"]
    assert said["do"].startswith("Ponga la madera nueva")
    at.twin(f"/job/{job}/water/gate", lang="en")
    base = "wood.points.plate-B-4-new"
    where = {"member": "plate", "wall": "B", "along": "4"}
    new = form_of(at, f"/job/{job}/water/point", f"{base}.new", **where)
    press(at, new, {f"{base}.new": "2026-03-11"})
    read = {f"{base}.shown.5": "11", f"{base}.awl.5": "0"}  # on a round that is not of today: by that round
    at.send(job, *({"fact": fact, "value": value} for fact, value in read.items()))
    kinds = at.twin(f"/job/{job}/water/gate")["kinds"]
    (once,) = [each for kind in kinds for each in kind["missing"] if "plate B at 4" in each["where"]]
    assert once["where"] == "plate B at 4, new"
    assert "at its goal on one visit" in once["what"]
    assert once["href"].endswith("name=plate-B-4-new"), "the new wood, not what is gone"
    at.send(job, {"fact": f"{base}.shown.4", "value": "11.5"})


def sound() -> list[dict[str, str]]:
    """The floor made good: an engineer's word on three joists, each read; a second layer over all of it."""
    facts = {"floor.loads.on_top.second.thickness": "19/32", "floor.loads.on_top.second.what": "plywood"}
    for name in ("J1", "J2", "J3"):
        facts[f"floor.joists.{name}.engineer.carries"] = "yes"
        facts[f"floor.joists.{name}.engineer.by"] = "P. Engel"
        facts[f"floor.joists.{name}.engineer.when"] = "2026-04-07"
        facts[f"wood.points.{name}.member"] = "joist"
        facts[f"wood.points.{name}.name"] = name
        facts[f"wood.points.{name}.material"] = "lumber"
        for visit in ("4", "5"):
            facts[f"wood.points.{name}.shown.{visit}"] = "12"
            facts[f"wood.points.{name}.awl.{visit}"] = "0"
    return [{"fact": fact, "value": value} for fact, value in facts.items()]


ASIDE = {
    "call",
    "kind",
    "standing",
    "candidate",
    "key",
    "source",
    "sources",
    "fact",
    "stands",
    "href",
    "value",
}
ASIDE |= {"choices", "name", "src", "said", "chart", "row", "wood"}


def strings(told: Any, key: str = "") -> Iterator[str]:
    if isinstance(told, dict):
        for name, value in told.items():
            if name not in ASIDE:
                yield from strings(value, name)
    elif isinstance(told, list):
        for each in told:
            yield from strings(each, key)
    elif isinstance(told, str):
        yield told
