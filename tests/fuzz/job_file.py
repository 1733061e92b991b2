"""Throw files at the record: ``python -m tests.fuzz.job_file --seconds 20``.

Good files with pieces changed, cut, doubled and swapped; TOML put together from a job's own keys and from
none; plain bytes. Likewise grids, logs and archives. What must hold for each: it is read, or refused with
``FileError`` or ``InputError``, every problem one line; what is read is written, read back and folded to
the same job.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from undertile.errors import FileError, InputError
from undertile.job import Pen, fold, read_archive, read_grid, read_job, write_grid, write_job
from undertile.job.archive import archive_bytes
from undertile.job.entry import read_log, write_log
from undertile.job.model import job_shape
from undertile.job.plain import entries_of
from undertile.job.shape import keys_of

EXAMPLES = Path(__file__).parents[2] / "examples"
ROOMS = tuple(path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.toml")))
KEYS = sorted(
    {part for path, _ in keys_of(job_shape()) for part in path} | {"version", "rows", "heights_read"}
)
PIECES = (
    *(
        '"',
        "'",
        '"""',
        "'''",
        "[",
        "]",
        "[[",
        "]]",
        "{",
        "}",
        "=",
        ",",
        ".",
        "#",
        "\n",
        "\r",
        "\\",
        " ",
        "\t",
    ),
    *(
        '"6-0"',
        '"5-13/16"',
        '"1203 mm"',
        '"x"',
        '""',
        '"6-"',
        "1e999999999",
        "nan",
        "0x1F",
        "true",
        "-1",
        "2.5",
    ),
    *(
        "version = 1\n",
        "version = 3\n",
        "unit = 'mm'\n",
        "1979-05-27",
        "\ufeff",
        "\0",
        "é",
        "½",
        "\u2028",
        "B1",
        "L2",
    ),
    *("[survey.walls.B]\n", "[framing]\n", "[pan.pan]\n", "studs = {", "readings = [", "heights = ["),
)


def pen() -> Pen:
    return Pen("fuzz", "nobody", "2031-01-01")


def mutated(dice: random.Random, text: str) -> str:
    """A text with a few pieces of it changed."""
    for _ in range(dice.choice((1, 1, 2, 3, 8, 30))):
        at, to = sorted((dice.randrange(len(text) + 1), dice.randrange(len(text) + 1)))
        to = min(to, at + dice.choice((1, 3, 20, 400)))
        kind = dice.randrange(6)
        if kind == 0:
            text = text[:at] + text[to:]
        elif kind == 1:
            text = text[:at] + dice.choice(PIECES) + text[at:]
        elif kind == 2:
            text = text[:at] + dice.choice((*PIECES, *KEYS)) + text[to:]
        elif kind == 3:
            text = text[:to] + text[at:to] + text[to:]
        elif kind == 4:
            lines = text.split("\n")
            dice.shuffle(lines)
            text = "\n".join(lines)
        else:
            text = (
                text[:at]
                + chr(dice.choice((0, 9, 34, 39, 0x2D, 0x7F, 0xAD, 0x2212, 0x1F600)))
                + text[at + 1 :]
            )
    return text


def toml(dice: random.Random, depth: int = 0) -> str:
    """A value of TOML, any kind."""
    kind = dice.randrange(9 if depth < 5 else 6)
    if kind < 4:
        return dice.choice(('"6-0"', '"24"', '""', '"x"', "'4 1/2\"'", '"wood"', '"in"', '"1203 mm"', '"B1"'))
    if kind == 4:
        return dice.choice(("1", "-7", "2.50", "true", "false", "inf", "1979-05-27", "0b101", "9" * 30))
    if kind == 5:
        return dice.choice(("[]", "{}", '"""a\nb"""', "'''it's'''"))
    if kind == 6:
        return "[" + ", ".join(toml(dice, depth + 1) for _ in range(dice.randrange(4))) + "]"
    keys = dice.sample((*KEYS, "B1", "L1", "48", '"4\' 0\\""', "w.x", '"a.b"'), dice.randrange(5))
    return "{ " + ", ".join(f"{_key(key)} = {toml(dice, depth + 1)}" for key in keys) + " }"


def _key(key: str) -> str:
    return key if key.replace("_", "").replace(".", "").isalnum() or key[0] == '"' else f"'{key}'"


def made_up(dice: random.Random) -> str:
    """A file of good TOML with a job's keys in any place."""
    unit_key, unit = dice.choice(("unit", "units")), dice.choice(("in", "mm"))
    head = f'version = {dice.choice((1, 2))}\n{unit_key} = "{unit}"\n'
    paths = [path for path, _ in keys_of(job_shape()) if len(path) > 1]
    lines = []
    for path in dice.sample(paths, dice.randrange(1, 12)):
        names = {"*": ("B", "L1", "B2", "w1", "ply"), "height": ("48", '"2"')}
        spelled = [dice.choice(names[part]) if part in names else _key(part) for part in path]
        lines.append(f"{'.'.join(spelled)} = {toml(dice)}")
    return head + "\n".join(lines)


def noise(dice: random.Random) -> bytes:
    """Bytes of any kind, or a file in another encoding."""
    if dice.random() < 0.5:
        return dice.randbytes(dice.randrange(300))
    return dice.choice(ROOMS).encode(dice.choice(("utf-16", "latin-1", "utf-8-sig", "utf-32")), "replace")


def check_file(content: bytes) -> bool:
    """Read a job file; what is read must come back from every form it is kept in."""
    job = read_job(content)
    again = read_job(write_job(job))
    assert again == job, "written and read back to another job"
    folded = fold(entries_of(job, pen()))
    assert folded.job == job, f"folded to another job: {[finding.line() for finding in folded.findings]}"
    return True


def check_grid(text: str, dice: random.Random) -> bool:
    report = read_grid(text, pen(), dice.choice(("in", "mm")), wall=dice.choice((None, "L")))
    assert all(len(line.splitlines()) == 1 for line in report.problems), report.problems
    fold(report.entries)
    return not report.problems


def check_log(text: str) -> bool:
    log = read_log(text)
    assert read_log(write_log(log)) == log, "a log read back otherwise"
    fold(log)
    return True


def check_archive(content: bytes) -> bool:
    read_archive(content)
    return True


def bent(dice: random.Random, content: bytes) -> bytes:
    """Bytes with a few of them changed, or the end cut off."""
    out = bytearray(content)
    for _ in range(dice.randrange(1, 5)):
        out[dice.randrange(len(out))] = dice.randrange(256)
    return bytes(out[: dice.randrange(len(out))] if dice.random() < 0.2 else out)


def cases() -> dict[str, Callable[[random.Random], bool]]:
    """What is thrown, by name."""
    room = read_job(ROOMS[0])
    log = entries_of(room, pen())
    archive, lines = archive_bytes(log, {}), write_log(log)
    grids = [write_grid(room), write_grid(room, studs_in="columns", separator="\t")]
    return {
        "changed file": lambda dice: check_file(_encoded(mutated(dice, dice.choice(ROOMS)))),
        "made-up file": lambda dice: check_file(_encoded(made_up(dice))),
        "mended file": lambda dice: check_file(_encoded(mutated(dice, made_up(dice)))),
        "noise": lambda dice: check_file(noise(dice)),
        "grid": lambda dice: check_grid(mutated(dice, dice.choice(grids)), dice),
        "log": lambda dice: check_log(mutated(dice, lines)),
        "archive": lambda dice: check_archive(bent(dice, archive)),
    }


def _encoded(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")


def run(*, seed: int, count: int | None = None, seconds: float | None = None) -> dict[str, Counter[str]]:
    """Throw ``count`` cases of each kind, or as many as fit in ``seconds``; how many were read and refused.

    Raises
    ------
    AssertionError
        With the seed and number of the case that broke a promise.
    """
    end = time.monotonic() + seconds if seconds is not None else None
    thrown = cases()
    told: dict[str, Counter[str]] = {name: Counter() for name in thrown}
    number = 0
    while (count is None or number < count) and (end is None or time.monotonic() < end):
        for name, throw in thrown.items():
            told[name][_answer(throw, name, seed, number)] += 1
        number += 1
    return told


def _answer(throw: Callable[[random.Random], bool], name: str, seed: int, number: int) -> str:
    dice = random.Random(f"{seed} {name} {number}")
    try:
        answer = "read" if throw(dice) else "judged"
    except (FileError, InputError) as refused:
        lines = refused.problems if isinstance(refused, FileError) else (str(refused),)
        if not lines or any(len(line.splitlines()) != 1 for line in lines):
            raise AssertionError(f"{name}, seed {seed}, case {number}: not clear lines: {lines}") from refused
        answer = "refused"
    except Exception as broken:
        raise AssertionError(f"{name}, seed {seed}, case {number}: {broken!r}") from broken
    return answer


def main() -> int:
    arguments = argparse.ArgumentParser(prog="python -m tests.fuzz.job_file", description=__doc__)
    arguments.add_argument("--seconds", type=float, default=10.0)
    arguments.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    chosen = arguments.parse_args()
    try:
        told = run(seed=chosen.seed, seconds=chosen.seconds)
    except AssertionError as broken:
        print(broken)
        return 1
    for name, counts in told.items():
        words = ", ".join(f"{count} {word}" for word, count in sorted(counts.items()))
        print(f"{name:13} {sum(counts.values()):6}: {words}")
    print(f"seed {chosen.seed}: no promise broken")
    return 0


if __name__ == "__main__":
    sys.exit(main())
