"""The jobs that come with the tool, to try it on: in the package, or beside it in a checkout."""

from __future__ import annotations

from pathlib import Path

ORDER = ("old-alcove", "square-pan", "steel-unit", "hand", "read-again", "wet-corner")
"""In the order a newcomer meets them."""


def _folder() -> Path:
    packed = (
        Path(__file__).parent / "examples"
    )  # on the phone too, where no package can be asked for its files
    return packed if packed.is_dir() else packed.parent.parent.parent / "examples"


def bundled_jobs() -> dict[str, bytes]:
    """Every bundled job file by its name; empty where the package came without them."""
    folder = _folder()
    found = {name: folder / f"{name}.toml" for name in ORDER}
    return {name: path.read_bytes() for name, path in found.items() if path.is_file()}
