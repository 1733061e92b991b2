"""``undertile cuts``: the page a crew cuts from, its JSON, and what it says when there is nothing to cut."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import EXAMPLES, Ran

HAND = (EXAMPLES / "hand.toml").read_text(encoding="utf-8")
HARD = '"hardboard 1/8" = {'


@pytest.fixture
def job(tmp_path: Path) -> Callable[[str], Path]:
    def write(text: str) -> Path:
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_the_page_says_board_by_board_what_is_cut(run: Callable[..., Ran]) -> None:
    ran = run("cuts", EXAMPLES / "hand.toml")
    assert ran.code == 0
    assert "hardboard 1/8: 1 full length opened, proved least." in ran.out
    # independent: halfway 2-48 and 48-90 is 25 to 69; 96 - 44 - 1/8
    assert '1  full     96"  44" B4 at 25  51-7/8"' in ran.out
    assert "flange shim       -      6  L1, L2, L3, R1, R2, R3" in ran.out
    assert 'not said; taken as 96"' in ran.out
    assert max(map(len, ran.out.split("\n"))) <= 80


def test_offcuts_and_the_van_s_count_are_on_the_page(
    run: Callable[..., Ran], job: Callable[[str], Path]
) -> None:
    ran = run(
        "cuts", job(HAND.replace(HARD, HARD + 'length = "96", offcuts = ["30", "47-1/2"], on_van = 0,'))
    )
    assert "hardboard 1/8: offcuts do, no full length is opened." in ran.out
    assert '1  offcut  47-1/2"  44" B4 at 25  3-3/8"' in ran.out
    ran = run("cuts", job(HAND.replace(HARD, HARD + 'length = "96", on_van = 0,')))
    assert "to bring" in ran.out
    assert "Bring 1 more." in ran.out


def test_a_job_in_mm_is_cut_in_whole_mm(run: Callable[..., Ran]) -> None:
    ran = run("cuts", EXAMPLES / "hand.toml", "--unit", "mm")
    assert "1117 mm B4 at 635" in ran.out  # independent: 44 in = 1117.6 mm, rounded down; 25 in = 635 mm


def test_the_saw_s_square_end_is_said(run: Callable[..., Ran], job: Callable[[str], Path]) -> None:
    ran = run("cuts", job(HAND + '\n[framing.saw]\nsquare_end = "1/2"\n'))
    assert 'Cut 1/2" off one end of a full length first.' in " ".join(ran.out.split())
    assert '51-3/8"' in ran.out  # independent: 51-7/8 less 1/2


def test_json_has_every_board(run: Callable[..., Ran]) -> None:
    ran = run("cuts", EXAMPLES / "hand.toml", "--json")
    said = json.loads(ran.out)
    assert (said["command"], said["exit"]) == ("cuts", 0)
    (stock,) = said["cuts"]["stocks"]
    assert (stock["opened"], stock["least"], stock["proved"]) == (1, 1, True)
    (board,) = stock["boards"]
    assert (board["length"], board["left"], board["cuts"][0]["length"]) == ('96"', '51-7/8"', '44"')


def test_money_is_dollars_in_json(run: Callable[..., Ran], job: Callable[[str], Path]) -> None:
    text = "\n".join(row for row in HAND.split("\n") if not row.startswith(('"ply', '"plastic', '"board')))
    lengths = 'price = 2.00, other_lengths = { short = { length = "60", price = 1.25 } },'
    ran = run("cuts", job(text.replace(HARD, HARD + lengths)), "--json")
    (stock,) = json.loads(ran.out)["cuts"]["stocks"]
    # independent: 44 fits in 60, and 1.25 is less than 2.00
    assert (stock["dollars"], stock["least_dollars"], stock["boards"][0]["length"]) == ("1.25", "1.25", '60"')
    ran = run("cuts", job(text.replace(HARD, HARD + lengths)))
    assert "1 full length opened, $1.25, proved least." in ran.out


def test_without_a_plan_it_is_one_line_and_exit_1(
    run: Callable[..., Ran], job: Callable[[str], Path]
) -> None:
    path = job('version = 2\nunit = "in"\n')
    ran = run("cuts", path)
    assert ran.code == 1
    assert "There is no plan, so nothing to cut" in " ".join(ran.out.split())
    said = json.loads(run("cuts", path, "--json").out)
    assert said["cuts"] is None
    assert "no plan" in said["unanswered"]


def test_stock_that_cannot_be_cut_is_one_line_each_and_exit_2(
    run: Callable[..., Ran], job: Callable[[str], Path]
) -> None:
    ran = run("cuts", job(HAND.replace(HARD, HARD + 'length = "0", offcuts = ["-2"],')))
    assert (ran.code, ran.out) == (2, "")
    lines = ran.err.strip().split("\n")
    assert len(lines) == 2
    assert all("framing.stock.hardboard 1/8." in each for each in lines)


def test_readings_in_doubt_come_first(run: Callable[..., Ran], job: Callable[[str], Path]) -> None:
    text = HAND + '\n[survey.widths]\nlow = { depth = "16", height = "2", reading = "61-1/4" }\n'
    ran = run("cuts", job(text))
    assert ran.code == 1
    assert ran.out.split("\n")[1].startswith("Readings are in doubt")
