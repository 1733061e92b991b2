"""How the figures of the water record came about: each correction that was applied, before and after it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from undertile.packet.told import told
from undertile.packet.words import Words
from undertile.packet.words.cited import cited
from undertile.sources import cite
from undertile.wood.correct import SPECIES, Corrected
from undertile.wood.history import Sample, Series
from undertile.wood.say import up

TEMPERATURE, OTHER_WOOD = "pin-temperature", "fpl-gtr-6"
"""Sources of the two corrections."""


def how_corrected(series: Iterable[Series], words: Words) -> Iterator[str]:
    """Each correction by visit and stuff with its figures, its source; then what was left as shown, and why.

    Parameters
    ----------
    series : iterable of Series
    words : Words

    Yields
    ------
    str
        One line each: ``Visit 1, lumber, Douglas-fir: temperature 66 F: +0.2 ...: from 29 to 29.2, ...``.
    """
    series = list(series)
    groups: dict[tuple[str, str], list[Corrected]] = {}
    for each in series:
        for sample in each.samples:
            found = sample.corrected
            if found is not None and found.scale == "moisture":
                groups.setdefault((sample.round.name, stuff_of(each, words)), []).append(found)
    for (visit, stuff), figures in groups.items():
        steps = "; ".join(dict.fromkeys(_step(figures, at, words) for at in range(len(figures[0].steps))))
        chains = sorted({_chain(each) for each in figures}, key=lambda chain: float(chain[0]))
        listed = ", ".join(_figures(chain, words) for chain in chains)
        yield words("record-how-line", visit=visit, stuff=stuff, steps=steps, figures=listed)
    taken = [each for figures in groups.values() for each in figures]
    for key, applied in (
        (TEMPERATURE, any(each.temperature is not None for each in taken)),
        (OTHER_WOOD, any(each.species is not None for each in taken)),
    ):
        if applied:
            source = (words.language == "es" and cited(key)) or cite(key)
            yield words(f"record-how-{key}", source=source)
    left = [_left(sample) for each in series for sample in each.samples]
    yield from dict.fromkeys(told(step, words) for steps in left for step in steps)


def stuff_of(series: Series, words: Words) -> str:
    """What a place is made of, with its species where it is lumber."""
    point = series.facts
    stuff = words(f"record-stuff-{point.material}")
    if point.material == "lumber" and point.species != "unknown":
        stuff = f"{stuff}, {told(SPECIES[point.species], words)}"
    return stuff


def _left(sample: Sample) -> tuple[str, ...]:
    found = sample.corrected
    return () if found is None or found.scale == "moisture" else found.steps


def _step(figures: list[Corrected], at: int, words: Words) -> str:
    """One step of a group; where its amount goes with the figure, the rule alone."""
    said = list(dict.fromkeys(told(each.steps[at], words) for each in figures if at < len(each.steps)))
    if len(said) == 1:
        return said[0]
    return words("record-how-each-temperature" if at == 0 else "record-how-each-species")


def _chain(found: Corrected) -> tuple[str, ...]:
    """A figure as shown, after temperature, after species; a step that did not apply is left out."""
    chain, value = [f"{found.shown:g}"], found.shown
    for added in (found.temperature, found.species):
        if added is not None:
            value += added
            chain.append(f"{up(value):.1f}")
    return tuple(chain)


def _figures(chain: tuple[str, ...], words: Words) -> str:
    if len(chain) == 1:
        return words("record-how-as-shown", shown=chain[0])
    return words("record-how-from", shown=chain[0], then=words("record-how-then").join(chain[1:]))
