"""The patches of a floor: each bad stretch outlined, laid out, checked, cut out of panels and counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.floor.facts import Bad, FloorFacts, Panel
from undertile.floor.joists import JoistIs
from undertile.floor.outline import OFF_JOIST, SPANS, Ground, Outline, outline, spans
from undertile.floor.panels import KERF, CutList, chosen, cut_list, flush_check, size_known, size_of
from undertile.floor.patch import EDGE, FIELD, GAP, INTO_JOIST, OFFSET, LayerName, Layout, Rules, layout
from undertile.floor.result import Supplies
from undertile.lengths import MM, Length, Unit
from undertile.pan.judge import Topic
from undertile.pan.say import cut_line, say
from undertile.sentence import Sentence, listed
from undertile.wood.extent import Patch as WetPatch

SPARE = Fraction(11, 10)
"""Screws bought over the count (common practice)."""
SCREW: dict[Unit, Fraction] = {"in": Fraction(1, 4), "mm": 5 * MM}
"""Screws come in steps of this. [in]"""


def bad_floor(
    facts: FloorFacts, wet: Iterable[WetPatch], findings: list[Finding], unit: Unit
) -> dict[str, Bad]:
    """What is to be cut out: as entered, else as far as the moisture readings say to open.

    Parameters
    ----------
    facts : FloorFacts
    wet : iterable of Patch
        Of the water: how far each layer of the subfloor is opened.
    findings : list of Finding
        What is said of it is added here.
    unit : {"in", "mm"}

    Returns
    -------
    dict
        A side that the readings leave open is never made up: then there is none from them.
    """
    bounded = [each for each in wet if each.bounded]
    open_ends = [each for each in wet if not each.bounded]
    findings += [_open_end(each) for each in open_ends]
    if not facts.patch.bad:
        made = {}
        for each in bounded:
            sides = [side for side in (each.left, each.right, each.back, each.front) if side is not None]
            left, right, back, front = (Length(side) for side in sides)
            made[f"wet, layer {each.layer}"] = Bad(left=left, right=right, back=back, front=front)
        return made
    for each in bounded:
        if not any(_covers(bad, each) for bad in facts.patch.bad.values()):
            low = [cut_line(at, unit, "low") for at in (each.left, each.back) if at is not None]
            high = [cut_line(at, unit, "high") for at in (each.right, each.front) if at is not None]
            findings.append(
                Finding(
                    "patch-short-of-wet",
                    Severity.ACT,
                    f"subfloor layer {each.layer}",
                    Sentence(
                        "cut out {left} to {right} from wall L, {back} to {front} from wall B",
                        left=low[0],
                        right=high[0],
                        back=low[1],
                        front=high[1],
                    ),
                    Sentence("no bad stretch entered reaches as far as the moisture readings"),
                    Sentence("Widen it, or leave it out: then the readings set it."),
                    "practice-open-past",
                )
            )
    return dict(facts.patch.bad)


def _covers(bad: Bad, wet: WetPatch) -> bool:
    left, right, back, front = wet.left, wet.right, wet.back, wet.front
    if left is None or right is None or back is None or front is None:
        return False
    return (
        bad.left.inches <= left
        and bad.right.inches >= right
        and bad.back.inches <= back
        and bad.front.inches >= front
    )


def _open_end(wet: WetPatch) -> Finding:
    sides = {
        Sentence("left side"): wet.left,
        Sentence("right side"): wet.right,
        Sentence("back side"): wet.back,
        Sentence("front side"): wet.front,
    }
    missing = listed([name for name, at in sides.items() if at is None])
    return Finding(
        "patch-extent-open",
        Severity.ACT,
        f"subfloor layer {wet.layer}",
        Sentence("a dry reading on every side of what is wet"),
        Sentence("no dry reading toward the {sides}", sides=missing),
        Sentence("Read the subfloor further that way before the patch is cut."),
        "practice-open-past",
    )


@dataclass(frozen=True)
class LaidOut:
    """The patches as they lie, and what they were laid out by; none where nothing can be laid out.

    Attributes
    ----------
    layouts : tuple of Layout
        Numbered from 1, as every face numbers them.
    ground : Ground or None
    panels : dict of layer to (name, Panel) or None
    """

    layouts: tuple[Layout, ...] = ()
    ground: Ground | None = None
    panels: Mapping[LayerName, tuple[str, Panel] | None] = field(default_factory=dict)


def laid_out(
    facts: FloorFacts,
    bad: Mapping[str, Bad],
    joists: tuple[JoistIs, ...],
    findings: list[Finding],
    own_unit: Unit,
) -> LaidOut:
    """Where the patches lie: outlined and laid out, nothing of it judged, cut or counted.

    Parameters
    ----------
    facts : FloorFacts
    bad : mapping of str to Bad
        What is to be cut out (``bad_floor``).
    joists : tuple of JoistIs
    findings : list of Finding
        What keeps a stretch from being laid out is added here.
    own_unit : {"in", "mm"}
        The job's: a panel nobody sized is of the size usual in it.
    """
    patch = facts.patch
    if not bad or not joists or facts.joists_run == "unknown":
        return LaidOut()
    out_from_back = facts.joists_run == "out from the back wall"
    width = None if patch.width is None else patch.width.inches
    depth = None if patch.depth is None else patch.depth.inches
    gap = GAP if patch.gap is None else patch.gap.inches
    ground = Ground(
        joists,
        width if out_from_back else depth,
        depth if out_from_back else width,
        patch.edges == "cleats",
        gap,
    )
    panels: dict[LayerName, tuple[str, Panel] | None] = {"lower": chosen(patch.lower, patch.panels)}
    if patch.upper is not None:
        panels["upper"] = chosen(patch.upper, patch.panels)
    rules = Rules(
        gap,
        OFFSET if patch.offset is None else patch.offset.inches,
        EDGE if patch.screw_edge is None else patch.screw_edge.inches,
        FIELD if patch.screw_field is None else patch.screw_field.inches,
        size_of(_panel(panels["lower"]), own_unit),
        size_of(_panel(panels.get("upper")), own_unit),
        patch.tongue,
        patch.upper is not None,
    )
    layouts: tuple[Layout, ...] = ()
    for names, out in _outlines(bad, ground, findings, out_from_back):
        first = sum(len(made.pieces) for made in layouts)
        layouts += (layout(ground, out, names, rules, first),)
    return LaidOut(layouts, ground, panels)


def patches(
    facts: FloorFacts,
    bad: Mapping[str, Bad],
    joists: tuple[JoistIs, ...],
    checks: list[Check],
    findings: list[Finding],
    unit: Unit,
    own_unit: Unit,
) -> tuple[tuple[Layout, ...], tuple[CutList, ...], Supplies]:
    """The patches laid out, judged, cut out of panels and counted; only words are in ``unit``."""
    found = laid_out(facts, bad, joists, findings, own_unit)
    layouts, ground, panels, patch = found.layouts, found.ground, found.panels, facts.patch
    if ground is None:
        return (), (), Supplies()
    checks.append(flush_check("lower", patch.lower, _panel(panels["lower"]), unit))
    if patch.upper is not None:
        checks.append(flush_check("upper", patch.upper, _panel(panels["upper"]), unit))
    for number, made in enumerate(layouts, 1):
        checks += _layout_checks(ground, made, number, unit)
    kerf = KERF if patch.kerf is None else patch.kerf.inches
    pieces = [piece for made in layouts for piece in made.pieces]
    known = {layer: panel for layer, panel in panels.items() if size_known(_panel(panel), own_unit)}
    cuts = tuple(cut_list(layer, pieces, panel, kerf) for layer, panel in known.items()) if pieces else ()
    findings += [_size_asked(layer) for layer in panels if pieces and layer not in known]
    findings += _panel_findings(cuts)
    return layouts, cuts, _supplies(facts, layouts, panels, unit, own_unit)


def _panel(found: tuple[str, Panel] | None) -> Panel | None:
    return None if found is None else found[1]


def _outlines(
    asked: Mapping[str, Bad], ground: Ground, findings: list[Finding], out_from_back: bool
) -> Iterator[tuple[tuple[str, ...], Outline]]:
    """One outline for each bad stretch; those that meet are one."""
    boxes: list[tuple[tuple[str, ...], tuple[Fraction, Fraction, Fraction, Fraction]]] = []
    for name, bad in asked.items():
        x, y = (bad.left.inches, bad.right.inches), (bad.back.inches, bad.front.inches)
        if x[0] >= x[1] or y[0] >= y[1]:
            findings.append(
                Finding(
                    "patch-inside-out",
                    Severity.ACT,
                    f"bad floor {name}",
                    Sentence("right past left and front past back"),
                    Sentence(
                        "left {left}, right {right}, back {back}, front {front}",
                        left=bad.left.text,
                        right=bad.right.text,
                        back=bad.back.text,
                        front=bad.front.text,
                    ),
                    Sentence("Measure both sides from the same wall again."),
                    "convention-7",
                )
            )
            continue
        boxes.append(((name,), (*x, *y) if out_from_back else (*y, *x)))
    while True:
        made = [(names, box, outline(ground, box)) for names, box in boxes]
        pair = next(
            (
                (i, j)
                for i, (_, _, one) in enumerate(made)
                for j, (_, _, other) in enumerate(made[:i])
                if one is not None and other is not None and one.meets(other)
            ),
            None,
        )
        if pair is None:
            break
        i, j = pair
        (more, a), (names, b) = boxes[i], boxes[j]
        boxes[j] = (
            (*names, *more),
            (min(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), max(a[3], b[3])),
        )
        del boxes[i]
    for names, _, out in made:
        if out is None:
            findings.append(
                Finding(
                    "patch-no-edge",
                    Severity.ACT,
                    f"bad floor {', '.join(names)}",
                    Sentence("a sound joist, or a wall, on either side of it"),
                    Sentence("there is none that reaches past it"),
                    Sentence(
                        "Enter the joists on both sides, or where the floor ends; mend soft joists first."
                    ),
                    "practice-patch",
                )
            )
        else:
            yield names, out


def span_checks(found: LaidOut) -> Iterator[Check]:
    """Whether each patch runs over two spans: what keeps the water's gate shut, and not only the patch."""
    for number, made in enumerate(found.layouts, 1):
        if found.ground is not None:
            yield _spans(found.ground, made, number)


def _spans(ground: Ground, made: Layout, number: int) -> Check:
    where = f"patch {number}"
    run = spans(ground.joists, made.lower.low.at, made.lower.high.at)
    topic = Topic(f"patch-spans-{number}", "Patch over two spans", where, "practice-patch")
    return topic.said(
        Verdict.PASS if run >= SPANS else Verdict.FAIL,
        Sentence("{run} span" if run == 1 else "{run} spans", run=run),
        Sentence("{spans} or more", spans=SPANS),
        step=Sentence("Block the bay at 16 in and add a joist, or carry the patch on to the next joist."),
    )


def _layout_checks(ground: Ground, made: Layout, number: int, unit: Unit) -> Iterator[Check]:
    where = f"patch {number}"
    yield _spans(ground, made, number)
    if not made.staggered:
        topic = Topic(f"patch-stagger-{number}", "Panel ends staggered", where, "practice-patch")
        yield topic.said(
            Verdict.FAIL,
            Sentence("in line"),
            Sentence("on different joists"),
            step=Sentence("Take longer panels."),
        )
    if made.upper is not None:
        topic = Topic(f"patch-seams-{number}", "Seams of the second layer", where, "practice-patch")
        yield topic.said(
            Verdict.PASS if made.off_below else Verdict.FAIL,
            Sentence("off the seams below" if made.off_below else "too near a seam below"),
            Sentence(
                "{seams} off the seams below, {joists} off the joists",
                seams=say(OFFSET, unit),
                joists=say(OFF_JOIST, unit),
            ),
            step=Sentence("Cut the second layer further back by hand, or take other panels."),
        )


def _size_asked(layer: LayerName) -> Finding:
    return Finding(
        "patch-panel-size",
        Severity.ACT,
        f"{layer} layer",
        Sentence("a whole panel's actual length and width"),
        Sentence("not measured"),
        Sentence("Measure a whole panel both ways and enter it; till then nothing is cut from it on paper."),
        "practice-patch",
    )


def _panel_findings(cuts: Sequence[CutList]) -> Iterator[Finding]:
    for each in cuts:
        if each.over:
            yield Finding(
                "patch-piece-too-large",
                Severity.ACT,
                f"{each.layer} layer",
                Sentence("pieces that a whole panel holds"),
                Sentence("no panel holds {pieces}", pieces=", ".join(each.over)),
                Sentence("Measure the panels again, or enter longer ones."),
                "practice-patch",
            )
        if each.to_buy:
            yield Finding(
                "patch-panels-short",
                Severity.ACT,
                f"{each.layer} layer",
                Sentence("{whole} whole panels", whole=each.whole),
                Sentence("{count} on the van", count=each.whole - each.to_buy),
                Sentence("Buy {count} more, of the same actual thickness.", count=each.to_buy),
                "practice-patch",
            )


def _supplies(
    facts: FloorFacts,
    layouts: Sequence[Layout],
    panels: Mapping[LayerName, tuple[str, Panel] | None],
    unit: Unit,
    own_unit: Unit,
) -> Supplies:
    counts: Counter[LayerName] = Counter()
    blocks: Counter[Fraction] = Counter()
    cleats: Counter[Fraction] = Counter()
    later: Counter[tuple[str, ...]] = Counter()
    for made in layouts:
        for screws in made.screws:
            counts[screws.layer] += screws.count
        blocks.update(block.length for block in made.blocks if not block.after)
        later.update(block.after for block in made.blocks if block.after)
        cleats.update(cleat.length for cleat in made.cleats)
    rows = []
    for layer, count in counts.items():
        length = _screw(layer, panels, unit, own_unit)
        rows.append((layer, length, int(-(-count * SPARE // 1))))
    return Supplies(
        tuple(rows),
        tuple(sorted(blocks.items())),
        tuple(sorted(cleats.items())),
        tuple(sorted(later.items())),
        tuple(counts.items()),
    )


def _screw(
    layer: LayerName, panels: Mapping[LayerName, tuple[str, Panel] | None], unit: Unit, own_unit: Unit
) -> str:
    """Length of a layer's screws in words; "" where a panel is not measured.

    Into the joist 1-1/4 at least; those of a second layer end in the first, never in a joist.
    """
    lower, upper = _panel(panels["lower"]), _panel(panels.get("upper"))
    if lower is None or (layer == "upper" and upper is None):
        return ""
    thick, step = lower.thickness.inches, SCREW[own_unit]
    if layer == "lower":
        return say(-(-(thick + INTO_JOIST) // step) * step, unit)
    assert upper is not None
    return say((thick + upper.thickness.inches) // step * step, unit)
