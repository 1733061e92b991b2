"""Every published source, once; rules and constants cite its key.

``kind`` says how much weight a key carries: ``published`` (a standard, code or handbook, seen or well
known), ``memory`` (a published value recalled, not re-read), ``practice`` (common trade practice, no
source), ``ours`` (a default of this project). A code number is a default with section and edition, or
``edition not checked`` where the text seen named none; local code and licensed trades decide.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Source:
    """Where a number comes from.

    Attributes
    ----------
    key : str
    title : str
        Standard, section, edition; or what the practice is.
    kind : {"published", "memory", "practice", "ours"}
    note : str
        Doubt, disagreement between sources, or the advice that goes with it.
    """

    key: str
    title: str
    kind: Literal["published", "memory", "practice", "ours"]
    note: str = ""


_LOCAL = "Verify with the local authority."

_ALL = (
    Source("irc-r602.6", "IRC R602.6, notching and boring of studs (2015-2021 text)", "published", _LOCAL),
    Source("irc-r602.6.1", "IRC R602.6.1, notched top plate (2018 text)", "published", _LOCAL),
    Source(
        "nec-300.4",
        "NEC 300.4(A)(1) and (D), 1-1/4 in from the edge or a steel plate (2017 text)",
        "published",
        _LOCAL,
    ),
    Source(
        "irc-p2603.2.1",
        "IRC P2603.2.1, shield plates for pipe (2015 on)",
        "memory",
        "IPC, IMC and some cities ask 1-1/2 in; UPC/CPC 1 in. " + _LOCAL,
    ),
    Source(
        "irc-p2708.1",
        "IRC P2708.1, shower floor 900 sq in, 30 in least dimension (2018 text)",
        "published",
        _LOCAL,
    ),
    Source(
        "a108.02-4.2.2",
        "ANSI A108.02 section 4.2.2: any edge 15 in or more, 1/8 in 10 ft and 1/16 in 24 in; edition not "
        "checked",
        "published",
    ),
    Source(
        "a108-flat-small",
        "ANSI A108 / TCNA: all edges under 15 in, 1/4 in 10 ft and 1/16 in 12 in; edition not checked",
        "memory",
        "The 1/4 in 10 ft is also seen in a general page; not seen verbatim.",
    ),
    Source(
        "ufgs-thinset-plumb",
        "UFGS: studs for thin-set tile, 1/8 in in 8 ft; edition not checked",
        "published",
    ),
    Source("ps20", "American Softwood Lumber Standard PS 20, actual sizes; edition not checked", "published"),
    Source("iso-12781", "ISO 12781, flatness by minimum zone; edition not checked", "published"),
    Source("baarda", "Baarda 1968, data snooping: each observation against its own redundancy", "memory"),
    Source("practice-planing", "Craft limit 1/4 in for planing a stud", "practice"),
    Source(
        "practice-keep-off",
        "Nothing planed or driven within 3 in (75 mm) of a valve or pipe that stands at a stud (ours)",
        "practice",
    ),
    Source("practice-straightness", "Straightness of framing lumber in place, as a weak prior", "practice"),
    Source("practice-reading-slips", "Slips people make when they read a rule", "practice"),
    Source(
        "practice-pan-fit", "Opening for a rigid pan: pan plus 1/16 to 1/8; read the pan's sheet", "practice"
    ),
    Source("practice-square", "Diagonals of an alcove within 1/8", "practice"),
    Source("practice-screw", "Screw: board plus packing plus 3/4 into wood", "practice"),
    Source("practice-backing", "Inside corner keeps 5/8 of backing after build-out", "practice"),
    Source(
        "practice-tools",
        "Accuracy of rule, tape, laser line, pinch sticks and level in a gutted room",
        "practice",
    ),
    Source("practice-minutes", "Minutes of the work, one person, after the plan exists", "practice"),
    Source(
        "practice-way-in", "A pan carried flat needs its shorter side clear at the narrowest turn", "practice"
    ),
    Source("practice-valve", "Finish window as the valve's sheet prints it, from its body datum", "practice"),
    Source("practice-edges", "New board flush to 1/32 back of the face it continues", "practice"),
    Source("practice-screw-tip", "Screw tips keep 1/4 from a pipe or cable", "practice"),
    Source(
        "shield-plate",
        "Pipe or cable under 1-1/4 in from the edge gets a steel plate: NEC 300.4(A)(1), (D), edition not "
        "checked; IRC P2603.2.1 (2015 on)",
        "published",
        "Sources disagree: IPC, IMC and some cities 1-1/2 in; UPC/CPC 1 in. The IRC text is from memory. "
        + _LOCAL,
    ),
    Source(
        "depth-cubed",
        "Bending stiffness of a rectangle goes with depth cubed (mechanics handbooks)",
        "memory",
    ),
    Source("flange-held", "The flange's end has a stud face within 2 in", "ours"),
    Source("practice-kerf", "A saw cut takes 1/8", "practice"),
    Source(
        "stock-length", "Strips are cut from 8 ft lengths, loose card from 45 in, until measured", "practice"
    ),
    Source(
        "strip-place",
        "A strip reaches halfway to the next height read, or to the plates; never down into the flange zone",
        "ours",
    ),
    Source("practice-screw-rows", "Board screws 8 in apart up each stud", "practice"),
    Source(
        "wood-handbook-emc",
        "Wood Handbook (FPL-GTR-190, 2010; FPL-GTR-282, 2021), equation (4-5) and table 4-2",
        "published",
        "Knows no species, hysteresis or stress; older tables differ by up to 0.9.",
    ),
    Source(
        "wood-handbook-shrinkage",
        "Wood Handbook (FPL-GTR-190), tables 4-3 and 13-5, shrinkage and change coefficients",
        "published",
        "Douglas-fir, the firs and western redcedar seen; hemlock, pines, spruces, redwood from memory.",
    ),
    Source(
        "ashrae-psychrometrics",
        "ASHRAE Handbook, Fundamentals: psychrometrics; edition not checked",
        "published",
        "Standard pressure.",
    ),
    Source(
        "fpl-gtr-6",
        "FPL-GTR-6 (James 1988), table 1: resistance of wood by species and moisture",
        "memory",
        "Another published way of correcting spruce differs by more than a point.",
    ),
    Source(
        "pin-temperature",
        "A pin meter maker's rule: 1/2 percent for each 5 C from 20 C",
        "published",
        "Rules of others and the Canadian formula (from memory) differ by about 1 at 10 C off.",
    ),
    Source(
        "pin-temperature-range",
        "Pin readings corrected for wood from 32 to 122 F (0 to 50 C): a meter maker's chart goes to 50 C",
        "ours",
        "The cold end is ours: frozen wood reads otherwise.",
    ),
    Source(
        "practice-thickness",
        "Wood in a bath is at most 8 in thick, a panel 2 in; more is mistyped",
        "practice",
    ),
    Source("practice-joist-span", "A floor joist spans at least twice its depth", "practice"),
    Source(
        "practice-wood-temperature",
        "Wood in a room lies within 40 F of its air, unless it was just heated",
        "practice",
    ),
    Source(
        "meter-error", "FPInnovations 2015: pin meters on lumber and panels within 2 percent", "published"
    ),
    Source(
        "meter-limits",
        "Pin meters: 7 percent to fibre saturation; treated wood, glue, salts, wet faces upset them",
        "published",
    ),
    Source("astm-d4442", "ASTM D4442, moisture content by oven-drying; edition not checked", "published"),
    Source(
        "enclose-19",
        "Framing not enclosed over 19 percent: CALGreen 4.505.3 (three readings), Oregon R318.2; edition "
        "not checked",
        "published",
        _LOCAL,
    ),
    Source(
        "drying-fit",
        "Close date fitted to the readings, its range calibrated on simulated slabs (docs/methods/drying.md)",
        "ours",
    ),
    Source("fed-odds", "Possibly fed: a point against its neighbours (docs/methods/drying.md)", "ours"),
    Source(
        "reading-slip",
        "Asked about: over 100 percent, or a tenth of what is usual there, and right with its decimal point "
        "moved one place",
        "ours",
    ),
    Source(
        "reading-jump",
        "Asked about: a rise of 5 percent between two visits, a fall of 8 and more than 6 a day",
        "ours",
        "No simulated slab of 3/4 in and more falls as much.",
    ),
    Source(
        "practice-live-water",
        "Over 28 percent and not falling for two days, or rising: live water",
        "practice",
    ),
    Source(
        "practice-dry-reference",
        "Dry reference: three places of the same stuff, never wet, same house",
        "practice",
    ),
    Source(
        "practice-same-meter",
        "A number is held against the dry reference as the same meter reads it",
        "practice",
    ),
    Source(
        "practice-read-lately",
        "A place is covered by a reading of the last 14 days, no older",
        "ours",
        "Or of as many days as the job says: rooms get wet again.",
    ),
    Source(
        "practice-awl", "An awl under the thumb sinks 1/8 or more, or a sliver snaps short: decay", "practice"
    ),
    Source("practice-panel", "A panel swollen by more than 1/16, or come apart, is replaced", "practice"),
    Source("practice-decay-bearing", "Decay where something bears: shore and ask an engineer", "practice"),
    Source("practice-bare-bearing", "Framing that bears and stays out: shore, ask what carries", "practice"),
    Source(
        "practice-open-past",
        "Open past the last bad spot, into sound and dry wood",
        "practice",
        "12 in (305 mm) of it, where the job says nothing else.",
    ),
    Source(
        "leak-came-and-went",
        "A leak that no repair explains is gone once the same test, as long and as hard, is clean on two "
        "days",
        "ours",
    ),
    Source(
        "leak-order",
        "Of tests and repairs of one day without hours the worse order counts",
        "ours",
    ),
    Source(
        "leak-wet-since",
        "A test rules out nothing that can have wetted the wood after it: wood that rose by more than meter "
        "and season",
        "ours",
        "1.7 percent within 30 days in the same holes, then the meter's own error; and what the air rose by.",
    ),
    Source("practice-leak-tests", "Leak tests: how long, how much, and what they tell apart", "practice"),
    Source(
        "flood-control-bowl",
        "Water in the pan against a bowl beside it: 1/32 in in 24 h",
        "practice",
        "Code texts ask 15 minutes; rooms lose about 1/8 in a day.",
    ),
    Source(
        "irc-p2503.7",
        "IRC P2503.7, water supply tested for 15 minutes (2018-2021 text)",
        "memory",
        "Air not on plastic pipe. " + _LOCAL,
    ),
    Source(
        "irc-p2503.9",
        "IRC P2503.9, test gauges: marks of 1 psi or finer up to 100 psi, 2 psi over it (2018 text)",
        "published",
        _LOCAL,
    ),
    Source(
        "leak-word-alone",
        "Where wood was wet, pipes and drain are ruled out by a test, a pan and walls by a test or the day "
        "they were torn out, and by no word alone; a word is one that can be read",
        "ours",
    ),
    Source(
        "leak-test-day",
        "A test rules out only from the day the water was noticed or the wall opened, and within 60 days of "
        "a visit",
        "ours",
    ),
    Source(
        "practice-cover", "Photos of every surface and the rough inspection before it is covered", "practice"
    ),
    Source(
        "irc-r301.7",
        "IRC R301.7, floors bend L/360 at most under live load (2018 text)",
        "memory",
        _LOCAL,
    ),
    Source(
        "irc-r301.5",
        "IRC table R301.5, live load 40 lb a sq ft, sleeping rooms 30; edition not checked",
        "memory",
        _LOCAL,
    ),
    Source("irc-r502.3.1", "IRC tables R502.3.1, spans at 10 or 20 dead; edition not checked", "memory"),
    Source("practice-weights", "Usual weights of what lies on a floor; its sheet's first", "practice"),
    Source(
        "irc-r502.6",
        "IRC R502.6, joists bear 1-1/2 in on wood or metal, 3 in on masonry (2018 text)",
        "memory",
        _LOCAL,
    ),
    Source(
        "irc-r502.8.1",
        "IRC R502.8.1, notches and holes in sawn joists (2015-2021 text)",
        "published",
        "Some guides ask holes in the middle third of the depth; the code text asks 2 in of wood. " + _LOCAL,
    ),
    Source(
        "irc-r502.8.2",
        "IRC R502.8.2, engineered members: the maker's rules or an engineer's (2018 text)",
        "published",
    ),
    Source(
        "irc-r503.2.1.1",
        "IRC table R503.2.1.1(2), panels as subfloor and underlayment (2018 text)",
        "memory",
        _LOCAL,
    ),
    Source(
        "irc-p2709.1",
        "IRC P2709.1 and P2709.3, shower floor and liner slope 1/4 to 1/2 in a foot (2021 text)",
        "published",
        _LOCAL,
    ),
    Source(
        "nds-bending",
        "NDS Supplement 2018, tables 4A and 4B: bending value and stiffness of dimension lumber",
        "memory",
    ),
    Source(
        "nds-shear",
        "NDS 2018 3.4.2, 3.4.3.1(a) and 3.4.3.2: shear at bearings and notches; values of tables 4A and 4B",
        "memory",
        "Formulas as calculators of other people tell them too; the values from memory.",
    ),
    Source(
        "tile-deflection",
        "Tile industry: L/360 under ceramic, L/720 under stone",
        "memory",
        "Handbooks speak of live load; live and dead together is the cautious reading (ours, changeable).",
    ),
    Source(
        "panel-point",
        "300 lb between joists bends the panel L/360 at most (tile handbook until 2006); the rest estimated",
        "ours",
        "The limit as a trade magazine of 2007 tells it, the handbook itself not seen. Plate theory with the "
        "panel makers' stiffness by span rating (APA D510), from memory; layers not glued.",
    ),
    Source(
        "practice-patch", "Floor patch: over two spans, seams 6 in off, screws 6 and 8 in apart", "practice"
    ),
    Source("practice-flush", "New panel within 1/32 of the old one at a seam", "ours"),
    Source("practice-pan-floor", "Floor within 1/8 under the pan; the pan's sheet decides", "practice"),
    Source(
        "practice-decay",
        "Decay in a joist: at a bearing, in the middle third, or over 1/6 deep is for an engineer",
        "practice",
        _LOCAL,
    ),
    Source(
        "osha-1926.1153",
        "OSHA 1926.1153 table 1, grinders: shroud and dust extractor (2016 rule)",
        "memory",
        _LOCAL,
    ),
    Source(
        "osha-1926.1101",
        "OSHA 1926.1101, flooring and mastic of 1980 and before presumed to hold asbestos (1994 rule)",
        "memory",
        "State rules ask for a sample in newer houses too. " + _LOCAL,
    ),
    Source(
        "epa-rrp",
        "EPA lead rule, 40 CFR 745.80 to 745.92: housing before 1978; minor repair up to 6 sq ft of a room; "
        "edition not checked",
        "published",
        "Gutting and window replacement are never minor: from memory. Verify with the local authority.",
    ),
    Source(
        "asbestos-local",
        "State and local rules for demolition; EPA NESHAP 40 CFR 61.145 exempts up to four homes; edition "
        "not checked",
        "memory",
        "Verify with the local authority.",
    ),
    Source(
        "epa-mold",
        "EPA 402-K-01-001, Mold Remediation in Schools and Commercial Buildings, table 2",
        "published",
        "Guidance, by area: under 10, 10 to 100, over 100 sq ft; written for larger buildings.",
    ),
    Source(
        "s500-category",
        "ANSI/IICRC S500: category of the water; porous stuff wet over 24 to 48 h goes out (EPA); edition "
        "not checked",
        "memory",
        "The 24 to 48 h were seen; the categories are from memory.",
    ),
    Source(
        "irc-r302-shared",
        "IRC R302.2 and R302.3: walls between townhouses and homes keep their fire rating; edition not "
        "checked",
        "memory",
        "Verify with the local authority.",
    ),
    Source("convention-2", "docs/convention.md, section 2: readings and signs", "ours"),
    Source("convention-3", "docs/convention.md, section 3: pan, play and clearances", "ours"),
    Source("convention-4", "docs/convention.md, section 4: the least-cost contract", "ours"),
    Source("convention-5", "docs/convention.md, section 5: verdicts", "ours"),
    Source("convention-6", "docs/convention.md, section 6: care", "ours"),
    Source("convention-7", "docs/convention.md, section 7: the record", "ours"),
)

SOURCES: dict[str, Source] = {source.key: source for source in _ALL}


def cite(key: str) -> str:
    """The source's title with its weight, as printed beside a figure.

    Raises
    ------
    KeyError
        If no such source is kept.
    """
    source = SOURCES[key]
    tag = {
        "published": "",
        "memory": " (from memory, not re-read)",
        "practice": " (common practice, no source)",
        "ours": " (our default)",
    }[source.kind]
    return source.title + tag
