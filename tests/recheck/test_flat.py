"""The straightedge on faces as they stand: published profiles, and what a laid straightedge adds."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction as F

import pytest

from undertile.findings import Verdict
from undertile.framing.plan import Plane
from undertile.lengths import parse_length
from undertile.recheck.band import face_check, plumb_check
from undertile.recheck.faces import Face, StudFaces, WallFaces
from undertile.recheck.facts import Laid
from undertile.recheck.flat import LineFlat, lines_flat, worst_line

LARGE = ((F(24), F(1, 16)), (F(120), F(1, 8)))
FINE = 1 / 256
"""A rule fine enough that its uncertainty does not hide a verdict. [in]"""


def wall(rows: Sequence[Sequence[str | None]], alongs: Sequence[int], heights: Sequence[int]) -> WallFaces:
    """A wall on the plane 0 with offsets in decimal inches by height and stud; None = asked for, not read."""
    studs = []
    for m, along in enumerate(alongs):
        faces = []
        for h, z in enumerate(heights):
            text = rows[h][m]
            now = None if text is None else F(text)
            standing = "missing" if now is None else "read again"
            faces.append(Face(F(z), standing, now, FINE, F(0), F(0), F(0), False))  # type: ignore[arg-type]
        studs.append(StudFaces("B", f"B{m + 1}", F(along), True, tuple(faces)))
    return WallFaces("B", Plane("B", F(0), F(0), F(0)), F(6), tuple(studs))


def laid(way: str, length: str, gap: str, **more: str) -> Laid:
    given = {key: parse_length(text, "in") for key, text in (("length", length), ("gap", gap))}
    if "height" in more:
        more["height"] = parse_length(more["height"], "in")  # type: ignore[assignment]
    return Laid(wall="B", way=way, **given, **more)  # type: ignore[arg-type]


def line(lines: Sequence[LineFlat], way: str, length: int, where: str = "") -> LineFlat:
    found = [each for each in lines if each.way == way and each.length == length]
    return worst_line(each for each in found if not where or each.where == where)


PROFILE = [["0"], [".10"], [".02"], [".14"], [".05"]]
"""independent: a made profile at 0, 24, 48, 72, 96, gaps worked by hand. [in]"""


def test_the_published_profile_passes_ten_feet_and_is_not_shown_in_two() -> None:
    """published: hull (0,0)-(24,.10)-(72,.14)-(96,.05), widest gap 0.100 at 48: passes 1/8 in 10 ft. Readings
    24 apart cannot prove the 24 in rule."""
    lines = lines_flat(wall(PROFILE, [8], [0, 24, 48, 72, 96]), LARGE, ())
    long, short = line(lines, "up", 120), line(lines, "up", 24)
    assert (long.widest, long.at, long.verdict) == (F(1, 10), "B1 at 48", Verdict.PASS)
    assert (short.widest, short.verdict, short.lacks) == (F(1, 20), Verdict.NOT_SHOWN, "spacing")


def test_a_laid_straightedge_shows_what_readings_far_apart_cannot() -> None:
    faces = wall(PROFILE, [8], [0, 24, 48, 72, 96])
    shown = line(lines_flat(faces, LARGE, [laid("up", "24", "3/64")]), "up", 24)
    assert (shown.verdict, shown.widest, shown.by) == (Verdict.PASS, F(3, 64), "straightedge")
    broken = line(lines_flat(faces, LARGE, [laid("up", "24", "5/64", at="B1 at 40")]), "up", 24)
    assert (broken.verdict, broken.at) == (Verdict.FAIL, "B1 at 40")


def test_a_long_straightedge_shows_the_short_rule_and_a_short_one_only_breaks_the_long() -> None:
    """independent: the chord of a longer edge lies at least as far off the wood, so its gap bounds a shorter
    edge's from above; and a gap of more than 1/8 under 24 in is more than 1/8 under 10 ft too."""
    faces = wall(PROFILE, [8], [0, 24, 48, 72, 96])
    long = lines_flat(faces, LARGE, [laid("up", "96", "1/16")])
    assert line(long, "up", 24).verdict is Verdict.PASS
    assert line(long, "up", 120).by == "straightedge"  # 96 in spans all that is read
    wide = lines_flat(faces, LARGE, [laid("up", "96", "7/64")])
    assert line(wide, "up", 24).verdict is Verdict.NOT_SHOWN  # too wide to show it, too long to break it
    assert line(wide, "up", 120).verdict is Verdict.PASS
    small = lines_flat(faces, LARGE, [laid("up", "24", "5/32")])
    assert line(small, "up", 120).verdict is Verdict.FAIL
    assert line(lines_flat(faces, LARGE, [laid("up", "24", "0")]), "up", 120).by == "readings"


def test_a_crowned_wall_passes_the_straightedge_and_fails_its_plane() -> None:
    """independent: a made wall of 16 points; minimum zone 0.2567 by a linear program and by scanning; every
    row and column is concave toward the room (each slope less than the one before), so a straightedge
    bridges nothing; a straightedge rocks on a hump (6.1). The band about the plane is what catches it."""
    rows = [
        ["0", ".06", ".12", ".02"],
        [".05", ".16", ".19", ".05"],
        [".03", ".21", ".14", "-.02"],
        ["-.04", ".07", ".05", "-.10"],
    ]
    faces = wall(rows, [0, 16, 32, 48], [0, 24, 48, 72])
    lines = lines_flat(faces, LARGE, ())
    for way in ("up", "along"):
        assert (line(lines, way, 120).widest, line(lines, way, 120).verdict) == (F(0), Verdict.PASS)
    checks = [face_check(stud, "in", {}) for stud in faces.studs]
    # over 1/16: .21 on B2, .19 on B3, -.10 on B4; B1 keeps within .05
    assert [check.verdict is Verdict.FAIL for check in checks] == [False, True, True, True]
    assert checks[1].where == "B2 at 48"


def test_the_sagged_wall_has_its_sag_under_the_straightedge() -> None:
    """independent, analytic: z = 0.1 x^2 at x = -1, 0, 1: 0.1 between the ends and the middle."""
    rows = [[".1", "0", ".1"]] * 3
    lines = lines_flat(wall(rows, [0, 30, 60], [0, 30, 60]), LARGE, ())
    along = line(lines, "along", 120)
    assert (along.widest, along.verdict) == (F(1, 10), Verdict.PASS)
    assert line(lines, "up", 120).widest == 0


def test_against_every_chord_tried_in_turn() -> None:
    """independent: on straight runs between readings the widest gap stands under a chord between two of them
    no farther apart than the edge is long: all chords tried."""
    heights = [0, 12, 24, 42, 60, 75, 90]
    values = [F(v, 32) for v in (0, -2, 1, -3, 2, -1, 1)]
    found = lines_flat(wall([[str(v)] for v in values], [8], heights), ((F(120), F(1, 8)),), ())
    best = F(0)
    for i in range(len(heights)):
        for k in range(i + 2, len(heights)):
            for j in range(i + 1, k):
                share = F(heights[j] - heights[i], heights[k] - heights[i])
                best = max(best, values[i] + share * (values[k] - values[i]) - values[j])
    assert line(found, "up", 120).widest == best


def test_a_missing_reading_is_asked_for_and_never_filled_in() -> None:
    rows: list[list[str | None]] = [["0"], [".10"], [None], [".14"], [".05"]]
    lines = lines_flat(wall(rows, [8], [0, 24, 48, 72, 96]), LARGE, ())
    long = line(lines, "up", 120)
    assert (long.verdict, long.show) == (Verdict.NOT_SHOWN, "Read B1 at 48 again.")
    assert line(
        lines_flat(wall(rows, [8], [0, 24, 48, 72, 96]), LARGE, [laid("up", "96", "0")]), "up", 120
    ).verdict is (Verdict.PASS)
    rows[3] = ["-.14"]  # what is read breaks the rule whatever the missing one is
    assert (
        line(lines_flat(wall(rows, [8], [0, 24, 48, 72, 96]), LARGE, ()), "up", 120).verdict is Verdict.FAIL
    )


def test_a_gap_named_at_one_stud_breaks_that_stud_only() -> None:
    faces = wall([["0", "0", "0"]] * 3, [0, 16, 32], [0, 5, 10])
    lines = lines_flat(faces, LARGE, [laid("up", "24", "1/8", at="B2 at 5")])
    assert [line(lines, "up", 24, name).verdict for name in ("B1", "B2", "B3")] == [
        Verdict.PASS,
        Verdict.FAIL,
        Verdict.PASS,
    ]
    nowhere = lines_flat(faces, LARGE, [laid("up", "24", "1/8", at="by the window")])
    assert {each.verdict for each in nowhere if each.way == "up" and each.length == 24} == {Verdict.FAIL}


def test_a_straightedge_does_not_outvote_readings_that_are_clear() -> None:
    """independent: 0.3 in under 24 in by a fine rule is no reading error; both stand, and it is said."""
    faces = wall([["0"], ["-.3"], ["0"]], [8], [0, 6, 12])
    found = line(lines_flat(faces, LARGE, [laid("up", "24", "0")]), "up", 24)
    assert found.verdict is Verdict.FAIL
    assert any("one of the two is wrong" in words for words in found.because)


def test_a_wall_of_two_studs_has_no_line_along_until_one_is_laid() -> None:
    faces = wall([["0", "0"]] * 3, [0, 16], [0, 5, 10])
    assert line(lines_flat(faces, LARGE, ()), "along", 24).lacks == "few"
    assert line(lines_flat(faces, LARGE, [laid("along", "24", "0")]), "along", 24).verdict is Verdict.PASS


@pytest.mark.parametrize(("top", "lean", "verdict"), [("0", 0, "pass"), (".2", F(96, 450), "fail")])
def test_plumb_is_the_plane_s_while_faces_keep_to_it_and_their_own_after(
    top: str, lean: F, verdict: str
) -> None:
    """independent: three studs with faces 0, 0.1, 0.2 at 0, 45, 90 lean 0.2 in 90, 0.2133 in 96: over 1/8."""
    middle = str(float(top) / 2)
    faces = wall([["0"] * 3, [middle] * 3, [top] * 3], [0, 16, 32], [0, 45, 90])
    checks = [face_check(stud, "in", {}) for stud in faces.studs]
    found = plumb_check(faces, F(1, 8), checks, "in")
    assert found.verdict.value == verdict
    assert ("top into the room" in found.value) is bool(lean)
    if lean:
        assert found.value.startswith('7/32"')  # 0.2133 up to the next 1/32


@pytest.mark.parametrize(
    ("offsets", "sigma", "verdict", "close"),
    [
        (("0", "3/16", "1/16"), F(1, 64), Verdict.FAIL, False),  # 1/8 past the limit; another face just at it
        (("0", "5/64", "1/16"), F(1, 64), Verdict.FAIL, True),  # 1/64 past it: within twice 1/64
        (("0", "3/16", "5/64"), F(1, 64), Verdict.FAIL, False),  # one gross, one close
        (("0", "0", "1/16"), F(1, 64), Verdict.PASS, True),
        (("0", "0", "0"), F(1, 256), Verdict.PASS, False),
    ],
)
def test_a_gross_fail_is_not_close_because_another_face_is(
    offsets: tuple[str, ...], sigma: F, verdict: Verdict, close: bool
) -> None:
    """independent: above the flange a face may stand 1/16 off; close is within two standard uncertainties
    of that limit, counted by hand."""
    faces = tuple(
        Face(F(z), "read again", F(text), float(sigma), F(0), F(0), F(0), False)
        for z, text in zip((24, 48, 72), offsets, strict=True)
    )
    check = face_check(StudFaces("B", "B2", F(24), True, faces), "in", {})
    assert (check.verdict, check.within_uncertainty) == (verdict, close)


def test_a_straightedge_of_before_shows_nothing_and_breaks_nothing() -> None:
    rows = [["0", "0", "0"], ["0", "0", "0"], ["0", "0", "0"]]
    face = wall(rows, (0, 16, 32), (2, 48, 90))
    fresh, bad = laid("up", "24", "0"), laid("up", "24", "1/4")
    for each in (fresh, bad):
        now = [line for line in lines_flat(face, LARGE[:1], [each]) if line.way == "up"]
        before = [line for line in lines_flat(face, LARGE[:1], [], gone=[each]) if line.way == "up"]
        bare = [line for line in lines_flat(face, LARGE[:1], []) if line.way == "up"]
        assert {line.by for line in now} == {"straightedge"}
        assert [line.verdict for line in before] == [line.verdict for line in bare]
        assert {line.verdict for line in bare} == {Verdict.NOT_SHOWN}
        assert all("lay it again" in line.because[-1] for line in before)
        assert not any("lay it again" in text for line in bare for text in line.because)
