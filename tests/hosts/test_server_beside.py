"""Who stands where: held for some seconds, one job at a time, for paired phones alone."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.hosts.server_room import NOW, Room
from undertile.hosts.server.beside import HELD_S, MOST, PATH, Stands

JOB, OTHER = "a" * 32, "b" * 32


def test_a_stand_is_forgotten_moved_and_kept_to_its_job() -> None:
    clock = [0.0]
    stands = Stands(lambda: clock[0])
    assert stands.say("one", "Ann", JOB, "B1") == []
    assert stands.say("two", "Bo", JOB, "B2") == [{"who": "Ann", "fact": "B1"}]
    assert stands.say("one", "Ann", JOB, "B3") == [{"who": "Bo", "fact": "B2"}]
    assert stands.say("two", "Bo", JOB, "B2") == [{"who": "Ann", "fact": "B3"}], "one place each"
    assert stands.say("three", "Cy", OTHER, "B1") == [], "another job"
    clock[0] = HELD_S - 1
    stands.say("two", "Bo", JOB, "B2")
    clock[0] = HELD_S + 1
    assert stands.say("four", "Di", JOB, "") == [{"who": "Bo", "fact": "B2"}], "Ann said nothing for too long"
    stands.say("two", "Bo", JOB, "")
    assert stands.say("four", "Di", JOB, "") == [], "gone from there"


def test_no_crowd_fills_the_memory() -> None:
    stands = Stands(lambda: 0.0)
    for number in range(10 * MOST):
        stands.say(str(number), "x", JOB, "B1")
    assert len(stands.say("me", "Ann", JOB, "")) == MOST


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Room]:
    made = Room(tmp_path)
    yield made
    made.stop()


def test_phones_and_the_laptop_hear_of_each_other_under_the_names_they_were_paired_with(room: Room) -> None:
    ann, bo = room.pair("Ann"), room.pair("Bo")
    with room.store() as store:
        store.create(JOB)
        store.pen("d" * 32, "Lee", NOW).write(JOB, "name", "x")
        digest = store.digest(JOB)

    def body(device: str, fact: str) -> bytes:
        return json.dumps({"device": device, "job": JOB, "fact": fact, "who": "somebody else"}).encode()

    told = json.loads(room.ask("POST", PATH, body("one", "B1"), ann).text)
    assert told == {"others": [], "digest": digest}
    assert json.loads(room.ask("POST", PATH, body("two", "B2"), bo).text)["others"] == [
        {"who": "Ann", "fact": "B1"}
    ]
    desk = json.loads(room.ask_plain(room.desk, "POST", PATH, body("three", "B3")).text)
    assert desk["others"] == [{"who": "Ann", "fact": "B1"}, {"who": "Bo", "fact": "B2"}]
    assert room.ask("POST", PATH, body("four", "B4")).status == 401, "a stranger"
    for wrong in (
        b"",
        b"x" * 3000,
        b"[]",
        b'{"device":"","job":"","fact":""}',
        body("x", "B1").replace(b'"B1"', b"1"),
    ):
        reply = room.ask("POST", PATH, wrong, ann)
        assert (reply.status, "open the pad again" in reply.text) == (400, True)
    assert room.ask("GET", PATH, b"", ann).status == 405
