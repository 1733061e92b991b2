"""Write the pages that come out of the code, and check the sessions shown in the docs.

    python3 scripts/docs.py            write docs/command-line.md, docs/sources.md, every session and picture
    python3 scripts/docs.py --check    say what is not current, and exit 1

A session is a fenced block of kind ``console``: a line ``$ undertile ...``, then what it really prints at 80
columns. A line ``...`` stands for lines left out; such a session is checked, not rewritten.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
COMMANDS = (
    *("check", "plan", "explain", "cuts", "papers", "draw", "recheck", "water", "floor", "schema", "import"),
    *("jobs", "backup", "restore", "serve", "export-phone", "bench"),
)
TODAY = "2026-03-07"
"""The day that printed pages stand on, whenever they are made: the day after the wet corner's last visit."""
MENDED = ("L3 at 54 = 5-7/8", "B4 at 36 = 6-1/4")
"""The two slips planted in the old alcove, read again."""
PICTURES: dict[str, tuple[str, tuple[str, ...], tuple[str, ...]]] = {
    "old-alcove": ("examples/old-alcove.toml", MENDED, ("wall-B", "relief-B")),
    "hand": ("examples/hand.toml", (), ("wall-B", "opening", "flange")),
    "wet-corner": ("examples/wet-corner.toml", (), ("where-wet", "drying-1", "drying-plate-B-16")),
}
"""Drawings kept in docs/pictures: job, readings as if, sheets."""
SESSION = re.compile(r"(```console\n)(\$ undertile [^\n]*\n)(.*?)(```)", re.DOTALL)
MADE = re.compile(r"(<!-- made: (\w+) -->\n)(.*?)(<!-- end -->)", re.DOTALL)


def printed(words: list[str]) -> str:
    """What a command prints, at 80 columns and without colour; what goes to stderr comes last."""
    from undertile.cli import main

    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        main(words)
    lines = (out.getvalue() + err.getvalue()).split("\n")
    return "\n".join(line.rstrip() for line in lines).strip("\n") + "\n"


def words_of(line: str) -> list[str]:
    """The words after ``$ undertile``."""
    import shlex

    return shlex.split(line.removeprefix("$ undertile").strip())


def told(block: str, real: str) -> bool:
    """Whether a session tells the truth: every part between ``...`` lines stands in the output, in order."""
    at = 0
    parts = re.split(r"(?m)^\.\.\.\n", block)
    for number, part in enumerate(parts):
        if not part:
            continue
        found = real.find(part, at)
        starts_line = found == 0 or real[found - 1 : found] == "\n"
        if found < 0 or not starts_line or (number == 0 and found != 0):
            return False
        at = found + len(part)
    return bool(parts[-1] == "" or at == len(real))


def help_pages() -> str:
    """Every command's ``--help``."""
    out = []
    for name in ("", *COMMANDS):
        words = [name, "--help"] if name else ["--help"]
        out.append(f"### undertile{' ' if name else ''}{name}\n\n```text\n{printed(words)}```\n")
    return "\n".join(out)


def sources() -> str:
    """Every source, with its weight and where it is cited."""
    from undertile.sources import SOURCES

    rows = ["| key | what it is | weight | note |", "|---|---|---|---|"]
    rows += [f"| `{each.key}` | {each.title} | {each.kind} | {each.note} |" for each in SOURCES.values()]
    return "\n".join(rows) + "\n"


def pictures() -> dict[Path, str]:
    """Every picture of the docs, as ``undertile draw`` writes it."""
    from undertile.cli.what_if import as_if
    from undertile.drawing import sheets, to_svg
    from undertile.job import plan, read_job

    out = {}
    for name, (path, readings, wanted) in PICTURES.items():
        job = as_if(read_job(Path(path)), list(readings)) if readings else read_job(Path(path))
        drawn = {each.key: each for each in sheets(plan(job), as_if=readings)}
        for key in wanted:
            out[Path("docs/pictures") / f"{name}-{key}.svg"] = to_svg(drawn[key].scene)
    return out


MAKERS = {"help": help_pages, "sources": sources}


def renewed(text: str) -> tuple[str, list[str]]:
    """A page with its made parts and sessions renewed, and the sessions that do not tell the truth."""
    wrong: list[str] = []

    def made(found: re.Match[str]) -> str:
        return found[1] + MAKERS[found[2]]() + found[4]

    def session(found: re.Match[str]) -> str:
        real = printed(words_of(found[2]))
        if re.search(r"(?m)^\.\.\.$", found[3]):
            if not told(found[3], real):
                wrong.append(found[2].strip())
            return found[0]
        return found[1] + found[2] + real + found[4]

    return SESSION.sub(session, MADE.sub(made, text)), wrong


def main(words: list[str]) -> int:
    """Write or check every page."""
    from undertile.cli import clock

    os.environ.update(COLUMNS="80", TERMINAL_WIDTH="80", NO_COLOR="1")
    os.chdir(ROOT)
    clock.day = lambda: TODAY
    stale = 0
    for path in [Path("README.md"), Path("CONTRIBUTING.md"), *sorted(Path("docs").rglob("*.md"))]:
        if not path.exists():
            continue
        old = path.read_text(encoding="utf-8")
        new, wrong = renewed(old)
        for each in wrong:
            print(f"{path}: the session `{each}` shows what it does not print; correct it by hand")
        if new != old and "--check" in words:
            print(f"{path}: not current; run python3 scripts/docs.py")
        elif new != old:
            path.write_text(new, encoding="utf-8", newline="\n")
            print(f"{path}: written")
        stale += bool(wrong) or (new != old and "--check" in words)
    for path, drawing in pictures().items():
        if path.exists() and path.read_text(encoding="utf-8") == drawing:
            continue
        if "--check" in words:
            print(f"{path}: not current; run python3 scripts/docs.py")
            stale += 1
        else:
            path.parent.mkdir(exist_ok=True)
            path.write_text(drawing, encoding="utf-8", newline="\n")
            print(f"{path}: written")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
