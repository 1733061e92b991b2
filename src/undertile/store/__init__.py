"""Many jobs: each a log of entries with photos, kept, copied and brought together (convention 7)."""

from __future__ import annotations

from undertile.store.interface import Appended, Draft, JobRow, Pen, Photo, Store
from undertile.store.sqlite import SqliteStore

__all__ = ["Appended", "Draft", "JobRow", "Pen", "Photo", "SqliteStore", "Store"]
