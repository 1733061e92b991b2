"""What a newcomer read on the page and could not use: headline, order, words that explain knows."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from fractions import Fraction as F
from pathlib import Path

import pytest

from tests.cli.conftest import EXAMPLES, JOBS, Ran
from undertile.cli.show_checks import answer
from undertile.cli.show_moves import _planned_anew
from undertile.findings import Check, Verdict
from undertile.framing.moves import Steadiness

HAND = EXAMPLES / "hand.toml"
ROOT = Path(__file__).resolve().parents[2]


def drop_in(margin: str, *, close: bool = False, value: str = "play 1/8") -> Check:
    where = 'binds 2" from the back at height 2"'
    return Check(
        "drop-in",
        "",
        "pan",
        value,
        "1/16 to 1/8",
        margin,
        Verdict.PASS,
        "",
        (where,),
        within_uncertainty=close,
    )


def test_a_yes_by_nothing_says_so_in_the_headline() -> None:
    assert answer([drop_in('0"', close=True)]) == (
        'Yes, by 0", close (2" from the back at height 2"): play 1/8 (wanted 1/16 to 1/8).'
    )
    assert answer([drop_in('+1/32"')]).startswith('Yes, by 1/32" (2" from the back')


def test_an_open_side_is_not_a_bare_yes(run: Callable[..., Ran], tmp_path: Path) -> None:
    text = " ".join(run("plan", EXAMPLES / "square-pan.toml").out.split())
    head = text.split("Does the pan drop in?")[1].split("What else moves?")[0]
    assert "Yes" not in head
    assert "Nothing faces the pan across (no wall R)" in head
    assert "Not shown: what stands on the open side" in head


def test_a_single_wall_with_no_pan_measured_is_not_shown(run: Callable[..., Ran], tmp_path: Path) -> None:
    job = tmp_path / "wall.toml"
    job.write_text(
        'version = 2\nname = "One wall"\nunit = "in"\n[survey.walls.B]\nnominal = "6-0"\n'
        'heights = ["2", "48", "90"]\n[survey.walls.B.studs]\n'
        'B1 = { along = "8", readings = ["6-0", "6-0", "6-0"] }\n'
        'B2 = { along = "24", readings = ["6-0", "5-13/16", "6-0"] }\n'
        'B3 = { along = "40", readings = ["6-0", "6-0", "6-0"] }\n'
        '[framing.walls.B]\nkind = "wood"\nbearing = "no"\nbay = "clear"\n',
        encoding="utf-8",
    )
    head = run("plan", job).out.split("Does the pan drop in?")[1].split("What else moves?")[0]
    assert "Not shown" in head
    assert "yes" not in head.lower().replace("what is measured says", "")
    assert "width and depth" in " ".join(head.split())


@pytest.mark.parametrize("job", ["hand", "square-pan"])
def test_the_order_of_work_is_one_list_on_the_page_and_in_json(job: str, run: Callable[..., Ran]) -> None:
    page = " ".join(run("plan", EXAMPLES / f"{job}.toml").out.split("Order of work")[1].split())
    found = json.loads(run("plan", EXAMPLES / f"{job}.toml", "--json").out)
    steps = found["order_of_work"]
    for number, step in enumerate(steps, 1):
        assert f"{number} {step['text']}" in page
    kinds = [step["kind"] for step in steps]
    # published: convention 3.5 and jobmap 11, 14: verified, then the pan, then what waits for it
    assert kinds.index("verify") < kinds.index("dry fit") < kinds.index("set")
    assert ("after pan" in kinds) == ("verify again" in kinds) == (job == "square-pan")
    assert "steps" not in found["pan"]
    assert {tuple(step) for step in steps} == {("kind", "walls", "studs", "text", "data")}


def test_strips_that_wait_are_marked_at_their_stud(run: Callable[..., Ran]) -> None:
    found = json.loads(run("plan", EXAMPLES / "square-pan.toml", "--json").out)
    late = [step for step in found["order_of_work"] if step["kind"] == "after pan"]
    page = run("plan", EXAMPLES / "square-pan.toml").out.split("Does the pan")[0]
    for step in late:
        for stud in step["studs"]:
            (own,) = re.findall(rf"(?m)^   {stud} +strip.*(?:\n        .*)*", page)
            assert "(after the pan)" in " ".join(own.split())


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("job", JOBS)
def test_no_program_words_on_the_page(job: str, unit: str, run: Callable[..., Ran]) -> None:
    out = " ".join(run("plan", EXAMPLES / f"{job}.toml", "--unit", unit).out.split())
    assert not re.search(r"\b(play-\d|drop-in-[LR]|drain-x|drain-y|skew-[LBR])", out)
    assert not re.search(r"\d(mm)\b", out)
    assert "304.8" not in out
    assert "on at " not in out
    assert "no more than about 0" not in out
    assert not re.search(r"from (\S+(?: mm)?) to \1[ ,.]", out)


def test_steel_is_re_set_and_nothing_else_said_of_it(run: Callable[..., Ran]) -> None:
    out = " ".join(run("plan", EXAMPLES / "steel-unit.toml").out.split())
    for text in re.findall(r"L1 (re-set.*?) L2 ", out)[-1:]:
        assert "eplace" not in text
        assert text.count("re-set") == 1
    assert "Re-set in the track, face on the plane: L1, L2, L3, L4." in out


@pytest.mark.parametrize(
    ("job", "where"),
    [
        ("old-alcove", "cost"),
        ("old-alcove", "minutes"),
        ("old-alcove", "plaster"),
        ("old-alcove", "nail plate"),
        ("old-alcove", "screw tip"),
        ("steel-unit", "hub"),
        ("hand", "convention 3.3"),
    ],
)
def test_words_printed_on_the_page_are_words_explain_knows(
    job: str, where: str, run: Callable[..., Ran]
) -> None:
    ran = run("explain", EXAMPLES / f"{job}.toml", *where.split())
    assert ran.code == 0, ran.err
    assert where.split()[0] in ran.out.lower() or where in ("cost", "minutes")


def test_explained_minutes_add_up_to_the_plan(run: Callable[..., Ran]) -> None:
    found = json.loads(run("explain", HAND, "cost", "--json").out)
    parts = [F(stud["minutes"]) for stud in found["studs"].values()]
    parts += [F(charge["minutes"]) for charge in found["charges"]]
    assert sum(parts) == F(found["minutes"]) == 43  # published: convention 8


def test_a_stud_looked_up_is_not_told_of_work_nobody_offers(run: Callable[..., Ran]) -> None:
    out = run("explain", HAND, "B2").out
    for word in ("kerf", "wet bed", "knock"):
        assert word not in out
    assert "wet bed" in json.loads(run("explain", HAND, "B2", "--json").out)["rules"]


def test_the_convention_cited_on_the_page_is_a_page_of_the_project(run: Callable[..., Ran]) -> None:
    kept = (ROOT / "docs" / "convention.md").read_text(encoding="utf-8")
    out = run("plan", HAND).out + run("explain", HAND, "cost").out
    cited = set(re.findall(r"convention\s+(\d\.\d+)", out))
    assert {"3.3", "3.4", "4.1"} <= cited
    for number in cited:
        assert re.search(rf"(?m)^{re.escape(number)} ", kept), number
    assert "docs/convention.md" in run("explain", HAND, "convention", "3.3").out


@pytest.mark.parametrize(
    ("feasible", "best", "text"),
    [
        (
            8,
            0,
            "In 8 of them this plan's planes could still be built, and there they were never the cheapest",
        ),
        (
            25,
            1,
            "In all of them this plan's planes could still be built, and there they were the cheapest once",
        ),
        (8, 8, "and there no other plan was cheaper."),
        (0, 0, "In none of them could this plan's planes still be built."),
    ],
)
def test_steadiness_is_said_in_plain_words(feasible: int, best: int, text: str) -> None:
    said = _planned_anew(Steadiness(200, 0.9, (), 25, feasible, best, F("154.87"), 1))
    assert said.startswith("25 of those rooms were planned anew. ")
    assert text in said
    assert ("$154.87 less on average" in said) == (0 <= best < feasible)
