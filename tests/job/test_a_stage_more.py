"""A stage more costs one folder and one line: the package copied, a made-up stage put in, nothing else.

Everything that is asked of it here runs in a process of its own, on the copy.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import undertile

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = Path(undertile.__file__).parent

FACTS = '''
"""How high the ceiling hangs over the shower."""

from pydantic import Field

from undertile.bounds import Size
from undertile.survey.facts import Facts


class Rib(Facts):
    """A rib of the ceiling."""

    drop: Size = Field(description="how far it hangs below the ceiling")


class CeilingFacts(Facts):
    """What is known of the ceiling."""

    height: Size | None = Field(default=None, description="from the subfloor to the ceiling")
    ribs: dict[str, Rib] = Field(default_factory=dict)
'''

STAGE = '''
"""The ceiling over the shower: a stage that is only here to be added."""

from dataclasses import dataclass

from undertile.ceiling.facts import CeilingFacts
from undertile.findings import Finding, Severity
from undertile.stage import Stage


@dataclass(frozen=True)
class CeilingResult:
    """What the ceiling leaves."""

    findings: tuple = ()


def _run(facts, results):
    """Low under 80 in, its lowest rib taken off."""
    its = facts["ceiling"]
    if its.height is None:
        return CeilingResult()
    left = its.height.inches - max((rib.drop.inches for rib in its.ribs.values()), default=0)
    if left >= 80:
        return CeilingResult()
    found = Finding(
        "ceiling-low", Severity.ACT, "ceiling", "80 in or more", str(left), "Raise it.", "convention-4"
    )
    return CeilingResult((found,))


STAGE = Stage(key="ceiling", question="Is there head room?", facts=CeilingFacts, run=_run)
'''

HEAD = """
import json, sys
sys.path.insert(0, {root!r})
import undertile
from pathlib import Path
assert str(Path(undertile.__file__)).startswith({copy!r}), undertile.__file__
from undertile.job import read_job
JOB = 'version = 2\\nunit = "in"\\n[ceiling]\\nheight = "84-1/2"\\n[ceiling.ribs.beam]\\ndrop = "6"\\n'
"""

ASKED = {
    "the job file": """
from undertile.job.write import write_job
from undertile.errors import FileError
job = read_job(JOB)
assert job.facts()["ceiling"].ribs["beam"].drop.text == "6"
assert read_job(write_job(job)) == job
try:
    read_job(JOB.replace("height", "heigth"))
except FileError as error:
    assert "ceiling.heigth" in str(error) and "height" in str(error).replace("heigth", ""), error
else:
    raise AssertionError("a slip in its key was taken")
""",
    "schema and page": """
from undertile.job.schema import job_schema
from undertile.job.pages import every_key
assert set(job_schema()["properties"]["ceiling"]["properties"]) == {"height", "ribs"}
assert "`[ceiling.ribs.NAME]`" in every_key()
""",
    "its answer beside the others": """
from undertile.job import plan
from undertile.job.stages import STAGES
rebuild = plan(read_job(JOB), [stage for stage in STAGES if stage.key == "ceiling"])
assert [each.code for each in rebuild.findings] == ["ceiling-low"]
assert plan(read_job(JOB.replace('"6"', '"3"')), STAGES).results["ceiling"].findings == ()
""",
    "the command line": """
import io, contextlib
from undertile.cli import main
path = Path({folder!r}) / "job.toml"
path.write_text((Path({root!r}) / "examples" / "hand.toml").read_text() + JOB.split("in\\"", 1)[1])
out = io.StringIO()
with contextlib.redirect_stdout(out):
    try:
        main(["plan", str(path), "--json"])
    except SystemExit:
        pass
told = json.loads(out.getvalue())
assert "ceiling-low" in json.dumps(told["findings"]), sorted(told)
""",
    "the record: fold, what stood before, undo": """
from tests.screens.cast import site, typed
from undertile.job import fold
at = site()
job = typed(at, [("unit", "in"), ("ceiling.height", "84-1/2")])
(first,) = [each.id for each in at.store.log(job) if each.fact == "ceiling.height"]
at.send(job, {"fact": "ceiling.height", "value": "79", "supersedes": [first]})
assert fold(at.store.log(job)).job.facts()["ceiling"].height.text == "79"
page = at.page(f"/job/{job}/history")
assert "84-1/2" in page and "79" in page and "height" in page
done = at.client.post(f"/job/{job}/undo", headers={"accept": "application/json"})
assert done.status_code == 200, done.text
assert fold(at.store.log(job)).job.facts()["ceiling"].height.text == "84-1/2"
at.send(job, {"fact": "ceiling.ribs.beam.drop", "value": "nonsense"})
folded = fold(at.store.log(job))
assert folded.left_out == ("ceiling.ribs.beam.drop",), folded
assert any("beam" in each.where for each in folded.findings)
at.store.close()
""",
    "screens: the copy of the job, two phones' clash, what is printed": """
from tests.screens.cast import bring, site, typed
from undertile.job import fold
at = site()
job = typed(at, [("unit", "in"), ("ceiling.height", "84-1/2")])
file = at.client.get(f"/job/{job}/file")
assert "[ceiling]" in file.text and "84-1/2" in file.text
at.store.pen("dev9", "Cy", "2026-11-24T09:00:00").write(job, "ceiling.height", "70")
assert [clash.fact for clash in fold(at.store.log(job)).clashes] == ["ceiling.height"]
hand = bring(at, "hand")
at.send(hand, {"fact": "ceiling.height", "value": "70"})
at.page(f"/job/{hand}/plan")
state = list(at.answers._kept.values())[-1]
assert state.folded.job.facts()["ceiling"].height.text == "70"
at.answers.plan(state)
assert "ceiling-low" in [each.code for each in state.printed.findings]
at.store.close()
""",
}


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package with one folder more, and the line for it in ``job/stages.py``."""
    folder = tmp_path_factory.mktemp("more")
    made = folder / "undertile"
    shutil.copytree(PACKAGE, made, ignore=shutil.ignore_patterns("__pycache__"))
    (made / "ceiling").mkdir()
    (made / "ceiling" / "facts.py").write_text(FACTS, encoding="utf-8")
    (made / "ceiling" / "__init__.py").write_text(STAGE, encoding="utf-8")
    stages = made / "job" / "stages.py"
    text = stages.read_text(encoding="utf-8")
    assert text.count("from undertile import ") == text.count("    recheck.STAGE,\n") == 1
    text = text.replace("from undertile import ", "from undertile import ceiling, ")
    stages.write_text(
        text.replace("    recheck.STAGE,\n", "    recheck.STAGE,\n    ceiling.STAGE,\n"), "utf-8"
    )
    return folder


@pytest.mark.parametrize("what", ASKED)
def test_it_is_there(what: str, copy: Path) -> None:
    """independent: the package as it stands, asked in another process."""
    code = HEAD.format(root=str(ROOT), copy=str(copy)) + ASKED[what].replace(
        "{folder!r}", repr(str(copy))
    ).replace("{root!r}", repr(str(ROOT)))
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        cwd=copy,
        env={**os.environ, "PYTHONPATH": str(copy)},
    )
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr[-3000:]
