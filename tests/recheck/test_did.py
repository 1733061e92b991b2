"""What a tick was for: it counts while the plan asks the same of the stud, and no longer."""

from __future__ import annotations

import copy
from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.recheck.cast import Again, Room, example, example_again, planned
from undertile.findings import Verdict
from undertile.framing.plan import MemberPlan, Recipe
from undertile.recheck.did import Did, did_of, read_did, tick_of, ticks_of, worked_before
from undertile.recheck.facts import Done
from undertile.recheck.proof import Proof


def ticked(room: Room, did: dict[str, str]) -> Again:
    """Nothing read again: only these ticks."""
    return {"done": {name: {"by": "Ines", **({"did": text} if text else {})} for name, text in did.items()}}


def test_what_a_tick_keeps_by_hand() -> None:
    """independent: read off the plan of docs/examples.md: B2 stands 1/8 and 3/16 proud at 26 and 50, two
    passes each; B4 gets a strip of 1/8 there; the right wall moves 1/16 in, so R2 is planed and shimmed."""
    plan = example().plan
    assert did_of(plan.member("B2"), "in") == "plane; 26: -1/8; 50: -1/8"
    assert did_of(plan.member("B4"), "in") == "strip; 26: +1/8; 50: +1/8"
    assert did_of(plan.member("R2"), "in") == "plane + shim; 26: -1/16; 50: -1/8"
    assert did_of(plan.member("B1"), "in") == "leave"


def test_in_a_job_of_mm_it_is_in_mm() -> None:
    """independent: 1/8 in = 127/40 mm, 26 in = 3302/5 mm."""
    member = example().plan.member("B2")
    assert did_of(member, "mm").split("; ")[1] == "3302/5: -127/40"
    assert read_did(did_of(member, "mm"), "mm") == read_did(did_of(member, "in"), "in")


def test_a_steel_stud_set_again_is_no_new_stud() -> None:
    member = replace(example().plan.member("B1"), recipe=Recipe(("replace",), reset=True))
    assert did_of(member, "in") == "re-set"
    its = read_did("re-set", "in")
    assert its is not None
    assert its.whole


@pytest.mark.parametrize(
    "text", ["", "plane; 48", "plane; 48: x", "plane; 48: 1/0", "plane; 1: 1" + "0" * 600]
)
def test_what_is_no_such_text_says_nothing(text: str) -> None:
    assert read_did(text, "in") is None


def test_what_is_read_back() -> None:
    assert read_did("plane + shim; 48: -1/8; 50: +41/200", "in") == Did(
        ("plane", "shim"), {F(48): F(-1, 8), F(50): F(41, 200)}
    )
    assert read_did("leave", "in") == Did((), {})


def test_worth_of_a_tick() -> None:
    asks = did_of(example().plan.member("B2"), "in")
    assert tick_of("plane; 26: -1/8; 50: -1/8", asks) == "holds"
    assert tick_of("plane; 26: -1/8; 50: -1/16", asks) == "earlier", "another pass"
    assert tick_of("plane; 2: -1/8; 50: -1/8", asks) == "earlier", "another place"
    assert tick_of("sister; 26: -1/8; 50: -1/8", asks) == "earlier", "another treatment"
    assert tick_of("", asks) == "unknown"
    assert tick_of("plane; 26: -1/8", None) == "earlier", "no such stud any more"


def test_where_the_first_readings_are_of_a_face_that_is_gone() -> None:
    plan = example().plan
    done = {
        "B1": Done(did="plane; 50: -1/16"),  # the plan leaves it now
        "B2": Done(did="plane; 26: -1/8; 50: -1/8"),  # as it asks
        "B3": Done(did="shim"),  # changes no face
        "B4": Done(by="Ines"),  # nobody knows
        "R1": Done(did="sister; 2: +1/8"),
        "R3": Done(did="plane; 33: -1/16"),  # a height that is read no more
    }
    every = frozenset(F(z) for z in (2, 26, 50, 74))
    assert worked_before(done, plan, "in") == {"B1": {F(50)}, "B4": every, "R1": every, "R3": every}


def proof_of(room: Room, table: Again) -> Proof:
    found = room.judged(table).proof
    assert found is not None
    return found


def test_a_stud_ticked_for_another_plan_is_read_again_though_the_plan_leaves_it() -> None:
    """B1 was planed at 50 for an earlier plan: its first reading there shows nothing."""
    room = example()
    table = example_again()
    table["done"]["B1"] = {"did": "plane; 50: -1/8", "by": "Ines"}
    del table["walls"]["B"]["studs"]["B1"]
    found = room.judged(table)
    assert ("B1", F(50)) in {(each.stud, each.height) for each in found.missing}
    (why,) = [each.why for each in found.asked if (each.stud, each.height) == ("B1", F(50))]
    assert str(why) == "changed for an earlier plan"
    wall = next(each for each in found.walls if each.wall == "B")
    assert next(each for each in wall.studs if each.stud == "B1").verdict is Verdict.NOT_SHOWN
    assert {each.stud: each.tick for each in proof_of(room, table).done}["B1"] == "earlier"


def test_work_for_another_plan_is_not_taken_as_done() -> None:
    """independent: as if nobody had ticked, the whole work is left; and it is said that the face may be
    neither."""
    room = example()
    asks = {name: did_of(room.plan.member(name), "in") for name in ("B2", "B4", "R2")}
    right, wrong = (
        room.again(ticked(room, each)).left for each in (asks, {**asks, "B2": "plane; 26: -1/16; 50: -1/16"})
    )
    assert right is not None
    assert wrong is not None
    assert "B2" not in {m.name for m in right.members}
    assert {m.name for m in wrong.members} == {"B2"}
    assert any("ticked for another plan" in words for words in wrong.taken)
    assert not any("ticked for another plan" in words for words in right.taken)


def test_a_tick_that_does_not_say_what_for_is_borne_out_by_readings_alone() -> None:
    room = example()
    table = example_again()
    for each in table["done"].values():
        del each["did"]
    plain = room.again(table).left
    assert plain is not None
    assert not any(words.startswith("B2 at 50") for words in plain.taken), "read again: as the plan put it"
    bare = room.again(ticked(room, dict.fromkeys(("B2", "B4", "R2"), ""))).left
    assert bare is not None
    assert {m.name for m in bare.members} == {"B2", "B4", "R2"}


def test_another_reading_elsewhere_leaves_the_tick_and_one_on_the_stud_does_not() -> None:
    """A changed reading changes what the plan asks of that stud; what it does not change stays done."""
    table = copy.deepcopy(example().table)
    before = example().plan
    done = {name: Done(did=did_of(before.member(name), "in")) for name in ("B2", "B4", "R2")}
    readings = table["survey"]["walls"]["B"]["studs"]["B2"]["readings"]
    readings[2] = "5-3/4"  # at 50 it stands 1/4 proud, not 3/16: one pass more
    after = planned(table).plan
    assert ticks_of(done, after, "in") == {"B2": "earlier", "B4": "holds", "R2": "holds"}


def test_every_stud_of_a_plan_says_what_is_read_back() -> None:
    for member in example().plan.members:
        its = read_did(did_of(member, "in"), "in")
        assert its is not None
        assert its.amounts == {z: a for z, a in zip(member.heights, member.amounts, strict=True) if a}
        assert isinstance(member, MemberPlan)
