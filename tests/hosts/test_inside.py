"""What the worker calls, called here: the page's log in, Python's own entries out, nothing kept by itself."""

from __future__ import annotations

import asyncio
import json
from io import BytesIO
from typing import Any

import pytest
from PIL import Image

from tests.store.cast import NEWER, png
from tests.store.test_picture import heic
from undertile.hosts.phone.inside import Inside, News, search
from undertile.job import Pen, read_job
from undertile.job.plain import entries_of
from undertile.screens.slices import found
from undertile.store import SqliteStore, exchange

JOB = "a" * 32
DEVICE = "d" * 32
NOW = "2026-11-25T08:00:00Z"


def log_text() -> str:
    log = entries_of(read_job("examples/hand.toml"), Pen("e" * 32, "Kim", NOW))
    return "\n".join(entry.to_line() for entry in log)


async def same(content: bytes, kind: str) -> bytes:
    """Stands in for the browser's own decoder and encoder."""
    out = BytesIO()
    Image.open(BytesIO(content)).convert("RGB").save(out, "JPEG")
    return out.getvalue()


class Phone:
    """A worker without a browser."""

    def __init__(self, **settings: Any) -> None:
        self.sent: list[dict[str, str]] = []
        self.notes: list[dict[str, str]] = []
        told = json.dumps({"device": DEVICE, "who": "Ann", **settings})
        self.inside = Inside(told, self.heard, same)

    def heard(self, text: str) -> None:
        told = json.loads(text)
        (self.notes if "note" in told else self.sent).append(told)

    def ask(
        self, method: str, target: str, body: bytes = b"", kind: str = "", accept: str = "application/json"
    ) -> dict[str, Any]:
        headers = json.dumps({"accept": accept, "content-type": kind})
        head, content, photos = asyncio.run(self.inside.ask(method, target, headers, body, NOW))
        return {**json.loads(head), "body": content, "pictures": photos}


def test_what_the_page_has_kept_is_not_handed_back() -> None:
    phone = Phone()
    assert phone.inside.replay(JOB, log_text()) == ""
    answer = phone.ask("GET", f"/job/{JOB}")
    assert (answer["status"], answer["made"]) == (200, {})


def test_what_python_writes_is_handed_back_once_numbered_after_the_page_s_own() -> None:
    phone = Phone()
    own = json.loads(log_text().split("\n")[0]) | {"id": f"{DEVICE}-41", "device": DEVICE, "supersedes": []}
    phone.inside.replay(JOB, json.dumps(own, separators=(",", ":")))
    form = b"fact=place&value=upstairs"
    answer = phone.ask("POST", f"/job/{JOB}/entries", form, "application/x-www-form-urlencoded")
    (line,) = answer["made"][JOB]
    entry = json.loads(line)
    assert (entry["id"], entry["fact"], entry["value"]) == (f"{DEVICE}-42", "place", "upstairs")
    assert (entry["who"], entry["time"]) == ("Ann", NOW)
    phone.inside.replay(JOB, line)
    assert phone.ask("GET", f"/job/{JOB}")["made"] == {}


def test_a_new_job_is_told_of_though_it_holds_nothing_yet() -> None:
    answer = Phone().ask("POST", "/", b"", "application/x-www-form-urlencoded")
    assert list(answer["made"].values()) == [[]]


def test_a_value_of_an_unknown_kind_does_not_keep_the_rest_out() -> None:
    phone = Phone()
    lines = log_text().split("\n")
    assert "restore the line" in phone.inside.replay(JOB, "\n".join(["not an entry", *lines]))
    assert len(phone.inside.store.log(JOB)) == len(lines)


def test_the_plan_is_asked_of_the_other_worker_and_the_same_as_here() -> None:
    """Independent: the search run by the screens themselves."""
    phone, alone = Phone(), Phone(alone=True)
    for each in (phone, alone):
        each.inside.replay(JOB, log_text())
    waiting = json.loads(phone.ask("GET", f"/job/{JOB}/plan")["body"])
    assert waiting["gate"]["state"] == "searching"
    (asked,) = phone.sent
    told: list[tuple[int, str]] = []
    first, answer = search(asked["log"], lambda looked, bound: told.append((looked, bound)))
    phone.inside.searches.heard(asked["search"], 7, "3/2")
    assert "7" in json.loads(phone.ask("GET", f"/job/{JOB}/plan")["body"])["gate"]["looked"]
    phone.inside.searches.came(asked["search"], first)
    assert b"data-later" in phone.ask("GET", f"/job/{JOB}/plan", accept="text/html")["body"]
    phone.inside.searches.came(asked["search"], answer)
    assert phone.ask("GET", f"/job/{JOB}/plan")["body"] == alone.ask("GET", f"/job/{JOB}/plan")["body"]
    assert found(answer).results["framing"].minutes == 43, "convention 8: the room worked by hand"
    assert len(phone.sent) == 1


def test_a_search_that_was_lost_is_asked_for_again() -> None:
    phone = Phone()
    phone.inside.replay(JOB, log_text())
    phone.ask("GET", f"/job/{JOB}/plan")
    phone.inside.searches.lost(phone.sent[0]["search"])
    phone.ask("GET", f"/job/{JOB}/plan")
    assert [each["search"] for each in phone.sent] == [phone.sent[0]["search"]] * 2


def looks_ahead(phone: Phone) -> None:
    """Nobody waits: all that is likely next is worked out."""
    while phone.inside.more():
        pass


def test_the_plan_is_begun_while_a_screen_says_that_it_is_next() -> None:
    phone = Phone()
    phone.inside.replay(JOB, log_text())
    assert json.loads(phone.ask("GET", f"/job/{JOB}")["body"])["next"]["href"] == f"/job/{JOB}/plan"
    assert phone.sent == [], "not before the answer is there"
    looks_ahead(phone)
    (begun,) = phone.sent
    assert begun["early"]
    phone.ask("GET", f"/job/{JOB}")
    looks_ahead(phone)
    assert len(phone.sent) == 1, "it runs"
    phone.ask("GET", f"/job/{JOB}/plan")
    phone.ask("GET", f"/job/{JOB}/plan")
    assert phone.sent[1:] == [{key: begun[key] for key in ("search", "job", "log")}], (
        "somebody waits: said once"
    )
    phone.inside.searches.came(begun["search"], next(search(begun["log"], lambda looked, bound: None)))
    assert json.loads(phone.ask("GET", f"/job/{JOB}/plan")["body"])["state"] == "proved"
    phone.ask("GET", f"/job/{JOB}")
    looks_ahead(phone)
    assert len(phone.sent) == 2, "there is a plan"


def test_a_plan_that_was_stopped_or_is_not_next_is_not_begun_by_itself() -> None:
    phone = Phone()
    phone.inside.replay(JOB, log_text())
    phone.ask("GET", f"/job/{JOB}/plan")
    phone.ask("GET", f"/job/{JOB}/plan?stop=1")
    sent = list(phone.sent)
    assert sent[-1] == {"cancel": sent[0]["search"]}
    phone.ask("GET", f"/job/{JOB}")
    looks_ahead(phone)
    assert phone.sent == sent, "the person gave it up"
    doubted, alone = Phone(), Phone(alone=True)
    log = entries_of(read_job("examples/old-alcove.toml"), Pen("e" * 32, "Kim", NOW))
    for each in (doubted, alone):
        each.inside.replay(JOB, "\n".join(entry.to_line() for entry in log))
        assert json.loads(each.ask("GET", f"/job/{JOB}")["body"])["next"]["href"] != f"/job/{JOB}/plan"
        looks_ahead(each)
        assert each.sent == [], "a reading is in doubt"


def test_a_plan_looked_for_ahead_is_in_no_other_search_s_way() -> None:
    phone = Phone()
    searches = phone.inside.searches
    searches.start(JOB, "asked", "log")
    searches.ahead(JOB, "newer", "log")
    assert [each["search"] for each in phone.sent] == ["asked"]
    searches.lost("asked")
    searches.ahead(JOB, "newer", "log")
    searches.lost("newer")
    searches.ahead(JOB, "newer", "log")
    assert [each["search"] for each in phone.sent] == ["asked", "newer", "newer"], "lost: begun again"


def picture(size: tuple[int, int], **more: Any) -> bytes:
    out = BytesIO()
    Image.new("RGB", size, "white").save(out, "JPEG", **more)
    return out.getvalue()


def test_a_photo_is_drawn_anew_and_handed_to_the_page() -> None:
    place = Image.Exif()
    place[0x8825] = {1: "N", 2: (45.0, 30.0, 0.0)}
    content = picture((40, 30), exif=place)
    assert Image.open(BytesIO(content)).getexif().get_ifd(0x8825)
    phone = Phone()
    phone.inside.replay(JOB, log_text())
    answer = phone.ask("POST", f"/job/{JOB}/photos?place=wall+B", content, "image/jpeg")
    assert answer["status"] == 200, answer["body"]
    ((job, name),) = answer["photos"]
    assert job == JOB
    assert name.endswith(".jpg")
    (kept,) = answer["pictures"]
    assert Image.open(BytesIO(kept)).size == (40, 30)
    assert not Image.open(BytesIO(kept)).getexif().get_ifd(0x8825)
    assert any("photos" in line for line in answer["made"][JOB])


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (picture((40, 30))[:100], "whole photo"),
        (b"no picture", "expected a photo"),
        (picture((8, 8)).replace(b"\x00\x08\x00\x08", b"\x4e\x20\x27\x10"), "megapixels"),
    ],
    ids=["truncated", "other", "200 megapixels"],
)
def test_a_photo_that_cannot_be_kept_is_one_clear_line(content: bytes, says: str) -> None:
    phone = Phone()
    phone.inside.replay(JOB, log_text())
    answer = phone.ask("POST", f"/job/{JOB}/photos", content, "image/jpeg")
    assert answer["status"] == 400
    assert says in json.loads(answer["body"])["error"]
    assert (answer["made"], answer["photos"]) == ({}, [])


def test_heic_where_the_browser_cannot_is_one_line_with_what_to_do() -> None:
    async def cannot(content: bytes, kind: str) -> bytes:
        raise ValueError("InvalidStateError: the source image could not be decoded")

    phone = Phone()
    phone.inside._redraw = cannot
    phone.inside.replay(JOB, log_text())
    answer = phone.ask("POST", f"/job/{JOB}/photos", heic(400, 300), "image/heic")
    said = json.loads(answer["body"])["error"]
    assert said.startswith("expected a photo this browser can open, found HEIC")
    assert "Most Compatible" in said
    assert (answer["made"], answer["photos"]) == ({}, [])


def test_a_copy_is_named_after_the_job_and_opens_again_on_another_phone() -> None:
    phone, other = Phone(), Phone()
    phone.inside.replay(JOB, "\n".join([log_text(), NEWER]))
    phone.inside.bring_photo(JOB, picture((40, 30)))
    name, content = phone.inside.archive(JOB, NOW)
    assert name.endswith("-2026-11-25.undertile.zip")
    answer = other.ask("POST", "/open", content, "application/zip")
    assert answer["status"] == 200
    assert sorted(answer["came"][JOB]) == sorted([*log_text().split("\n"), NEWER]), "a newer line untouched"
    assert answer["made"] == {JOB: []}, "nothing of it is this phone's own"
    assert answer["pictures"] == [picture((40, 30))]
    again = other.ask("POST", "/open", content, "application/zip")
    assert again["came"] == {}
    torn = other.ask("POST", "/open", b"PKtorn", "application/zip")
    assert torn["status"] == 400
    assert (torn["made"], torn["came"], torn["photos"]) == ({}, {}, [])


def test_a_job_file_opened_on_the_phone_is_its_own_and_numbered_once() -> None:
    phone = Phone()
    with open("examples/hand.toml", "rb") as file:
        answer = phone.ask("POST", "/open", file.read(), "application/octet-stream")
    (lines,) = answer["made"].values()
    ids = [json.loads(line)["id"] for line in lines]
    assert ids == [f"{DEVICE}-{number}" for number in range(1, len(lines) + 1)]
    assert answer["came"] == {}


@pytest.mark.parametrize("room", [400_000, 1_500])
def test_what_comes_by_the_exchange_is_handed_to_the_page(room: int) -> None:
    """In one text and in many: entries and photos, those taken over from another job too."""
    phone, laptop = Phone(), SqliteStore()
    laptop.append_lines(laptop.create(JOB), [*log_text().split("\n"), NEWER])
    second = laptop.create()
    for job in (JOB, second):
        laptop.add_photo(job, png(seed=1, size=4_000))
    laptop.add_photo(JOB, png(seed=2, size=4_000))
    assert exchange(phone.inside.store, laptop, room=room).same
    news = phone.inside.store.taken()
    assert sorted(news.came[JOB]) == sorted([*log_text().split("\n"), NEWER])
    expected = [(job, photo.name) for job in (JOB, second) for photo in laptop.photos(job)]
    assert sorted((job, photo.name) for job, photo in news.photos) == sorted(expected)
    assert phone.inside.store.taken() == News()


def test_a_clock_wrong_by_years_is_written_as_it_is_and_decides_nothing() -> None:
    """published: convention 7.3."""
    phone = Phone()
    phone.inside.replay(JOB, log_text())
    form = "application/x-www-form-urlencoded"
    values = []
    for time, value in (("2099-01-01T00:00:00.000Z", "upstairs"), ("1970-01-01T00:00:00.000Z", "down")):
        (stands,) = [entry.id for entry in phone.inside.store.log(JOB) if entry.fact == "place"][-1:] or [""]
        body = f"fact=place&value={value}&stands={stands}".encode()
        head, _, _ = asyncio.run(
            phone.inside.ask("POST", f"/job/{JOB}/entries", json.dumps({"content-type": form}), body, time)
        )
        values += [json.loads(line)["time"] for line in json.loads(head)["made"][JOB]]
    assert values == ["2099-01-01T00:00:00.000Z", "1970-01-01T00:00:00.000Z"]
    page = phone.ask("GET", f"/job/{JOB}", accept="text/html")["body"].decode()
    assert "down" in page
    assert "upstairs" not in page


def test_what_the_plan_came_to_is_the_page_s_to_keep_and_tells_the_next_start() -> None:
    """independent: the same words as the worker before said, which had the plan."""
    phone = Phone(alone=True)
    phone.inside.replay(JOB, log_text())
    phone.ask("GET", f"/job/{JOB}/plan")
    before = json.loads(phone.ask("GET", f"/job/{JOB}")["body"])["next"]
    assert before["text"] == "Start with B2"
    (note,) = phone.notes
    again = Phone()
    again.inside.replay(JOB, log_text())
    again.inside.notes.came(note["job"], note["note"], note["text"])
    assert json.loads(again.ask("GET", f"/job/{JOB}")["body"])["next"] == before
