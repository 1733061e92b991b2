"""Why a plan loses, in the words of the trade."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from tests.framing.cast import OFFSETS, SEAT, facts, minutes_only, play_demands, survey
from undertile.framing.build import build_problem
from undertile.framing.moves import Planner
from undertile.framing.problem import StepTerm
from undertile.framing.runnerups import WALLS, _what_stops, runner_ups
from undertile.framing.search import solve
from undertile.packet.told import told
from undertile.packet.words import Words
from undertile.sentence import Sentence


def test_what_would_not_hold_is_named_by_its_title_not_by_its_code() -> None:
    play = tuple(
        replace(each, code=f"play-{n}", title=f'Play {n}" from the back')
        for n, each in enumerate(play_demands(), start=1)
    )
    problem = replace(build_problem(survey(OFFSETS), facts(), SEAT, play).problem, demands=play)
    text = _what_stops(problem, (), ("play-1", "play-2", "hold-B-offset"))
    assert text == (
        "would not hold, and no other plane mends it: "
        'play 1" from the back; play 2" from the back; a plane that is held'
    )
    assert _what_stops(problem, ("B3",), ()) == "nothing offered brings B3 there"


def test_what_is_in_the_way_says_how_far_it_stands() -> None:
    hub = StepTerm(
        "hub", "L", F(18), F(48), F(1, 16), None, None, why='hub stands at +1/8" and may stand 1/16" proud'
    )
    built = build_problem(survey(OFFSETS), facts(prices=minutes_only()), SEAT, play_demands())
    walls = tuple(replace(wall, terms=(hub,)) if wall.name == "L" else wall for wall in built.problem.walls)
    problem = replace(built.problem, walls=walls)
    plan = solve(problem)
    # independent: L's plane is 1/16 in (convention 8); a step back and the hub stands 1/8 proud of it
    lost = {each.what: each.why for each in runner_ups(Planner(problem), plan, time_limit_s=60, most=20)}
    assert lost['left wall 1/16" back'].startswith('hub is in the way: hub stands at +1/8"')


def test_a_plan_that_loses_is_named_in_spanish_too() -> None:
    """independent: the walls' names of the glossary; an English name in a Spanish line is no name."""
    for name, wall in WALLS.items():
        what = Sentence("{wall} {by} back", wall=wall, by='1/16"')
        assert told(what, Words("es")) == f'{Words("es").wall(name)} 1/16" hacia atrás'
        assert str(what) == f'{Words().wall(name)} 1/16" back'
