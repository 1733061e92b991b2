"""One whole job on a phone by taps, every tap counted: ``python -m tests.hosts.phone_job [FOLDER]``.

The room is the old alcove of the examples, 13 studs at 5 heights, with both planted slips; its person types
it anew. The phone has been paired with a laptop and is then alone: no network, no server. At the end they
meet. With a folder, every screen on the way is kept there as a picture.
"""

from __future__ import annotations

import json
import math
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tests.hosts.laptop import Laptop, paired, synced
from tests.screens.browsing import PATIENCE_MS
from tests.screens.cast import MENDED
from tests.screens.taps import HEIGHTS, presses, room
from undertile.bench.browser import Browser, bundle_of_this_source
from undertile.lengths import SIXTEENTH, format_length, parse_length

if TYPE_CHECKING:
    from playwright.sync_api import Locator

WALLS = ("B", "L", "R")
SMALLEST = 47.5
"""Of a target, either way. [px]"""
SETTLED = """() => {
  const { screen, stage } = window.undertile;
  const asked = window.undertile.path() || "/"; // there before the page hears of it
  const shown = stage === "ready" && screen.shown === screen.path && screen.path === asked;
  return shown && !document.querySelector("[data-search]");
}"""
TWIN = """async (target) => {
  const request = { method: "GET", target, headers: { accept: "application/json", cookie: "lang=en" } };
  return new TextDecoder().decode((await window.undertile.ask(request)).content);
}"""
SIDEWAYS = "() => document.documentElement.scrollWidth > innerWidth"
KEPT = "() => window.undertile.screen.pad.pad.waiting.length === 0"


@dataclass
class Thumb:
    """One thumb on a phone: what it touches and how often, by the part of the job.

    Attributes
    ----------
    browser : Browser
    taps, keys : Counter
        Touches of the tool's screen, and letters typed on the phone's own keyboard, by part.
    cramped : list of str
        Targets smaller than a glove, pages wider than the phone.
    """

    browser: Browser
    pictures: Path | None = None
    taps: Counter[str] = field(default_factory=Counter)
    keys: Counter[str] = field(default_factory=Counter)
    waits: dict[str, float] = field(default_factory=dict)
    cramped: list[str] = field(default_factory=list)
    _part: str = ""

    @contextmanager
    def part(self, name: str) -> Iterator[None]:
        """Count under this name."""
        before, self._part = self._part, name
        began = time.monotonic()
        yield
        self.waits[name] = self.waits.get(name, 0.0) + time.monotonic() - began
        self._part = before

    def find(self, css: str, text: str = "") -> Locator:
        """The first of these that is seen."""
        found = self.browser.page.locator(css).filter(visible=True)
        return (found.filter(has_text=text) if text else found).first

    def tap(self, what: str | Locator, text: str = "") -> None:
        """One tap on something, once it is there."""
        found = self.find(what, text) if isinstance(what, str) else what
        box = found.bounding_box(timeout=PATIENCE_MS)
        if box is not None and min(box["width"], box["height"]) < SMALLEST:
            told = f"{self._part}: {found.inner_text()[:30]!r} {box['width']:.0f} x {box['height']:.0f}"
            if told not in self.cramped:
                self.cramped.append(told)
        found.click(timeout=PATIENCE_MS)
        self.taps[self._part] += 1

    def type(self, what: Locator, text: str) -> None:
        """Tap a field and type on the phone's keyboard."""
        self.tap(what)
        self.browser.page.keyboard.type(text)
        self.keys[self._part] += len(text)

    def settle(self) -> None:
        """Until the screen asked for stands."""
        self.browser.until(SETTLED)
        self.look()

    def look(self, name: str = "", whole: bool = False) -> None:
        """See the screen: nothing hangs over its side; a picture of it where they are wanted."""
        page = self.browser.page
        if page.evaluate(SIDEWAYS):
            self.cramped.append(f"{self._part}: sideways {page.evaluate('() => location.hash')}")
        if self.pictures is not None:
            number = len(list(self.pictures.iterdir())) + 1
            path = self.pictures / f"{number:03}-{name or self._part}.png".replace(" ", "-")
            page.screenshot(path=path, full_page=whole)

    # what a person does on a screen

    def go(self, what: str | Locator, text: str = "") -> None:
        """Tap a link and wait for its screen."""
        before = self.path
        self.tap(what, text)
        self.browser.until("(before) => window.undertile.path() !== before", before)
        self.settle()

    @property
    def path(self) -> str:
        found: str = self.browser.page.evaluate("() => window.undertile.path()")
        return found

    @property
    def job(self) -> str:
        return self.path.split("/")[2]

    @property
    def next(self) -> str:
        """What the screen says is next."""
        return self.find(".next .text").inner_text()

    def go_next(self) -> None:
        """Do what the screen says is next."""
        self.go("a.next")

    def home(self) -> None:
        """To the job."""
        self.go("#home")

    def step(self, text: str) -> None:
        """A step of the job, from wherever."""
        if not self.path.endswith(f"/job/{self.job}"):
            self.home()
        self.go(".steps a", text)

    def field(self, fact: str) -> Locator:
        """The row of a form for a fact, with what it lies in opened."""
        row = self.browser.page.locator(
            ".field", has=self.browser.page.locator(f'input[value="{fact}"]')
        ).first
        if not row.is_visible():
            self.tap(row.locator("xpath=ancestor::details[1]/summary"))
        return row

    def fill(self, facts: dict[str, str]) -> None:
        """Type facts into their rows, and keep them."""
        last: Locator | None = None
        for fact, text in facts.items():
            row = self.field(fact)
            choice = row.locator(f'.choice:has(input[value="{text}"])')
            if choice.count():
                self.tap(choice.first)
            elif row.locator("select").count():
                self.tap(row.locator("select"))
                row.locator("select").select_option(text)
                self.taps[self._part] += 1
            else:
                self.type(row.locator("input:not([type=hidden])").first, text)
            last = row
        assert last is not None
        self.keep(last.locator("xpath=ancestor::form[1]").locator("button.key"))

    def keep(self, button: Locator) -> str:
        """Send a form; what it says was kept."""
        self.browser.page.evaluate("() => document.querySelector('.said')?.remove()")
        self.tap(button)
        self.browser.until("() => document.querySelector('.said')")
        self.settle()
        return self.find(".said").inner_text()

    def enter(self, text: str) -> None:
        """One value on the pad by its keys."""
        value = parse_length(text.lstrip("-"), "in", whole="inches").inches
        page = self.browser.page
        if text.startswith("-"):
            self.key("sign")
        for press in presses(value, "in", lambda key: page.locator(_key(key)).count() > 0):
            self.key(press)
        self.browser.until(KEPT)

    def key(self, press: str) -> None:
        """One key of the pad; a hand is no faster than the pad's guard against a bouncing glove."""
        page = self.browser.page
        page.evaluate(
            """async () => {
              const { pad } = window.undertile.screen.pad;
              const since = performance.now() - pad.pressedAt.time;
              if (since < 100) await new Promise((next) => setTimeout(next, 100 - since));
            }"""
        )
        self.tap(page.locator(_key(press)).first)

    def row(self) -> dict[str, Any] | None:
        """What the pad asks for now."""
        found: dict[str, Any] | None = self.browser.page.evaluate(
            "() => { const { pad } = window.undertile.screen.pad; return pad?.rows[pad.at] ?? null; }"
        )
        return found

    def twin(self, *parts: str) -> dict[str, Any]:
        """A screen's data."""
        target = "/".join(["/job", self.job, *parts])
        found: dict[str, Any] = json.loads(self.browser.page.evaluate(TWIN, target))
        return found


def _key(press: str) -> str:
    return f'.pad [data-press="{press}"]:not([disabled])'


@dataclass(frozen=True)
class Case:
    """What stands in the room, and what its person types.

    Attributes
    ----------
    facts, typed, true : dict of str to str
        What is said of the room; the readings as first typed, with the slips; as they are.
    """

    facts: dict[str, str]
    typed: dict[str, str]
    true: dict[str, str]


def case() -> Case:
    """The old alcove at five of its heights."""
    facts, typed = room()
    return Case(dict(facts), typed, {**typed, **MENDED})


def _inches(text: str) -> Fraction:
    return parse_length(text, "in", whole="inches").inches


class Tape:
    """The true room, measured where the pad asks: independent, by linear interpolation between the studs."""

    GAP = Fraction(48) + Fraction(3, 16)
    """Between the two side lines, as the example has it."""

    def __init__(self, room: Case) -> None:
        self.room = room

    def side(self, wall: str, depth: Fraction, height: str) -> Fraction:
        """The reading of a side wall at a depth."""
        base = f"survey.walls.{wall}.studs."
        along = {
            fact.removeprefix(base).split(".")[0]: _inches(text)
            for fact, text in self.room.facts.items()
            if fact.startswith(base)
        }
        at = sorted(
            (x, _inches(self.room.true[f"{base}{stud}.readings.{height}"])) for stud, x in along.items()
        )
        depth = min(max(depth, at[0][0]), at[-1][0])
        (x0, r0), (x1, r1) = next(pair for pair in pairwise(at) if pair[1][0] >= depth)
        return r0 + (r1 - r0) * (depth - x0) / (x1 - x0)

    def says(self, fact: str, along: dict[str, str]) -> str:
        """What the tape says for a check of the pad, to the sixteenth."""
        kind = fact.split(".")[1]
        depth = _inches(along["depth"])
        height = along.get("height", "2")
        width = self.GAP + self.side("L", depth, height) + self.side("R", depth, height)
        value = {"gaps": float(self.GAP), "widths": float(width), "diagonals": math.hypot(width, depth)}[kind]
        return format_length(Fraction(round(value * 16)) * SIXTEENTH, "in")


def begin(thumb: Thumb) -> None:
    """A new job: its name, its place, inches."""
    thumb.look()
    thumb.type(thumb.find("#new-name"), "Mill Lane bath")
    thumb.type(thumb.find("#new-place"), "14 Mill Lane, upstairs")
    thumb.tap('.choice:has(input[value="in"])')
    thumb.go("#new button")


def say_room(thumb: Thumb, room: Case) -> None:
    """Walls, heights, studs; what the studs are."""
    for wall in WALLS:
        base = f"survey.walls.{wall}"
        facts = {f"{base}.nominal": "6-0", f"{base}.heights": ", ".join(HEIGHTS)} if wall == "B" else {}
        facts |= {fact: text for fact, text in room.facts.items() if fact.startswith(f"{base}.studs.")}
        thumb.fill(facts)
    for wall in WALLS:
        about = f"framing.walls.{wall}"
        bearing = "yes" if wall == "B" else "no"
        thumb.fill(
            {
                f"{about}.kind": "wood",
                f"{about}.bearing": bearing,
                f"{about}.bay": "clear",
                f"{about}.depth": "3-5/8",
            }
        )


PAN = {
    "pan.pan.width": "59-13/16",
    "pan.pan.depth": "31-7/8",
    "pan.pan.flange_height": "4",
    "pan.pan.flange_thickness": "3/16",
    "pan.pan.detail": "stops",
    "pan.pan.depths": "2, 16, 31",
}
DRAIN = (
    {"pan.pan.outlet.x": "29-15/16", "pan.pan.outlet.y": "16"},
    {
        "pan.drain.x": "30-1/4",
        "pan.drain.y": "16-1/8",
        "pan.drain.float_x": "1/4",
        "pan.drain.float_y": "1/4",
    },
)


def read(thumb: Thumb, room: Case) -> list[str]:
    """Read what the pad asks for, sheet after sheet, as the tool says what is next; the facts read."""
    tape = Tape(room)
    done: list[str] = []
    while thumb.path.split("/")[3:4] != ["doubts"]:
        row = thumb.row()
        if row is None:
            thumb.look("pad done")
            thumb.go(".pad-done")
            continue
        fact = row["fact"]
        if len(done) % 13 == 0:
            thumb.look("pad")
        if fact in room.typed:
            text = room.typed[fact]
        elif ".repeats." in fact:
            also = {each["fact"].rpartition(".")[2]: each["value"] for each in row["also"]}
            text = room.true[f"survey.walls.{also['stud'][0]}.studs.{also['stud']}.readings.{also['height']}"]
        else:
            text = tape.says(fact, {each["fact"].rpartition(".")[2]: each["value"] for each in row["also"]})
        thumb.enter(text)
        done.append(fact)
    return done


def mend(thumb: Thumb, room: Case) -> list[str]:
    """Read again what the tool doubts, as long as it does; the facts it named."""
    named: list[str] = []
    while thumb.path.split("/")[3] == "doubts" and thumb.find(".doubt").count():
        thumb.look("doubts")
        thumb.go(".doubt a.key")
        row = thumb.row()
        assert row is not None
        thumb.look("doubted")
        named.append(row["fact"])
        thumb.enter(room.true[row["fact"]])
        thumb.look("after mending")
        thumb.go(".pad-done")
    return named


def move_wall(thumb: Thumb) -> tuple[str, str]:
    """A wall a step into the room and back again: what it costs there and as it was."""
    thumb.go("section.wall a.key.quiet")
    cost = ".watch .cost strong"
    before = thumb.find(cost).inner_text()
    moved = thumb.browser.page.locator("section.move").first
    thumb.tap(moved.locator("button.step").last)
    thumb.browser.until(
        "(before) => document.querySelector('.watch .cost strong').textContent !== before", before
    )
    thumb.settle()
    there = thumb.find(cost).inner_text()
    thumb.tap(thumb.browser.page.locator("section.move").first.locator("button.step").first)
    thumb.browser.until(
        "(there) => document.querySelector('.watch .cost strong').textContent !== there", there
    )
    thumb.settle()
    assert thumb.find(cost).inner_text() == before
    return before, there


def work(thumb: Thumb) -> list[str]:
    """Tick every stud with the minutes it took; their names."""
    thumb.step("Do it")
    ticked: list[str] = []
    while (card := thumb.browser.page.locator("article.tick:not(.done)").first).count():
        name = card.locator("h2 a").inner_text()
        thumb.type(card.locator("input:not([type=hidden])"), str(11 + len(ticked)))
        said = thumb.keep(card.locator("button.key"))
        assert said, name
        ticked.append(name)
    return ticked


def reread(thumb: Thumb, after: dict[str, str], edge: bool) -> list[str]:
    """What the tool asks for again, as the plan leaves it; what takes a straightedge only with one."""
    thumb.step("Read again")
    thumb.go('a.key[href$="recheck/pad"]')
    done = []
    while (row := thumb.row()) is not None:
        path = row["fact"].split(".")
        laid = path[1] == "straightedges"
        if laid and not edge:
            thumb.key("skip")
            continue
        if laid:
            thumb.look("straightedge")
        thumb.enter("0" if laid else after[f"{path[4]} {path[6]}"])
        done.append(row["fact"])
    thumb.look("all read again")
    thumb.go(".pad-done")
    return done


def readings_after(thumb: Thumb, studs: list[str]) -> dict[str, str]:
    """What each stud reads once it is done as planned: ``B2 18`` to text."""
    found = {}
    for stud in studs:
        for each in thumb.twin("stud", stud)["readings"]:
            found[f"{stud} {each['height']}"] = each["after"].removeprefix("~")
    return found


def prove(thumb: Thumb) -> dict[str, str]:
    """The proof: the word beside each wall."""
    thumb.step("Proof")
    thumb.look("proof whole", whole=True)
    walls = thumb.browser.page.locator("section.wall > h2").all_inner_texts()
    return {wall.split("\n")[0].strip(): wall.split("\n")[-1].strip() for wall in walls}


@dataclass
class Told:
    """What came of the job.

    Attributes
    ----------
    job : str
    read, named, ticked, again : list of str
        Facts typed on the pad, readings the tool doubted, studs ticked, facts typed after the work.
    costs : tuple of str
        As planned, and with a wall a step into the room.
    before, after : dict of str to str
        The proof's word for each wall, without and with a straightedge.
    """

    job: str
    read: list[str]
    named: list[str]
    ticked: list[str]
    again: list[str]
    costs: tuple[str, str]
    before: dict[str, str]
    after: dict[str, str]


def whole_job(thumb: Thumb) -> Told:
    """From no job to the proof."""
    room = case()
    with thumb.part("start"):
        begin(thumb)
    with thumb.part("room"):
        say_room(thumb, room)
    with thumb.part("pan"):
        thumb.step("Pan")
        thumb.fill(PAN)
        for each in DRAIN:
            thumb.fill(each)
    with thumb.part("readings"):
        thumb.home()
        thumb.go_next()
        done = read(thumb, room)
    with thumb.part("doubts"):
        named = mend(thumb, room)
        thumb.look("no doubts")
    with thumb.part("plan"):
        thumb.go_next()
        thumb.look("plan whole", whole=True)
    with thumb.part("wall moved"):
        costs = move_wall(thumb)
    with thumb.part("work"):
        ticked = work(thumb)
    after = readings_after(thumb, list(dict.fromkeys(fact.split(".")[4] for fact in room.true)))
    with thumb.part("read again"):
        again = reread(thumb, after, edge=False)
    with thumb.part("proof"):
        shown = prove(thumb)
    with thumb.part("straightedge"):
        again += reread(thumb, after, edge=True)
    with thumb.part("proof"):
        proved = prove(thumb)
    return Told(thumb.job, done, named, ticked, again, costs, shown, proved)


def alone(laptop: Laptop, phone: Browser) -> None:
    """The tool is on the phone; from now on there is neither laptop nor network."""
    phone.page.evaluate("async () => (await navigator.serviceWorker.ready).active.state")
    phone.until(SETTLED)
    laptop.kill()
    phone.context.set_offline(True)


def together(laptop: Laptop, phone: Browser) -> None:
    """Back at the laptop."""
    laptop.start()
    phone.context.set_offline(False)
    synced(phone)


def main(pictures: str = "") -> None:
    """Do the job and print what it took."""
    folder = Path(pictures) if pictures else None
    if folder is not None:
        folder.mkdir(parents=True, exist_ok=True)
        for old in folder.glob("*.png"):
            old.unlink()
    with tempfile.TemporaryDirectory() as place:
        laptop = Laptop(Path(place) / "laptop", bundle_of_this_source())
        thumb = Thumb(paired(laptop, Path(place) / "phone", "Ann"), folder)
        try:
            alone(laptop, thumb.browser)
            told = whole_job(thumb)
            with thumb.part("meeting"):
                together(laptop, thumb.browser)
        except BaseException:
            thumb.look("broken off")
            raise
        finally:
            thumb.browser.close()
            laptop.kill()
    print(f"{'part':<14}{'taps':>6}{'letters':>9}{'seconds':>9}")
    for part in thumb.waits:
        print(f"{part:<14}{thumb.taps[part]:>6}{thumb.keys[part]:>9}{thumb.waits[part]:>9.1f}")
    print(f"{'whole job':<14}{thumb.taps.total():>6}{thumb.keys.total():>9}{sum(thumb.waits.values()):>9.1f}")
    print(f"readings and checks: {len(told.read)}; doubted: {len(told.named)}; again: {len(told.again)}")
    print("proof:", told.before, "then", told.after)
    print("cramped:", "; ".join(thumb.cramped) or "nothing")


if __name__ == "__main__":
    main(*sys.argv[1:2])
