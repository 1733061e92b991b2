"""What floor and water leave open, in one line each."""

from __future__ import annotations

OPEN_PARTS: dict[str, tuple[str, str]] = {
    "open-floor-fails": ("The floor does not pass: {what}.", "El piso no pasa: {what}."),
    "open-floor-stops": ("The floor stops the work: {where}.", "El piso detiene el trabajo: {where}."),
    "open-water-stops": ("The water stops the work: {where}.", "El agua detiene el trabajo: {where}."),
    "open-water": ("Water: {cover}", "Agua: {cover}"),
}
"""Key to (English, Spanish)."""
