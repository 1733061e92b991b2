"""What is written under a floor patch's drawing: cut lines, depth, panels, wood, screws, what fails."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from undertile.drawing.walldata import Room
from undertile.findings import Verdict
from undertile.floor.facts import FloorFacts
from undertile.floor.outline import Outline
from undertile.floor.panels import CutList, PanelCut
from undertile.floor.patch import EDGE, FIELD, GAP, Layout
from undertile.floor.result import FloorResult
from undertile.pan.say import cut_line, cut_size

Sides = tuple[Fraction, Fraction, Fraction, Fraction]
"""Left, right, back and front of an outline. [in]"""


@dataclass(frozen=True)
class PatchLines:
    """The lines of one patch.

    Attributes
    ----------
    room : Room
    found : FloorResult
    layout : Layout
    number : int
        Of the patch, from 1.
    """

    room: Room
    found: FloorResult
    layout: Layout
    number: int

    @property
    def facts(self) -> FloorFacts:
        """What is typed of the floor."""
        return self.room.job.facts()["floor"]  # type: ignore[return-value]

    def lines(self, sides: Callable[[Outline], Sides]) -> Iterator[str]:
        """All of them, in the order they are printed."""
        room, words, facts = self.room, self.room.words, self.facts.patch
        outlines = [("lower layer", self.layout.lower)]
        if self.layout.upper is not None:
            outlines.append(("upper layer", self.layout.upper))
        for name, out in outlines:
            left, right, back, front = (
                cut_line(each, room.unit, "low" if k % 2 == 0 else "high")
                for k, each in enumerate(sides(out))
            )
            yield words(
                "cut lines",
                layer=words(name),
                left=left,
                right=right,
                back=back,
                front=front,
                wall_l=words("from wall L"),
                wall_b=words("from wall B"),
            )
        there = facts.lower.thickness
        yield (
            words("depth unknown")
            if there is None
            else words("depth of cut", amount=room.amount(there.inches))
        )
        for cuts in self.found.cut_lists:
            yield from self._cut_lines(cuts)
        yield from self._wood_lines()
        gap = GAP if facts.gap is None else facts.gap.inches
        yield words("gap all round", amount=room.amount(gap))
        own = (f"patch-spans-{self.number}", f"patch-stagger-{self.number}", f"patch-seams-{self.number}")
        bad = [c for c in self.found.checks if c.code in own or c.code.startswith(("patch-flush", "panel-"))]
        names = [
            f"{words('-'.join(c.code.split('-')[:2]))} ({words(c.verdict.value)})"
            for c in bad
            if c.verdict is not Verdict.PASS
        ]
        if names:
            yield words("patch not pass", list="; ".join(names))

    def _cut_lines(self, cuts: CutList) -> Iterator[str]:
        words = self.room.words
        own = {piece.name for piece in self.layout.pieces}
        for panel in cuts.cuts:
            if any(each.piece in own for each in panel.placed):
                yield self._panel_line(panel)
        over = [name for name in cuts.over if name in own]
        if over:
            yield words("no panel holds", pieces=", ".join(over))

    def _panel_line(self, panel: PanelCut) -> str:
        words = self.room.words
        pieces = [
            words("piece size", name=p.piece, length=self._cut(p.size[0]), width=self._cut(p.size[1]))
            for p in panel.placed
        ]
        stock = panel.stock if panel.stock != "whole panel" else words("whole panel")
        length, width = (self.room.amount(each) for each in panel.size)
        return words("whole cut", stock=stock, length=length, width=width, pieces=", ".join(pieces))

    def _wood_lines(self) -> Iterator[str]:
        words = self.room.words
        for key, lengths in (
            ("blocks are", Counter(block.length for block in self.layout.blocks if not block.after)),
            ("cleats are", Counter(cleat.length for cleat in self.layout.cleats)),
        ):
            rows = [
                words("so many", count=count, length=self._cut(length))
                for length, count in sorted(lengths.items())
            ]
            if key == "blocks are":
                later = Counter(block.after for block in self.layout.blocks if block.after)
                rows += [
                    words("block later", count=count, joists=", ".join(joists))
                    for joists, count in sorted(later.items())
                ]
            if rows:
                yield words(key, list=", ".join(rows))
        patch = self.facts.patch
        edge = EDGE if patch.screw_edge is None else patch.screw_edge.inches
        field = FIELD if patch.screw_field is None else patch.screw_field.inches
        sizes = {layer: length for layer, length, _ in self.found.supplies.screws}
        for screws in self.layout.screws:
            length = sizes.get(screws.layer, "")
            yield words(
                "screws are",
                layer=words(f"{screws.layer} word"),
                count=screws.count,
                spare=self._spare(screws.layer),
                length=words("long", length=length) if length else "",
                edge=self.room.amount(edge),
                field=self.room.amount(field),
                old=words("old edges") if screws.old_edges else "",
            )

    def _spare(self, layer: str) -> str:
        """How many more the list has, which counts all patches: said where there is one."""
        if len(self.found.layouts) > 1:
            return ""
        return self.room.words("and spare", count=self.found.supplies.spare(layer)[1])

    def _cut(self, value: Fraction) -> str:
        """A size to cut to: never printed larger than it is."""
        return cut_size(value, self.room.unit)
