"""The jobs that come with the tool, to try it on: in the package, or beside it in a checkout."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

ORDER = ("old-alcove", "square-pan", "steel-unit", "hand", "read-again", "wet-corner")
"""In the order a newcomer meets them."""


def _folder() -> Traversable:
    packed = files("undertile") / "examples"
    return packed if packed.is_dir() else Path(__file__).parent.parent.parent / "examples"


def bundled_jobs() -> dict[str, bytes]:
    """Every bundled job file by its name; empty where the package came without them."""
    folder = _folder()
    found = {name: folder / f"{name}.toml" for name in ORDER}
    return {name: path.read_bytes() for name, path in found.items() if path.is_file()}
