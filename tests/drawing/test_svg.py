"""SVG: read back by an XML parser and measured."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from tests.drawing.cast import NAME, example, fattest, job, rebuild
from undertile.drawing import Scene, Sheet, sheets, to_svg
from undertile.drawing.scene import Box, Text

SPACE = "{http://www.w3.org/2000/svg}"


def parsed(sheet: Sheet) -> ElementTree.Element:
    return ElementTree.fromstring(to_svg(sheet.scene))


def polygons(root: ElementTree.Element, layer: str) -> list[list[tuple[float, float]]]:
    """Corners of a layer's polygons, in points of paper."""
    out = []
    for group in root.iter(f"{SPACE}g"):
        if group.get("data-layer") == layer:
            for each in group.iter(f"{SPACE}polygon"):
                numbers = [float(n) for n in re.split(r"[ ,]", each.attrib["points"])]
                out.append(list(zip(numbers[::2], numbers[1::2], strict=True)))
    return out


def sheet(name: str, key: str) -> Sheet:
    return next(each for each in sheets(example(name)) if each.key == key)


@pytest.mark.parametrize(("wall", "side"), [("B", 1), ("L", -1), ("R", 1)])
def test_studs_stand_as_far_apart_as_they_were_read(wall: str, side: int) -> None:
    drawn = sheet("old-alcove", f"wall-{wall}")
    studs = polygons(parsed(drawn), "STUD")
    middles = [(min(x for x, _ in each) + max(x for x, _ in each)) / 2 for each in studs]
    inches = [x * drawn.scene.scale / 72 for x in middles]
    facts = example("old-alcove").job.survey.walls[wall].studs
    along = sorted(side * float(each.along.inches) for each in facts.values())
    # independent: places along as typed in the job
    assert [x - inches[0] for x in inches] == pytest.approx([a - along[0] for a in along], abs=0.001)


def test_the_paper_is_as_large_as_the_document_says() -> None:
    drawn = sheet("old-alcove", "wall-B")
    root = parsed(drawn)
    wide = float(root.attrib["width"].removesuffix("in"))
    assert wide == pytest.approx(7.25)
    assert root.attrib["viewBox"].split()[2] == "522"  # 7.25 x 72
    stud = polygons(root, "STUD")[0]
    tall = (max(y for _, y in stud) - min(y for _, y in stud)) * drawn.scene.scale / 72
    # independent: from the bottom plate, 1-1/2 (a 2x, PS 20), to the top plate at 94-1/2
    assert tall == pytest.approx(93, abs=0.001)


def test_the_flange_detail_is_full_size() -> None:
    drawn = sheet("old-alcove", "flange")
    assert drawn.scene.scale == 1
    root = parsed(drawn)
    wide = {
        layer: {round((max(x for x, _ in p) - min(x for x, _ in p)) / 72, 4) for p in polygons(root, layer)}
        for layer in ("STRIP", "SHIM", "BOARD", "FINISH", "PAN")
    }
    # independent: thicknesses as typed: hardboard 1/8, shim 1/16, board 1/2, membrane, mortar, tile, flange
    assert wide["STRIP"] == {0.125}
    assert wide["SHIM"] == {0.0625}
    assert wide["BOARD"] == {0.5}
    assert wide["FINISH"] == {0.0312, 0.1875, 0.3125}
    assert 0.1875 in wide["PAN"]


def test_nothing_a_phone_or_a_printer_has_to_guess() -> None:
    for each in sheets(example("old-alcove")):
        text = to_svg(each.scene)
        assert not re.search(r"<(style|script|foreignObject|image|pattern|use)\b|class=|url\(|e-\d\d", text)
        assert "sans-serif" in text


def test_names_in_any_script_and_signs_xml_cannot_hold() -> None:
    texts = "".join(parsed(sheets(fattest())[0]).itertext())
    assert "🚿" in texts
    assert NAME[:20] in texts
    scene = Scene("a\x00b <&> \ud800", 1.0, Box(0, 0, 9, 9))
    scene.add(Text((1, 1), 'x\x07y\n"<&>\ufffe', 1.0))
    root = ElementTree.fromstring(to_svg(scene).encode("utf-8", "surrogatepass"))
    assert root.find(f"{SPACE}text").text == 'x\ufffdy\ufffd"<&>\ufffd'  # type: ignore[union-attr]


def test_a_job_without_a_name_has_a_title() -> None:
    text = '[survey.walls.B]\nnominal = "6-0"\nheights = ["2"]\n[survey.walls.B.studs]\nB1 = { along = "8" }'
    made = sheets(rebuild(job(f'version = 2\nunit = "in"\n{text}')))
    assert parsed(made[0]).find(f"{SPACE}title").text == "Back wall"  # type: ignore[union-attr]
