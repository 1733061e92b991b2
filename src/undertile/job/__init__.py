"""The record: a job as a log of entries and its fold, its file, grids and archive; and its results."""

from __future__ import annotations

from undertile.job.entry import Entry, Pen, merge
from undertile.job.file import read_job
from undertile.job.fold import Folded, fold
from undertile.job.model import Job
from undertile.job.rebuild import Rebuild, plan
from undertile.job.write import write_job

__all__ = [
    "Entry",
    "Folded",
    "Job",
    "Pen",
    "Rebuild",
    "fold",
    "merge",
    "plan",
    "read_job",
    "write_job",
]
