"""What is next, from a job just begun to the proof: one thing at a time, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.cast import Site, bring, site, typed, wall


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def next_of(at: Site, job: str) -> tuple[str, str]:
    told = at.twin(f"/job/{job}")["next"]
    return told["text"], told["href"].removeprefix(f"/job/{job}/")


def asked_of(at: Site, job: str, stud: str) -> str:
    """What a tick on a stud keeps: what the screen asks there."""
    studs = at.twin(f"/job/{job}/work")["studs"]
    (text,) = [each["did"]["asks"] for each in studs if each["name"] == stud]
    assert isinstance(text, str)
    return text


def test_from_nothing_to_a_plan(at: Site) -> None:
    job = at.store.create()
    assert next_of(at, job) == ("Say inches or mm", "room")
    at.send(job, {"fact": "unit", "value": "in"})
    assert next_of(at, job) == ("Say which walls and studs there are", "room")
    for fact, value in wall("B", 2, heights='["2", "48", "90"]')[1:]:
        at.send(job, {"fact": fact, "value": value})
    assert next_of(at, job) == ("Read the back wall: 7 to go", "read/B"), (
        "six readings, and the first one again"
    )
    for stud in ("B1", "B2"):
        for height in ("2", "48"):
            at.send(job, {"fact": f"survey.walls.B.studs.{stud}.readings.{height}", "value": "6"})
    assert next_of(at, job)[1] == "pan", "two heights a stud are enough to start (convention 2.6)"
    at.send(job, {"fact": "pan.pan.width", "value": "60"})
    assert next_of(at, job) == ("See what to do to each stud", "plan")


def test_doubts_and_clashes_come_before_everything(at: Site) -> None:
    job = bring(at, "old-alcove")
    assert next_of(at, job) == ("Read B4 at 36 again", "doubts")
    at.store.pen("dev2", "José", "2031-01-01T00:00:00").write(job, "pan.pan.width", "59-7/8")
    assert next_of(at, job) == ("Settle what was typed twice (1)", "doubts")


def test_from_the_plan_to_the_proof(at: Site) -> None:
    job = bring(at, "hand")
    at.page(f"/job/{job}/plan")
    assert next_of(at, job) == ("Start with B2", "work")
    assert at.twin(f"/job/{job}/work")["left"] == 2, "B2 and B4; the shims go in with the pan"
    at.send(
        job,
        {"fact": "recheck.done.B2.by", "value": "Ana"},
        {"fact": "recheck.done.B2.did", "value": asked_of(at, job, "B2")},
        {"fact": "recheck.done.B2.minutes", "value": "14"},
    )
    assert next_of(at, job) == ("B4 next; 1 stud left", "work")
    told = at.twin(f"/job/{job}/work")
    assert (told["planned"], told["actual"]) == ("Planned 12 min", "took 14 min")
    at.send(
        job,
        {"fact": "recheck.done.B4.by", "value": "Ana"},
        {"fact": "recheck.done.B4.did", "value": asked_of(at, job, "B4")},
    )
    assert next_of(at, job) == ("Read again what was worked on", "recheck")
    # B4's minutes were not noted: it took no 0 minutes; and no face is right by a tick alone
    assert at.twin(f"/job/{job}/work")["actual"] == "1 of 2 noted, they took 14 min"
    left = at.twin(f"/job/{job}/recheck")["left"]
    assert left["text"].startswith("Nothing more by what was read; what was not read again")
    pad = at.twin(f"/job/{job}/recheck/pad")
    asked = [(row["label"], row["at"]) for row in pad["rows"]]
    assert ("B2", "48") in asked
    assert ("B1", "48") in asked, "what stands next to it too"
    assert not any(label.startswith("L") for label, _ in asked), "what was not worked on stands on the survey"
    for row in pad["rows"]:
        also = [{"fact": each["fact"], "value": each["value"]} for each in row["also"]]
        at.send(job, *also, {"fact": row["fact"], "value": "6"})
    assert next_of(at, job) == ("See the proof", "proof")
    proof = at.twin(f"/job/{job}/proof")["proof"]
    assert [each["stud"] for each in proof["done"]] == ["B2", "B4"]
    assert proof["done"][0]["actual"] == "14"
    readings = {(each["stud"], each["height"]): each for wall in proof["walls"] for each in wall["readings"]}
    assert readings["B2", "48"]["text"] == "6"


def test_a_tick_is_taken_back(at: Site) -> None:
    job = bring(at, "hand")
    at.send(job, {"fact": "recheck.done.B2.by", "value": "Ana"})
    page = at.page(f"/job/{job}/work")
    assert "Not done after all" in page
    ids = [entry.id for entry in at.store.log(job) if entry.fact == "recheck.done.B2.by"]
    at.client.post(
        f"/job/{job}/entries",
        data={"fact.1": "recheck.done.B2.by", "stands.1": ids[0], "withdraw.1": "1"},
    )
    assert "Not done after all" not in at.page(f"/job/{job}/work")


def test_a_wall_with_one_height_is_still_to_be_read(at: Site) -> None:
    job = typed(at, wall("B", 2, heights='["2", "48"]'))
    for stud in ("B1", "B2"):
        at.send(job, {"fact": f"survey.walls.B.studs.{stud}.readings.2", "value": "6"})
    assert next_of(at, job)[1] == "read/B"
    for stud in ("B1", "B2"):
        at.send(job, {"fact": f"survey.walls.B.studs.{stud}.readings.48", "value": "x"})
    assert next_of(at, job)[1] == "pan", "cannot reach: somebody tried"
