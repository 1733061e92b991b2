"""What the job needs to know of a stage: its name, its facts, and the one call that answers it.

A stage is a folder with ``facts.py``, one module per computation and ``sheet.py``. Its ``__init__``
makes one ``Stage``; ``job.stages`` lists them in the job's own order. Adding a stage is adding a folder
and one line there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from undertile.lengths import Unit


def units(facts: Mapping[str, Any]) -> tuple[Unit, Unit]:
    """The unit that words print in, and the job's own.

    Whatever is printed, the job's own decides: what a bare height says, the usual size of what nobody sized,
    the step a cut is rounded to, the text of a tick. Where facts tell one unit it is both.
    """
    printed: Unit = facts.get("unit", "in")
    own: Unit = facts.get("own_unit", printed)
    return printed, own


@dataclass(frozen=True)
class Stage:
    """One stage of the job.

    Attributes
    ----------
    key : str
        Its table in the job file and in ``--json``.
    question : str
        What it answers, in the person's words.
    facts : type of pydantic model
        What is measured or chosen; every field has a default, so that an empty table is a job just begun.
    run : callable
        ``run(all_facts, results) -> result``: facts of every stage by key, results of the stages before.
        Pure: no file, clock, database or web. Where who asks has a clock, its day is among the facts under
        ``today``, and the day of the record's newest entry under ``entered``; what stands in the record and
        is not in the job under ``left_out``, as paths; the units: ``units``.
    demands : callable or None
        ``demands(all_facts, results) -> tuple``: what this stage asks of the framing planes before they
        are chosen (the pan asks for play; a drain asks for a place).
    amends : callable or None
        ``amends(all_facts, results) -> mapping``: answers of stages before, by key, as they are with what
        this one's facts say of them (wood that a patch takes out is not waited for). Its own answer is not
        needed for it: a screen that asks for the stage before asks this alone.
    unamended : callable or None
        The same where ``amends`` could not tell: the cautious case (the gate stays shut).
    later : callable or None
        ``later(all_facts, results) -> result``: its own answer, with what nobody who works waits for added
        (the plans that lose).
    """

    key: str
    question: str
    facts: type[BaseModel]
    run: Callable[[Mapping[str, Any], Mapping[str, Any]], Any]
    demands: Callable[[Mapping[str, Any], Mapping[str, Any]], tuple[Any, ...]] | None = None
    amends: Callable[[Mapping[str, Any], Mapping[str, Any]], Mapping[str, Any]] | None = None
    unamended: Callable[[Mapping[str, Any], Mapping[str, Any]], Mapping[str, Any]] | None = None
    later: Callable[[Mapping[str, Any], Mapping[str, Any]], Any] | None = None
