"""Many jobs: each a log of entries with photos, kept, copied and brought together (convention 7)."""

from __future__ import annotations

from undertile.job.standing import UNDO
from undertile.store.interface import Appended, Draft, JobRow, Pen, Photo, Store
from undertile.store.sqlite import SqliteStore
from undertile.store.sync import Side, Taken, Talk, exchange, serve
from undertile.store.undo import undo_drafts

__all__ = [
    "UNDO",
    "Appended",
    "Draft",
    "JobRow",
    "Pen",
    "Photo",
    "Side",
    "SqliteStore",
    "Store",
    "Taken",
    "Talk",
    "exchange",
    "serve",
    "undo_drafts",
]
