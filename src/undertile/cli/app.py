"""The commands: each parses its words, asks, prints, and returns an exit code.

Heavy imports stand inside the commands, so that ``--help`` starts at once.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import Annotated, Literal

import typer

from undertile.cli.console import complain
from undertile.cli.hosts import add_to as add_hosts
from undertile.cli.store import add_to as add_store
from undertile.errors import FileError, UndertileError

app = typer.Typer(
    name="undertile",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)

JobPath = Annotated[str, typer.Argument(metavar="JOB", help="The job file (TOML); - reads it from stdin.")]
AsJson = Annotated[bool, typer.Option("--json", help="Every fact of the answer as JSON instead of tables.")]
ShowUnit = Annotated[
    Literal["in", "mm"] | None,
    typer.Option("--unit", help="Print in this unit; what was typed stays as it was typed."),
]


@app.callback(invoke_without_command=True)
def undertile(
    version: Annotated[bool, typer.Option("--version", help="Print the version and stop.")] = False,
) -> None:
    """From one survey of a gutted shower: which reading is wrong, what to do to each stud, does the pan
    drop in, and what else moves.

    \b
    Exit code: 0 nothing is wrong; 1 something must be settled before the first
    cut (a reading in doubt, a stop, a check that fails, no plan); 2 the input
    cannot be used, every problem on a line of its own; 3 a fault of the tool.
    """
    if version:
        from undertile import __version__

        typer.echo(f"undertile {__version__}")
        raise typer.Exit


@app.command()
def check(job: JobPath, as_json: AsJson = False, unit: ShowUnit = None) -> int:
    """Which number is wrong, and what is missing.

    \b
    Example:
      undertile check examples/old-alcove.toml
    """
    from undertile.cli.commands import check as run_it

    return run_it(job, as_json=as_json, unit=unit)


@app.command()
def plan(
    job: JobPath,
    as_json: AsJson = False,
    unit: ShowUnit = None,
    what_if: Annotated[
        list[str] | None,
        typer.Option(
            "--if",
            metavar="'STUD at HEIGHT = READING'",
            help="Plan as if this had been read; nothing is written. May be given more than once.",
        ),
    ] = None,
    steady: Annotated[
        bool,
        typer.Option(
            "--steady",
            help="Also: the cost of moving each wall a step, and how steady the plan is under error.",
        ),
    ] = False,
) -> int:
    """Which number is wrong; what to do to each stud; does the pan drop in; what else moves.

    \b
    Examples:
      undertile plan examples/old-alcove.toml
      undertile plan examples/old-alcove.toml --if "L3 at 54 = 5-7/8"
    """
    from undertile.cli.commands import plan as run_it

    return run_it(job, as_json=as_json, unit=unit, what_if=what_if or [], steady=steady)


@app.command()
def water(
    job: JobPath,
    visit: Annotated[
        str, typer.Option("--visit", metavar="NAME", help="As it stood after this visit; else the newest.")
    ] = "",
    out: Annotated[
        str,
        typer.Option(
            "--out", help="Folder to write its drawings into: where the water went, how each point dries."
        ),
    ] = "",
    pdf: Annotated[
        str, typer.Option("--pdf", metavar="FILE", help="Write the water record, for the insurer, here.")
    ] = "",
    paper: Annotated[Literal["letter", "a4"], typer.Option("--paper", help="Of the record.")] = "letter",
    language: Annotated[
        Literal["en", "es"], typer.Option("--language", help="Of the drawings and the record.")
    ] = "en",
    date: Annotated[str, typer.Option("--date", help="Printed on the record; else today.")] = "",
    as_json: AsJson = False,
    unit: ShowUnit = None,
) -> int:
    """What is wet and how far to open; where the water comes from; when it may be closed.

    Exit code 1 while nothing may be covered yet.

    \b
    Examples:
      undertile water examples/wet-corner.toml
      undertile water examples/wet-corner.toml --visit 1
      undertile water examples/wet-corner.toml --out charts --pdf record.pdf
    """
    from undertile.cli.water import run as run_it
    from undertile.cli.water_files import WaterFiles

    files = WaterFiles(out, pdf, paper, language, date)
    return run_it(job, visit=visit, files=files, as_json=as_json, unit=unit)


@app.command()
def floor(
    job: JobPath,
    out: Annotated[
        str, typer.Option("--out", help="Folder to write its drawings into: the patch, the panels.")
    ] = "",
    format_: Annotated[
        Literal["svg", "dxf"], typer.Option("--format", help="Of the drawings; DXF in true sizes.")
    ] = "svg",
    language: Annotated[Literal["en", "es"], typer.Option("--language", help="Of the drawings.")] = "en",
    as_json: AsJson = False,
    unit: ShowUnit = None,
) -> int:
    """Does the floor carry it; where is it cut, and from which panel; how it is brought level.

    Exit code 1 where something fails that no engineer answered, stops work, or a joist's span is none.

    \b
    Examples:
      undertile floor examples/wet-corner.toml
      undertile floor examples/wet-corner.toml --out drawings
    """
    from undertile.cli.floor import run as run_it

    return run_it(job, out=out, format_=format_, language=language, as_json=as_json, unit=unit)


@app.command()
def recheck(
    job: JobPath,
    as_json: AsJson = False,
    unit: ShowUnit = None,
    what_if: Annotated[
        list[str] | None,
        typer.Option(
            "--if",
            metavar="'ADDRESS = VALUE'",
            help="Judge as if this had been read; nothing is written. May be given more than once.",
        ),
    ] = None,
    pdf: Annotated[
        str, typer.Option("--pdf", metavar="FILE", help="Write the proof, one page, to this file.")
    ] = "",
    paper: Annotated[Literal["letter", "a4"], typer.Option("--paper", help="Of the proof.")] = "letter",
    language: Annotated[Literal["en", "es"], typer.Option("--language", help="Of the proof.")] = "en",
    date: Annotated[str, typer.Option("--date", help="Printed on the proof; else today.")] = "",
) -> int:
    """After the work: what to read again; are the walls right; what is left to do; the proof.

    \b
    Examples:
      undertile recheck examples/read-again.toml
      undertile recheck examples/read-again.toml --pdf proof.pdf --paper a4
    """
    from undertile.cli.recheck import Page
    from undertile.cli.recheck import run as run_it

    page = Page(pdf, paper, language, date)
    return run_it(job, as_json=as_json, unit=unit, what_if=what_if or [], page=page)


@app.command()
def explain(
    job: JobPath,
    where: Annotated[
        list[str],
        typer.Argument(
            metavar="WHERE", help="A stud (B2), a plane (plane B), or a figure (play, valve, drain)."
        ),
    ],
    as_json: AsJson = False,
    unit: ShowUnit = None,
) -> int:
    """The readings, rules and sources behind one stud or one figure.

    \b
    Examples:
      undertile explain examples/old-alcove.toml B2
      undertile explain examples/old-alcove.toml play
      undertile explain examples/old-alcove.toml plane B
    """
    from undertile.cli.commands import explain as run_it

    return run_it(job, " ".join(where), as_json=as_json, unit=unit)


@app.command()
def cuts(job: JobPath, as_json: AsJson = False, unit: ShowUnit = None) -> int:
    """What is cut from which board: strips from the stock on the van, lumber, shims and screws by length.

    \b
    Example:
      undertile cuts examples/old-alcove.toml
    """
    from undertile.cli.cuts_list import run as run_it

    return run_it(job, as_json=as_json, unit=unit)


@app.command()
def papers(
    job: JobPath,
    out: Annotated[str, typer.Option("--out", help="Folder to write the PDF files into.")] = "",
    paper: Annotated[Literal["letter", "a4"], typer.Option("--paper", help="Size of the paper.")] = "letter",
    language: Annotated[Literal["en", "es"], typer.Option("--language", help="English or Spanish.")] = "en",
    date: Annotated[str, typer.Option("--date", help="Date to print on them; else today.")] = "",
    what_if: Annotated[
        list[str] | None,
        typer.Option(
            "--if",
            metavar="'STUD at HEIGHT = READING'",
            help="A sheet that holds only if this is read so, and says it first. May be given again.",
        ),
    ] = None,
    as_json: AsJson = False,
    unit: ShowUnit = None,
) -> int:
    """The crew sheet and the survey form, to print; floor sheet and water record where they are begun.

    The crew sheet gives no amounts while a reading is in doubt or there is no plan.

    \b
    Example:
      undertile papers examples/hand.toml --out papers --language es
    """
    from undertile.cli.papers import run as run_it

    return run_it(
        job,
        out=out,
        paper=paper,
        language=language,
        date=date,
        what_if=what_if or [],
        as_json=as_json,
        unit=unit,
    )


@app.command()
def draw(
    job: JobPath,
    out: Annotated[str, typer.Option("--out", help="Folder to write the drawings into.")],
    format_: Annotated[
        Literal["svg", "dxf"],
        typer.Option("--format", help="SVG to look at and print; DXF, true sizes, to draw on."),
    ] = "svg",
    language: Annotated[Literal["en", "es"], typer.Option("--language", help="English or Spanish.")] = "en",
    what_if: Annotated[
        list[str] | None,
        typer.Option(
            "--if",
            metavar="'STUD at HEIGHT = READING'",
            help="Sheets that hold only if this is read so, and say it first. May be given more than once.",
        ),
    ] = None,
    unit: ShowUnit = None,
) -> int:
    """Each wall with the amounts on its studs, the opening, the flange, the walls before and after; the floor
    patch; where the water went and how it dries (SVG only: days are no lengths).

    While a reading is in doubt or there is no plan the walls show what was read, and no amounts.

    \b
    Examples:
      undertile draw examples/hand.toml --out drawings
      undertile draw examples/square-pan.toml --out drawings --format dxf
    """
    from undertile.cli.draw import run as run_it

    return run_it(job, out=out, format_=format_, language=language, what_if=what_if or [], unit=unit)


@app.command()
def schema(
    output: Annotated[
        str, typer.Option("--output", "-o", help="Write it to this file; else to stdout.")
    ] = "",
) -> int:
    """The JSON Schema of a job file.

    \b
    Example:
      undertile schema --output job.schema.json
    """
    from undertile.cli.commands import schema as run_it

    return run_it(output)


@app.command(name="import")
def import_(
    job: JobPath,
    grid: Annotated[
        str, typer.Argument(metavar="CSV", help="Readings as pasted from a spreadsheet; - reads stdin.")
    ],
    wall: Annotated[str, typer.Option("--wall", help="The wall of studs named 1, 2, ...: L, B or R.")] = "",
    unit: Annotated[
        Literal["in", "mm"] | None,
        typer.Option("--unit", help="Unit of the grid's bare numbers; else the job's."),
    ] = None,
    studs_in: Annotated[
        Literal["rows", "columns"] | None,
        typer.Option("--studs-in", help="Which way round, where the heads do not say."),
    ] = None,
    output: Annotated[str, typer.Option("--output", "-o", help="Write the job here; else back to JOB.")] = "",
    again: Annotated[
        bool, typer.Option("--again", help="Readings taken again after the work, for recheck.")
    ] = False,
) -> int:
    """Readings from a spreadsheet into a job.

    Studs down or across, inches or mm; blank is not measured and takes nothing out of the job. Every cell
    that is not understood is printed, and then nothing is written.

    \b
    Example:
      undertile import my-job.toml back-wall.csv --wall B --output my-job-2.toml
    """
    from undertile.cli.import_grid import run as run_it

    return run_it(job, grid, wall=wall, unit=unit, studs_in=studs_in, output=output, again=again)


@app.command()
def bench(
    cases: Annotated[
        list[str] | None,
        typer.Argument(metavar="[CASE]...", help="plan-5, plan-13, many-13, moves, ..."),
    ] = None,
    rooms: Annotated[int, typer.Option("--rooms", min=1, help="Rooms or surveys for each case.")] = 5,
    limit_s: Annotated[float, typer.Option("--limit", min=0.1, help="Seconds for one answer.")] = 20.0,
    as_json: AsJson = False,
) -> int:
    """How fast the planner is, beside general solvers on the same rooms.

    Takes minutes; needs the packages of the tests (highspy, ortools, numpy, matplotlib) for the peers.

    \b
    Example:
      undertile bench plan-13 moves --rooms 3 --json
    """
    from undertile.cli.bench import run as run_it

    return run_it(cases or [], rooms=rooms, limit_s=limit_s, as_json=as_json)


add_hosts(app)
add_store(app)


def run(words: Sequence[str]) -> int:
    """Run one command; every problem becomes a line on stderr and an exit code, never a traceback."""
    try:
        code = app(args=list(words) or ["--help"], prog_name="undertile", standalone_mode=False)
        sys.stdout.flush()
    except FileError as error:
        complain(error.problems)
        return 2
    except (UndertileError, typer.TyperException) as error:
        said = error.format_message() if isinstance(error, typer.TyperException) else str(error)
        complain(
            [said if isinstance(error, UndertileError) else f"{said} (undertile --help shows what there is)"]
        )
        return 2
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # whoever read the pipe has seen enough; nothing more can be written, not even at exit
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception as error:
        if os.environ.get("UNDERTILE_TRACE"):
            raise
        complain(
            [
                f"undertile itself failed ({type(error).__name__}: {error}); your files are as they were. "
                "Please report it with the job file; UNDERTILE_TRACE=1 shows where."
            ]
        )
        return 3
    return code if isinstance(code, int) else 0
