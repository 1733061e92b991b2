"""The proof's cover line: what was closed, when, on which readings, or that it is still open."""

from __future__ import annotations

import html
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.packet.test_proof import rebuilt, sheet, table, text_of
from tests.screens.cast import site
from undertile.job import Pen
from undertile.job.plain import entries_of
from undertile.job.settle import settle
from undertile.packet.cover import cover_line
from undertile.packet.proof import proof_pdf
from undertile.packet.words import LANGUAGES, Language, Words

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def wet() -> dict[str, Any]:
    """The room that was read again, with the wet corner's water."""
    read: dict[str, Any] = tomllib.loads((EXAMPLES / "wet-corner.toml").read_text("utf-8"))
    return {**table(), "wood": read["wood"]}


def dry() -> dict[str, Any]:
    """The same with what is wet left out and all else settled."""
    job = wet()
    wood = job["wood"]
    kept = ("ref-", "plate-B-40", "plate-L-18", "floor-18-18")
    wood["points"] = {key: each for key, each in wood["points"].items() if key.startswith(kept)}
    wood["leak"] = {
        "not_here": {
            each: {"reason": "no leak, only made new"}
            for each in (
                *("supply", "riser", "drain", "pan", "enclosure"),
                *("roof or window", "condensation", "neighbour"),
            )
        }
    }
    wood["points"]["floor-18-18"]["awl"] = {"1": "0"}
    wood["cover"] = {
        "surfaces": ["wall L", "wall B", "floor"],
        "photos": dict.fromkeys(("wall L", "wall B", "floor"), "2026-03-06"),
        "inspection": "not asked for",
    }
    return job


@pytest.mark.parametrize("language", LANGUAGES)
def test_still_open_is_said_with_what_is_closed(language: Language) -> None:
    """independent: read off the example: plate B at 40 read 11 on both visits, sound at the first."""
    rebuild, words = rebuilt(wet()), Words(language)
    found = sheet(rebuild, language)
    assert found.cover == cover_line(rebuild.results["wood"], words)
    assert found.cover.startswith(("Do not cover yet", "No tape todavía"))
    told = " ".join(found.closed)
    place = {"en": "plate B at 40", "es": "solera B a 40"}[language]
    assert place in told
    assert "2026-03-04" in told
    assert "2026-03-06" in told
    assert {"en": "plate B at 16 (", "es": "solera B a 16 ("}[language] not in told
    text = text_of(proof_pdf(found))
    assert words("proof-cover") in text
    assert found.cover in text
    for line in found.closed:
        assert line in text


@pytest.mark.parametrize("language", LANGUAGES)
def test_closed_is_said_with_its_day_and_the_readings(language: Language) -> None:
    """independent: three places of the example, each read dry on two days; figures as the meter showed."""
    found = sheet(rebuilt(dry()), language)
    assert found.cover.startswith(("It may be covered, as read on", "Se puede tapar"))
    (line,) = found.closed
    assert line.startswith({"en": "Dry and sound on ", "es": "Seco y firme el "}[language])
    assert line.count("%") == 6


def test_without_water_nothing_is_said() -> None:
    found = sheet(rebuilt(table()))
    assert (found.cover, found.closed) == ("", ())
    assert Words("en")("proof-cover") not in text_of(proof_pdf(found))


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_screens_proof_and_its_page_to_print_say_the_same(language: Language) -> None:
    at = site()
    job = at.store.create()
    made, _ = settle(wet(), "in")
    assert made is not None
    at.store.append(job, entries_of(made, Pen("import", "Bo", "2026-11-24T08:00:00")))
    paper = sheet(rebuilt(wet(), at.host.now()[:10]), language)  # of the same day
    for page in ("proof", "papers/proof"):
        text = html.unescape(re.sub(r"<[^>]*>", "", at.page(f"/job/{job}/{page}", lang=language)))
        assert paper.cover in text
        for line in paper.closed:  # a log has its places in another order than a file
            head, _, places = line.partition(": ")
            assert head in text
            assert all(each.rstrip(".") in text for each in places.split("; "))
