"""What was typed into one form is there when another was kept, and after a step away and back."""

from __future__ import annotations

from undertile.bench.browser import READY, Browser
from undertile.bench.phone_kills import JOB

ROOM = f"#/job/{JOB}/room"
SHOWN = "(to) => window.undertile.screen.shown === to.slice(1) && document.querySelector('form')"
SAID = "() => document.querySelector('.said')"


def box(browser: Browser, fact: str) -> str:
    """CSS of the box of a fact."""
    name: str = browser.page.evaluate("(fact) => document.querySelector(`input[value='${fact}']`).name", fact)
    return f"[name='{name.replace('fact.', 'value.')}']"


def value(browser: Browser, fact: str) -> str:
    found: str = browser.page.eval_on_selector(box(browser, fact), "(each) => each.value")
    return found


def go(browser: Browser, to: str) -> None:
    browser.page.evaluate("to => { location.hash = to; }", to)
    browser.until(SHOWN, to)


def test_nothing_typed_is_lost_by_keeping_another_form_or_by_a_step_away(at_pad: Browser) -> None:
    left, back = "survey.walls.L.studs.L1.along", "survey.walls.B.top"
    at_pad.until(READY)
    go(at_pad, ROOM)
    at_pad.page.evaluate(
        "() => document.querySelectorAll('details').forEach((each) => { each.open = true; })"
    )
    at_pad.page.fill(box(at_pad, left), "55")
    at_pad.page.fill(box(at_pad, back), "2400")
    at_pad.page.locator(f"form:has({box(at_pad, back)}) button.key").click()
    at_pad.until(SAID)
    assert value(at_pad, back) == "2400", "kept"
    assert value(at_pad, left) == "55", "not kept, and not lost"
    assert at_pad.page.locator(box(at_pad, left)).is_visible(), "its part stands open"
    go(at_pad, f"#/job/{JOB}/pan")
    go(at_pad, ROOM)
    assert value(at_pad, left) == "55"

    at_pad.page.locator(f"form:has({box(at_pad, left)}) button.key").click()
    at_pad.until(SAID)
    go(at_pad, f"#/job/{JOB}/pan")
    go(at_pad, ROOM)
    assert at_pad.page.locator(f"input[value='{left}']").count() == 1
    at_pad.page.evaluate(
        "() => document.querySelectorAll('details').forEach((each) => { each.open = true; })"
    )
    at_pad.page.fill(box(at_pad, left), "56")
    at_pad.page.fill(box(at_pad, left), "55")  # as it stands: nothing is left over
    go(at_pad, f"#/job/{JOB}/pan")
    go(at_pad, ROOM)
    assert value(at_pad, left) == "55"
    assert at_pad.page.evaluate(
        "() => [...window.undertile.screen.unsent.values()].every((each) => !each.size)"
    )
