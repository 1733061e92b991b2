"""What stands on every page: job, date, and the revision, which is a hash of the job's facts."""

from __future__ import annotations

import hashlib
import json
from datetime import date as calendar

from undertile.job import Job
from undertile.job.plain import taken_apart
from undertile.lengths import Unit
from undertile.packet.content import Head, Paper
from undertile.packet.words import Language

DIGITS = 8
"""Of the revision: one chance in four thousand million that two states of a job print the same."""


def revision(job: Job) -> str:
    """First hexadecimal digits of the SHA-256 of the job's facts as typed, keys in order.

    Parameters
    ----------
    job : Job

    Returns
    -------
    str
        The same for the same facts, whatever printed them.
    """
    text = json.dumps(taken_apart(job), sort_keys=True, ensure_ascii=True, default=str)
    return hashlib.sha256(text.encode()).hexdigest()[:DIGITS]


def clock_day(date: str) -> str:
    """The day a print's date tells, ``2026-03-04``; "" where what is written there is no day."""
    try:
        return calendar.fromisoformat(date).isoformat() if len(date) == len("2026-03-04") else ""
    except ValueError:
        return ""


def head_of(job: Job, date: str, language: Language, paper: Paper, unit: Unit | None = None) -> Head:
    """The head of a job's papers; ``unit``: what they print in, else the job's own."""
    return Head(job.name, job.place, date, revision(job), unit or job.unit, language, paper)
