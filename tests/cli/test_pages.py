"""Pages of results that the bundled jobs do not come to: no plan, a plan not proved, checks that fail."""

from __future__ import annotations

import io
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from tests.cli.conftest import EXAMPLES, Ran
from undertile.cli import page, show_checks, show_plan
from undertile.cli.console import paper
from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.plan import Conflict, FramingPlan, RunnerUp


def printed(show: Callable[..., None], *args: object) -> str:
    out = io.StringIO()
    show(paper(out), *args)
    return " ".join(out.getvalue().split())


def check(code: str, verdict: Verdict, title: str = "", next_step: str = "") -> Check:
    limit, margin = 'at most 1/16"', '-1/16"'
    return Check(
        code, title or code, "wall L", '1/8"', limit, margin, verdict, "convention-3", next_step=next_step
    )


def test_the_proof_line_says_what_is_known_about_a_cheaper_plan() -> None:
    proved = FramingPlan("proved", cost=Fraction(100), bound=Fraction(100))
    assert show_plan.proof(proved) == "Proved least: no plan under this contract costs less."
    late = FramingPlan("open", cost=Fraction(100), bound=Fraction(185, 2))
    # independent: 100 - 92.50 = 7.50
    assert "NOT proved least" in show_plan.proof(late)
    assert "$7.50" in show_plan.proof(late)
    assert "$92.50" in show_plan.proof(late)
    nothing = FramingPlan("open", bound=Fraction(50))
    assert "time limit was hit before a plan was found" in show_plan.proof(nothing)
    assert "$50.00" in show_plan.proof(nothing)


def test_no_plan_names_what_conflicts_and_what_frees_it() -> None:
    more = Conflict(tuple(f"demand {n}" for n in range(20)), (), (("plaster", "not yet"),), given=("bands",))
    first = Conflict(
        ("play", "valve"), (("valve", 'set it 3/8" deeper'),), more=(more,), undecided="time ran out"
    )
    plan = FramingPlan("none", conflict=first)
    said = printed(show_plan.conflict, plan)
    assert "- play" in said
    assert "Conflict 2 of 2; each has to be freed." in said
    assert "Not enough by itself: - plaster: not yet" in said
    assert "- bands" in said
    assert "- demand 8" in said
    assert "11 more" in said  # independent: 20 less 9
    assert "Not known: time ran out." in said
    assert '- valve: set it 3/8" deeper' in said
    assert "not worked out" in printed(show_plan.conflict, FramingPlan("none"))


def test_runner_ups_say_what_they_cost_more_and_why_they_lose() -> None:
    plan = FramingPlan(
        "proved",
        runner_ups=(
            RunnerUp("back plane at 0", Fraction(75), Fraction(19, 4), "four shims"),
            RunnerUp("channel", None, None, "proud"),
        ),
    )
    said = printed(show_plan.runner_ups, plan)
    assert "back plane at 0 +$4.75 four shims" in said
    assert "channel cannot be proud" in said
    assert printed(show_plan.runner_ups, FramingPlan("proved")) == ""


@pytest.mark.parametrize(
    ("verdict", "words"),
    [(Verdict.PASS, "Yes"), (Verdict.FAIL, "NO"), (Verdict.NOT_SHOWN, "still has to be read")],
)
def test_the_worst_verdict_decides_whether_the_pan_drops_in(verdict: Verdict, words: str) -> None:
    checks = [check("play-2", Verdict.PASS), check("play-16", verdict), check("valve-depth", Verdict.FAIL)]
    own = [each for each in checks if each.code.startswith(show_checks.DROPS_IN)]
    assert words in show_checks.answer(own)


def test_not_shown_is_never_counted_with_what_passes() -> None:
    said = printed(
        show_checks.judged,
        [
            check("flat-B", Verdict.NOT_SHOWN, "Flat", next_step="Read B1 again."),
            check("plumb-B", Verdict.PASS, "Plumb"),
            check("screws-B", Verdict.FAIL, "Screws", next_step="Change to longer ones."),
        ],
    )
    assert said.index("FAIL Screws") < said.index("not shown Flat") < said.index("With room to spare: Plumb")
    assert "Do: Read B1 again." in said
    assert "Do: Change to longer ones." in said
    assert "Flat" not in said.split("With room to spare")[1]


def test_without_checks_the_pan_is_not_shown_to_drop_in() -> None:
    assert "Not shown" in printed(show_checks.drops_in, [])


def test_findings_stand_by_gravity_once_each() -> None:
    note = Finding("b", Severity.NOTE, "pan", "y", "x", "Do it", "convention-5")
    stop = Finding("a", Severity.STOP, "B2", "sound wood?", "soft", "Replace it.", "convention-4")
    said = printed(page.findings, [note, stop, note])
    assert said == "STOP B2: soft. Expected: sound wood? Replace it. note pan: x. Expected: y. Do it."


def test_a_job_without_readings_is_told_what_to_read_first(run: Callable[..., Ran], tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text('version = 2\nunit = "in"\n', encoding="utf-8")
    ran = run("plan", job)
    assert ran.code == 1
    assert "There is no plan yet" in ran.out
    assert "read two heights a stud" in " ".join(ran.out.split())
    assert run("check", job).code == 0


def test_words_in_a_job_are_words_and_no_markup(run: Callable[..., Ran], tmp_path: Path) -> None:
    text = (EXAMPLES / "hand.toml").read_text(encoding="utf-8")
    job = tmp_path / "job.toml"
    job.write_text(
        text.replace('name = "A room worked by hand"', 'name = "[bold]x[/bold] :smile:"'), encoding="utf-8"
    )
    assert "[bold]x[/bold] :smile:" in run("check", job).out
