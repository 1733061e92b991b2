"""A leak that came and went: clean is not believed until a repair is written, or the same test says so twice.

independent: each job is one of the others with one fact changed; the rule is ours (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import DIAL, EVERYTHING, HELD, POUR, PRESSURE, found, sprays, standing, told
from undertile.packet.words.sentences import SPANISH
from undertile.wood.leak import Source

MOVED = DIAL | {"when": "2026-03-03", "last": "412.91"}
CLEAN = DIAL | {"when": "2026-03-06", "first": "415", "last": "415"}
MEND = {"supply": {"when": "2026-03-05", "what": "stop valve packed"}}


def after(kind: str, first: dict[str, Any], *then: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Everything else ruled out; of one kind the test that shows water and those after it."""
    tests = {f"t{number}": each for number, each in enumerate((first, *then))}
    rest = {key: value for key, value in EVERYTHING.items() if key != "pressures"}
    return (
        rest | {"pressures": {"r": PRESSURE | {"of": "riser", "when": "2026-03-02"}}} | {kind: tests} | more
    )


def asked(leak: dict[str, Any]) -> list[str]:
    return [str(each.where) for each in told(leak, "leak-came-and-went")]


def test_a_meter_that_moved_and_moves_no_more_is_asked_what_was_mended() -> None:
    leak = after("dials", MOVED, CLEAN)
    assert standing(leak, "supply") == "open"
    (found_,) = told(leak, "leak-came-and-went")
    assert "0.6" not in found_.found, "the numbers of the test, not of another"
    assert "from 412.31 to 412.91 gallons in 120 min" in found_.found
    assert "then clean (water meter, t1), and no repair is written between" in found_.found
    assert found_.next_step.startswith("Write what was mended and when")
    its = answer(changed(corner(1), leak=leak))
    (lacks,) = [each for each in its.gate.missing if each.kind == "source"]
    assert lacks.next_step == found_.next_step, "the gate asks the same"
    forms = [each.form for each in (found_.expected, found_.next_step)]  # type: ignore[attr-defined]
    assert set(forms) <= set(SPANISH)


def test_a_repair_written_and_a_clean_test_after_it_settle_it() -> None:
    assert standing(after("dials", MOVED, CLEAN, mended=MEND), "supply") == "excluded"
    before = {"supply": MEND["supply"] | {"when": "2026-03-02"}}
    assert standing(after("dials", MOVED, CLEAN, mended=before), "supply") == "open", "mended before it ran"
    late = {"supply": MEND["supply"] | {"when": "2026-03-08"}}
    assert standing(after("dials", MOVED, CLEAN, mended=late), "supply") == "open", "not tested since"


@pytest.mark.parametrize(
    ("second", "stands"),
    [
        ({"when": "2026-03-07"}, "excluded"),
        ({"when": "2026-03-06 20:00"}, "open"),  # the same day tells no more
        ({"when": "2026-03-07", "minutes": 100}, "open"),  # excludes by itself, but not as long
        ({"when": "2026-03-07", "finest": "0.06"}, "open"),  # excludes by itself, but coarser
        ({"when": "2026-03-07", "minutes": 180, "finest": "0.01"}, "excluded"),
        ({"when": "2026-03-07", "last": "415.05"}, "open"),  # it moved again
    ],
)
def test_the_same_test_clean_on_two_days_as_long_and_as_hard_settles_it(
    second: dict[str, Any], stands: str
) -> None:
    leak = after("dials", MOVED, CLEAN, CLEAN | second)
    assert standing(leak, "supply") == stands
    assert bool(asked(leak)) is (stands == "open" and "last" not in second)


def test_another_kind_of_test_does_not_settle_it() -> None:
    """A pressure test of 20 minutes is no two hours of a meter."""
    held = {"a": PRESSURE | {"when": "2026-03-06"}, "b": PRESSURE | {"when": "2026-03-07"}}
    rest = {key: value for key, value in EVERYTHING.items() if key != "pressures"}
    leak = rest | {"dials": {"t": MOVED}, "pressures": held}
    assert standing(leak, "supply") == "open"
    assert asked(leak)


LOST = PRESSURE | {"when": "2026-03-03", "last": 48}
HELD_1 = PRESSURE | {"when": "2026-03-06"}
HELD_2 = PRESSURE | {"when": "2026-03-07"}


def pipes(*tests: dict[str, Any], **more: Any) -> Source:
    return found({"pressures": {f"t{n}": each for n, each in enumerate(tests)}, **more})


def stands(its: Source, candidate: str) -> str:
    return next(each.standing for each in its.stands if each.candidate == candidate)


def test_pipes_that_lost_pressure_and_hold_since_are_asked_too() -> None:
    assert {stands(pipes(LOST, HELD_1), each) for each in ("supply", "riser")} == {"open"}
    assert {stands(pipes(LOST, HELD_1, HELD_2), each) for each in ("supply", "riser")} == {"excluded"}
    mended = {"riser": {"when": "2026-03-04", "what": "head's drop ear"}}
    its = pipes(LOST, HELD_1, mended=mended)
    assert {stands(its, each) for each in ("supply", "riser")} == {"excluded"}, "one of the two was mended"
    lower = HELD_2 | {"first": 55, "last": 55}
    assert stands(pipes(LOST, HELD_1, lower), "supply") == "open", "not as hard"


def test_both_sides_must_hold_twice_where_both_were_lost() -> None:
    """independent: halves of a test add up to it, side by side."""
    halves = [each | {"sides": side} for each in (HELD_1, HELD_2) for side in ("hot", "cold")]
    assert stands(pipes(LOST, *halves), "supply") == "excluded"
    assert stands(pipes(LOST, *halves[:3]), "supply") == "open"
    only = pipes(LOST | {"sides": "hot"}, HELD_1, HELD_2 | {"sides": "hot"})
    assert stands(only, "supply") == "excluded", "the cold side was never lost"


def test_a_part_that_was_found_is_told_as_one_that_leaked() -> None:
    one = LOST | {"of": "supply"}
    its = pipes(one, HELD_1, HELD_2)
    assert stands(its, "supply") == "excluded"
    (said,) = [each for each in its.statement if "the supply pipes" in each]
    assert said.startswith("Water came from the supply pipes, under pressure all the time, and not since: ")
    assert "clean since on 2026-03-06 and 2026-03-07" in said
    assert stands(pipes(one, HELD_1), "supply") == "open"
    assert HELD["of"] == "both"


def test_a_drain_and_a_zone_of_the_walls_by_the_same_rule() -> None:
    wet = POUR | {"below": "wet"}
    dry = [POUR | {"when": day} for day in ("2026-03-06", "2026-03-07")]
    assert standing({"pours": {"a": wet, "b": dry[0]}}, "drain") == "open"
    assert standing({"pours": {"a": wet, "b": dry[0], "c": dry[1]}}, "drain") == "excluded"
    less = dry[1] | {"minutes": 15}
    assert standing({"pours": {"a": wet, "b": dry[0], "c": less}}, "drain") == "open"


def round_of(day: str, **wet: str) -> dict[str, Any]:
    return {
        f"{name} {day}": each | {"when": f"{day} {9 + n:02d}:00"}
        for n, (name, each) in enumerate(sprays(**wet).items())
    }


def test_a_zone_that_was_wet_is_sprayed_dry_on_two_days() -> None:
    fills = {"f": {"when": "2026-03-12", "drop": '1/16"', "bowl": '1/16"', "hours": 24, "below": "dry"}}
    leak: dict[str, Any] = {"fills": fills, "sprays": round_of("2026-03-03", corners="wet")}
    assert standing(leak, "enclosure") == "found"
    leak["sprays"] |= round_of("2026-03-06")
    assert standing(leak, "enclosure") == "open"
    assert asked(leak)
    leak["sprays"] |= {name: each for name, each in round_of("2026-03-07").items() if "curb" in name}
    assert standing(leak, "enclosure") == "open", "another zone says nothing of the corners"
    leak["sprays"] |= {name: each for name, each in round_of("2026-03-08").items() if "corners" in name}
    assert standing(leak, "enclosure") == "excluded"
    assert standing(leak, "pan") == "excluded"
    assert not asked(leak)
