"""Files and photos go out of a phone and come in on another; what is too large or torn is refused."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import Any

import pytest

from tests.hosts.test_phone import (
    SHOWN,
    readings,
    typed,
)
from tests.hosts.test_phone import changed as changed
from tests.hosts.test_phone_faults import GO, KEPT, NUMBER, OPEN_IS, TAKE
from tests.hosts.test_phone_faults import _no_copies_left as _no_copies_left
from tests.hosts.test_server_photo import photo
from tests.store.cast import png
from tests.store.test_picture import heic
from undertile.bench.browser import LOG, READY, Browser, Site, phone
from undertile.bench.phone_kills import JOB
from undertile.job import read_job


def opened(browser: Browser, path: Path | dict[str, Any]) -> None:
    """A file chosen on the phone's Jobs page."""
    browser.page.evaluate(GO, "/")
    browser.page.evaluate("() => window.undertile.screen.go('/', { again: true })")
    browser.until("() => document.querySelector('#open-file')")
    browser.page.set_input_files("#open-file", path)  # type: ignore[arg-type]
    browser.page.click("#open button")


@pytest.mark.parametrize(
    ("language", "open_", "sure", "said"),
    [
        ("en", "not yet copied", "It is elsewhere now", "of them in a file on this phone"),
        ("es", "sin copiar", "Ya está en otra parte", "de ellos en un archivo de este teléfono"),
    ],
)
def test_a_file_saved_on_this_phone_stays_in_the_count_until_it_is_said_to_be_elsewhere(
    at_pad: Browser, language: str, open_: str, sure: str, said: str
) -> None:
    """Saved, one more value typed, closed and opened: the tap takes off what the file has, and no more."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(READY)
    browser.page.evaluate("(to) => window.undertile.set('language', to)", language)
    with browser.page.expect_download() as found:
        browser.page.evaluate("() => { window.undertile.carry.save(); }")
    name = found.value.suggested_filename
    browser.until("(words) => document.querySelector('#strip').innerText.includes(words)", sure, limit_s=30)
    assert browser.page.evaluate(OPEN_IS, NUMBER + 1)
    assert f"{NUMBER + 1} {open_}" in browser.page.inner_text("#copies")
    typed(browser, "152")
    browser.until(OPEN_IS, NUMBER + 2, limit_s=30)

    browser.page.reload()
    browser.until(READY)
    browser.page.evaluate(GO, f"/job/{JOB}")
    browser.until("() => !document.querySelector('.pad-keys')", limit_s=30)
    assert browser.page.evaluate(OPEN_IS, NUMBER + 2), "after a start too"
    browser.page.click("#phone")
    browser.until("(words) => document.querySelector('#sheet').innerText.includes(words)", said, limit_s=30)
    sheet = browser.page.inner_text("#sheet")
    assert f"{NUMBER + 1} {said}: {name}" in sheet
    browser.page.click(f"#sheet button:text-is('{sure}')")
    browser.until(OPEN_IS, 1, limit_s=30)
    assert f"1 {open_}" in browser.page.inner_text("#copies"), "what was typed after the file is not in it"
    browser.page.click("#phone")
    browser.until("() => document.querySelector('#sheet[open] h2')", limit_s=30)
    assert said not in browser.page.inner_text("#sheet"), "said once"


def test_copies_and_files_go_out_and_in_on_another_phone(at_pad: Browser, site: Site, tmp_path: Path) -> None:
    """By the key with what is not yet copied and the sheet of the phone; and on the page of the jobs."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(READY)
    browser.page.evaluate(GO, f"/job/{JOB}")
    browser.until("() => !document.querySelector('.pad-keys')")
    with browser.page.expect_download() as found:
        browser.page.click("#copies")
    saved = found.value.suggested_filename
    found.value.save_as(tmp_path / saved)
    browser.until("() => document.querySelector('#strip').innerText.includes('not elsewhere yet')")
    assert "not yet copied" in browser.page.inner_text("#copies")
    browser.page.click("#strip button:not(:last-child)")
    browser.until("() => document.querySelector('#copies').innerText.includes('all copied elsewhere')")

    opened(browser, Path("examples/hand.toml"))
    browser.until("() => /^#\\/job\\/[0-9a-f]{32}/.test(location.hash)")
    browser.until("() => document.querySelector('#place .said')")
    assert "values new here" in browser.page.inner_text("#place .said")
    made = browser.page.evaluate("() => window.undertile.screen.job()")
    assert made != JOB
    own = [record for record in browser.page.evaluate(LOG) if record["job"] == made]
    assert own
    assert all(record["own"] and not record["copied"] for record in own), "its own, and nowhere else yet"

    browser.page.evaluate(GO, "/")
    browser.until("() => document.querySelector('#copies summary')")
    browser.page.click("#copies summary")
    for ending in ("copy", "file"):
        with browser.page.expect_download() as found:
            browser.page.click(f"#copies a[href='/job/{made}/{ending}']")
        found.value.save_as(tmp_path / ending)
    assert found.value.suggested_filename.endswith(".toml")
    assert read_job(tmp_path / "file") == read_job(Path("examples/hand.toml"))
    assert browser.page.evaluate(f"() => window.undertile.counts.byJob.has('{made}')"), "on this phone"
    browser.page.click("#strip button:not(:last-child)")
    browser.until(f"() => !window.undertile.counts.byJob.has('{made}')", limit_s=30)

    with phone(tmp_path / "other", site) as other:
        other.page.click("#phone")
        other.page.set_input_files("#sheet input[type=file]", tmp_path / saved)
        other.until(f"() => location.hash === '#/job/{JOB}'")
        assert readings(other) == ["151"]
        other.until("() => window.undertile.counts.open === 0 && window.undertile.counts.all > 0")
        opened(other, tmp_path / "copy")
        other.until(f"() => location.hash.startsWith('#/job/{made}')")
        came = [record for record in other.page.evaluate(LOG) if record["job"] == made]
        assert sorted(each["line"] for each in came) == sorted(each["line"] for each in own)
        assert not any(record["own"] for record in came)
        all_there = len(other.page.evaluate(LOG))
        for name, content, says in (
            ("bomb.zip", bomb(tmp_path / "copy"), "200 bytes out of one"),
            ("path.zip", bomb(tmp_path / "copy", "../../evil", b"x"), "take it out"),
            ("torn.zip", (tmp_path / "copy").read_bytes()[:500], "none or is torn"),
        ):
            opened(other, {"name": name, "mimeType": "application/zip", "buffer": content})
            other.until("(says) => document.querySelector('#place').innerText.includes(says)", says)
            assert len(other.page.evaluate(LOG)) == all_there


def bomb(path: Path, name: str = f"photos/{'a' * 64}.jpg", content: bytes = bytes(40_000_000)) -> bytes:
    """A sound copy with one more file in it."""
    out = io.BytesIO(path.read_bytes())
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, content)
    return out.getvalue()


def test_photos_taken_on_the_phone_are_kept_or_refused_in_one_line(at_pad: Browser, tmp_path: Path) -> None:
    browser = at_pad
    browser.until(READY)
    sound = photo((900, 700))
    for name, content, says in (
        ("half.jpg", sound[: len(sound) // 2], "stops early"),
        ("huge.png", png(20_000, 10_000), "found 200; save it smaller"),
        ("phone.heic", heic(400, 300), "Most Compatible"),
        ("page.html.jpg", b"<script>alert(1)</script>", "another kind of file"),
    ):
        answer = browser.page.evaluate(TAKE, [f"/job/{JOB}/photos", name, list(content)])
        assert answer["status"] == 400
        assert says in answer["error"], name
        assert answer["photos"] == 0
    hostile = browser.page.evaluate(TAKE, [f"/job/{JOB}/photos", '../../"x\r\n.jpg', list(sound)])
    assert (hostile["status"], hostile["photos"]) == (200, 1)
    ((job, name),) = [(job, each) for job, each in browser.page.evaluate(KEPT)]
    assert job == JOB
    assert len(name) == 64 + len(".jpg")
    assert name[:64].isalnum()
