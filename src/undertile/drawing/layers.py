"""Layers by their trade names, and the pen each is drawn with: weights, greys and dashes that copy well."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Pen:
    """How a layer's lines are drawn.

    Attributes
    ----------
    weight : float
        Line width on paper. [pt]
    grey : float
        0 black to 1 white; nothing on a sheet depends on colour.
    dash : tuple of float
        Dash and gap on paper; () = unbroken. [pt]
    """

    weight: float
    grey: float = 0.0
    dash: tuple[float, ...] = ()


LAYERS: dict[str, Pen] = {
    "STUD": Pen(0.9),
    "STUD-BEFORE": Pen(0.6, 0.35, (2.5, 1.5)),
    "PLATE": Pen(0.7, 0.2),
    "HEIGHT": Pen(0.35, 0.55, (4, 2)),
    "FLANGE-ZONE": Pen(0.9, 0.25, (7, 2.5)),
    "TAKE-OFF": Pen(0.55),
    "STRIP": Pen(0.6),
    "SHIM": Pen(0.6),
    "SISTER": Pen(0.6),
    "NEW-STUD": Pen(0.6),
    "CHANNEL": Pen(0.6),
    "WET-BED": Pen(0.6),
    "MARK": Pen(1.1),
    "LEADER": Pen(0.35, 0.35),
    "PLANE": Pen(1.3),
    "PAN": Pen(1.1),
    "DRAIN": Pen(0.7),
    "DIAGONAL": Pen(0.4, 0.4, (6, 2)),
    "BOARD": Pen(0.8),
    "FINISH": Pen(0.5),
    "IN-FRONT": Pen(0.8),
    "SERVICE": Pen(0.8),
    "CORNER": Pen(1.5),
    "EDGE": Pen(0.8, 0.2, (8, 2, 2, 2)),
    "CONTOUR": Pen(0.45, 0.15),
    "PROUD": Pen(0.4),
    "BACK": Pen(0.4, 0.3),
    "STUD-LINE": Pen(0.9),
    "JOIST": Pen(0.5, 0.3, (6, 3)),
    "CUT": Pen(1.5),
    "SEAM": Pen(0.8),
    "SECOND-LAYER": Pen(0.8, 0.0, (5, 2, 1, 2)),
    "BLOCKING": Pen(0.6),
    "SCREW": Pen(0.35, 0.1),
    "WET": Pen(0.35, 0.45),
    "READING": Pen(0.9),
    "READINGS": Pen(1.5),
    "GIVE-OR-TAKE": Pen(0.7, 0.25),
    "COURSE": Pen(1.1, 0.2),
    "COURSE-BAND": Pen(0.3, 0.6),
    "GOAL": Pen(0.9),
    "NEVER": Pen(0.8, 0.15, (4, 2.5)),
    "AIR": Pen(0.7, 0.35, (1, 2)),
    "DAYS": Pen(0.6, 0.2),
    "CLOSE": Pen(0.6),
    "DIMENSION": Pen(0.35, 0.2),
    "FRAME": Pen(0.4, 0.4),
    "TEXT": Pen(0.5),
}
"""Layer name to pen. The names go into the DXF as they are."""
