"""What stands between sentences and around figures, in every stage."""

from __future__ import annotations

COMMON: dict[str, str] = {
    "{first}, {then}": "{first}, {then}",
    "{first}; {then}": "{first}; {then}",
    "{what}: {change}": "{what}: {change}",
    "{first} and {then}": "{first} y {then}",
}
"""English form to Spanish."""
