"""A wall moved on the phone: the screen a step away is there before the press, and is what Python says."""

from __future__ import annotations

import pytest

from undertile.bench import phone as bench
from undertile.bench.browser import READY, Browser, Site

MOVES = f"#/job/{bench.JOB}/moves?typed=1"
LOOKED = """() => {
  const { ahead, place } = window.undertile.screen;
  const keys = [...place.querySelectorAll("form.drag button[name]")];
  return keys.length && ahead.known.size >= 3 * keys.length;
}"""
"""Three presses of each key."""
KNOWN = "() => [...window.undertile.screen.ahead.known].map(([path, { html }]) => [path, html])"
KNOWN_AT = (
    """(by) => [...window.undertile.screen.ahead.known.keys()].some((path) => path.endsWith(`B=${by}`))"""
)
SAYS = """async (target) => {
  const headers = { accept: "text/html", cookie: window.undertile.cookie() };
  const { content } = await window.undertile.ask({ method: "GET", target, headers });
  return new TextDecoder().decode(content);
}"""
WATCH = """() => {
  const { engine } = window.undertile;
  const ask = engine.ask.bind(engine);
  window.asked = [];
  engine.ask = (message) => {
    if (!message.headers?.["sec-purpose"]) window.asked.push(message.target);
    return ask(message);
  };
}"""
ON_SCREEN = """() => document.querySelector("#place main").innerText"""
AS_SAID = """(html) => {
  const box = document.createElement("div");
  const { body } = new DOMParser().parseFromString(html, "text/html");
  body.querySelector("header.top")?.remove();
  for (const each of body.querySelectorAll("script")) each.remove();
  const shown = document.querySelector("#place").cloneNode(true);
  for (const each of shown.querySelectorAll("details")) each.removeAttribute("open");
  box.append(...body.childNodes);
  return shown.innerHTML.trim() === box.innerHTML.trim();
}"""
AT = "(by) => document.querySelector('section.move').dataset.by === by"
STEP = "(on) => document.querySelectorAll('section.move')[0].querySelectorAll('button[name]')[on].click()"


@pytest.fixture
def at_moves(at_pad: Browser) -> Browser:
    """The phone where the walls of a planned job are moved, Python up and idle."""
    browser = at_pad
    browser.until(READY)
    lines = [entry.to_line() for entry in bench._log()]
    browser.page.evaluate("([job, lines]) => window.undertile.log.keep(job, lines)", [bench.JOB, lines])
    browser.page.evaluate("(to) => { location.hash = to; }", MOVES)
    browser.until("() => document.querySelector('form.drag')")
    browser.until(bench.IDLE)
    browser.page.wait_for_timeout(500)  # the plan comes once more, with those that lose: what was ahead goes
    browser.until(LOOKED)
    return browser


def test_a_step_shows_at_once_what_python_says(at_moves: Browser, site: Site) -> None:
    """Independent: Python asked for each of them again."""
    browser = at_moves
    for path, html in browser.page.evaluate(KNOWN):
        assert browser.page.evaluate(SAYS, path) == html
    browser.page.evaluate(WATCH)
    for on, by in ((1, "1"), (1, "2"), (1, "3"), (0, "2"), (0, "1"), (0, "0"), (0, "-1")):
        browser.until(KNOWN_AT, by)  # a plan that comes late lets all of them go, and they are asked for anew
        browser.page.evaluate(STEP, on)
        browser.until(AT, by)
        assert browser.page.evaluate("() => window.asked") == []
        path = browser.page.evaluate("() => window.undertile.path()")
        assert browser.page.evaluate(AS_SAID, browser.page.evaluate(SAYS, path))
        browser.page.evaluate("() => { window.asked.length = 0; }")
    # in one go: what was being asked for ahead would come in between
    browser.page.evaluate(f"on => {{ window.undertile.screen.ahead.known.clear(); ({STEP})(on); }}", 0)
    browser.until(AT, "-2")
    assert browser.page.evaluate("() => window.asked.length") == 1, "what is not known is asked for"


@pytest.mark.parametrize(
    "what",
    [
        "(job) => window.undertile.take(job, [{ fact: 'job.name', value: 'Another', stands: [] }])",
        "() => void window.undertile.set('language', 'es')",
        "() => window.undertile.engine.restart('in a test')",
        "(job) => window.undertile.otherTab({ kept: job })",
    ],
    ids=["a value taken", "another language", "Python started anew", "another tab"],
)
def test_what_may_change_a_screen_lets_those_ahead_go(at_moves: Browser, site: Site, what: str) -> None:
    browser = at_moves
    browser.page.evaluate("() => { window.undertile.screen.ahead.look = () => {}; }")
    before = browser.page.evaluate("() => window.undertile.screen.ahead.known.size")
    browser.page.evaluate(what, bench.JOB)
    browser.page.wait_for_timeout(50)
    assert browser.page.evaluate("() => window.undertile.screen.ahead.known.size") <= 1 < before


PAGES = """async ([number, legacy]) => {
  const { log, screen } = window.undertile;
  screen.toLast = () => {};
  clearTimeout(screen.lasting);
  await log.inOne(["pages"], "readwrite", (store) => {
    store("pages").clear();
    for (let k = 0; k < legacy; k += 1) store("pages").put({ html: `old ${k}` }, `/old/${k}`);
  });
  for (let k = 0; k < number; k += 1) await log.keepPage(`/walls?L=${k}`, { html: `<p>${k}` });
  await log.keepPage("/walls?L=0", { html: "<p>again" });
  const keys = await log.inOne(["pages"], "readonly", (store) => new Promise((done) => {
    store("pages").getAllKeys().onsuccess = ({ target }) => done(target.result);
  }));
  return [keys.filter((key) => key.startsWith("/")), (await log.page("/walls?L=0"))?.html];
}"""


@pytest.mark.parametrize(("number", "legacy"), [(130, 0), (60, 90), (20, 5)])
def test_the_pages_shown_last_are_kept_and_nothing_typed_goes(
    at_pad: Browser, site: Site, number: int, legacy: int
) -> None:
    """By hand: of so many, the hundred shown last; those of an older version, of no known order, go first."""
    browser = at_pad
    browser.until(READY)
    count = "() => window.undertile.log.counts().then(({ all }) => all)"
    before = browser.page.evaluate(count)
    keys, again = browser.page.evaluate(PAGES, [number, legacy])
    assert again == "<p>again"
    assert len(keys) == min(number + legacy, 100)
    own = [key for key in keys if key.startswith("/walls")]
    newest = {"/walls?L=0", *(f"/walls?L={k}" for k in range(max(1, number - 99), number))}
    assert len(own) == min(number, 100)
    assert newest <= set(own)
    assert browser.page.evaluate(count) == before > 0
