"""Random interleavings of three devices, all of which converge (``bench.sync_soak`` runs thousands)."""

from __future__ import annotations

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, rule

from tests.store.cast import png
from undertile.bench.sync_walk import Walk

AT = st.integers(0, 2)
JOB = st.integers(0, 1)
NUMBER = st.integers(0, 6)
ROOM = st.sampled_from((1, 400, 3000, 400_000))


class Devices(RuleBasedStateMachine):
    """independent: the model of ``Walk`` is sets of texts, joined by set union."""

    def __init__(self) -> None:
        super().__init__()
        self.walk = Walk()

    @rule(at=AT, job=JOB, fact=NUMBER, value=NUMBER, settles=st.booleans())
    def write(self, at: int, job: int, fact: int, value: int, settles: bool) -> None:
        self.walk.write(at, job, fact, value, settles)

    @rule(at=AT, job=JOB)
    def undo(self, at: int, job: int) -> None:
        self.walk.undo(at, job)

    @rule(at=AT, job=JOB, number=NUMBER)
    def forge(self, at: int, job: int, number: int) -> None:
        self.walk.forge(at, job, number)

    @rule(at=AT, job=JOB, number=NUMBER)
    def newer(self, at: int, job: int, number: int) -> None:
        self.walk.newer(at, job, number)

    @rule(at=AT, job=JOB, seed=NUMBER, size=st.sampled_from((0, 3000)))
    def photo(self, at: int, job: int, seed: int, size: int) -> None:
        self.walk.photo(at, job, png(seed=seed, size=size))

    @rule(at=AT, other=AT, room=ROOM)
    def meet(self, at: int, other: int, room: int) -> None:
        self.walk.meet(at, other, room)

    @rule(at=AT, other=AT, room=ROOM, steps=st.integers(0, 6), cut=st.integers(0, 10_000))
    def break_off(self, at: int, other: int, room: int, steps: int, cut: int) -> None:
        self.walk.break_off(at, other, room, steps, cut)

    @rule(at=AT, number=NUMBER)
    def hear_again(self, at: int, number: int) -> None:
        self.walk.hear_again(at, number)

    @rule(at=AT, other=AT, job=JOB)
    def hand_over(self, at: int, other: int, job: int) -> None:
        self.walk.hand_over(at, other, job)

    @rule(at=AT)
    def restore(self, at: int) -> None:
        self.walk.restore(at)

    @rule(at=AT)
    def lose(self, at: int) -> None:
        self.walk.lose(at)

    def teardown(self) -> None:
        self.walk.settle()
        self.walk.close()


Devices.TestCase.settings = settings(
    max_examples=25, stateful_step_count=25, deadline=None, suppress_health_check=list(HealthCheck)
)
TestDevices = Devices.TestCase
