"""The patch on the floor sheet: where it is cut, its pieces, what is cut from which panel, what to bring."""

from __future__ import annotations

from collections.abc import Iterator

from undertile.floor.panels import WHOLE, CutList, PanelCut
from undertile.floor.patch import Layout
from undertile.floor.result import FloorResult
from undertile.lengths import Unit
from undertile.packet.content import BringRow
from undertile.packet.floor_content import (
    CutPart,
    CutRow,
    PatchPart,
    PieceRow,
)
from undertile.packet.words import Words
from undertile.pan.say import cut_line, cut_size, say


def patch_parts(found: FloorResult, words: Words, unit: Unit) -> tuple[PatchPart, ...]:
    """Each patch: where it is cut, and its pieces."""
    return tuple(
        PatchPart(
            words("floor-patch-n", number=number) if len(found.layouts) > 1 else words("floor-patch-head"),
            tuple(_cut_lines(found, made, words, unit)),
            tuple(
                PieceRow(
                    piece.name,
                    words(f"floor-layer-{piece.layer}"),
                    cut_size(piece.size[0], unit),
                    cut_size(piece.size[1], unit),
                )
                for piece in made.pieces
            ),
        )
        for number, made in enumerate(found.layouts, 1)
    )


def _cut_lines(found: FloorResult, made: Layout, words: Words, unit: Unit) -> Iterator[str]:
    """Where the layers are cut, from the two fixed walls."""
    for layer, out in (("lower", made.lower), ("upper", made.upper)):
        if out is None:
            continue
        across, along = (out.low.at, out.high.at), (out.near.at, out.far.at)
        x, y = (across, along) if found.runs == "out from the back wall" else (along, across)
        name = words(f"floor-layer-{layer}")
        yield words(
            "floor-cut-lines",
            layer=name[:1].upper() + name[1:],
            left=cut_line(x[0], unit, "low"),
            right=cut_line(x[1], unit, "high"),
            back=cut_line(y[0], unit, "low"),
            front=cut_line(y[1], unit, "high"),
        )


def cut_parts(found: FloorResult, words: Words, unit: Unit) -> tuple[CutPart, ...]:
    """What is cut from which panel, layer by layer."""
    return tuple(
        CutPart(
            words(f"floor-layer-{cuts.layer}"),
            tuple(_panel(panel, words, unit) for panel in cuts.cuts),
            tuple(_panels(cuts, words)),
        )
        for cuts in found.cut_lists
    )


def _panel(panel: PanelCut, words: Words, unit: Unit) -> CutRow:
    stock = panel.stock
    if stock == WHOLE:
        stock = words("floor-whole")
    elif panel.offcut:
        name, _, key = stock.partition(" offcut ")
        stock = words("floor-offcut", panel=name, name=key)
    length, width = (say(each, unit) for each in panel.size)
    return CutRow(
        words("floor-of", stock=stock, length=length, width=width),
        tuple(
            words(
                "floor-cut-piece",
                name=each.piece,
                length=cut_size(each.size[0], unit),
                width=cut_size(each.size[1], unit),
            )
            for each in panel.placed
        ),
    )


def _panels(cuts: CutList, words: Words) -> Iterator[str]:
    yield words("floor-fewest" if cuts.proved else "floor-some", count=cuts.whole)
    if cuts.to_buy:
        yield words("floor-buy", count=cuts.to_buy)
    if cuts.over:
        yield words("floor-over", pieces=", ".join(cuts.over))


def bring(found: FloorResult, words: Words, unit: Unit) -> tuple[BringRow, ...]:
    """Screws, blocks and cleats, counted."""
    rows = [
        BringRow(
            words(
                "floor-screws",
                layer=words(f"floor-layer-{layer}"),
                driven=found.supplies.spare(layer)[0],
                spare=found.supplies.spare(layer)[1],
            ),
            count,
            length or words("floor-screws-open"),
            "",
        )
        for layer, length, count in found.supplies.screws
    ]
    for key, lengths in (("floor-block", found.supplies.blocks), ("floor-cleat", found.supplies.cleats)):
        rows += [
            BringRow(words(key if count > 1 else f"{key}-one"), count, cut_size(length, unit), "")
            for length, count in lengths
        ]
    for joists, count in found.supplies.later:
        what = words("floor-block" if count > 1 else "floor-block-one")
        rows.append(BringRow(what, count, words("floor-block-later", joists=words.listed(joists)), ""))
    return tuple(rows)
