"""What each command does once its words are parsed."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import Any

from undertile.cli.answer import NOTHING, SETTLE_FIRST, Answer, ask, head, load, look
from undertile.cli.console import paper, working
from undertile.lengths import Unit


def check(path: str, *, as_json: bool = False, unit: Unit | None = None) -> int:
    """Which number is wrong, what is missing."""
    with working("Checking the readings against each other"):
        answer = look(load(path), unit)
    code = SETTLE_FIRST if answer.suspects or answer.rebuild.stops else NOTHING
    if as_json:
        from undertile.cli.as_json import plain, text

        print(
            text(
                {
                    **head(answer, "check", code),
                    "suspects": plain(answer.suspects, answer.unit),
                    "global_test": plain(answer.survey.global_test, answer.unit),
                    "findings": plain(answer.findings, answer.unit),
                }
            )
        )
        return code
    from undertile.cli import page, show_check

    console = paper()
    _title(console, answer)
    show_check.which_number(console, answer.survey)
    show_check.what_is_missing(
        console, [each for each in answer.findings if not show_check.told_already(answer.survey, each)]
    )
    for stage, why in answer.rebuild.unanswered.items():
        page.say(console, f"No answer from {stage} yet: {why}")
    page.heading(console, _last_word(code))
    return code


def plan(
    path: str,
    *,
    as_json: bool = False,
    unit: Unit | None = None,
    what_if: Sequence[str] = (),
    steady: bool = False,
) -> int:
    """The whole answer, in the person's order."""
    job = load(path)
    if what_if:
        from undertile.cli.what_if import as_if

        job = as_if(job, what_if)
    from undertile.cli.offered import as_offered
    from undertile.cli.show_moves import show as show_moves
    from undertile.cli.show_moves import work_out

    with working("Planning"):
        answer = ask(job, unit)
        other = as_offered(answer)
    moves = work_out(answer) if steady else None  # says itself how far it is
    if as_json:
        from undertile.cli.as_json import plain, text

        rest = {key: plain(each, answer.unit) for key, each in answer.rebuild.results.items()}
        if "pan" in rest:
            rest["pan"].pop("steps")  # the whole list stands under order_of_work
        print(
            text(
                {
                    **head(answer, "plan", answer.code),
                    "as_if": list(what_if),
                    **rest,
                    "order_of_work": plain(answer.steps, answer.unit),
                    **({"moves": plain(moves, answer.unit)} if steady else {}),
                    "as_offered": None
                    if other is None
                    else {
                        "if": list(other.wishes),
                        "framing": plain(other.plan, answer.unit),
                    },
                    "findings": plain(answer.findings, answer.unit),
                    "unanswered": dict(answer.rebuild.unanswered),
                }
            )
        )
        return answer.code
    from undertile.cli.show_answer import whole

    console = paper()
    _title(console, answer)
    whole(console, answer, path, what_if, other)
    if moves is not None:
        show_moves(console, answer, moves)
    return answer.code


def explain(path: str, where: str, *, as_json: bool = False, unit: Unit | None = None) -> int:
    """One stud or one figure."""
    from undertile.cli.look_up import find

    with working("Planning"):
        answer = ask(load(path), unit)
    found = find(answer, where)
    if as_json:
        from undertile.cli.as_json import text

        print(text({**head(answer, "explain", NOTHING), "where": where, **found.as_json(answer)}))
        return NOTHING
    console = paper()
    _title(console, answer)
    found.show(console, answer)
    return NOTHING


def schema(output: str) -> int:
    """The JSON Schema of a job file."""
    from undertile.cli.files import write_safely
    from undertile.job.schema import schema_text

    text = schema_text()
    if output:
        write_safely(output, text)
    else:
        sys.stdout.write(text)
    return NOTHING


def _title(console: Any, answer: Answer) -> None:
    from rich.text import Text

    job = answer.job
    console.print(Text(job.name or "A job without a name", style="bold"))
    if job.place:
        console.print(Text(job.place))


def _last_word(code: int) -> str:
    if code == SETTLE_FIRST:
        return "Settle what is in doubt before the first cut."
    return "Nothing stands in the way of planning."
