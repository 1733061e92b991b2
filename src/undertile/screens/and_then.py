"""What comes after the one next thing of a job, in its order: the same on home, plan, do it and proof.

What can be done now about the water first, then what fails on the floor, then what waits for another day.
"""

from __future__ import annotations

from undertile.errors import UndertileError
from undertile.screens.context import Context, View
from undertile.screens.pad_sheet import judged
from undertile.screens.steps_floor import fails_of, stop_of
from undertile.screens.steps_water import asked, steps


def and_then(ctx: Context, lead: View) -> list[View]:
    """What is open beside the next step, before anything is covered.

    Parameters
    ----------
    ctx : Context
    lead : dict
        The next step as the screen shows it; it is not said twice.

    Returns
    -------
    list of dict
        Each with ``text``, ``why`` and ``href``; empty while two values for one thing, or what cannot be
        used, are to be settled: what is said could change with them.
    """
    try:
        return _and_then(ctx, lead)
    except UndertileError:
        raise
    except Exception as error:  # said on screens that mend: the next step says which part broke
        ctx.state.broke("next", error)
        return []


def _and_then(ctx: Context, lead: View) -> list[View]:
    if not ctx.state.has_unit or (told := judged(ctx))["clashes"] or told["left_out"]:
        return []
    water = asked(ctx)
    its = [] if water is None else [each for each in steps(ctx, water) if each["kind"] != "gate"]
    stop = stop_of(ctx)
    every = [
        *(each for each in its if not each["later"]),
        *([] if stop is None else [stop]),
        *fails_of(ctx),
        *(each for each in its if each["later"]),
    ]
    return [
        {key: each[key] for key in ("text", "why", "href")}
        for each in every
        if (each["text"], each["href"]) != (lead["text"], lead["href"])
    ]
