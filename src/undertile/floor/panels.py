"""Which panel goes into which layer, how flush it comes out, and what is cut from which panel."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from undertile.findings import Check
from undertile.floor.facts import Panel, PanelOffcut, SubLayer
from undertile.floor.guillotine import Cut, Sheet, pack
from undertile.floor.patch import PANEL, PANEL_MM, LayerName, Piece
from undertile.lengths import Unit
from undertile.pan.judge import Topic
from undertile.pan.say import say, window
from undertile.sentence import Sentence

FLUSH = Fraction(1, 32)
"""New panel against the old one at a seam (ours, after the lippage of tile). [in]"""
KERF = Fraction(1, 8)
"""A saw cut (common practice). [in]"""
WHOLE = "whole panel"


@dataclass(frozen=True)
class Placed:
    """One piece on a panel: its corner nearest the panel's, along the strong axis and across it. [in]"""

    piece: str
    x: Fraction
    y: Fraction
    size: tuple[Fraction, Fraction]


@dataclass(frozen=True)
class PanelCut:
    """One panel as it is cut.

    Attributes
    ----------
    stock : str
        The panel's name, and an offcut's.
    size : (Fraction, Fraction)
        Along the strong axis and across it. [in]
    offcut : bool
    placed : tuple of Placed
    """

    stock: str
    size: tuple[Fraction, Fraction]
    offcut: bool
    placed: tuple[Placed, ...]


@dataclass(frozen=True)
class CutList:
    """What is cut for one layer.

    Attributes
    ----------
    layer : {"lower", "upper"}
    panel : str
        "" where no panel is entered: then whole panels of 96 by 48 stand in.
    cuts : tuple of PanelCut
    whole : int
        Whole panels used.
    proved : bool
        No way uses fewer.
    to_buy : int
        Of them, past those on the van.
    dollars : Fraction
    over : tuple of str
        Pieces that no panel holds.
    """

    layer: LayerName
    panel: str
    cuts: tuple[PanelCut, ...]
    whole: int
    proved: bool
    to_buy: int
    dollars: Fraction
    over: tuple[str, ...] = ()


def chosen(layer: SubLayer, panels: Mapping[str, Panel]) -> tuple[str, Panel] | None:
    """The panel whose actual thickness is nearest to what is there; the first of equals."""
    if not panels:
        return None
    if layer.thickness is None:
        return next(iter(panels.items()))
    there = layer.thickness.inches
    return min(panels.items(), key=lambda each: abs(each[1].thickness.inches - there))


def flush_check(name: LayerName, layer: SubLayer, panel: Panel | None, unit: Unit) -> Check:
    """The step at the seam between the new panel and the old one, by calipers."""
    topic = Topic(
        f"patch-flush-{name}", "New panel flush with the old one", f"{name} layer", "practice-flush"
    )
    limit = window(None, FLUSH, unit)
    if layer.thickness is None:
        first = Sentence("Measure the layer on the joists by calipers at a cut edge.")
        second = Sentence("Measure the second layer by calipers at a cut edge.")
        return topic.not_shown(limit, first if name == "lower" else second)
    if panel is None:
        return topic.not_shown(limit, Sentence("Enter the panels at hand, measured by calipers."))
    there, new = layer.thickness.inches, panel.thickness.inches
    off = new - there
    fix = (
        Sentence("Pack the joists' tops {amount} before it goes down.", amount=say(-off, unit))
        if off < 0
        else Sentence("Take a thinner panel, or feather the floor around it; it is never planed.")
    )

    def shown(amount: str) -> str:
        if not off:
            return Sentence("flush")
        return Sentence("{amount} proud" if off > 0 else "{amount} low", amount=amount)

    return topic.judge(
        abs(off),
        None,
        FLUSH,
        unit,
        shown=shown,
        because=(Sentence("old {old}, new {new}, both actual", old=say(there, unit), new=say(new, unit)),),
        fix=fix,
    )


def size_of(panel: Panel | None, unit: Unit = "in") -> tuple[Fraction, Fraction]:
    """Of a whole panel, along the strong axis and across it; in a job in mm the least sold. [in]"""
    least = PANEL if unit == "in" else PANEL_MM
    length = least[0] if panel is None or panel.length is None else panel.length.inches
    width = least[1] if panel is None or panel.width is None else panel.width.inches
    return length, width


def size_known(panel: Panel | None, unit: Unit) -> bool:
    """Whether a whole panel can be cut from: in mm no size is the usual one, it is measured."""
    return unit == "in" or (panel is not None and panel.length is not None and panel.width is not None)


def cut_list(
    layer: LayerName,
    pieces: Sequence[Piece],
    panel: tuple[str, Panel] | None,
    kerf: Fraction = KERF,
) -> CutList:
    """The pieces of a layer cut from offcuts first, then from the fewest whole panels.

    Parameters
    ----------
    layer : {"lower", "upper"}
    pieces : sequence of Piece
        Of this layer.
    panel : (name, Panel) or None
    kerf : Fraction
        [in]

    Returns
    -------
    CutList
    """
    name, facts = panel if panel is not None else ("", None)
    stock = [(f"{name} offcut {key}", (o.length.inches, o.width.inches)) for key, o in _offcuts(facts)]
    stock.append((name or WHOLE, size_of(facts)))
    wanted = [piece for piece in pieces if piece.layer == layer]
    lengths = [kerf, *(side for _, size in stock for side in size)]
    lengths += [side for piece in wanted for side in piece.size]
    unit = lcm(*(length.denominator for length in lengths))

    def whole(size: tuple[Fraction, Fraction]) -> tuple[int, int]:
        return int(size[0] * unit), int(size[1] * unit)

    sheets = [Sheet(whole(size), 0, 1) for _, size in stock[:-1]]
    sheets.append(Sheet(whole(stock[-1][1]), 1))
    sizes = Counter(whole(piece.size) for piece in wanted)
    kinds = sorted(sizes.items(), key=lambda each: (-each[0][0] * each[0][1], each[0]))
    packed = pack(sheets, kinds, int(kerf * unit))
    names = {size: [p.name for p in wanted if whole(p.size) == size] for size, _ in kinds}
    cuts = []
    for cut in sorted(packed.cuts, key=lambda each: each.sheet):
        cuts.append(_panel_cut(cut, stock, [size for size, _ in kinds], names, unit, len(sheets) - 1))
    over = tuple(rest for size, _ in kinds for rest in names[size])
    have = None if facts is None else facts.on_van
    price = Fraction(0) if facts is None else Fraction(facts.price)
    to_buy = 0 if have is None else max(packed.cost - have, 0)
    return CutList(layer, name, tuple(cuts), packed.cost, packed.proved, to_buy, price * packed.cost, over)


def _offcuts(facts: Panel | None) -> list[tuple[str, PanelOffcut]]:
    return [] if facts is None else list(facts.offcuts.items())


def _panel_cut(
    cut: Cut,
    stock: Sequence[tuple[str, tuple[Fraction, Fraction]]],
    sizes: Sequence[tuple[int, int]],
    names: dict[tuple[int, int], list[str]],
    unit: int,
    whole: int,
) -> PanelCut:
    """In inches, each piece by the next free name of its size."""
    name, size = stock[cut.sheet]
    placed = []
    for kind, x, y in cut.places:
        its = sizes[kind]
        placed.append(
            Placed(
                names[its].pop(0),
                Fraction(x, unit),
                Fraction(y, unit),
                (Fraction(its[0], unit), Fraction(its[1], unit)),
            )
        )
    return PanelCut(name, size, cut.sheet != whole, tuple(placed))
