"""A plan that was found, with what is made ready from it."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from undertile.job import Rebuild

if TYPE_CHECKING:
    from undertile.findings import Check
    from undertile.framing.moves import Planner, Price
    from undertile.framing.plan import FramingPlan
    from undertile.packet.plan_view import PlanView

# What is asked only once there is a plan is imported then: a phone's first screen needs none of it.


@dataclass
class Plans:
    """One plan with what is made ready from it.

    Attributes
    ----------
    rebuild : Rebuild
    told : bytes
        What it was read from, where it was looked for elsewhere.
    moved : dict of steps to (Price, checks)
        What was worked out of its walls moved, by how far each (``pages.moves``).
    freed : FramingPlan or None
        The plan with nothing held, once a person asked for it (``held``).
    """

    rebuild: Rebuild
    told: bytes = b""
    moved: OrderedDict[tuple[tuple[str, int], ...], tuple[Price, list[Check]]] = field(
        default_factory=OrderedDict
    )
    freed: FramingPlan | None = None
    _planner: Planner | None = None

    @cached_property
    def view(self) -> PlanView | None:
        """The plan as the papers ask for it; None where there is none."""
        from undertile.packet.plan_view import PlanView

        view = PlanView(self.rebuild)
        return view if view.plan is not None else None

    @property
    def planner(self) -> Planner | None:
        """The problem made ready to be moved about; None where nothing is planned."""
        from undertile.framing.moves import Planner

        if self._planner is None and self.view is not None:
            self._planner = Planner(self.view.problem)
        return self._planner
