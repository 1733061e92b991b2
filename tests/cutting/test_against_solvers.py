"""The same jobs asked of two general solvers: equal costs, proved on both sides."""

from __future__ import annotations

import pytest

from tests.cutting.cast import sound
from undertile.bench.cutting import PEERS, Reply, agrees, job
from undertile.bench.cutting import case as bench_case
from undertile.cutting.packing import BoardKind
from undertile.cutting.solve import pack

PIECES = {seed: 4 + seed % 15 for seed in range(24)}


@pytest.mark.parametrize("peer", PEERS)
def test_two_dozen_jobs_come_to_the_same(peer: str) -> None:
    closed = 0
    for seed, pieces in PIECES.items():
        kinds, strips = job(seed, pieces)
        answer = pack(kinds, strips)
        sound(kinds, strips, answer)
        reply = PEERS[peer](kinds, strips, answer.cost, 5.0)
        assert answer.cost == answer.least, seed
        assert agrees(answer.cost, answer.least, reply), seed  # independent: a general solver
        closed += reply.closed
    assert closed >= 20  # or nothing was compared


@pytest.mark.parametrize("peer", PEERS)
def test_lengths_of_different_price_come_to_the_same(peer: str) -> None:
    closed = 0
    for seed in range(30, 42):
        (first, *offcuts), strips = job(seed, 9)
        kinds = (BoardKind(first.size, 8), *offcuts, BoardKind(1922, 8 + seed % 4), BoardKind(2306, 13))
        answer = pack(kinds, strips)
        sound(kinds, strips, answer)
        reply = PEERS[peer](kinds, strips, answer.cost, 5.0)
        assert answer.cost == answer.least, seed
        assert agrees(answer.cost, answer.least, reply), seed  # independent: a general solver
        closed += reply.closed
    assert closed >= 9


def test_a_peer_that_says_otherwise_is_noticed() -> None:
    assert not agrees(3, 3, Reply(True, 2, 2.0))
    assert not agrees(3, 3, Reply(False, 4, 3.5))
    assert not agrees(3, 2, Reply(False, 1, 1.0))
    assert agrees(3, 3, Reply(False, 4, 2.2))


def test_the_benchmark_has_a_row_for_each_size_and_peer() -> None:
    rows = list(bench_case(1, 0.5))
    assert [(row["size"], row["peer"]) for row in rows] == [
        (size, peer) for size in ("30 strips", "200 strips") for peer in PEERS
    ]
    assert all(row["equal"] and row["proved"] == 1 for row in rows)
