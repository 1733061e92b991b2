"""Do not cover yet stands wherever the floor patch could be laid: screen, paper, drawing, order, command."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from tests.packet.cast import as_typed
from tests.screens.cast import bring, site, typed
from undertile.cli import main
from undertile.drawing import sheets
from undertile.drawing.svg import to_svg
from undertile.packet import crew_sheet
from undertile.packet.floor import floor_sheet
from undertile.packet.order import order_steps
from undertile.packet.plan_view import PlanView
from undertile.packet.words import Language, Words
from undertile.screens.words.floor import FLOOR

WET = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
SHUT: dict[Language, str] = {
    "en": (
        "Do not cover yet, do not lay the patch: J1 soft corner: not mended; J2 notch pipe fails and waits "
        "for an engineer; subfloor fails; not shown to carry it: J1, J2 and J3; not read under it: J1, J2 "
        "and J3; 4 sources of water not ruled out; photo of the floor missing; inspection open. Cut it and "
        "fit it dry meanwhile."
    ),
    "es": (
        "No tape todavía, no ponga el parche: J1, parte blanda corner: sin reparar; J2, muesca pipe no pasa "
        "y espera a un ingeniero; subpiso no pasa; sin mostrar que aguanta: J1, J2 y J3; sin leer debajo: "
        "J1, J2 y J3; 4 fuentes de agua sin descartar; falta la foto del piso; inspección pendiente. "
        "Mientras tanto córtelo y preséntelo en seco."
    ),
}
"""independent: J1 to J3 lie under 0 to 35-3/4, none is read; the gate of the example, counted by hand."""
LANGUAGES: tuple[Language, ...] = ("en", "es")


@pytest.mark.parametrize("language", LANGUAGES)
def test_it_heads_the_patch_on_the_screen_and_on_its_paper(language: Language) -> None:
    at = site()
    job = bring(at, "wet-corner")
    told = at.twin(f"/job/{job}/floor", lang=language)["cover"]
    assert (told["text"], told["may"]) == (SHUT[language], False)
    for page, patch in (("floor", "35-3/4"), ("papers/floor", "29-13/16")):
        text = at.page(f"/job/{job}/{page}", lang=language)
        shown = html.unescape(re.sub(r"<(svg|style).*?</\1>|<[^>]*>", " ", text, flags=re.DOTALL))
        shown = " ".join(shown.split())
        assert -1 < shown.index(SHUT[language]) < shown.index(patch)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_patch_is_laid_after_it_and_after_what_dries(language: Language) -> None:
    """independent: places in the list, found by their kinds."""
    rebuild, words = as_typed("wet-corner"), Words(language)
    view = PlanView(rebuild)
    kinds = [step.kind for step in view.steps]
    order = (
        "floor cut",
        "floor joist",
        "floor engineer",
        "dry first",
        "floor dry",
        "floor wood",
        "floor patch",
    )
    places = [kinds.index(each) for each in order]
    assert places == sorted(places)
    steps = order_steps(view, words)
    assert (steps[places[4]].text, steps[places[4]].stop) == (SHUT[language], True)
    assert "P1" in steps[places[6]].text
    assert SHUT[language] in [step.text for step in crew_sheet(rebuild, language=language).order]
    sheet = floor_sheet(rebuild, language=language)
    assert sheet is not None
    assert (sheet.cover, sheet.may) == (SHUT[language], False)
    crew = [step.text for step in crew_sheet(rebuild, language=language).order]
    floor = [text for text in sheet.order if text in crew]
    assert floor == [text for text in crew if text in floor]  # one order on both papers
    assert floor == [
        steps[kinds.index(kind) + n].text
        for kind in dict.fromkeys(kinds)
        if kind in FLOOR_STEPS
        for n in range(kinds.count(kind))
    ]
    assert any('61"' in text and '30"' in text for text in floor)  # from where to where, and past the opening


FLOOR_STEPS = (
    *("floor stop", "floor cut", "floor joist", "floor engineer", "floor let dry"),
    *("floor dry", "floor wood", "floor patch"),
)


@pytest.mark.parametrize(("language", "said"), [("en", "DO NOT COVER YET"), ("es", "NO TAPE TODAVÍA")])
def test_the_drawing_says_it_with_its_joists(language: Language, said: str) -> None:
    made = {sheet.key: sheet for sheet in sheets(as_typed("wet-corner"), language=language)}
    text = html.unescape(re.sub(r"<[^>]*>", " ", to_svg(made["floor-patch"].scene)))
    assert said in text
    assert "J1, J2, J3" in text[text.index(said) :][:400]
    assert said not in to_svg(made["floor-panels"].scene)  # cutting covers nothing


def test_the_command_says_it_before_where_it_is_cut(capsys: pytest.CaptureFixture[str]) -> None:
    main(["floor", str(WET)])
    told = " ".join(capsys.readouterr().out.split())
    assert told.index("Where is it cut?") < told.index(SHUT["en"]) < told.index("Patch 1, on the joists")


def test_the_next_step_cuts_and_does_not_patch() -> None:
    """independent: with the joists' own fails out of the way the patch is next."""
    at = site()
    sound = {"floor.joists.J2.notches.pipe.depth": "1", "floor.patch.lower.thickness": "1-1/8"}
    shut = SHUT["en"].replace("J2 notch pipe fails and waits for an engineer; subfloor fails; ", "")
    job = bring(at, "wet-corner", sound)
    step = at.twin(f"/job/{job}/floor")["next"]
    assert (step["text"], step["why"]) == (FLOOR["next-floor-cut-only"][0], shut)


def test_where_only_joists_hold_it_the_line_leads_to_the_joist() -> None:
    """Nobody speaks of water: what keeps the patch from being laid is the notch, and is settled there."""
    at = site()
    joists = {f"floor.joists.J{k}.at": str(8 + 16 * (k - 1)) for k in range(1, 5)}
    notch = "floor.joists.J2.notches.pipe"
    job = typed(
        at,
        [
            ("unit", "in"),
            ("floor.joists_run", "out from the back wall"),
            *(
                (f"floor.all_joists.{key}", value)
                for key, value in (("make", "sawn"), ("width", "1-1/2"), ("depth", "7-1/4"), ("span", "120"))
            ),
            *joists.items(),
            (f"{notch}.start", "50"),
            (f"{notch}.length", "4"),
            (f"{notch}.depth", "2"),
            *(
                (f"floor.patch.bad.rot.{side}", value)
                for side, value in (("left", "10"), ("right", "38"), ("back", "0"), ("front", "20"))
            ),
        ],
    )
    cover = at.twin(f"/job/{job}/floor")["cover"]
    assert not cover["may"]
    assert "notch pipe" in cover["text"]
    assert cover["href"].split("?")[0].endswith("/floor/joist/J2")
    wet = bring(at, "wet-corner")
    assert at.twin(f"/job/{wet}/floor")["cover"]["href"].split("?")[0].endswith("/water/gate")
    at.store.close()
