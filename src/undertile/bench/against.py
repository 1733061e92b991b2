"""The planner against both general solvers on many random rooms: does anybody contradict anybody?

    python -m undertile.bench.against --rooms 300 --size 13 --seed 0 --json

Every plan is held against the contract (``verify``), then every solver's answer against the plan: equal cost
where the solver closes, inside its bracket where it does not. Sizes are not shrunk to make a solver close;
how many closed within the stated time is part of the answer. Exit code 1 when anything is contradicted.
"""

from __future__ import annotations

import argparse
import json
import pickle
import platform
import random
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from undertile.bench import cpsat, milp
from undertile.bench.general import Answer
from undertile.bench.rooms import ALL, LARGE_TILE, PURE, room
from undertile.bench.verify import verify
from undertile.framing.dries import Dries, with_drying
from undertile.framing.plan import FramingPlan
from undertile.framing.problem import FramingProblem, Member
from undertile.framing.search import solve

SOLVERS: dict[str, Callable[..., Answer]] = {"HiGHS": milp.solve, "CP-SAT": cpsat.solve}


@dataclass
class Comparison:
    """One room, planned and refereed.

    Attributes
    ----------
    wrong : list of str
        What the contract or a solver holds against the plan; empty when nothing.
    """

    plan: FramingPlan
    seconds: float
    answers: dict[str, Answer] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)

    @property
    def closed(self) -> bool:
        """Whether at least one solver knows the least cost, or that there is no plan."""
        return any(answer.status != "open" for answer in self.answers.values())


def compare(
    problem: FramingProblem,
    solvers: Sequence[str] = tuple(SOLVERS),
    *,
    limit_s: float = 20.0,
    plan_limit_s: float | None = None,
    ties: bool = False,
) -> Comparison:
    """Plan a room and hold the plan against the contract and the solvers.

    Parameters
    ----------
    problem : FramingProblem
    solvers : sequence of str
        Of ``SOLVERS``.
    limit_s : float
        For each answer. [s]
    plan_limit_s : float, optional
        For the planner; the same as the solvers' without it. [s]
    ties : bool
        Also hold the number of touched members against the fewest among equals [contract 11].
    """
    start = perf_counter()
    plan = solve(problem, time_limit_s=limit_s if plan_limit_s is None else plan_limit_s)
    out = Comparison(plan, perf_counter() - start)
    out.wrong = verify(problem, plan)
    touched = sum(member.touched for member in plan.members)
    for name in solvers:
        answer = SOLVERS[name](problem, time_limit=limit_s, ties=ties)
        out.answers[name] = answer
        said = answer.against(plan)
        if said:
            out.wrong.append(said)
        elif ties and answer.status == "closed" and plan.state == "proved" and touched > answer.touched:
            out.wrong.append(f"{touched} touched, {name} shows that {answer.touched} do at the same cost")
    return out


def tight(problem: FramingProblem) -> FramingProblem:
    """The room with its straightedge gaps halved (large tile where it has no rule): these bind often."""
    rules = problem.flatness or LARGE_TILE
    return replace(problem, flatness=tuple((length, gap / 2) for length, gap in rules))


def damp(problem: FramingProblem, seed: int, share: float = 0.4) -> FramingProblem:
    """The room with a share of its studs still to dry, by 1/64 to 4/64 [contract 12]."""
    rng = random.Random(seed)

    def wet(member: Member, flange: tuple[bool, ...]) -> Member:
        if rng.random() >= share:
            return member
        back = Fraction(rng.randrange(1, 5), 64)
        return with_drying(member, Dries(member.name, back / 2, back), flange)

    walls = tuple(
        replace(wall, members=tuple(wet(member, wall.flange) for member in wall.members))
        for wall in problem.walls
    )
    return replace(problem, walls=walls)


def report(done: dict[int, Comparison], solvers: Sequence[str]) -> dict[str, Any]:
    """Counts and times over the rooms, by solver."""
    all_ = list(done.values())
    out: dict[str, Any] = {
        "rooms": len(all_),
        "proved": sum(c.plan.state == "proved" for c in all_),
        "none": sum(c.plan.state == "none" for c in all_),
        "open": sum(c.plan.state == "open" for c in all_),
        "seconds_median": median(c.seconds for c in all_),
        "seconds_worst": max(c.seconds for c in all_),
        "closed_by_any": sum(c.closed for c in all_),
        "contradicted": {str(seed): c.wrong for seed, c in done.items() if c.wrong},
    }
    for name in solvers:
        answers = [c.answers[name] for c in all_]
        out[name] = {
            "closed": sum(a.status == "closed" for a in answers),
            "none": sum(a.status == "none" for a in answers),
            "open": sum(a.status == "open" for a in answers),
            "only_within_tolerance": sum(bool(a.note) for a in answers),
            "straightedge_rows": sum(a.rows for a in answers),
            "seconds_median": median(a.seconds for a in answers),
            "ratio_median": median(c.answers[name].seconds / c.seconds for c in all_),
        }
    return out


def main(arguments: Sequence[str] | None = None) -> int:
    """The command: see ``--help``."""
    parser = argparse.ArgumentParser(prog="python -m undertile.bench.against", description=__doc__)
    parser.add_argument("--rooms", type=int, default=30)
    parser.add_argument("--size", type=int, default=13, help="studs a room")
    parser.add_argument("--heights", type=int, default=6, choices=range(1, 7))
    parser.add_argument("--seed", type=int, default=0, help="of the first room; the next takes the next")
    parser.add_argument(
        "--severity", type=float, default=1.0, help="how far out the framing is; 1 = an old house"
    )
    parser.add_argument("--limit", type=float, default=20.0, help="seconds for each answer")
    parser.add_argument("--solver", choices=[*SOLVERS, "both", "none"], default="both")
    parser.add_argument("--pure", action="store_true", help="wood alone, one zone, no straightedge rule")
    parser.add_argument("--tight", action="store_true", help="straightedge gaps halved, so that they bind")
    parser.add_argument("--damp", action="store_true", help="four studs in ten still to dry")
    parser.add_argument("--ties", action="store_true", help="also the fewest studs touched among equals")
    parser.add_argument("--keep", type=Path, help="folder for contradicted rooms (pickle, text)")
    parser.add_argument("--json", action="store_true", dest="as_json")
    chosen = parser.parse_args(arguments)
    solvers = {"both": list(SOLVERS), "none": []}.get(chosen.solver, [chosen.solver])
    done: dict[int, Comparison] = {}
    for seed in range(chosen.seed, chosen.seed + chosen.rooms):
        problem = room(
            seed,
            studs=chosen.size,
            heights=chosen.heights,
            severity=chosen.severity,
            features=PURE if chosen.pure else ALL,
        )
        if chosen.tight:
            problem = tight(problem)
        if chosen.damp:
            problem = damp(problem, seed)
        done[seed] = compare(problem, solvers, limit_s=chosen.limit, ties=chosen.ties)
        print(_line(seed, done[seed]), file=sys.stderr, flush=True)
        if done[seed].wrong and chosen.keep is not None:
            chosen.keep.mkdir(parents=True, exist_ok=True)
            stem = chosen.keep / f"size{chosen.size}-seed{seed}"
            stem.with_suffix(".pickle").write_bytes(pickle.dumps(problem))
            stem.with_suffix(".txt").write_text("\n".join(done[seed].wrong) + "\n")
    said = {
        "size": f"{chosen.size} studs x {chosen.heights} heights",
        "seeds": [chosen.seed, chosen.seed + chosen.rooms - 1],
        "limit_seconds": chosen.limit,
        "python": platform.python_version(),
        **report(done, solvers),
    }
    if chosen.as_json:
        print(json.dumps(said, indent=2))
    else:
        for key, value in said.items():
            print(f"{key}: {value}")
    return 1 if said["contradicted"] else 0


def _line(seed: int, done: Comparison) -> str:
    plan = done.plan
    cost = "-" if plan.cost is None else f"{float(plan.cost):.2f}"
    peers = ", ".join(f"{n} {a.status} {a.seconds:.1f} s" for n, a in done.answers.items())
    return f"{seed}: {plan.state} {cost}, {done.seconds:.2f} s; {peers} {'; '.join(done.wrong)}"


if __name__ == "__main__":
    sys.exit(main())
