"""The record: a job as a log of entries and its fold, its file, grids and archive; and its results."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from undertile.job.entry import Entry, Pen, merge
from undertile.job.fold import Clash, Folded, fold
from undertile.job.model import Job
from undertile.job.rebuild import Rebuild, plan
from undertile.job.standing import history

if TYPE_CHECKING:
    from undertile.job.archive import Archive, read_archive, write_archive
    from undertile.job.file import read_job
    from undertile.job.grid import GridReport, read_grid, write_grid
    from undertile.job.schema import job_schema
    from undertile.job.write import write_job

__all__ = [
    "Archive",
    "Clash",
    "Entry",
    "Folded",
    "GridReport",
    "Job",
    "Pen",
    "Rebuild",
    "fold",
    "history",
    "job_schema",
    "merge",
    "plan",
    "read_archive",
    "read_grid",
    "read_job",
    "write_archive",
    "write_grid",
    "write_job",
]
_IN = {
    "Archive": "archive",
    "read_archive": "archive",
    "write_archive": "archive",
    "read_job": "file",
    "GridReport": "grid",
    "read_grid": "grid",
    "write_grid": "grid",
    "job_schema": "schema",
    "write_job": "write",
}


def __getattr__(name: str) -> Any:
    """Files are imported when one is read or written: a first screen needs only the log and its fold."""
    if name not in _IN:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_IN[name]}"), name)
