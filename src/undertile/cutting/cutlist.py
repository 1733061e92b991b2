"""The one call: from a job and what it comes to, what is cut from which board and what else is brought."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any, Protocol

from undertile.cutting.boards import OnVan, cut_stock, on_van
from undertile.cutting.lengths import Reach
from undertile.cutting.others import other_lines
from undertile.cutting.pieces import strips_of
from undertile.cutting.result import CutList, StockCuts, Strip
from undertile.cutting.tell import findings_of
from undertile.errors import FileError, PlanError
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan, Piece
from undertile.framing.stage import build
from undertile.framing.words import waiting
from undertile.lengths import Unit, format_both
from undertile.pan.built import Built
from undertile.pan.facts import PanFacts
from undertile.pan.seat import inches
from undertile.survey.result import SurveyResult

KERF = Fraction(1, 8)
"""Width of a saw cut where the job does not say (practice-kerf). [in]"""
WIDEST = Fraction(1)
"""No saw cuts wider; a wider kerf is a slip. [in]"""


class _Job(Protocol):
    @property
    def unit(self) -> Unit: ...

    def facts(self) -> dict[str, Any]: ...

    def told_in(self, unit: Unit | None = None) -> dict[str, Any]: ...


class Answered(Protocol):
    """A job and the results of its stages: what ``job.plan`` gives."""

    @property
    def job(self) -> _Job:
        """With its facts and its unit."""

    @property
    def unit(self) -> Unit:
        """What its words print in."""

    @property
    def results(self) -> Mapping[str, Any]:
        """By stage key: survey, framing, pan, demands."""


def cut_list(rebuild: Answered) -> CutList:
    """What is cut from which board: the fewest full lengths opened, offcuts used up first.

    Parameters
    ----------
    rebuild : job.Rebuild
        With a framing plan in it.

    Returns
    -------
    CutList
        The same for any order of studs and stock in the job.

    Raises
    ------
    PlanError
        If there is no plan to cut for.
    FileError
        Every length, kerf or price of the stock that cannot be used.

    Examples
    --------
    ``cut_list(job.plan(read_job(path))).stocks[0].boards[0].cuts``
    """
    # what is cut is the same whatever unit it is printed in
    unit, own, facts = rebuild.unit, rebuild.job.unit, rebuild.job.facts()
    framing: FramingFacts = facts["framing"]
    pan: PanFacts = facts["pan"]
    plan: FramingPlan | None = rebuild.results.get("framing")
    survey: SurveyResult | None = rebuild.results.get("survey")
    if plan is None or survey is None or not plan.planes:
        raise PlanError("there is no plan, so nothing to cut; `undertile plan` says what stands in its way")
    kerf, square_end = _saw(framing)
    names = {piece.stock for member in plan.members for piece in member.recipe.pieces}
    stocks = _stocks(framing, sorted(names), kerf, square_end)
    flange_top = inches(pan.pan.flange_height)
    reaches = {wall.name: Reach(wall.heights, wall.top, flange_top) for wall in survey.walls if wall.heights}
    problem = build(rebuild.job.told_in(unit), rebuild.results).problem
    walls = {wall.name: wall for wall in problem.walls}
    strips: dict[str, list[Strip]] = defaultdict(list)
    without: list[tuple[str, Piece]] = []
    for member in plan.members:
        made, missing = strips_of(
            member,
            reaches[member.wall],
            waiting(member, walls[member.wall], plan),
            lambda name: framing.stock[name].card,
            lambda name: stocks[name].longest,
            own,
        )
        without += [(member.name, piece) for piece in missing]
        for strip in made:
            strips[strip.stock].append(strip)
    cut = _cut([stocks[name] for name in strips], strips)
    lines = other_lines(plan.members, reaches, Built(pan, survey, framing, plan, unit, own))
    return CutList(
        unit,
        kerf,
        square_end,
        cut,
        lines,
        findings_of(cut, stocks, plan, reaches, lines, without, framing.finish.board is None, unit),
    )


def _cut(stocks: Sequence[OnVan], strips: Mapping[str, Sequence[Strip]]) -> tuple[StockCuts, ...]:
    """Each stock on its own, thin stock first: a strip comes only from the stock the plan names."""
    out: list[StockCuts] = []
    start = 1
    for stock in sorted(stocks, key=lambda each: (each.thickness, each.name)):
        out.append(cut_stock(stock, strips[stock.name], start))
        start += len(out[-1].boards)
    return tuple(out)


def _saw(framing: FramingFacts) -> tuple[Fraction, Fraction]:
    kerf = inches(framing.saw.kerf)
    square = inches(framing.saw.square_end)
    kerf = KERF if kerf is None else kerf
    square = Fraction(0) if square is None else square
    problems: list[str] = []
    if not 0 <= kerf <= WIDEST:
        problems.append(
            f"framing.saw.kerf is {format_both(kerf)}; expected the width of a saw cut, 0 to "
            f"{format_both(WIDEST)}"
        )
    if square < 0:
        problems.append(f"framing.saw.square_end is {format_both(square)}; expected 0 or more")
    if problems:
        raise FileError(problems)
    return kerf, square


def _stocks(
    framing: FramingFacts, names: Sequence[str], kerf: Fraction, square_end: Fraction
) -> dict[str, OnVan]:
    found: dict[str, OnVan] = {}
    problems: list[str] = []
    for name in names:
        stock, wrong = on_van(name, framing.stock[name], kerf, square_end)
        problems += wrong
        if stock is not None:
            found[name] = stock
    if problems:
        raise FileError(problems)
    return found
