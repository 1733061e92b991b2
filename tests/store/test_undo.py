"""Taking back: what stood before stands again, nothing is erased, and others are left alone."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.job.cast import OTHER, READING, SETUP
from tests.store.cast import TIME, pen, png
from undertile.errors import InputError
from undertile.job import fold
from undertile.job.address import split
from undertile.job.standing import facts_of
from undertile.store import UNDO, SqliteStore


@pytest.fixture
def store() -> SqliteStore:
    return SqliteStore()


def stands(store: SqliteStore, job: str, fact: str = READING) -> set[str | None]:
    """Values that stand, found by hand: entries that no other entry names."""
    log = store.log(job)
    gone = {name for each in log for name in each.supersedes}
    return {each.value for each in log if each.fact == fact and each.id not in gone}


def test_the_value_before_comes_back_and_nothing_is_erased(store: SqliteStore) -> None:
    job = store.create()
    first = pen(store).write(job, READING, "6-0")
    second = pen(store).write(job, READING, "6-1/16", (first.id,))
    (back,) = store.undo(job, pen(store))
    assert (back.value, back.supersedes, back.instrument) == ("6-0", (second.id,), UNDO)
    assert stands(store, job) == {"6-0"}
    assert [each.value for each in store.history(job, READING)] == ["6-0", "6-1/16", "6-0"]


def test_the_first_value_of_a_fact_is_withdrawn(store: SqliteStore) -> None:
    job = store.create()
    store.append(job, SETUP)
    pen(store).write(job, READING, "6-0")
    store.undo(job, pen(store))
    assert stands(store, job) == {None}
    assert fold(store.log(job)).job == fold(SETUP).job


def test_twice_goes_one_further_back_and_not_forward(store: SqliteStore) -> None:
    job = store.create()
    one = pen(store).write(job, READING, "1")
    two = pen(store).write(job, READING, "2", (one.id,))
    pen(store).write(job, READING, "3", (two.id,))
    store.undo(job, pen(store))
    assert stands(store, job) == {"2"}
    store.undo(job, pen(store))
    assert stands(store, job) == {"1"}
    store.undo(job, pen(store))
    assert stands(store, job) == {None}
    with pytest.raises(InputError, match="nothing to take back"):
        store.undo(job, pen(store))


def test_what_is_typed_after_an_undo_is_taken_back_first(store: SqliteStore) -> None:
    job = store.create()
    one = pen(store).write(job, READING, "1")
    pen(store).write(job, READING, "2", (one.id,))
    (back,) = store.undo(job, pen(store))
    pen(store).write(job, READING, "4", (back.id,))
    store.undo(job, pen(store))
    assert stands(store, job) == {"1"}
    store.undo(job, pen(store))
    assert stands(store, job) == {None}


def test_a_settled_clash_comes_back_as_a_clash(store: SqliteStore) -> None:
    job = store.create()
    mine = pen(store).write(job, READING, "1")
    theirs = pen(store, "phone-2", "Bo").write(job, READING, "2")
    pen(store).write(job, READING, "2", (mine.id, theirs.id))
    assert stands(store, job) == {"2"}
    store.undo(job, pen(store))
    assert stands(store, job) == {"1", "2"}
    store.undo(job, pen(store))  # now my own reading: the other's stays
    assert stands(store, job) == {None, "2"}


def values(store: SqliteStore, job: str, fact: str = READING) -> list[str | None]:
    """What the fold says stands of a fact."""
    return [each.value for each in facts_of(store.log(job))[0][split(fact)].standing]


def test_one_of_two_clashing_values_taken_back_leaves_the_other_alone(store: SqliteStore) -> None:
    """published: convention 7.3, a clash is two values that stand; one that was taken back is none."""
    job = store.create()
    store.append(job, SETUP)
    pen(store).write(job, READING, "1")
    theirs = pen(store, "phone-2", "Bo").write(job, READING, "2")
    assert sorted(map(str, values(store, job))) == ["1", "2"]
    assert fold(store.log(job)).clashes
    store.undo(job, pen(store))
    assert values(store, job) == ["2"]
    assert not fold(store.log(job)).clashes
    pen(store, "phone-2", "Bo").write(job, READING, "3", (theirs.id,))
    assert values(store, job) == ["3"], "and it stays healed when the other goes on"


def test_a_settled_clash_taken_back_twice_leaves_the_other_alone(store: SqliteStore) -> None:
    job = store.create()
    mine = pen(store).write(job, READING, "1")
    theirs = pen(store, "phone-2", "Bo").write(job, READING, "2")
    pen(store).write(job, READING, "2", (mine.id, theirs.id))
    store.undo(job, pen(store))
    assert sorted(map(str, values(store, job))) == ["1", "2"]
    store.undo(job, pen(store))
    assert values(store, job) == ["2"]


def test_taken_back_while_another_built_on_it_is_a_clash(store: SqliteStore) -> None:
    """Bo mended Ann's reading, Ann took it back without having seen that: a person says which."""
    job = store.create()
    mine = pen(store).write(job, READING, "1")
    store.undo(job, pen(store))
    pen(store, "phone-2", "Bo").write(job, READING, "2", (mine.id,))
    assert sorted(map(str, values(store, job))) == ["2", "None"]


def test_a_withdrawal_that_comes_back_still_speaks_against_a_value(store: SqliteStore) -> None:
    job = store.create()
    first = pen(store).write(job, READING, "1")
    gone = pen(store).write(job, READING, None, (first.id,))
    pen(store, "phone-2", "Bo").write(job, READING, "2", (first.id,))
    pen(store).write(job, READING, "3", (gone.id,))
    store.undo(job, pen(store))
    assert sorted(map(str, values(store, job))) == ["2", "None"]


def test_two_values_both_taken_back_leave_nothing_typed(store: SqliteStore) -> None:
    job = store.create()
    store.append(job, SETUP)
    for each in (pen(store), pen(store, "phone-2", "Bo")):
        each.write(job, READING, "1")
    store.undo(job, pen(store))
    store.undo(job, pen(store, "phone-2", "Bo"))
    assert set(values(store, job)) == {None}
    assert not fold(store.log(job)).clashes


def test_another_device_s_correction_is_left_alone(store: SqliteStore) -> None:
    job = store.create()
    mine = pen(store).write(job, READING, "1")
    pen(store, "phone-2", "Bo").write(job, READING, "2", (mine.id,))
    before = store.digest(job)
    with pytest.raises(InputError, match=r"replaced since .*Bo"):
        store.undo(job, pen(store))
    assert store.digest(job) == before


def test_only_this_device_s_entries_are_taken_back(store: SqliteStore) -> None:
    job = store.create()
    pen(store).write(job, READING, "1")
    pen(store, "phone-2", "Bo").write(job, OTHER, "2")
    store.undo(job, pen(store))
    assert stands(store, job) == {None}
    assert stands(store, job, OTHER) == {"2"}


def test_what_it_replaced_must_be_here(store: SqliteStore) -> None:
    job = store.create()
    pen(store).write(job, READING, "1", ("phone-2-7",))
    with pytest.raises(InputError, match="sync first"):
        store.undo(job, pen(store))


def test_the_clock_does_not_decide_what_was_last(store: SqliteStore) -> None:
    """A clock wrong by years: the device's own count says what was last."""
    job = store.create()
    store.pen("phone-1", "Ann", "2099-01-01T00:00Z").write(job, OTHER, "1")
    store.pen("phone-1", "Ann", "1970-01-01T00:00Z").write(job, READING, "2")
    store.undo(job, pen(store))
    assert stands(store, job) == {None}
    assert stands(store, job, OTHER) == {"1"}


def test_one_fact_is_taken_back_though_another_was_typed_since(store: SqliteStore) -> None:
    """A pad takes back what it typed; what came by another screen meanwhile stays the next of its own."""
    job = store.create()
    pen(store).write(job, READING, "1")
    pen(store).write(job, OTHER, "2")
    store.undo(job, pen(store), READING)
    assert (stands(store, job), stands(store, job, OTHER)) == ({None}, {"2"})
    with pytest.raises(InputError, match="nothing to take back: no entry of this device for"):
        store.undo(job, pen(store), READING)
    store.undo(job, pen(store))
    assert stands(store, job, OTHER) == {None}


def test_whoever_lost_the_answer_and_asks_again_takes_nothing_more_back(store: SqliteStore) -> None:
    job = store.create()
    one = pen(store).write(job, READING, "1")
    two = pen(store).write(job, READING, "2", (one.id,))
    first = store.undo(job, pen(store), READING, [two.id])
    before = store.digest(job)
    assert store.undo(job, pen(store), READING, [two.id]) == first
    assert store.digest(job) == before
    store.undo(job, pen(store), READING, [each.id for each in first])
    assert stands(store, job) == {None}


@given(st.lists(st.sampled_from(("type 1", "type 2", "undo")), max_size=14))
def test_undo_is_a_stack(steps: list[str]) -> None:
    """independent: a list of (fact, value before) kept beside, popped by every undo."""
    store, facts = SqliteStore(), {"type 1": READING, "type 2": OTHER}
    job = store.create()
    typed: list[tuple[str, str | None]] = []
    now: dict[str, str | None] = {READING: None, OTHER: None}
    for number, step in enumerate(steps):
        if step == "undo":
            if not typed:
                with pytest.raises(InputError):
                    store.undo(job, pen(store))
                continue
            fact, value = typed.pop()
            store.undo(job, pen(store))
            now[fact] = value
        else:
            fact = facts[step]
            log = store.log(job)
            gone = {name for each in log for name in each.supersedes}
            ids = tuple(each.id for each in log if each.fact == fact and each.id not in gone)
            store.pen("phone-1", "Ann", TIME).write(job, fact, f"{number}", ids)
            typed.append((fact, now[fact]))
            now[fact] = f"{number}"
        store_is = {fact: stands(store, job, fact) or {None} for fact in now}
        assert store_is == {fact: {value} for fact, value in now.items()}


def test_what_was_said_of_a_photo_goes_at_once_and_nothing_before_it(store: SqliteStore) -> None:
    """independent: what stands, by hand. Two photos one after the other at one time are two."""
    job = store.create()
    one = pen(store).write(job, READING, "6-0")
    first = store.add_photo(job, png(seed=1), pen(store), {"wall": "B", "stage": "opened"})
    second = store.add_photo(job, png(seed=2), pen(store), {"stud": "B2", "stage": "covered", "note": "x"})
    store.undo(job, pen(store))
    assert [stands(store, job, second.fact(key)) for key in ("stud", "stage", "note")] == [{None}] * 3
    assert stands(store, job, first.fact("stage")) == {"opened"}
    store.undo(job, pen(store))
    assert [stands(store, job, first.fact(key)) for key in ("wall", "stage")] == [{None}] * 2
    assert stands(store, job) == {"6-0"}
    (back,) = store.undo(job, pen(store))
    assert back.supersedes == (one.id,)


def test_what_was_said_of_a_photo_later_is_taken_back_alone(store: SqliteStore) -> None:
    job = store.create()
    photo = store.add_photo(job, png(seed=1), pen(store), {"wall": "B", "stage": "opened"})
    said = next(each.id for each in store.log(job) if each.fact == photo.fact("stage"))
    pen(store).write(job, photo.fact("stage"), "covered", (said,))
    store.undo(job, pen(store))
    assert stands(store, job, photo.fact("stage")) == {"opened"}
    assert stands(store, job, photo.fact("wall")) == {"B"}
    store.undo(job, pen(store))
    assert [stands(store, job, photo.fact(key)) for key in ("wall", "stage")] == [{None}] * 2


def test_of_a_photo_all_or_nothing_is_taken_back(store: SqliteStore) -> None:
    """What somebody else has said of it since stands, and so does the rest until that is settled."""
    job = store.create()
    photo = store.add_photo(job, png(seed=1), pen(store), {"wall": "B", "stage": "opened"})
    said = next(each.id for each in store.log(job) if each.fact == photo.fact("wall"))
    pen(store, "phone-2", "Bo").write(job, photo.fact("wall"), "L", (said,))
    before = store.digest(job)
    with pytest.raises(InputError, match="replaced since"):
        store.undo(job, pen(store))
    assert store.digest(job) == before
