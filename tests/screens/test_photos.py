"""Photos by wall, stud and stage: sent by a form, cleaned by the host, shown as pictures and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from struct import pack
from urllib.parse import parse_qsl, urlsplit
from zlib import compress, crc32

import pytest

from tests.screens.cast import Site, bring, site
from undertile.screens.pages.photos import STAGES

READING = "survey.walls.B.studs.B2.readings.48"


def png(grey: int) -> bytes:
    """One grey point as a PNG (W3C PNG, 5.3: length, kind, content, CRC)."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return pack(">I", len(content)) + kind + content + pack(">I", crc32(kind + content))

    head = pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", compress(bytes([0, grey])))
        + chunk(b"IEND", b"")
    )


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def send(at: Site, job: str, content: bytes, name: str = "a.png", **told: str) -> int:
    files = {"photo": (name, BytesIO(content), "image/png")}
    return at.client.post(f"/job/{job}/photos", files=files, data=told, follow_redirects=False).status_code


def test_a_photo_is_kept_with_its_place_and_stage(at: Site) -> None:
    job = bring(at, "hand")
    assert send(at, job, png(9), "../../x.sh", place="B2", stage="opened", note="crack 🛁") == 303
    assert send(at, job, png(99), place="wall L", stage="covered") == 303
    told = at.twin(f"/job/{job}/photos")
    assert [(each["place"], each["stage"], each["note"]) for each in told["photos"]] == [
        ("B2", "opened", "crack 🛁"),
        ("wall L", "covered", ""),
    ]
    assert [each["place"] for each in at.twin(f"/job/{job}/photos", place="B2")["photos"]] == ["B2"]
    got = at.client.get(told["photos"][0]["src"])
    assert got.content == png(9)
    assert got.headers["content-type"] == "image/png"
    assert "sandbox" in got.headers["content-security-policy"]
    assert [each["place"] for each in told["missing"]] == ["wall B", "wall R"]


def test_the_photos_not_taken_yet_are_what_the_gate_lacks(at: Site) -> None:
    """independent: the example's photos of the back and left wall are of before the repair; right wall and
    floor lack theirs, and a photo of the floor is offered as one of the floor."""
    job = bring(at, "wet-corner")
    kinds = at.twin(f"/job/{job}/water/gate")["kinds"]
    (photos,) = [each["missing"] for each in kinds if each["kind"] == "photo"]
    told = at.twin(f"/job/{job}/photos")["missing"]
    assert [each["text"] for each in told] == [
        "left wall - before it is covered",
        "back wall - before it is covered",
        "right wall - before it is covered",
        "floor - before it is covered",
    ]
    assert [each["href"] for each in told] == [each["href"] for each in photos]
    floor = photos[3]["href"]
    parts = urlsplit(floor)
    chosen = dict(parse_qsl(parts.query))
    page = at.page(parts.path, **chosen)
    assert '<option value="floor" selected>floor</option>' in page
    assert '<option value="covered" selected>' in page
    spanish = at.twin(parts.path, **chosen, lang="es")
    assert spanish["next"]["text"] == "Tome una foto: piso, antes de tapar"
    assert send(at, job, png(7), place="floor", stage="opened") == 303
    assert at.twin(f"/job/{job}/photos")["confirm"] == [], "only the one before it is covered counts"
    assert send(at, job, png(8), place="floor", stage="covered") == 303
    told = at.twin(f"/job/{job}/photos")
    assert {(each["place"], each["stage"]) for each in told["photos"]} == {
        ("floor", "opened"),
        ("floor", "covered"),
    }
    assert [each["row"]["fact"] for each in told["confirm"]] == ["wood.cover.photos.floor"]
    assert send(at, job, png(9), place="wall L", stage="covered") == 303
    told = at.twin(f"/job/{job}/photos")
    asked = ["wood.cover.photos.floor", "wood.cover.photos.wall L"]
    assert [each["row"]["fact"] for each in told["confirm"]] == asked, "the typed one is of before the repair"
    assert at.twin(f"/job/{job}/doubts")["left_out"] == [], "a fact of the record"


def typed(at: Site, job: str) -> None:
    """Another reading, as the last word of this device."""
    stands = [entry.id for entry in at.store.log(job) if entry.fact == READING]
    at.send(job, {"fact": READING, "value": "5-7/8", "supersedes": stands})


def undone(at: Site, job: str, page: str) -> str:
    """The page after a tap on the way to take back that a page shows."""
    form = re.search(r'<form method="post" action="([^"]*/undo)">(.*?)</form>', page, re.DOTALL)
    assert form
    hidden = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', form[2]))
    return at.client.post(form[1], data=hidden).text


@pytest.mark.parametrize("at_once", [True, False])
def test_one_tap_takes_back_a_photo_with_all_that_was_said_of_it(at: Site, at_once: bool) -> None:
    """independent: what stands of the facts, found by the entries that no other names; in the answer and in
    the record; nothing is erased, and taken again with another stage it stands as that alone."""
    job = bring(at, "hand")
    before = at.value(job, READING)
    typed(at, job)
    assert send(at, job, png(9), place="B2", stage="opened", note="crack") == 303
    mark = next(each.fact for each in at.store.log(job) if each.fact.startswith("photos."))[:-5]
    page = at.page(f"/job/{job}/photos", kept="1") if at_once else at.page(f"/job/{job}/history")
    assert "Taken back: 1" in undone(at, job, page)

    def stands() -> dict[str, str | None]:
        log = [each for each in at.store.log(job) if each.fact.startswith(mark)]
        gone = {name for each in log for name in each.supersedes}
        return {each.fact[len(mark) + 1 :]: each.value for each in log if each.id not in gone}

    assert stands() == {"stud": None, "stage": None, "note": None}
    told = at.twin(f"/job/{job}/photos")
    assert told["photos"] == []
    assert at.store.photos(job), "nothing is erased"
    assert (at.value(job, READING), at.twin(f"/job/{job}/doubts")["left_out"]) == ("5-7/8", [])
    assert send(at, job, png(9), place="wall L", stage="covered") == 303
    (told,) = at.twin(f"/job/{job}/photos")["photos"]
    assert (told["place"], told["stage"], told["note"]) == ("wall L", "covered", "")
    assert at.twin(f"/job/{job}/doubts")["clashes"] == []
    for _ in range(2):  # the photo taken again, then the reading
        undone(at, job, at.page(f"/job/{job}/history"))
    assert at.twin(f"/job/{job}/photos")["photos"] == []
    assert at.value(job, READING) == before


def test_of_a_photo_with_nothing_said_of_it_no_other_word_is_taken_back(at: Site) -> None:
    job = bring(at, "hand")
    typed(at, job)
    assert send(at, job, png(9)) == 303
    assert len(at.twin(f"/job/{job}/photos")["photos"]) == 1
    assert "/undo" not in at.page(f"/job/{job}/photos", kept="1")


@pytest.mark.parametrize("content", [b"", b"<svg onload=alert(1)>", b"GIF89a"])
def test_what_is_no_photo_gets_one_line(at: Site, content: bytes) -> None:
    job = bring(at, "hand")
    assert send(at, job, content) == 400
    assert at.twin(f"/job/{job}/photos")["photos"] == []


def test_without_the_host_s_hands_no_photo_is_taken() -> None:
    at = site()
    at.host.clean_photo = None
    job = bring(at, "hand")
    assert send(at, job, png(1)) == 400
    assert "cannot be taken in here" in at.page(f"/job/{job}/photos")
    at.store.close()


@pytest.mark.parametrize(
    "name", ["x.png", "../style.css", "0" * 64 + ".jpg", "0" * 64 + ".svg", "0" * 64 + ".html"]
)
def test_no_photo_of_that_name(at: Site, name: str) -> None:
    assert at.client.get(f"/photo/{name}").status_code == 404


@pytest.mark.parametrize("name", ["style.css", "pad.js", "mark.svg"])
def test_our_own_files_are_sent_and_kept(at: Site, name: str) -> None:
    first = at.client.get(f"/static/{name}")
    assert first.status_code == 200
    assert (
        at.client.get(f"/static/{name}", headers={"if-none-match": first.headers["etag"]}).status_code == 304
    )
    assert at.client.get("/static/..%2fapp.py").status_code == 404


@pytest.mark.parametrize("stage", STAGES)
def test_every_stage_a_screen_offers_is_one_of_the_record(at: Site, stage: str) -> None:
    job = bring(at, "hand")
    assert send(at, job, png(40), place="wall R", stage=stage) == 303
    assert at.twin(f"/job/{job}/doubts")["left_out"] == []
