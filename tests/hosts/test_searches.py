"""Plans in a process of their own: the same plan, the newest log only, an end that is seen."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from multiprocessing.connection import Connection

import pytest

from undertile.hosts.server.searches import Processes
from undertile.job import Pen, read_job
from undertile.job.plain import entries_of
from undertile.screens.slices import found, log_text, rebuild_of

LONGEST_S = 120.0


def never(log: str, answer: Connection) -> None:
    answer.send((3, "7/2"))
    time.sleep(LONGEST_S)


def dies(log: str, answer: Connection) -> None:
    raise SystemExit(1)


def until(what: Callable[[], object]) -> object:
    ends = time.monotonic() + LONGEST_S
    while time.monotonic() < ends:
        told = what()
        if told is not None:
            return told
        time.sleep(0.02)
    raise TimeoutError


@pytest.fixture
def made() -> Iterator[list[Processes]]:
    every: list[Processes] = []
    yield every
    for each in every:
        each.close()


def test_the_plan_is_the_one_found_here(made: list[Processes]) -> None:
    """Independent: the same search run in this process."""
    log = entries_of(read_job("examples/hand.toml"), Pen("e" * 32, "Kim", "2026-11-25T08:00:00Z"))
    made.append(Processes())
    made[0].start("job", "key", log_text(log))
    whole = rebuild_of(log)

    def last() -> object:
        answer = made[0].found("key")
        return answer if answer is not None and found(answer).whole else None

    answer = until(last)
    assert isinstance(answer, bytes)
    assert found(answer).results["framing"] == whole.results["framing"]
    until(lambda: made[0].found("key") and not made[0]._running)
    made[0].start("job", "key", log_text(log))
    assert not made[0]._running, "what is known is not looked for again"


def test_a_newer_log_ends_the_older_search_and_progress_is_told(made: list[Processes]) -> None:
    made.append(Processes(never))
    made[0].start("job", "one", "")
    told = until(lambda: made[0].progress("one"))
    assert (told.looked, told.bound * 2) == (3, 7)  # type: ignore[attr-defined]
    made[0].start("job", "two", "")
    assert made[0].progress("one") is None
    until(lambda: made[0].progress("two"))
    made[0].cancel("two")
    assert made[0].progress("two") is None


def test_a_search_that_died_is_not_started_for_ever(made: list[Processes]) -> None:
    """The second time it runs here, where what is wrong is seen."""
    made.append(Processes(dies))
    made[0].start("job", "one", "")

    def over() -> object:
        made[0].found("one")
        return True if not made[0]._running else None

    until(over)
    made[0].start("job", "one", "")
    assert made[0].found("one") is not None, "an empty log has a plan of its own: none"
