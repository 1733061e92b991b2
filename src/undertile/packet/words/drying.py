"""Studs that are still to dry, in a crew's words, by code (docs/findings.md)."""

from __future__ import annotations

DRYING_FINDINGS: dict[str, tuple[str, str]] = {
    "stud-dry-first": (
        "{where}: wet: its face goes back too far as it dries. Dry it first, read it again, true it then.",
        "{where}: mojado: al secar su cara se mete demasiado. Séquelo primero, léalo otra vez y "
        "entonces póngalo a plano.",
    ),
}
DRYING_CHECKS: dict[str, tuple[str, str]] = {
    "dries": ("Stud once it is dry", "Montante ya seco"),
    "dries-flat": ("Flat once dry, under the straightedge", "Planitud ya seco, con la regla larga"),
}
DRYING_REMEDIES: dict[str, tuple[str, str]] = {
    "dries": (
        "Dry it first; read it again and true it then.",
        "Séquelo primero; léalo otra vez y entonces póngalo a plano.",
    ),
}
