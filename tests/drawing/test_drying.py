"""Drying charts: the numbers read back off the picture; nothing stands in another's way."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.drawing.cast import job
from tests.drawing.drying_cast import answer, any_log, everything_odd
from tests.wood.cast import corner
from undertile.drawing import Recorder, Sheet, sheets, to_svg
from undertile.drawing.drying import job_words, picture, pictures
from undertile.drawing.dryingdata import Chart, axes_of, axis_day, charts_of, range_words
from undertile.drawing.labels import words
from undertile.drawing.sheet import HEIGHT, WIDTH
from undertile.job import Rebuild, plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.told import told
from undertile.packet.words import Words as PaperWords
from undertile.wood.asof import as_of
from undertile.wood.rank import by_gate
from undertile.wood.result import WoodResult
from undertile.wood.typed import day_text, read_moment

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
WATER = [stage for stage in STAGES if stage.key in ("wood", "floor")]
SVG = "{http://www.w3.org/2000/svg}"


def wet_corner(visit: str = "") -> Rebuild:
    read = read_job(EXAMPLE)
    if visit:
        read = read.model_copy(update={"wood": as_of(read.facts()["wood"], visit)})  # type: ignore[arg-type]
    return plan(read, WATER)


def of(found: WoodResult) -> Rebuild:
    """A job of a water answer alone."""
    return Rebuild(job('version = 2\nunit = "in"\nname = "A log"\n'), {"wood": found})


def drawn(rebuild: Rebuild, **more: str) -> dict[str, Sheet]:
    made = sheets(rebuild, **more)  # type: ignore[arg-type]
    return {sheet.key: sheet for sheet in made if sheet.chart}


def faults(made: dict[str, Sheet]) -> list[str]:
    out = []
    for key, sheet in made.items():
        seen = Recorder(sheet.scene)
        out += [f"{key}: {each}" for each in (*seen.collisions(), *seen.off_page(), *seen.crossed())]
        wide, tall = sheet.scene.paper
        if wide > WIDTH + 0.01 or tall > HEIGHT:
            out.append(f"{key}: {wide:.2f} by {tall:.2f}")
    return out


def read_back(svg: str) -> tuple[list[tuple[float, float]], dict[str, float]]:
    """Independent inverse: what an eye with a rule reads off a chart's picture.

    Days and percent of every filled dot, and the percent of goal and limit lines, from the picture alone: the
    days from two day names and their ticks, the percent from two figures of the scale.
    """
    root = ElementTree.fromstring(svg)
    texts = [
        (t.text or "", float(t.get("x", 0)), float(t.get("y", 0)), float(t.get("font-size", 0)))
        for t in root.iter(f"{SVG}text")
    ]
    scale = sorted((float(text), y - 0.36 * size) for text, _, y, size in texts if re.fullmatch(r"\d+", text))
    (low, low_y), (high, high_y) = scale[0], scale[-1]

    def percent(y: float) -> float:
        return low + (y - low_y) / (high_y - low_y) * (high - low)

    levels = {}
    for group in root.iter(f"{SVG}g"):
        layer = group.get("data-layer", "")
        if layer in ("GOAL", "NEVER"):
            found = re.fullmatch(r"M(\S+) (\S+)L(\S+) (\S+)", group[0].get("d", ""))
            assert found
            levels[layer] = percent(float(found[2]))
    dots = [
        (float(circle.get("cx", 0)), percent(float(circle.get("cy", 0))))
        for group in root.iter(f"{SVG}g")
        if group.get("data-layer") == "READING"
        for circle in group.iter(f"{SVG}circle")
        if circle.get("fill") == "currentColor" and not circle.get("fill-opacity")
    ]
    return dots, levels


@pytest.mark.parametrize("name", ["plate-B-16", "floor-6-6", "B1-2", "plate-B-40"])
def test_what_is_read_off_the_picture_is_what_was_read(name: str) -> None:
    """Independent: `read_back` measures the picture; published: 19 percent is never enclosed (CALGreen)."""
    found: WoodResult = wet_corner().results["wood"]
    made = picture(found, "in", words("en"), name)
    assert made is not None
    dots, levels = read_back(made.svg)
    series = next(each for each in found.series if each.name == name)
    assert [percent for _, percent in dots] == pytest.approx([s.value for s in series.samples], abs=0.05)
    verdict = found.point(name)
    assert verdict is not None
    assert levels["NEVER"] == pytest.approx(19, abs=0.05)
    assert levels["GOAL"] == pytest.approx(verdict.goal.value, abs=0.05)
    # days lie as far apart as the visits: the first to the second against the first to the third
    xs, days = [x for x, _ in dots], [s.day for s in series.samples]
    if len(xs) > 2:
        assert (xs[1] - xs[0]) / (xs[2] - xs[0]) == pytest.approx(
            (days[1] - days[0]) / (days[2] - days[0]), abs=0.01
        )


def test_days_read_off_the_bar_at_the_foot_are_the_days_of_the_visits() -> None:
    """Independent: the bar's ends are the first and the last day it may be closed, printed at its head."""
    found: WoodResult = wet_corner().results["wood"]
    for name in ("plate-B-16", "B1-2", "L1-2"):
        made = picture(found, "in", words("en"), name)
        verdict = found.point(name)
        assert made is not None
        assert verdict is not None
        bar = re.findall(r'data-layer="CLOSE".*\n<polygon points="(.*?)"', made.svg)
        xs = sorted({float(corner.split(",")[0]) for corner in bar[0].split()})
        first = read_moment(f"{verdict.forecast.soonest} 00:00").days
        last = read_moment(f"{verdict.forecast.latest} 00:00").days + 1
        dots, _ = read_back(made.svg)
        read = [first + (x - xs[0]) / (xs[-1] - xs[0]) * (last - first) for x, _ in dots]
        series = next(each for each in found.series if each.name == name)
        assert read == pytest.approx([s.day for s in series.samples], abs=0.06)
        assert verdict.forecast.soonest[5:7] == "03"
        assert made.when.startswith(verdict.forecast.soonest)


def test_small_multiples_have_the_same_axes() -> None:
    found: WoodResult = wet_corner().results["wood"]
    made = pictures(found, "in", words("en"))
    nevers = {re.findall(r'data-layer="NEVER".*\n<path d="(.*?)"', each.svg)[0] for each in made}
    assert len(nevers) == 1, "19 percent lies at one height in all of them, over the same days"
    assert [each.name for each in made] == [each.name for each in by_gate(found.points)]
    assert len(made) == len(found.points)


def test_the_band_and_the_bar_at_the_foot_are_those_of_the_date() -> None:
    """Independent: the chart's own days against the forecast's; pinned: the band within 0.25 of the goal."""
    found: WoodResult = wet_corner().results["wood"]
    dated = [chart for chart in charts_of(found, words("en")) if chart.closes is not None]
    assert {chart.name for chart in dated} == {each.name for each in found.points if each.call == "dry on"}
    assert len(dated) > 3
    for chart in dated:
        ahead = chart.verdict.forecast
        assert chart.closes is not None
        assert day_text(chart.closes[0]) == ahead.soonest
        assert day_text(chart.closes[1] - 1) == ahead.latest
        assert chart.course is not None
        assert chart.goal is not None
        assert ahead.fit is not None
        last = chart.course.ahead[-1]
        assert last.day == pytest.approx(chart.course.through[-1].day + ahead.fit.days[1])
        assert last.high == pytest.approx(chart.goal, abs=0.25), "its upper edge is down to the goal there"
        assert chart.when == range_words(chart.closes, words("en"))


def by_name(found: WoodResult) -> dict[str, Chart]:
    return {chart.name: chart for chart in charts_of(found, words("en"))}


def test_what_is_no_number_is_no_dot() -> None:
    """Independent: the dots are counted in the picture, and the readings as typed."""
    found = answer(everything_odd())
    charts = by_name(found)
    kinds = {name: [mark.kind for mark in chart.marks] for name, chart in charts.items()}
    assert kinds["over"] == ["over", "over", "read", "read"]
    assert kinds["wet-face"] == ["set aside", "read", "read", "read"]
    assert kinds["not-reached"] == ["cannot reach", "read", "cannot reach", "read"]
    assert kinds["under"][-1] == "under"
    assert kinds["not-read"] == []
    for name, dots in (("over", 2), ("wet-face", 3), ("not-reached", 2), ("not-read", 0)):
        made = picture(found, "in", words("en"), name)
        assert made is not None
        assert len(read_back(made.svg)[0]) == dots, name
    said = picture(found, "in", words("en"), "over")
    assert said is not None
    assert said.svg.count("over 30") >= 1
    open_dots = picture(found, "in", words("en"), "wet-face")
    assert open_dots is not None
    assert "wet face" in open_dots.svg


def test_a_gap_is_not_bridged() -> None:
    """A line from reading to reading only between visits that follow each other."""
    found = answer(everything_odd())
    for name, lines in (("gaps", 0), ("once", 0), ("soft", 3)):
        chart = by_name(found)[name]
        assert chart.course is None
        made = picture(found, "in", words("en"), name)
        assert made is not None
        drawn_lines = re.findall(r'data-layer="COURSE-BAND".*?</g>', made.svg, re.DOTALL)
        assert sum(each.count("<path") for each in drawn_lines) == lines, name


def test_one_that_may_be_fed_says_so_and_shows_no_days_to_come() -> None:
    chart = by_name(answer(everything_odd()))["fed"]
    assert "may be fed" in chart.when
    assert chart.closes is None
    assert chart.course is not None
    assert chart.course.ahead == ()
    soft = by_name(wet_corner("2").results["wood"])["plate-B-4"]
    assert soft.when == "cut it out, may be fed"
    assert "in 100 that water still comes to it" in soft.says


def test_ended_by_a_year_the_days_say_which() -> None:
    """Independent: by the calendar."""
    closes = read_moment("2026-12-28").days // 1, read_moment("2027-01-09").days // 1 + 1
    assert range_words(closes, words("en")) == "2026-12-28 to 2027-01-09"
    assert range_words(closes, words("es")) == "2026-12-28 a 2027-01-09"
    assert axis_day(closes[0], year=False) == "12-28"
    assert range_words((closes[0], closes[0] + 1), words("en")) == "2026-12-28"


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_wet_corner_collides_nowhere(language: str) -> None:
    for visit in ("", "1", "2"):
        made = drawn(wet_corner(visit), language=language)
        assert "drying" in made or "drying-1" in made
        assert not faults(made)


@pytest.mark.parametrize("language", ["en", "es"])
def test_everything_odd_collides_nowhere(language: str) -> None:
    assert not faults(drawn(of(answer(everything_odd())), language=language))


@pytest.mark.parametrize("seed", range(12))
def test_logs_of_every_kind_collide_nowhere(seed: int) -> None:
    rebuild = of(answer(any_log(seed, points=3 + seed, visits=1 + seed)))
    for language in ("en", "es"):
        assert not faults(drawn(rebuild, language=language))


def test_every_chart_holds_its_numbers() -> None:
    for seed in range(12):
        charts = charts_of(answer(any_log(seed)), words("en"))
        assert sum(len(chart.marks) for chart in charts) > 20
        axes = axes_of(charts)
        for chart in charts:
            for mark in chart.marks:
                assert axes.first <= mark.day <= axes.last
                if mark.value is not None:
                    assert axes.low <= mark.value - (mark.spread or 0)
                    assert mark.value + (mark.spread or 0) <= axes.high


def test_a_screen_has_the_page_s_own_ink_and_ground() -> None:
    found = answer(everything_odd())
    made = pictures(found, "in", words("en"))
    assert len(made) > 5
    for each in made:
        assert "#" not in re.sub(r"&#?\w+;", "", each.svg), "no colour of its own"
        assert 'fill="currentColor"' in each.svg
        assert f"<title>{each.place}" in each.svg
    paper = to_svg(next(iter(drawn(of(found)).values())).scene)
    assert "currentColor" not in paper


def test_a_job_without_points_has_no_chart() -> None:
    assert drawn(plan(job('version = 2\nunit = "in"\n'), WATER)) == {}
    assert picture(answer(everything_odd()), "in", words("en"), "nobody") is None


def test_days_gone_by_are_said_in_the_same_sentence_as_everywhere() -> None:
    """independent: the papers' own Spanish of the water's own sentence; a sheet without a day says none."""
    found: WoodResult = wet_corner().results["wood"]
    late = found.past_it("2026-11-25")
    assert job_words(found, charts_of(found, words("en")), words("en"), "2026-11-25").endswith(f". {late}")
    spanish = job_words(found, charts_of(found, words("es")), words("es"), "2026-11-25")
    assert spanish.endswith(told(late, PaperWords("es")))
    assert late not in job_words(found, charts_of(found, words("en")), words("en"))
    gone = [chart for chart in charts_of(found, words("en"), today="2026-03-20") if ", past" in chart.when]
    closes = {each.name: each.forecast.latest for each in found.points if each.call == "dry on"}
    assert {chart.name for chart in gone} == {name for name, day in closes.items() if day < "2026-03-20"}
    assert 0 < len(gone) < len(closes)
    assert all("Those days are past" in chart.says for chart in gone)


@pytest.mark.parametrize("typed", ["205", "2.05"])
def test_a_value_asked_about_is_marked_and_stretches_no_scale(typed: str) -> None:
    """independent: the same job without that visit has the same scale; the mark stands within the chart."""
    without = charts_of(answer(corner(2)), words("en"), "plate-B-16")
    before = axes_of(without)
    facts = corner(3)
    facts["points"]["plate-B-16"]["shown"]["3"] = typed
    found = answer(facts)
    (chart,) = charts_of(found, words("en"), "plate-B-16")
    assert (axes_of([chart]).low, axes_of([chart]).high) == (before.low, before.high)
    assert (chart.marks[-1].kind, chart.marks[-1].why) == ("set aside", "asked about")
    made = picture(found, "in", words("en"), "plate-B-16")
    assert made is not None
    assert "asked about" in made.svg
    _, top, _, tall = map(float, re.findall(r'viewBox="(.*?)"', made.svg)[0].split())
    heights = [float(cy) for cy in re.findall(r'<circle [^>]*cy="(.*?)"', made.svg)]
    assert len(heights) == 3
    assert all(top <= cy <= top + tall for cy in heights)


@pytest.mark.parametrize(("humidity", "name"), [(40, "in this air"), (30, "in mean air")])
def test_the_level_of_the_air_says_whether_it_is_as_last_read_or_the_mean(humidity: int, name: str) -> None:
    """independent: with the same air on each visit the mean is the last; with a drier last one it is not."""
    facts = corner(3)
    facts["visits"]["3"]["humidity"] = humidity
    found = answer(facts)
    (chart,) = charts_of(found, words("en"), "plate-B-16")
    assert chart.verdict.forecast.air is not None
    mean = sum(each for _, each in chart.air) / 3
    assert chart.verdict.forecast.air == pytest.approx(mean)
    shown = picture(found, "in", words("en"), "plate-B-16")
    assert shown is not None
    assert f">{name}</text>" in shown.svg
