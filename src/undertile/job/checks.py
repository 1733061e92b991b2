"""Plausibility of a job as typed: judged, never changed. Belongs to no stage."""

from __future__ import annotations

from undertile.findings import Finding
from undertile.job.model import Job


def plausibility(job: Job) -> tuple[Finding, ...]:
    return ()
