"""The bundled jobs: the planted slips are named, and once they are mended each job plans and passes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import EXAMPLES, JOBS, Ran

# pinned: what docs/examples.md says was planted, job by job: where, as typed, as it was
PLANTED = {
    "old-alcove": [("L3 at 54", "6-1/8", "5-7/8"), ("B4 at 36", "7-1/4", "6-1/4")],
    "square-pan": [("L2 at 400", "174", "147")],
    "steel-unit": [
        ("wall R from R3 at 2 on", "", "give or take 1/16, would fit (the line moved part-way)"),
        ("width back-high", "57-3/16", "60-3/16"),
    ],
}
MENDED = {
    "old-alcove": ["L3 at 54 = 5-7/8", "B4 at 36 = 6-1/4"],
    "square-pan": ["L2 at 400 = 147"],
    "steel-unit": [
        "survey.widths.back-high.reading = 60-3/16",
        *(f"R3 at {height} = 6" for height in (2, 26, 50, 74, 94)),
        "R4 at 2 = 5-15/16",
        *(f"R4 at {height} = 6" for height in (26, 50, 74, 94)),
    ],
}


@pytest.mark.parametrize("job", JOBS)
def test_check_names_what_was_planted(job: str, run: Callable[..., Ran]) -> None:
    ran = run("check", EXAMPLES / f"{job}.toml")
    assert ran.code == 1
    doubts = " ".join(ran.out.split("What is missing")[0].split())
    assert doubts.count("DOUBT") == len(PLANTED[job])
    for where, typed, true in PLANTED[job]:
        assert f"DOUBT {where}" in doubts
        assert typed in doubts
        assert true in doubts


@pytest.mark.parametrize("job", JOBS)
def test_a_mended_job_is_planned_proved_and_passes(job: str, run: Callable[..., Ran], tmp_path: Path) -> None:
    wishes = [word for wish in MENDED[job] for word in ("--if", wish)]
    text = (EXAMPLES / f"{job}.toml").read_text(encoding="utf-8")
    plated = text.replace('what = "wire"\n', 'what = "wire"\nplated = true\n')
    mended = tmp_path / "job.toml"
    mended.write_text(plated, encoding="utf-8")
    assert (plated != text) == (job == "old-alcove")  # the wire a screw would reach gets its plate
    ran = run("plan", mended, *wishes)
    assert ran.code == 0, ran.out
    assert "None found" in ran.out
    assert "Proved least" in ran.out
    assert "FAIL" not in ran.out


@pytest.mark.parametrize("job", JOBS)
def test_a_job_in_doubt_is_planned_all_the_same_and_says_so_first_and_last(
    job: str, run: Callable[..., Ran]
) -> None:
    ran = run("plan", EXAMPLES / f"{job}.toml")
    assert ran.code == 1
    assert ran.out.index("DOUBT") < ran.out.index("What to do to each stud")
    last = ran.out.split("Settle before the first cut")[-1]
    for where, _, _ in PLANTED[job]:
        assert where in last


def test_the_room_worked_by_hand_takes_43_minutes(run: Callable[..., Ran]) -> None:
    ran = run("plan", EXAMPLES / "hand.toml")
    assert ran.code == 0
    words = " ".join(ran.out.split())
    # published: convention 8, worked by hand: 43 minutes, B2 two passes at 48, B4 one strip at 48
    assert "together 43 " in words
    assert "B2 plane 2 passes at 48" in words
    assert "B4 strip hardboard 1/8" in words
    assert "at 48. 7 min." in words
    assert "Proved least" in words
