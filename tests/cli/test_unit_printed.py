"""``--unit`` only prints: every command answers the same in both units, whatever unit the job was typed in.

Independent (symmetry): one job asked in inches and in mm. Compared is the whole of every JSON answer but its
words: codes, verdicts, severities, who stands where, how many, minutes and dollars, and the exit code.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import EXAMPLES, Ran
from tests.wood.test_honest_job import (
    as_toml,
    covered,
    dried,
    example,
    floored,
    merged,
    put_back,
    ruled_out,
)
from undertile.cli import answer, clock, commands, cuts_list, floor, papers, recheck, water

COMMANDS = ("check", "plan", "water", "floor", "recheck", "cuts", "papers")
ASKING = (commands, cuts_list, floor, papers, recheck, water)
"""The modules that ask the stages: here each job is asked once for each unit and choice of stages."""
KEPT = frozenset(
    {"code", "verdict", "severity", "kind", "call", "state", "standing", "source", "treatment", "families"}
    | {"family", "name", "stud", "studs", "wall", "walls", "member", "piece", "layer", "edge", "corner"}
    | {"minutes", "planned_minutes", "dollars", "least_dollars", "cost", "shim_cost", "date", "when", "by"}
)
"""Keys whose texts are no words: they are compared; of every other text only that it is there."""
IN_WORDS = frozenset({"data", "amounts", "unit", "survey_form", "runner_ups"})
"""Keys whose content is lengths as they print, or the unit itself; a form asks at round places of it.

Plans that lose are looked for within some seconds: on a starved machine one run has them, the other has not.
"""


def told(value: Any, key: str = "") -> Any:
    """An answer without its words and its printed lengths."""
    if isinstance(value, dict):
        inner = {name: told(each, name) for name, each in value.items() if name not in IN_WORDS}
        # a name of a place in a printed length ("plane at 48") is words too
        plain = {name: each for name, each in inner.items() if not any(map(str.isdigit, name))}
        return {**plain, "": [each for name, each in inner.items() if name not in plain]}
    if isinstance(value, list):
        return [told(each, key) for each in value]
    if isinstance(value, str) and (key not in KEPT or '"' in value or " mm" in value):
        return bool(value)
    return value


@pytest.fixture(scope="module", autouse=True)
def asked_once() -> Iterator[None]:
    known: dict[Any, Any] = {}
    real = answer.ask

    def ask(job: Any, unit: Any = None, stages: Any = None, *, whole: bool = True) -> Any:
        key = (job.model_dump_json(), unit, None if stages is None else tuple(stages), whole, clock.day())
        if key not in known:
            known[key] = real(job, unit, stages, whole=whole)
        return known[key]

    with pytest.MonkeyPatch.context() as patch:
        for module in ASKING:
            patch.setattr(module, "ask", ask)
        yield


def same_in_both(run: Callable[..., Ran], job: Path) -> dict[str, int]:
    """The exit codes of all commands, which answer the same in both units."""
    codes = {}
    for command in COMMANDS:
        ran = [run(command, job, "--json", "--unit", unit) for unit in ("in", "mm")]
        assert ran[0].code == ran[1].code, command
        one, two = (told(json.loads(each.out)) for each in ran)
        assert one == two, command
        codes[command] = ran[0].code
    return codes


@pytest.mark.parametrize("name", sorted(each.stem for each in EXAMPLES.glob("*.toml")))
def test_every_example_answers_the_same_whatever_unit_is_printed(run: Callable[..., Ran], name: str) -> None:
    codes = same_in_both(run, EXAMPLES / f"{name}.toml")
    assert set(codes.values()) <= {0, 1}


BARE = re.compile(r"[\d/ .-]+")
LENGTHS = frozenset(
    {"along", "height", "heights", "x", "y", "thickness", "depth", "depths", "width", "span", "at", "start"}
    | {"length", "diameter", "top", "line", "reading", "readings", "left", "right", "back", "front", "over"}
    | {"nominal", "flange_height", "drop", "bowl", "offset", "bearing", "awl", "kerf", "board"}
)


def marked(value: Any, key: str = "") -> Any:
    """The facts of a job in inches with an inch mark behind every bare length."""
    if isinstance(value, dict):
        # what an awl reads stands under the name of its visit
        return {name: marked(each, key if key == "awl" else name) for name, each in value.items()}
    if isinstance(value, list):
        return [marked(each, key) for each in value]
    is_length = isinstance(value, str) and key in LENGTHS and BARE.fullmatch(value)
    return f'{value}"' if is_length else value


def honest() -> dict[str, Any]:
    """The wet corner worked on to an open gate."""
    job = put_back(covered(floored(dried(ruled_out(example())))))
    gauge = {name: {"gauge": "psi"} for name in job["wood"]["leak"]["pressures"]}
    return merged(job, {"wood": {"leak": {"pressures": gauge}}})


def in_mm() -> dict[str, Any]:
    """The same job, typed with every mark, as one in mm: the same facts; a panel's size has to be said."""
    job = merged(marked(honest()), {"unit": "mm"})
    sizes = {name: {"length": "2440", "width": "1220"} for name in job["floor"]["patch"]["panels"]}
    return merged(job, {"floor": {"patch": {"panels": sizes}}})


@pytest.mark.parametrize("make", [honest, in_mm])
def test_an_honest_job_is_as_open_in_the_other_unit(
    run: Callable[..., Ran],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    make: Callable[[], dict[str, Any]],
) -> None:
    monkeypatch.setattr(clock, "day", lambda: "2026-03-22")
    path = tmp_path / "honest.toml"
    path.write_text("".join(f"{key} = {as_toml(value)}\n" for key, value in make().items()), encoding="utf-8")
    assert same_in_both(run, path)["water"] == 0


def test_a_gauge_nobody_named_and_a_panel_nobody_sized_are_the_same_in_the_other_unit(
    run: Callable[..., Ran], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was found to change with the unit printed."""
    monkeypatch.setattr(clock, "day", lambda: "2026-03-22")
    job = marked(honest())
    for each in job["wood"]["leak"]["pressures"].values():
        del each["gauge"]
    for unit in ("in", "mm"):
        path = tmp_path / f"{unit}.toml"
        whole = {**job, "unit": unit}
        path.write_text("".join(f"{k} = {as_toml(value)}\n" for k, value in whole.items()), encoding="utf-8")
        same_in_both(run, path)
    sized = []
    for unit in ("in", "mm"):
        sized.append(json.loads(run("floor", tmp_path / f"{unit}.toml", "--json").out)["cut_lists"])
    assert [len(each) for each in sized] == [1, 0], "by the job's own unit a panel is 96 x 48, or not known"


def test_a_length_in_a_code_is_the_same_in_every_unit(run: Callable[..., Ran]) -> None:
    codes = []
    for unit in ("in", "mm"):
        told_of = json.loads(run("plan", EXAMPLES / "hand.toml", "--json", "--unit", unit).out)
        codes.append([each["code"] for each in told_of["pan"]["checks"]])
    assert codes[0] == codes[1]
    assert {"play-1", "play-16", "play-32"} <= set(codes[1])
