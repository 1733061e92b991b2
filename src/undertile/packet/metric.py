"""What a stage asks for in gallons and inches, in the liters and millimeters of a job in mm."""

from __future__ import annotations

from collections.abc import Mapping

from undertile.lengths import Unit
from undertile.sentence import Sentence, form

_IN_MM: Mapping[str, Sentence] = {
    form("Pour 5 gallons straight into the drain and watch 15 minutes from below."): Sentence(
        "Pour 20 liters straight into the drain and watch 15 minutes from below."
    ),
    form(
        "Plug the drain, fill the pan to 2 inches, a bowl beside it, mark both, look after 24 hours."
    ): Sentence(
        "Plug the drain, fill the pan to about 50 mm, a bowl beside it, mark both, look after 24 hours."
    ),
    form(
        "Plug the drain past the trap, fill it and the pan to 2 inches, a bowl beside it, mark both, look "
        "after 24 hours."
    ): Sentence(
        "Plug the drain past the trap, fill it and the pan to about 50 mm, a bowl beside it, mark both, look "
        "after 24 hours."
    ),
    form("set a bowl of water beside it: a room alone takes up to 1/8 in a day"): Sentence(
        "set a bowl of water beside it: a room alone takes about 3 mm in a day"
    ),
}
"""English form to what stands for it (common practice, as the forms)."""


def in_unit(text: str, unit: Unit) -> str:
    """A stage's sentence as a job in this unit reads it; what holds no inches or gallons stays.

    Parameters
    ----------
    text : str
    unit : {"in", "mm"}
    """
    if unit != "mm" or not isinstance(text, Sentence):
        return text
    return _IN_MM.get(text.form, text)
