"""Paper from the phone: printed without a network, and nothing of the phone's own screen on it."""

from __future__ import annotations

from tests.screens.printing import printed
from undertile.bench.browser import READY, Browser, Site
from undertile.bench.phone_kills import JOB
from undertile.packet.words import Words

FORM = f"#/job/{JOB}/papers/form?lang=es"


def test_the_survey_form_is_printed_from_the_phone_alone(at_pad: Browser, site: Site) -> None:
    """An installed app has no menu to print from: its key does, and every sheet says which it is."""
    browser = at_pad
    browser.until(READY)
    site.stop()
    browser.page.evaluate(
        "(to) => { window.print = () => { window.asked = true; }; location.hash = to; }", FORM
    )
    browser.until("() => document.querySelector('article.paper')")
    assert not browser.page.evaluate("window.asked")
    browser.page.locator("[data-print]").click()
    assert browser.page.evaluate("window.asked")
    browser.page.evaluate("document.querySelector('#strip').hidden = false")
    shown = browser.page.inner_text("#bar, nav.foot").split()
    assert shown
    sheets = printed(browser.page, "A4")
    says = Words("es")
    for number, sheet in enumerate(sheets, 1):
        assert says("page", page=number, of=len(sheets)) in sheet.text
        assert "Pasos" not in sheet.text, "the screen's own foot"
        assert sheet.framed or sheet.filled
        for box in (*sheet.filled, *sheet.framed):
            assert box.within(sheet.open)
    first = sheets[0].text
    assert first.count("Kills") == 2, "at the head of the sheet and of the form: the phone's bar is not on it"
    assert says("form-title") in first
    assert says("form-how")[:40] in " ".join(first.split())
