"""Two stores exchanged: what each lacks goes over once, with holes, clashes, lost answers and old age."""

from __future__ import annotations

import json

import pytest

from tests.job.cast import READING
from tests.store.cast import NEWER, entry, pen, png
from undertile.errors import InputError
from undertile.job import fold, merge
from undertile.store import SqliteStore, Talk, exchange, picture, serve, sync
from undertile.store.message import JobTalk, Message, Piece, read_message
from undertile.store.summary import short

JOB = "ab" * 16


def filled(*ids: str, job: str = JOB) -> SqliteStore:
    store = SqliteStore()
    store.create(job)
    store.append(job, [entry(each) for each in ids])
    return store


def ids(store: SqliteStore, job: str = JOB) -> list[str]:
    return [line.id for line in store.lines(job)]


def test_both_end_with_the_union() -> None:
    """independent: the set union that job.entry defines."""
    mine, theirs = filled("a-1", "a-2"), filled("b-1", "a-1")
    both = merge(mine.log(JOB), theirs.log(JOB))
    assert exchange(mine, theirs).same
    assert mine.log(JOB) == theirs.log(JOB) == both


def test_holes_in_a_sequence_are_filled() -> None:
    """phone_stack 4: the highest number alone would say that nothing is lacking."""
    mine, theirs = filled("a-1", "a-2", "a-3", "a-9"), filled("a-9", "a-2")
    exchange(theirs, mine)
    assert ids(theirs) == ["a-1", "a-2", "a-3", "a-9"]


def test_a_known_id_with_other_content_goes_over_both_ways() -> None:
    """published: convention 7.4; a summary of numbers alone could not see it."""
    mine, theirs = filled(), filled()
    mine.append(JOB, [entry("a-1", "6-0")])
    theirs.append(JOB, [entry("a-1", "6-1/2")])
    talk = exchange(mine, theirs)
    assert talk.taken.entries[JOB].other == ("a-1",)
    assert mine.digest(JOB) == theirs.digest(JOB)
    codes = [finding.code for finding in fold(mine.log(JOB)).findings]
    assert "entry-id-reused" in codes


def test_a_clash_is_two_values_side_by_side() -> None:
    """published: convention 7.3."""
    mine, theirs = filled(), filled()
    pen(mine, "a", "Ann").write(JOB, READING, "6-0")
    pen(theirs, "b", "Bo").write(JOB, READING, "6-1/2")
    exchange(mine, theirs)
    (clash,) = fold(mine.log(JOB)).clashes
    assert {(each.value, each.who) for each in clash.entries} == {("6-0", "Ann"), ("6-1/2", "Bo")}


def test_a_job_only_one_side_has_goes_over_either_way() -> None:
    mine, theirs = filled("a-1"), filled("b-1", job="cd" * 16)
    theirs.create("ef" * 16)
    assert exchange(mine, theirs).same
    assert mine.ids() == theirs.ids() == (JOB, "cd" * 16, "ef" * 16)


def test_only_the_jobs_asked_for_go_over() -> None:
    mine, theirs = filled("a-1"), filled("b-1")
    mine.create("cd" * 16)
    theirs.create("ef" * 16)
    talk = Talk(mine, [JOB])
    text: str | None = talk.first()
    while text is not None:
        text = talk.next(serve(theirs, text)[0])
    assert ids(mine) == ids(theirs) == ["a-1", "b-1"]
    assert mine.ids() == (JOB, "cd" * 16)
    assert theirs.ids() == (JOB, "ef" * 16)


@pytest.mark.parametrize("room", [1, 300, 400_000])
def test_a_large_difference_goes_over_in_answers_of_any_size(room: int) -> None:
    mine = filled(*(f"a-{number}" for number in range(150)))
    theirs = filled(*(f"a-{number}" for number in range(0, 150, 2)), *(f"b-{number}" for number in range(60)))
    assert exchange(mine, theirs, room=room).same
    assert sorted(ids(mine)) == sorted(
        {f"a-{number}" for number in range(150)} | {f"b-{number}" for number in range(60)}
    )
    assert mine.digest(JOB) == theirs.digest(JOB)


def test_more_than_can_be_offered_at_once_comes_in_the_next_round(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sync, "MAX_OFFER", 3)
    mine, theirs = (
        filled(*(f"a-{number}" for number in range(40))),
        filled(*(f"b-{number}" for number in range(40))),
    )
    assert exchange(mine, theirs, room=1000).same
    assert len(ids(mine)) == len(ids(theirs)) == 80


def test_one_new_entry_costs_a_few_small_messages() -> None:
    mine = filled(*(f"a-{number}" for number in range(2000)))
    theirs = filled(*(f"a-{number}" for number in range(2000)))
    mine.append(JOB, [entry("a-2000")])
    sent = []
    talk = Talk(mine)
    text: str | None = talk.first()
    while text is not None:
        reply, _ = serve(theirs, text)
        sent += [text, reply]
        text = talk.next(reply)
    assert talk.same
    assert len(sent) <= 10
    assert sum(map(len, sent)) < 12_000  # the log itself is over 300,000


def test_nothing_new_costs_one_question() -> None:
    mine, theirs = filled("a-1"), filled("a-1")
    talk = Talk(mine)
    assert talk.next(serve(theirs, talk.first())[0]) is None
    assert talk.same


@pytest.mark.parametrize("lost", range(1, 6))
def test_a_lost_answer_is_made_good_by_starting_again(lost: int) -> None:
    """The other side has kept what was sent; its answer never came."""
    mine = filled(*(f"a-{number}" for number in range(120)))
    theirs = filled(*(f"b-{number}" for number in range(120)))
    talk = Talk(mine, room=4000)
    text: str | None = talk.first()
    for _ in range(lost):
        assert text is not None
        reply, _ = serve(theirs, text)
        text = talk.next(reply)
    if text is not None:
        serve(theirs, text)
    assert exchange(mine, theirs).same
    assert len(ids(mine)) == len(set(ids(mine))) == 240


def test_an_answer_cut_short_is_one_line_and_changes_nothing() -> None:
    mine, theirs = filled("a-1"), filled("b-1")
    talk = Talk(mine)
    reply, _ = serve(theirs, talk.first())
    for end in range(0, len(reply), 7):
        with pytest.raises(InputError, match="start it again"):
            talk.next(reply[:end])
    assert ids(mine) == ["a-1"]
    assert exchange(mine, theirs).same


def test_messages_may_come_twice_and_in_any_order() -> None:
    mine, theirs = filled("a-1", "a-2"), filled("b-1")
    heard = []
    talk = Talk(mine)
    text: str | None = talk.first()
    while text is not None:
        heard.append(text)
        text = talk.next(serve(theirs, text)[0])
    for again in [*reversed(heard), *heard]:
        serve(theirs, again)
    assert ids(theirs) == ["a-1", "a-2", "b-1"]


def test_a_newer_entry_goes_through_an_old_phone_untouched() -> None:
    """New phone to old phone to laptop: byte for byte, though the old phone cannot read it."""
    new, old, laptop = filled(), filled("a-1"), filled()
    new.append_lines(JOB, [NEWER])
    exchange(old, new)
    exchange(laptop, old)
    assert [line.text for line in laptop.lines(JOB) if line.id == "phone-9-1"] == [NEWER]
    assert [each.id for each in laptop.log(JOB)] == ["a-1"]
    assert laptop.digest(JOB) == old.digest(JOB)


def test_a_value_is_not_read_on_the_way() -> None:
    """phone_stack 4: the trap where "620/16" came out as "155/4"."""
    mine, theirs = filled(), filled()
    mine.append(JOB, [entry("a-1", "620/16"), entry("a-2", " 06.50 ")])
    exchange(mine, theirs)
    assert [each.value for each in theirs.log(JOB)] == ["620/16", " 06.50 "]


def test_copied_names_what_the_other_side_has_been_seen_to_hold() -> None:
    mine, theirs = filled("a-1", "a-2"), filled()
    talk = Talk(mine)
    text: str | None = talk.first()
    while text is not None:
        assert talk.copied == {}
        reply, _ = serve(theirs, text)
        mine.append(JOB, [entry("a-3")])  # typed while the answer was on its way
        text = talk.next(reply)
    held = set(ids(theirs))
    assert set(talk.copied[JOB]) <= held
    assert talk.copied[JOB] == ("a-1", "a-2", "a-3")


def test_what_is_typed_during_the_last_answer_is_not_called_copied() -> None:
    mine, theirs = filled("a-1"), filled("a-1")
    talk = Talk(mine)
    reply, _ = serve(theirs, talk.first())
    mine.append(JOB, [entry("a-2")])
    assert talk.next(reply) is None
    assert talk.copied == {JOB: ("a-1",)}


# Photos -------------------------------------------------------------------------------------------------


def test_photos_go_over_in_pieces_after_the_entries() -> None:
    mine, theirs = filled("a-1"), filled()
    contents = [png(seed=seed, size=450_000) for seed in (1, 2)] + [png(seed=3)]
    photos = [mine.add_photo(JOB, each, pen(mine), {"wall": "B"}) for each in contents]
    talk = exchange(theirs, mine)
    assert talk.same
    assert sorted(photo.name for photo in photos) == [photo.name for photo in theirs.photos(JOB)]
    assert all(theirs.photo(photo.name) == each for photo, each in zip(photos, contents, strict=True))
    assert len(talk.taken.photos[JOB]) == 3
    assert "a-1" in ids(theirs)


def test_a_photo_on_its_way_goes_on_where_it_broke_off() -> None:
    mine, theirs = filled(), filled()
    photo = mine.add_photo(JOB, png(seed=1, size=900_000))
    talk = Talk(theirs)
    text: str | None = talk.first()
    for _ in range(4):
        assert text is not None
        text = talk.next(serve(mine, text)[0])
    begun = theirs.begun([short(photo.key)])
    assert 0 < begun[short(photo.key)] < photo.size
    asked: list[int] = []
    talk = Talk(theirs)
    text = talk.first()
    while text is not None:
        for each in read_message(text).jobs.values():
            asked += each.want.values()
        text = talk.next(serve(mine, text)[0])
    assert min(asked) == begun[short(photo.key)]
    assert theirs.photo(photo.name) == mine.photo(photo.name)


def test_a_photo_that_is_here_for_another_job_is_not_sent_again() -> None:
    mine, theirs = filled(), filled()
    content = png(seed=5, size=600_000)
    mine.add_photo(JOB, content)
    other = theirs.create()
    theirs.add_photo(other, content)
    talk = Talk(mine)
    text: str | None = talk.first()
    sent = 0
    while text is not None:
        reply, _ = serve(theirs, text)
        sent += len(text) + len(reply)
        text = talk.next(reply)
    assert talk.same
    assert sent < 10_000
    assert mine.photos(other) == theirs.photos(JOB)


def test_a_photo_that_is_not_what_its_hash_says_is_refused_and_the_exchange_ends() -> None:
    theirs = filled()
    content = png(seed=1)
    false = Piece("ab" * 32, len(content), 0, content)
    reply, taken = serve(theirs, Message({JOB: JobTalk(pieces=[false])}).to_text())
    assert taken.refused == [
        "photo abababab: expected the content its hash says, found another; sync once more"
    ]
    assert not read_message(reply).is_open
    assert theirs.photos(JOB) == ()
    assert theirs.begun(["ab" * 16]) == {}


def test_a_file_that_is_no_photo_is_refused_and_the_exchange_ends() -> None:
    mine, theirs = filled("a-1"), filled()
    evil = b"<script>" * 50
    with mine._writing():
        mine._album.add(mine._number(JOB), evil, "jpg")  # a peer that does not judge
    talk = exchange(theirs, mine)
    assert talk.same is False
    assert talk.taken.refused == [
        f"photo {picture.key_of(evil)[:8]}: expected a photo (JPEG, PNG, WebP or HEIC), found another kind "
        "of file; save it as JPEG"
    ]
    assert ids(theirs) == ["a-1"]


def test_parts_of_many_photos_begun_are_not_kept_for_ever() -> None:
    store = filled()
    for number in range(40):
        piece = Piece(f"{number:02x}" + "0" * 62, 100, 0, b"x" * 10)
        serve(store, Message({JOB: JobTalk(pieces=[piece])}).to_text())
    assert len(store.begun([f"{number:02x}" + "0" * 30 for number in range(40)])) == 10


# Strangers ----------------------------------------------------------------------------------------------


def test_a_line_that_is_no_entry_is_refused_alone() -> None:
    store = filled()
    good = entry("a-1").to_line()
    _, taken = serve(store, Message({JOB: JobTalk(lines=["rubbish", good, "{}"])}).to_text())
    assert ids(store) == ["a-1"]
    assert len(taken.refused) == 2
    assert taken.lines == {JOB: [good]}


def test_a_peer_that_refuses_does_not_keep_the_exchange_going() -> None:
    """It answers the same for ever; the exchange ends and says that the sides differ."""
    mine = filled("a-1")
    stuck = json.dumps({"sync": 1, "jobs": {JOB: {"list": {"": []}}}})
    talk = Talk(mine)
    steps, text = 0, talk.first()
    while text is not None and steps < 50:
        text, steps = talk.next(stuck), steps + 1  # type: ignore[assignment]
    assert steps < 50
    assert talk.same is False
