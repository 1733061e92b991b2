"""What the plan of a job last came to, in few words, so that what is next is the same after a start.

The plan itself takes seconds and lives in memory. What the next step needs of it is kept on this device with
the hash of everything the plan comes from (``slices.key_of``): it stands as long as that hash does. It is no
part of the record, and whoever has lost it only looks for the plan again.
"""

from __future__ import annotations

import json
from collections import OrderedDict
from dataclasses import asdict, dataclass

from undertile import __version__
from undertile.findings import Severity
from undertile.recheck.did import asks_of
from undertile.screens.answers import State
from undertile.screens.context import Context

NAME = "plan"
MOST = 8
"""Plans of which it is held in memory."""
_MADE: OrderedDict[str, tuple[object, Seen, str]] = OrderedDict()


@dataclass(frozen=True)
class Seen:
    """What a plan came to.

    Attributes
    ----------
    key : str
        Hash of everything it comes from, and the version of this program.
    planned : bool
        There is a plan; False = nothing meets every demand.
    touched : tuple of str
        Studs that are worked on, wall by wall.
    asks : dict of str to str
        What is asked of every stud (``did.did_of``).
    stops : tuple of (str, str)
        Code and place of each stop, those that a person lifted too.
    """

    key: str
    planned: bool
    touched: tuple[str, ...]
    asks: dict[str, str]
    stops: tuple[tuple[str, str], ...]

    def stopped(self, ctx: Context) -> bool:
        """Whether a stop stands that nobody lifted."""
        lifted = ctx.state.folded.job.facts()["safety"].lifted.values()  # type: ignore[attr-defined]
        return bool(set(self.stops) - {(each.stop, each.where) for each in lifted})


def seen(ctx: Context) -> Seen | None:
    """What the plan of the log comes to, or came to when it was last looked for; None where nobody has."""
    state = ctx.state
    if not state.key:
        return None
    if state.plans is None:
        return _read(ctx)
    found, text = _now(ctx)
    notes = ctx.host.notes
    if notes is not None and notes.read(ctx.job, NAME) != text:
        notes.keep(ctx.job, NAME, text)
    return found


def _key(state: State) -> str:
    return f"{__version__} {state.key}"


def _now(ctx: Context) -> tuple[Seen, str]:
    state = ctx.state
    assert state.plans is not None
    found = _MADE.get(state.key)
    if found is not None and found[0] is state.plans.rebuild:
        return found[1:]
    view = state.view
    plan = view.plan if view is not None else None
    touched = [m.name for wall in view.walls for m in view.members(wall) if m.touched] if view else []
    stops = [
        (each.code, str(each.where))
        for each in state.plans.rebuild.findings
        if each.severity is Severity.STOP
    ]
    made = Seen(
        _key(state),
        plan is not None,
        tuple(touched) if plan is not None else (),
        asks_of(plan, ctx.unit) if plan is not None else {},
        tuple(stops),
    )
    text = json.dumps(asdict(made), ensure_ascii=False)
    _MADE[state.key] = state.plans.rebuild, made, text
    while len(_MADE) > MOST:
        _MADE.popitem(last=False)
    return made, text


def _read(ctx: Context) -> Seen | None:
    """What was kept, if it is of this very log; what is not whole is as if it had never been kept."""
    notes = ctx.host.notes
    text = notes.read(ctx.job, NAME) if notes is not None else ""
    if not text:
        return None
    try:
        told = json.loads(text)
        found = Seen(
            str(told["key"]),
            bool(told["planned"]),
            tuple(str(each) for each in told["touched"]),
            {str(stud): str(asks) for stud, asks in told["asks"].items()},
            tuple((str(code), str(where)) for code, where in told["stops"]),
        )
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
    return found if found.key == _key(ctx.state) else None
