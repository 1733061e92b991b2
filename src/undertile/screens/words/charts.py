"""What stands around the drying charts on a screen, in English and Spanish."""

from __future__ import annotations

CHARTS: dict[str, tuple[str, str]] = {
    "charts": ("How it dries", "Cómo seca"),
    "charts-of": ("How it dries: {place}", "Cómo seca: {place}"),
    "charts-again": ("Read every place again", "Lea todo otra vez"),
    "charts-all": ("All points", "Todos los puntos"),
    "charts-more": ("{number} more", "{number} más"),
    "charts-before": ("The ones before", "Los anteriores"),
    "charts-none": ("No point is written down yet.", "Todavía no hay puntos anotados."),
    "charts-not-there": ("There is no point {name} in this job.", "No hay punto {name} en este trabajo."),
    "charts-readings": ("Readings", "Lecturas"),
    "charts-visit": ("visit", "visita"),
    "charts-day": ("day", "día"),
    "charts-shown": ("shown", "mostró"),
    "charts-corrected": ("corrected", "corregida"),
    "charts-give": ("give or take", "más o menos"),
}
"""Key to English and Spanish."""
