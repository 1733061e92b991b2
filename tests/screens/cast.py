"""The cast of the screens' tests: a store in memory, a host with a clock that stands still, small jobs."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from undertile.errors import InputError
from undertile.job import Entry, read_job
from undertile.job.entry import Pen
from undertile.job.plain import entries_of
from undertile.screens import Host, Picture, create_app
from undertile.screens.answers import Answers
from undertile.screens.plans import Plans
from undertile.store import SqliteStore

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NOW = "2026-11-25T10:11:12+00:00"
MENDED = {
    "survey.walls.B.studs.B4.readings.36": "6-1/4",
    "survey.walls.L.studs.L3.readings.54": "5-7/8",
}
"""The two slips planted in the old alcove, as they should have been typed (docs/examples.md)."""


async def _clean(content: bytes) -> Picture:
    if not content.startswith(b"\x89PNG"):
        raise InputError("expected a picture, found something else; choose another")
    return Picture(content, "png")


def host(**more: Any) -> Host:
    return Host("server", "dev1", "Ana", lambda: NOW, clean_photo=_clean, **more)


@dataclass
class Site:
    """An app over a store of its own."""

    store: SqliteStore
    host: Host
    client: TestClient

    @property
    def answers(self) -> Answers:
        """What the app keeps of its answers."""
        found: Answers = self.client.app.state.answers  # type: ignore[attr-defined]
        return found

    def page(self, path: str, **query: str) -> str:
        answer = self.client.get(path, params=query, headers={"accept": "text/html"})
        assert answer.status_code == 200, answer.text[:300]
        return answer.text

    def twin(self, path: str, **query: str) -> dict[str, Any]:
        answer = self.client.get(path, params=query, headers={"accept": "application/json"})
        assert answer.status_code == 200, answer.text[:300]
        found: dict[str, Any] = answer.json()
        return found

    def send(self, job: str, *drafts: Mapping[str, Any]) -> dict[str, Any]:
        answer = self.client.post(
            f"/job/{job}/entries", json={"drafts": list(drafts)}, headers={"accept": "application/json"}
        )
        assert answer.status_code == 200, answer.text[:300]
        found: dict[str, Any] = answer.json()
        return found

    def value(self, job: str, fact: str) -> str | None:
        """What stands of a fact, by the log alone."""
        log = self.store.log(job)
        gone = {name for entry in log for name in entry.supersedes}
        (only,) = [entry for entry in log if entry.fact == fact and entry.id not in gone]
        return only.value


def site(**more: Any) -> Site:
    store = SqliteStore(":memory:")
    told = host(**more)
    return Site(store, told, TestClient(create_app(store, told)))


@cache
def _entries(name: str) -> tuple[Entry, ...]:
    return entries_of(read_job(EXAMPLES / f"{name}.toml"), Pen("import", "Bo", "2026-11-24T08:00:00"))


def bring(at: Site, name: str, changes: Mapping[str, str] = {}) -> str:
    """A bundled job in a store, with some facts typed anew by another device."""
    job = at.store.create()
    entries = _entries(name)
    at.store.append(job, entries)
    ids = {entry.fact: entry.id for entry in entries}
    pen = at.store.pen("dev0", "Bo", "2026-11-24T09:00:00")
    for fact, value in changes.items():
        pen.write(job, fact, value, [ids[fact]])
    return job


def typed(at: Site, facts: Iterable[tuple[str, str]]) -> str:
    """A job typed fact by fact."""
    job = at.store.create()
    pen = at.store.pen("dev0", "Bo", "2026-11-24T09:00:00")
    for fact, value in facts:
        pen.write(job, fact, value)
    return job


def in_one(page: str) -> str:
    """A page's text as it reads: without the spans that hold a figure on one line."""
    return re.sub(r'<span class="fig">([^<]*)</span>', r"\1", page)


def wall(
    name: str, studs: int, unit: str = "in", heights: str = '["2", "24", "48", "72", "90"]'
) -> list[tuple[str, str]]:
    """A wall without readings."""
    base = f"survey.walls.{name}"
    return [
        ("unit", unit),
        (f"{base}.nominal", "6" if unit == "in" else "150"),
        (f"{base}.heights", heights),
        *((f"{base}.studs.{name}{k}.along", str(2 + 16 * (k - 1))) for k in range(1, studs + 1)),
    ]


def plans_of(at: Site) -> dict[str, Plans]:
    """Plans that were searched for."""
    return dict(at.answers._plans)
