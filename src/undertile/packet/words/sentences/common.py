"""What stands between sentences and around figures, in every stage."""

from __future__ import annotations

COMMON: dict[str, str] = {
    "{first}, {then}": "{first}, {then}",
    "{first}; {then}": "{first}; {then}",
    "{what}: {change}": "{what}: {change}",
    "{first} and {then}": "{first} y {then}",
    "about {length}": "cerca de {length}",
    "{length} (rounded up)": "{length} (hacia arriba)",
    "{length} (rounded down)": "{length} (hacia abajo)",
    "pipe": "tubo",
    "wire": "cable",
    "supply pipe": "tubo de agua",
    "drain or vent": "desagüe o ventilación",
    "stack": "bajante",
    "other": "otra cosa",
    "at most {most}": "a lo más {most}",
    "at least {least}": "al menos {least}",
    "{first} to {then}": "{first} a {then}",
    "{low} to {high}": "{low} a {high}",
    "on the plane": "en el plano",
    "flush": "al ras",
}
"""English form to Spanish."""
