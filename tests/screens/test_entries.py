"""What is typed: forms without script, drafts, entries made elsewhere; nothing is lost or buried."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.screens.cast import NOW, Site, bring, site, typed, wall
from undertile.bundled import ORDER, bundled_jobs
from undertile.errors import StoreError
from undertile.job import fold, read_job
from undertile.job.entry import Entry

READING = "survey.walls.B.studs.B2.readings.48"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def form_of(page: str, fact: str) -> dict[str, str]:
    """The fields of the form row that sets a fact, as a browser would send them."""
    number = re.search(rf'name="fact\.(\w+)" value="{re.escape(fact)}"', page)
    assert number, f"no row for {fact}"
    n = number[1]
    fields = {"back": re.search(r'name="back" value="([^"]*)"', page)[1]}  # type: ignore[index]
    for kind in ("fact", "stands", "was", "value"):
        found = re.search(rf'name="{kind}\.{n}"[^>]*? value="([^"]*)"', page)
        if found:
            fields[f"{kind}.{n}"] = found[1]
    return fields


@pytest.mark.parametrize("name", ORDER)
def test_a_bundled_job_opens_whole_from_the_list(at: Site, name: str) -> None:
    assert f'name="bundled" value="{name}"' in at.page("/")
    answer = at.client.post("/", data={"bundled": name}, follow_redirects=False)
    assert answer.status_code == 303
    job = answer.headers["location"].split("/")[2].partition("?")[0]
    read = fold(at.store.log(job))
    assert not read.left_out
    assert read.job == read_job(bundled_jobs()[name])  # independent: the file as the command line reads it


def test_a_job_that_is_not_bundled_is_refused_in_one_line(at: Site) -> None:
    answer = at.client.post("/", data={"bundled": "no-such"}, follow_redirects=False)
    assert answer.status_code == 400
    assert "expected one of the bundled jobs (old-alcove" in answer.text
    assert at.store.jobs() == []


def test_a_job_is_begun_by_a_form_alone(at: Site) -> None:
    answer = at.client.post(
        "/",
        data={
            "fact.name": "name",
            "value.name": "مرحاض 🛁",
            "fact.unit": "unit",
            "value.unit": "mm",
            "fact.place": "place",
            "value.place": "",
        },
        follow_redirects=False,
    )
    assert answer.status_code == 303
    job = answer.headers["location"].split("/")[2]
    assert re.fullmatch("[0-9a-f]{32}", job)
    assert at.value(job, "name") == "مرحاض 🛁"
    assert at.value(job, "unit") == "mm"
    assert [entry.fact for entry in at.store.log(job)] == ["name", "unit"], "what was left blank is no entry"
    assert "مرحاض 🛁" in at.page("/")


def test_a_form_changes_one_reading_and_says_so(at: Site) -> None:
    job = bring(at, "hand")
    fields = form_of(at.page(f"/job/{job}/read/B"), READING)
    fields = {key: "5-7/8" if key.startswith("value") else value for key, value in fields.items()}
    before = len(at.store.log(job))
    answer = at.client.post(f"/job/{job}/entries", data=fields)
    assert answer.status_code == 200, "the browser is sent back to the page it came from"
    assert answer.url.path == f"/job/{job}/read/B"
    assert "Kept: 1" in answer.text
    assert len(at.store.log(job)) == before + 1
    assert at.value(job, READING) == "5-7/8"
    new = next(entry for entry in at.store.log(job) if entry.value == "5-7/8" and entry.fact == READING)
    assert (new.who, new.device, new.time) == ("Ana", "dev1", NOW)


def test_an_unchanged_form_writes_nothing(at: Site) -> None:
    job = bring(at, "hand")
    before = at.store.digest(job)
    at.client.post(f"/job/{job}/entries", data=form_of(at.page(f"/job/{job}/read/B"), READING))
    assert at.store.digest(job) == before


def test_two_people_changing_one_reading_clash_and_neither_is_buried(at: Site) -> None:
    job = bring(at, "hand")
    fields = form_of(at.page(f"/job/{job}/read/B"), READING)
    for value in ("5-3/4", "5-7/8"):  # both saw the same page
        sent = {key: value if key.startswith("value") else each for key, each in fields.items()}
        at.client.post(f"/job/{job}/entries", data=sent)
    told = at.twin(f"/job/{job}/doubts")
    assert [side["value"] for side in told["clashes"][0]["sides"]] == ["5-3/4", "5-7/8"]
    assert told["next"]["text"].startswith("Settle")
    page = at.page(f"/job/{job}/doubts")
    sides = re.findall(r'<form method="post"[^>]*class="side".*?</form>', page, re.DOTALL)
    assert len(sides) == 2
    chosen = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', sides[1]))
    at.client.post(f"/job/{job}/entries", data=chosen)
    assert at.value(job, READING) == "5-7/8", "one entry settles it, and it supersedes both"
    assert at.twin(f"/job/{job}/doubts")["clashes"] == []
    assert len([entry for entry in at.store.log(job) if entry.fact == READING]) == 4, "all four are kept"


def test_a_form_sent_twice_by_one_glove_counts_once(at: Site) -> None:
    job = bring(at, "hand")
    fields = form_of(at.page(f"/job/{job}/read/B"), READING)
    sent = {key: "5-7/8" if key.startswith("value") else value for key, value in fields.items()}
    at.client.post(f"/job/{job}/entries", data=sent)
    once = at.store.digest(job)
    answer = at.client.post(f"/job/{job}/entries", data=sent)
    assert "Nothing was changed" in answer.text or "Kept: 0" in answer.text
    assert at.store.digest(job) == once
    assert at.twin(f"/job/{job}/doubts")["clashes"] == []


def test_what_a_form_wrote_is_taken_back_whole(at: Site) -> None:
    job = bring(at, "hand")
    facts = {"pan.pan.width": "60", "pan.pan.depth": "32"}
    data: dict[str, str] = {"back": f"/job/{job}/pan"}
    for number, fact in enumerate(facts):
        row = form_of(at.page(f"/job/{job}/pan"), fact)
        for key, value in row.items():
            if key != "back":
                data[f"{key.split('.')[0]}.{number}"] = "59-7/8" if key.startswith("value") else value
    page = at.client.post(f"/job/{job}/entries", data=data).text
    assert "Kept: 2" in page
    form = re.search(r'<form method="post" action="([^"]*/undo)">(.*?)</form>', page, re.DOTALL)
    assert form
    hidden = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', form[2]))
    assert "Taken back: 2" in at.client.post(form[1], data=hidden).text
    assert {fact: at.value(job, fact) for fact in facts} == facts
    assert len([entry for entry in at.store.log(job) if entry.fact in facts]) == 6, "nothing is erased"


def test_nothing_to_take_back_is_said(at: Site) -> None:
    job = bring(at, "hand")
    answer = at.client.post(f"/job/{job}/undo", headers={"accept": "application/json"})
    assert answer.status_code == 400
    assert "nothing to take back" in answer.json()["error"]


def test_the_pad_takes_back_one_fact_once_also_when_it_asks_twice(at: Site) -> None:
    job = bring(at, "hand")
    before = at.value(job, READING)
    stands = [entry.id for entry in at.store.log(job) if entry.fact == READING]
    typed = at.send(job, {"fact": READING, "value": "5-7/8", "supersedes": stands})["ids"][READING]
    asked = {"undo": {"fact": READING, "stands": [typed]}}
    told = [
        at.client.post(f"/job/{job}/entries", json=asked, headers={"accept": "application/json"}).json()
        for _ in range(2)
    ]
    assert told[0]["new"] == told[1]["new"]
    assert at.value(job, READING) == before
    (last,) = (entry for entry in at.store.log(job) if entry.id in told[0]["new"])
    assert (last.instrument, last.supersedes) == ("undo", (typed,))
    for wrong in ("x", {"fact": 1, "stands": []}, {"fact": READING}):
        answer = at.client.post(
            f"/job/{job}/entries", json={"undo": wrong}, headers={"accept": "application/json"}
        )
        assert answer.status_code == 400
        assert "`fact` and `stands`" in answer.json()["error"]


@pytest.mark.parametrize(
    ("device", "said"),
    [
        ("dev1", "this device"),
        ("Ana-María-0123456789abcdef", "Ana María 0123"),
        ("3f" * 16, "device 3f3f"),
        ("the old laptop", "the old laptop"),
    ],
)
def test_history_says_the_device_by_its_name(at: Site, device: str, said: str) -> None:
    job = bring(at, "hand")
    entry = at.store.pen(device, "Bo", NOW).write(job, "name", "Other bath")
    told = at.twin(f"/job/{job}/history")["entries"]
    (row,) = [each for each in told if each["id"] == entry.id]
    assert (row["device"], row["device_said"]) == (device, said)
    assert f">{said}<" in at.page(f"/job/{job}/history")
    assert f">{said}<" in at.page(f"/job/{job}/doubts"), "beside the name that stands: a clash"


def test_a_blank_takes_back_a_length_and_leaves_a_reading_not_measured(at: Site) -> None:
    job = bring(at, "hand")
    for path, fact, after in (("pan", "pan.pan.width", None), ("read/B", READING, "")):
        fields = form_of(at.page(f"/job/{job}/{path}"), fact)
        sent = {key: "" if key.startswith("value") else each for key, each in fields.items()}
        at.client.post(f"/job/{job}/entries", data=sent)
        assert at.value(job, fact) == after


def test_a_list_is_typed_with_commas(at: Site) -> None:
    job = typed(at, [("unit", "in")])
    page = at.page(f"/job/{job}/room")
    fields = form_of(page, "survey.walls.B.heights")
    sent = {key: "2, 24 ;4' 6\"" if key.startswith("value") else each for key, each in fields.items()}
    at.client.post(f"/job/{job}/entries", data=sent)
    assert json.loads(at.value(job, "survey.walls.B.heights") or "") == ["2", "24", "4' 6\""]


def test_a_width_brings_its_depth_along_only_when_it_is_read(at: Site) -> None:
    facts = [*wall("B", 2), *wall("L", 2)[1:], *wall("R", 2)[1:]]
    job = typed(at, facts)
    page = at.page(f"/job/{job}/read/checks")
    hidden = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', page))
    row = next(key for key, value in hidden.items() if value.endswith(".reading") and "widths" in value)
    number = row.removeprefix("fact.")
    at.client.post(f"/job/{job}/entries", data=hidden)
    assert not [entry for entry in at.store.log(job) if "widths" in entry.fact]
    at.client.post(f"/job/{job}/entries", data={**hidden, f"value.{number}": "60-1/4"})
    new = sorted(entry.fact.rsplit(".", 1)[1] for entry in at.store.log(job) if "widths" in entry.fact)
    assert new == ["depth", "height", "reading"]


def test_entries_made_on_a_phone_are_taken_as_they_are_and_once(at: Site) -> None:
    job = "ab" * 16
    entry = Entry("phone-1", "unit", "in", NOW, "José", "phone")
    other = Entry("phone-1", "unit", "mm", NOW, "José", "phone")
    body = {"entries": [json.loads(entry.to_line())]}
    ask = {"accept": "application/json"}
    first = at.client.post(f"/job/{job}/entries", json=body, headers=ask).json()
    again = at.client.post(f"/job/{job}/entries", json=body, headers=ask).json()
    assert (first["new"], first["known"]) == (["phone-1"], [])
    assert (again["new"], again["known"]) == ([], ["phone-1"])
    assert at.store.log(job) == (entry,)
    body = {"entries": [json.loads(other.to_line()), {"id": "torn"}]}
    third = at.client.post(f"/job/{job}/entries", json=body, headers=ask).json()
    assert third["other"] == ["phone-1"], "an id with another content is reported"
    assert len(third["refused"]) == 1


def test_a_typed_value_is_judged_at_once(at: Site) -> None:
    """The slip planted in the old alcove, typed anew into the mended room (docs/examples.md)."""
    job = bring(at, "old-alcove", {"survey.walls.L.studs.L3.readings.54": "5-7/8"})
    ids = [entry.id for entry in at.store.log(job) if entry.fact == "survey.walls.B.studs.B4.readings.36"]
    told = at.send(job, {"fact": "survey.walls.B.studs.B4.readings.36", "value": "6-1/4", "supersedes": ids})
    assert told["judged"]["doubts"] == []
    told = at.send(
        job,
        {
            "fact": "survey.walls.B.studs.B4.readings.36",
            "value": "7-1/4",
            "supersedes": [told["ids"]["survey.walls.B.studs.B4.readings.36"]],
        },
    )
    (doubt,) = told["judged"]["doubts"]
    assert (doubt["where"], doubt["typed"], doubt["offered"]) == ("B4 at 36", "7-1/4", "6-1/4")
    assert doubt["fact"] == "survey.walls.B.studs.B4.readings.36"
    assert told["next"]["text"] == "Read B4 at 36 again"


def test_a_pad_that_asks_for_the_judgement_alone_gets_the_same_one(at: Site) -> None:
    """And it follows the log: the old alcove's slip is named, and no more once mended (docs/examples.md)."""
    job = bring(at, "old-alcove", {"survey.walls.L.studs.L3.readings.54": "5-7/8"})
    fact = "survey.walls.B.studs.B4.readings.36"

    def ask(**more: str) -> Any:
        sent = {"entries": [], **more}
        return at.client.post(f"/job/{job}/entries", json=sent, headers={"accept": "application/json"}).json()

    for value, doubted in (("7-1/4", ["B4 at 36"]), ("6-1/4", []), ("7-1/4", ["B4 at 36"])):
        log = at.store.log(job)
        gone = {name for entry in log for name in entry.supersedes}
        ids = [entry.id for entry in log if entry.fact == fact and entry.id not in gone]
        at.send(job, {"fact": fact, "value": value, "supersedes": ids})
        alone = ask(only="judged")
        assert [each["where"] for each in alone["judged"]["doubts"]] == doubted
        whole = ask()
        assert alone["judged"] == whole["judged"]
        assert "next" in whole
        assert "next" not in alone


def test_what_cannot_be_used_is_kept_named_and_mended(at: Site) -> None:
    job = bring(at, "hand", {READING: "five and a bit"})
    told = at.twin(f"/job/{job}/doubts")
    assert told["left_out"][0]["fact"] == READING
    assert "five and a bit" in at.page(f"/job/{job}/doubts")
    assert at.value(job, READING) == "five and a bit"


@pytest.mark.parametrize(
    ("data", "status"),
    [
        ({"fact": "no.such.fact", "value": "1"}, 400),
        ({"fact": "unit"}, 303),
        ({}, 303),
        ({"fact": "x" * 400, "value": "1"}, 400),
    ],
)
def test_bad_forms_get_one_line_and_write_nothing(at: Site, data: dict[str, str], status: int) -> None:
    job = bring(at, "hand")
    before = at.store.digest(job)
    answer = at.client.post(f"/job/{job}/entries", data=data, follow_redirects=False)
    assert answer.status_code == status
    assert at.store.digest(job) == before


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b'{"entries": 5}',
        b'{"drafts": [5]}',
        b'{"drafts": [{"fact": "unit", "value": 5}]}',
        b"\xff",
    ],
)
def test_bad_json_gets_one_line_and_writes_nothing(at: Site, body: bytes) -> None:
    job = bring(at, "hand")
    before = at.store.digest(job)
    headers = {"content-type": "application/json", "accept": "application/json"}
    answer = at.client.post(f"/job/{job}/entries", content=body, headers=headers)
    assert answer.status_code == 400
    assert "expected" in answer.json()["error"]
    assert "\n" not in answer.json()["error"]
    assert at.store.digest(job) == before


def test_too_much_at_once_is_refused(at: Site) -> None:
    job = bring(at, "hand")
    answer = at.client.post(f"/job/{job}/entries", content=b"x" * 2_000_001)
    assert answer.status_code == 400
    assert "at most 2 MB" in answer.text


def test_what_another_site_sends_is_refused(at: Site) -> None:
    job = bring(at, "hand")
    headers = {"sec-fetch-site": "cross-site"}
    answer = at.client.post(f"/job/{job}/entries", data={"fact": "name", "value": "x"}, headers=headers)
    assert answer.status_code == 400
    assert at.value(job, "name") != "x"


def test_a_form_sends_nobody_to_another_place(at: Site) -> None:
    job = bring(at, "hand")
    for back in ("https://elsewhere.example/", "//elsewhere.example", f"/job/{job}evil", "/job/other/plan"):
        data = {"fact": "name", "value": "x", "back": back}
        answer = at.client.post(f"/job/{job}/entries", data=data, follow_redirects=False)
        assert answer.headers["location"].startswith(f"/job/{job}?")


def test_a_fault_of_ours_is_said_in_words_and_loses_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    at = site()
    job = bring(at, "hand")

    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("undertile.screens.pages.job.progress", broken)
    client = TestClient(at.client.app, raise_server_exceptions=False)
    answer = client.get(f"/job/{job}", headers={"accept": "text/html"})
    assert answer.status_code == 500
    assert "What was typed is kept" in answer.text
    at.store.close()


def test_a_job_that_is_not_here_is_said_in_words(at: Site) -> None:
    answer = at.client.get("/job/" + "0" * 32, headers={"accept": "text/html"})
    assert answer.status_code == 404
    assert "not on this device" in answer.text
    told = at.client.get("/job/nonsense/plan", headers={"accept": "application/json"})
    assert told.status_code == 404
    assert told.json()["error"]
    assert at.client.get("/nowhere").status_code == 404


def test_a_full_disk_is_said_and_the_form_can_be_sent_again(
    at: Site, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = bring(at, "hand")

    def full(*_: object) -> None:
        raise StoreError("full", "the disk is full: make room and type it again")

    with monkeypatch.context() as patch:
        patch.setattr(at.store, "write", full)
        for accept in ("text/html", "application/json"):
            answer = at.client.post(
                f"/job/{job}/entries", data={"fact": "name", "value": "x"}, headers={"accept": accept}
            )
            assert answer.status_code == 503
            assert "the disk is full: make room" in answer.text
    at.client.post(f"/job/{job}/entries", data={"fact": "name", "value": "x"})
    assert at.value(job, "name") == "x"
