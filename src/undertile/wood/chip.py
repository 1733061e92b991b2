"""A chip weighed, dried and weighed again: asked about where its numbers cannot be so, and then not used.

Under what wood holds in the driest room, or far under what the meter shows in the same wood, it says nothing
dry: the meter counts. Far over the meter it counts, being the worse, and is asked about too (ours).
"""

from __future__ import annotations

from dataclasses import dataclass

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.correct import Corrected, oven_dry
from undertile.wood.facts import Chip, Material
from undertile.wood.say import moisture

DRIEST = 2.4
"""Wood in air of 10 percent humidity at 70 F (Wood Handbook, table 4-2): no room holds it drier. [percent]"""
APART = 3
"""A meter's number and a chip of the same wood differ by less than so many times the meter's error (ours)."""
_AGAIN = Sentence("Weigh again: as cut, and dried at 103 C for 24 h.")
_LEFT = Sentence("Weigh again: as cut, and dried at 103 C for 24 h; it is not used.")


@dataclass(frozen=True)
class Weighed:
    """What a chip says.

    Attributes
    ----------
    corrected : Corrected or None
        None where it is not used.
    finding : Finding or None
        What is asked of it.
    """

    corrected: Corrected | None
    finding: Finding | None = None


def weigh(
    where: str, visit: str, chip: Chip, material: Material, meter: float | None, give_or_take: float
) -> Weighed:
    """What a chip says beside the meter.

    Parameters
    ----------
    where, visit : str
    chip : Chip
    material : Material
        Glue and salts make a meter read otherwise than the wood is: only lumber, or what may be, is held
        against it.
    meter : float or None
        What it says of the same wood on the same visit, on a dry face; None where it was not read. [percent]
    give_or_take : float
        The meter's own error. [percent]

    Returns
    -------
    Weighed
    """
    at: str = Sentence("{where}, visit {visit}", where=where, visit=visit)
    weights = Sentence("{wet} g wet and {dry} g dry", wet=chip.wet, dry=chip.dry)
    if chip.dry > chip.wet:
        do = Sentence("Weigh again, or exchange the two; it is not used.")
        lost = Sentence("a chip that loses mass in the oven")
        return Weighed(None, Finding("chip-heavier-dry", Severity.ACT, at, lost, weights, do, "astm-d4442"))
    said = oven_dry(float(chip.wet), float(chip.dry))
    value = said.value
    came: str = Sentence("{value} by {weights}", value=moisture(value), weights=weights)
    if value < DRIEST:
        least = Sentence("{least} or more: wood holds as much in the driest room", least=moisture(DRIEST))
        return Weighed(None, Finding("chip-odd", Severity.ACT, at, least, came, _LEFT, "wood-handbook-emc"))
    far = APART * give_or_take
    if meter is None or material not in ("lumber", "unknown") or abs(value - meter) <= far:
        return Weighed(said)
    about = Sentence(
        "about what the meter says of it, {meter}, give or take {far}", meter=moisture(meter), far=f"{far:g}"
    )
    do = _LEFT if value < meter else _AGAIN
    odd = Finding("chip-odd", Severity.ACT, at, about, came, do, "astm-d4442")
    return Weighed(None if value < meter else said, odd)
