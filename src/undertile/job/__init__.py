"""The record: a job as a log of entries and its fold, its file, grids and archive; and its results."""

from __future__ import annotations

from undertile.job.archive import Archive, read_archive, write_archive
from undertile.job.entry import Entry, Pen, merge
from undertile.job.file import read_job
from undertile.job.fold import Clash, Folded, fold
from undertile.job.grid import GridReport, read_grid, write_grid
from undertile.job.model import Job
from undertile.job.rebuild import Rebuild, plan
from undertile.job.schema import job_schema
from undertile.job.standing import history
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
