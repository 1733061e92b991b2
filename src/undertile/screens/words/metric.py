"""What a screen of a job in mm says where the words of one in inches hold inches, feet or pounds.

Figures that stand for a default of ours in inches are converted and rounded, so they say "about".
"""

from __future__ import annotations

METRIC: dict[str, tuple[str, str]] = {
    "nominal-hint": ("in mm, as 150", "en mm, como 150"),
    "heights-hint": (
        "from the subfloor, commas between: 50, 600, 1200, 1800, 2300",
        "desde el subpiso, con comas: 50, 600, 1200, 1800, 2300",
    ),
    "line-note": (
        "Hang a laser or string parallel to the wall, 75 to 150 mm off the studs. Mark where it ends.",
        "Cuelgue un láser o un hilo paralelo a la pared, a 75-150 mm de los montantes. Marque dónde toca.",
    ),
    "hold-lean": (
        "Lean over about 2440 mm of height (+ top in)",
        "Inclinación en cerca de 2440 mm de alto (+ arriba al cuarto)",
    ),
    "wall-plumb_limit": ("Lean allowed over about 2440 mm", "Desplome permitido en cerca de 2440 mm"),
    "floor-loads-note": (
        "In pounds. Left open: 40 live, 10 for the floor itself, 300 on one spot: about 195 and 49 kg a m², "
        "136 kg. Less counts with a reason.",
        "En libras. Sin decir: 40 viva, 10 el piso mismo, 300 en un punto: cerca de 195 y 49 kg por m², "
        "136 kg. Menos cuenta con un motivo.",
    ),
    "floor-patch-rules-note": (
        "Left open, about: gap 3 mm, seams 152 apart, kerf 3, screws 152 at edges and 203 inside.",
        "Sin decir, cerca de: separación 3 mm, juntas a 152, sierra 3, tornillos cada 152 en orillas y 203 "
        "adentro.",
    ),
    "floor-under-pan-note": (
        "Readings go from the level line down to the floor. Left open: within about 3 mm under the pan.",
        "Se lee de la línea de nivel abajo al piso. Sin decir: dentro de cerca de 3 mm bajo la base.",
    ),
    "floor-under-pan-rules-note": (
        "Left open, about: 1.6 mm off wood, 6 off concrete, 13 filled, read every 305. Ours; bag and sheet "
        "decide.",
        "Sin decir, cerca de: 1.6 mm de madera, 6 de concreto, 13 de relleno, cada 305. Nuestras; deciden "
        "saco y hoja.",
    ),
    "floor-bed-note": (
        "Left open, about: 21 mm in a meter, 13 at the drain, 32 over the liner, bags of 27 kg, 13 liters.",
        "Sin decir, cerca de: 21 mm por metro, 13 en el desagüe, 32 sobre la membrana, sacos de 27 kg y 13 "
        "litros.",
    ),
}
"""Key to (English, Spanish); every key stands among the screens' words too."""
