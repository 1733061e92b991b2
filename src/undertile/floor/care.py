"""Where the floor can hurt someone: decay at a bearing, joists cut, dust.

The usual cautions, in their place and no louder than needed. Local code and licensed trades decide.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.floor.facts import Engineered, FloorFacts, Soft
from undertile.floor.joists import JoistIs
from undertile.floor.mended import DEEP, covered, engineer_said, fastened, reach, word_stands
from undertile.pan.judge import Topic
from undertile.pan.say import cut_line, say, window
from undertile.sentence import Sentence, form

BEARING = {"wood or metal": Fraction(3, 2), "masonry": Fraction(3)}
"""Least length of joist on what carries it, IRC R502.6. [in]"""
SHORE = form(
    "Shore the floor on both sides before this joist is touched; a licensed engineer or the building "
    "official says how it is mended."
)
_ON = form("{found}, {more}")
_THEN = form("{first} {then}")


def joist_findings(joist: JoistIs, opened: tuple[Fraction, Fraction] | None = None) -> Iterator[Finding]:
    """Decay in one joist, by where it is; the worst of each place.

    Parameters
    ----------
    joist : JoistIs
    opened : tuple of Fraction, optional
        From where to where the floor is cut open over it. [in]
    """
    for name, soft in joist.facts.soft.items():
        found = _soft(joist, name, soft, opened)
        if found.code == "joist-soft" and word_stands(joist):
            continue  # how it is mended is the engineer's to say
        yield found
    if joist.facts.engineer is not None:
        yield _engineer(joist, joist.facts.engineer)


def _engineer(joist: JoistIs, word: Engineered) -> Finding:
    """An engineer's word is a note, with who and when (convention 6.2); half of one asks for the rest."""
    code, where, expected = (
        "joist-engineer",
        f"joist {joist.name}",
        Sentence("an engineer's word that it carries, with who and when"),
    )
    if word.carries == "no":
        found: str = Sentence(
            "{by} said on {day} that it does not carry", by=word.by or "?", day=word.when or "?"
        )
        step = Sentence("Mend it as the engineer says, then have the engineer look at it again.")
        return Finding(code, Severity.ACT, where, expected, found, step, "convention-6")
    if not engineer_said(joist):
        step = Sentence("Write whether it carries, the engineer's name and the day; less lifts nothing.")
        found = Sentence("whether it carries, who or when is missing")
        return Finding(code, Severity.ACT, where, expected, found, step, "convention-6")
    found = Sentence("{by}, {day}: carries as it is or as mended", by=word.by, day=word.when)
    if word.says:
        found = Sentence("{by}, {day}: it carries; {says}", by=word.by, day=word.when, says=word.says)
    step = Sentence("Keep it with the record; whatever changes at the joist asks for it anew.")
    return Finding(code, Severity.NOTE, where, expected, found, step, "convention-6")


def _soft(joist: JoistIs, name: str, soft: Soft, opened: tuple[Fraction, Fraction] | None) -> Finding:
    unit, where = joist.unit, f"{joist.name} soft {name}"
    low, high = soft.start.inches, soft.start.inches + soft.length.inches
    deep = (
        Sentence("not probed how deep")
        if soft.depth is None
        else Sentence("{depth} deep", depth=say(soft.depth.inches, unit))
    )
    found = Sentence("soft from {low} to {high}, {deep}", low=say(low, unit), high=say(high, unit), deep=deep)
    if soft.side == "unknown":
        found = Sentence(_ON, found=found, more=Sentence("on top or in the underside is not said"))
    if soft.at_bearing or low == 0 or (joist.span is not None and high >= joist.span):
        return Finding(
            "joist-decay-bearing",
            Severity.STOP,
            where,
            Sentence("sound wood on its bearing"),
            Sentence(_ON, found=found, more=Sentence("at a bearing")),
            Sentence(SHORE),
            "practice-decay",
        )
    if joist.span is None or (low < 2 * joist.span / 3 and high > joist.span / 3):
        third = Sentence("in the middle third" if joist.span is not None else "its span is not measured")
        return Finding(
            "joist-decay-middle",
            Severity.STOP,
            where,
            Sentence("no wood lost in the middle third of the span"),
            Sentence(_ON, found=found, more=third),
            Sentence(SHORE)
            if joist.span is not None
            else Sentence(
                "Measure its clear span first: off the middle third it may be a sister's. Until then: {step}",
                step=Sentence(SHORE),
            ),
            "practice-decay",
        )
    if soft.depth is None or joist.depth is None or soft.depth.inches > joist.depth * DEEP:
        limit = (
            "a sixth of the joist's depth" if joist.depth is None else say(joist.depth * DEEP, unit, "down")
        )
        return Finding(
            "joist-decay-deep",
            Severity.STOP,
            where,
            Sentence("no more than {limit} lost outside the middle third", limit=limit),
            found,
            Sentence(SHORE)
            if soft.depth is not None
            else Sentence("Probe it with an awl; until then: {step}", step=Sentence(SHORE)),
            "practice-decay",
        )
    return _to_mend(joist, soft, where, found, opened)


def _to_mend(
    joist: JoistIs, soft: Soft, where: str, found: str, opened: tuple[Fraction, Fraction] | None
) -> Finding:
    """A shallow soft place: mended by a sister. One that stands leaves a note, one that is planned a step."""
    assert joist.span is not None
    unit, (least, most) = joist.unit, reach(soft, joist.span)
    low, high = cut_line(least, unit, "low"), cut_line(most, unit, "high")  # sawn: outward, never short
    sister = joist.facts.sister
    if covered(joist, soft) and fastened(sister):
        assert sister is not None
        return Finding(
            "joist-mended",
            Severity.NOTE,
            where,
            Sentence("sound wood"),
            Sentence("{found}; a sister stands beside it since {day}", found=found, day=sister.fastened),
            Sentence("Put an awl into it again before it is covered."),
            "practice-decay",
        )
    if covered(joist, soft):
        step = Sentence(
            "Scrape to sound wood, let it dry, fasten the sister typed beside it, two rows of structural "
            "screws, and write the day: from {low} to {high} at least.",
            low=low,
            high=high,
        )
    else:
        step = Sentence(
            "Scrape to sound wood, let it dry, and sister it from {low} to {high} at least, two rows of "
            "structural screws.",
            low=low,
            high=high,
        )
        if sister is not None:
            short = Sentence(
                "The sister typed is too short, too thin or not deep enough for it, or the joist is not "
                "measured."
            )
            step = Sentence(_THEN, first=step, then=short)
    if opened is not None and (least < opened[0] or most > opened[1]):
        past = Sentence(
            "The floor is open from {near} to {far} only: open it further along the joist, or slide the "
            "sister in from below.",
            near=cut_line(opened[0], unit, "low"),
            far=cut_line(opened[1], unit, "high"),
        )
        step = Sentence(_THEN, first=step, then=past)
    return Finding("joist-soft", Severity.ACT, where, Sentence("sound wood"), found, step, "practice-decay")


def bearing_check(joist: JoistIs, on: str) -> Check | None:
    """Length on the bearing, None where only the maker says it; not known on what is the cautious case."""
    if joist.bearing is None and joist.make == "engineered":
        return None
    topic = Topic(f"joist-bearing-{joist.name}", "Length on its bearing", f"joist {joist.name}", "irc-r502.6")
    fix = Sentence("Have it carried by a hanger or a ledger that fits, as the building official allows.")
    least = BEARING.get(on, BEARING["masonry"])
    if joist.bearing is None:
        step = Sentence(  # without the joist's name: faces say it once for all the joists that lack it
            "Measure from below how much of each rests on what carries it, at the end with less."
        )
        return topic.not_shown(window(least, None, joist.unit), step)
    made = topic.judge(joist.bearing, least, None, joist.unit, fix=fix)
    if on == "unknown" and made.verdict is Verdict.FAIL and joist.bearing >= BEARING["wood or metal"]:
        step = Sentence("Say what it rests on: it is enough on wood or metal, not on masonry.")
        return replace(made, verdict=Verdict.NOT_SHOWN, next_step=step)
    return made


def dust_findings(facts: FloorFacts, cut: bool, taken_off: bool) -> Iterator[Finding]:
    """Asbestos before the floor is cut, silica where mineral stuff is ground."""
    if cut:
        yield Finding(
            "floor-asbestos",
            Severity.NOTE,
            "floor",
            Sentence("old flooring, felt and mastic cleared by a sample before they are cut"),
            Sentence("the floor is cut open"),
            Sentence(
                "Sample what will be disturbed where the house or local rules ask for it; keep it wet and "
                "whole until the answer is there."
            ),
            "osha-1926.1101",
        )
    if taken_off and facts.level.surface != "wood":
        yield Finding(
            "floor-silica",
            Severity.NOTE,
            "floor under the pan",
            Sentence("a grinder with shroud and dust extractor, as the table asks"),
            Sentence("concrete or mortar is ground"),
            Sentence(
                "Shroud, 25 cfm an inch of wheel, filter of 99 % or better; indoors over 4 h a respirator "
                "too."
            ),
            "osha-1926.1153",
        )
