"""A phone's page and the laptop over HTTPS: 100 values, the laptop killed half-way, both hold the same."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.hosts.laptop import Known, Laptop, paired, synced
from tests.hosts.server_room import NOW
from tests.hosts.test_server_photo import photo
from undertile.bench.browser import LOG, READY, Browser

JOB = "a" * 32
VALUES = 100
TYPED = """([job, count]) => {
  const fact = (k) => `survey.walls.B.studs.B${k + 1}.along`;
  const drafts = Array.from({ length: count }, (_, k) => ({ fact: fact(k), value: `${k}.5` }));
  return (async () => {
    await window.undertile.log.addJob(job);
    for (const draft of drafts) await window.undertile.take(job, [draft]);
  })();
}"""
HELD = """() => {
  const page = window.undertile;
  page.sync.room = 900; // a few values in a text, so that there are many
  const real = window.fetch;
  let asked = 0;
  window.fetch = async (...all) => {
    if (String(all[0]).endsWith("/sync") && ++asked === 9) {
      window.held = true;
      await new Promise((go) => { window.go = go; });
      window.held = false;
    }
    return real(...all);
  };
}"""
SPOILED = """() => {
  const page = window.undertile;
  page.sync.room = 900;
  const real = window.fetch;
  window.spoiled = 0;
  let asked = 0;
  window.fetch = async (...all) => {
    const answer = await real(...all);
    if (!String(all[0]).endsWith("/sync") || ++asked > 18 || asked % 3 === 0) return answer;
    window.spoiled += 1;
    if (asked % 3 === 1) {
      await real(...all); // the same twice
      return answer;
    }
    page.sync.soon(50);
    if (asked % 2) throw new TypeError("lost");
    return new Response((await answer.text()).slice(0, -9)); // cut short
  };
}"""
"""Of the first answers a third comes after its question was sent twice, a third is lost or cut short."""
OPEN = "() => window.undertile.counts.open"
STATE = "() => window.undertile.sync.state"
COPIES = "() => document.querySelector('#copies').innerText"
PHOTO = """([job, name, text]) => {
  const content = Uint8Array.from(atob(text), (each) => each.charCodeAt(0));
  return window.undertile.log.addPhoto(job, name, content);
}"""
SEEN = """async (name) => {
  const answer = await window.undertile.ask({ method: "GET", target: `/photo/${name}` });
  return answer.head.status === 200;
}"""
PHOTOS = "async () => (await window.undertile.log.photos()).map(({ job, name }) => [job, name]).sort()"


@pytest.fixture
def new_laptop(bundle: Path, tmp_path: Path) -> Iterator[Laptop]:
    """One that knows no phone."""
    made = Laptop(tmp_path / "laptop", bundle)
    yield made
    made.kill()


def records(browser: Browser) -> list[str]:
    found: list[dict[str, Any]] = browser.page.evaluate(LOG)
    return sorted(each["line"] for each in found if each["job"] == JOB)


def lines(laptop: Laptop) -> list[str]:
    with laptop.store() as store:
        return sorted(line.text for line in store.lines(JOB))


def test_a_hundred_values_with_the_laptop_killed_half_way(
    known: Known, laptop: Laptop, tmp_path: Path
) -> None:
    one = known.phone(laptop, "Ann", tmp_path / "one")
    try:
        assert (
            one.page.evaluate("async () => (await navigator.serviceWorker.ready).active.state") == "activated"
        )
        one.page.evaluate(HELD)
        one.page.evaluate(TYPED, [JOB, VALUES])
        one.until("() => window.held")
        part = laptop.count(JOB)
        assert 0 < part < VALUES
        assert one.page.evaluate(OPEN) == VALUES, "part of it is over there; nothing counts before it says so"
        laptop.kill()
        one.page.evaluate("() => window.go()")
        one.until("() => window.undertile.sync.state === 'away'")
        assert one.page.evaluate(OPEN) == VALUES
        assert one.page.evaluate(COPIES).startswith(f"{VALUES} not yet copied")

        laptop.start()
        synced(one)
        assert laptop.count(JOB) == VALUES
        assert records(one) == lines(laptop)
        assert one.page.evaluate(COPIES) == "all copied elsewhere"

        content = photo((900, 700), "PNG")  # the phone has a photo, the laptop gets one and types a value
        name = f"{hashlib.sha256(content).hexdigest()}.png"
        one.page.evaluate(PHOTO, [JOB, name, base64.b64encode(content).decode()])
        with laptop.store() as store:
            store.pen("d" * 32, "Lee", NOW).write(JOB, "place", "the laptop's \u2028 1203 mm")
            other = store.add_photo(JOB, photo((800, 600), "PNG", compress_level=0))
        assert other.size > 400_000, "in several pieces"
        synced(one)
        with laptop.store() as store:
            assert store.photo(name) == content
        assert one.page.evaluate(PHOTOS) == sorted([[JOB, name], [JOB, other.name]])
        assert records(one) == lines(laptop)
        one.until(SEEN, other.name)  # the screens on the phone have it too

        two = known.phone(laptop, "Bo", tmp_path / "two")  # a second phone gets all of it
        try:
            synced(two)
            assert records(two) == lines(laptop)
            two.page.reload()
            two.until(READY)
            assert two.page.evaluate(SEEN, name), "after a cold start too"
            assert two.page.evaluate(SEEN, other.name)
            assert two.page.evaluate(PHOTOS) == one.page.evaluate(PHOTOS)
        finally:
            two.close()
    finally:
        one.close()


def test_a_phone_taken_off_keeps_what_it_has_and_can_be_paired_again(
    new_laptop: Laptop, tmp_path: Path
) -> None:
    phone = paired(new_laptop, tmp_path / "one", "Ann")
    try:
        new_laptop.take_off()
        phone.page.evaluate(TYPED, [JOB, 3])
        phone.until("() => window.undertile.sync.state === 'stranger'")
        assert new_laptop.count(JOB) == 0
        assert phone.page.evaluate(OPEN) == 3
        assert "does not know this phone" in phone.page.inner_text("#strip")
        phone.page.reload()
        phone.until(READY)
        assert len(records(phone)) == 3, "the tool opens all the same, from the phone"
        phone.until("() => document.querySelector('#strip').innerText.includes('does not know')")
        phone.page.click("#strip button")
        phone.page.fill("#sync-code", "12")
        phone.page.click("#sheet button:not([type])")
        phone.until("() => document.querySelector('#sheet [role=alert]').innerText")
        phone.page.click("#sheet button[type=button]")
        phone.page.click("#strip button")
        phone.page.fill("#sync-code", new_laptop.code())
        phone.page.click("#sheet button:not([type])")
        phone.until("() => window.undertile.sync.state === 'same' && window.undertile.counts.open === 0")
        assert new_laptop.count(JOB) == 3
        assert phone.page.evaluate(STATE) == "same"
        assert json.loads(lines(new_laptop)[0])["fact"].startswith("survey.walls.B")
    finally:
        phone.close()


def test_a_phone_killed_before_its_first_exchange_is_still_paired_after_the_laptop_s_restart(
    new_laptop: Laptop, tmp_path: Path
) -> None:
    """Killed between code and tool; its cookie is taken away, as a browser loses it that is ended then."""
    phone = Browser(tmp_path / "one", *new_laptop.flags())
    try:
        phone.page.goto(new_laptop.address + "/")
        phone.page.fill("#code", new_laptop.code())
        phone.page.fill("#name", "Ann")
        phone.page.click("button")
        phone.until("() => location.pathname === '/phone/'")
        phone.context.clear_cookies()
        phone.kill()
        new_laptop.kill()
        new_laptop.start()
        phone.again()
        phone.page.goto(new_laptop.address + "/")
        phone.until("() => location.pathname === '/phone/'")  # nobody typed anything
        phone.until(READY)
        phone.page.evaluate(TYPED, [JOB, 3])
        phone.until("() => window.undertile.counts.open === 0 && window.undertile.sync.state === 'same'")
        assert new_laptop.page("/lan").count('class="paired"') == 1, "the same phone, no second one"
        assert phone.page.evaluate("() => window.undertile.settings.who") == "Ann"

        phone.context.clear_cookies()  # and now the tool is on the phone: it asks by itself
        phone.kill()
        new_laptop.kill()
        new_laptop.start()
        phone.again()
        phone.page.goto(f"{new_laptop.address}/phone/")
        phone.until(READY)
        phone.page.evaluate(TYPED, [JOB, 5])
        phone.until("() => window.undertile.counts.open === 0 && window.undertile.sync.state === 'same'")
        assert new_laptop.count(JOB) == 8
        assert "does not know" not in phone.page.inner_text("#strip")
        assert new_laptop.page("/lan").count('class="paired"') == 1
    finally:
        phone.close()


def test_answers_that_are_cut_lost_or_doubled_are_harmless(
    known: Known, laptop: Laptop, tmp_path: Path
) -> None:
    phone = known.phone(laptop, "Ann", tmp_path / "one")
    try:
        phone.page.evaluate(SPOILED)
        phone.page.evaluate(TYPED, [JOB, 20])
        phone.until("() => window.undertile.counts.open === 0 && window.undertile.sync.state === 'same'")
        assert phone.page.evaluate("() => window.spoiled") >= 6
        assert laptop.count(JOB) == 20, "once each"
        assert records(phone) == lines(laptop)
    finally:
        phone.close()


def test_the_name_typed_when_paired_is_the_phone_s_own_and_stands_in_the_history(
    new_laptop: Laptop, tmp_path: Path
) -> None:
    phone = paired(new_laptop, tmp_path / "one", "Ann Lee")
    try:
        device = phone.page.evaluate("() => window.undertile.settings.device")
        assert re.fullmatch("Ann-Lee-[0-9a-f]{16}", device)
        assert phone.page.evaluate("() => window.undertile.settings.who") == "Ann Lee"
        phone.page.evaluate(TYPED, [JOB, 2])
        synced(phone)
        with new_laptop.store() as store:
            assert {(each.device, each.who) for each in store.log(JOB)} == {(device, "Ann Lee")}
        history = new_laptop.page(f"/job/{JOB}/history")
        assert f">Ann Lee {device.rpartition('-')[2][:4]}<" in history
        assert f", {device}" not in history
        phone.page.reload()
        phone.until(READY)
        assert phone.page.evaluate("() => window.undertile.settings.device") == device
        phone.page.evaluate(f"() => {{ location.hash = '#/job/{JOB}/history'; }}")
        phone.until("() => document.querySelector('.history')?.innerText.includes('this device')")
    finally:
        phone.close()


PIECES = """() => {
  const real = window.fetch;
  Object.assign(window, { asked: [], answered: [] });
  window.fetch = async (...all) => {
    if (!String(all[0]).endsWith("/sync")) return real(...all);
    window.asked.push(JSON.parse(all[1].body));
    if (window.cut?.(window.asked.at(-1))) await new Promise(() => {}); // the line is dead from here on
    const answer = await real(...all);
    window.answered.push(await answer.clone().json());
    return answer;
  };
}"""
CUT = """([part, job]) => {
  const wanted = (talk) => Object.values(talk?.want || {});
  const sent = (talk) => (talk?.pieces || []).map(({ at }) => at);
  window.cut = ({ jobs }) => (part === "want" ? wanted : sent)(jobs[job]).some((byte) => byte >= 600000);
  window.undertile.sync.soon(0);
}"""
WANTED = """([said, job]) => window[said].flatMap(({ jobs }) => Object.values(jobs[job]?.want || {}))"""


def test_a_photo_goes_on_where_it_broke_off_both_ways(known: Known, laptop: Laptop, tmp_path: Path) -> None:
    """To the phone: its page is closed half-way. To the laptop: it is killed half-way."""
    phone = known.phone(laptop, "Ann", tmp_path / "one")
    try:
        with laptop.store() as store:
            store.create(JOB)
            kept = store.add_photo(JOB, photo((800, 600), "PNG", compress_level=0))
        assert kept.size > 1_200_000, "seven pieces"
        phone.page.evaluate(PIECES)
        phone.page.evaluate(CUT, ["want", JOB])
        phone.until("() => window.asked.some(window.cut)")
        phone.page.add_init_script(f"({PIECES})()")
        phone.page.reload()
        phone.until(READY)
        synced(phone)
        assert min(phone.page.evaluate(WANTED, ["asked", JOB])) >= 600_000, (
            "nothing that was here comes again"
        )
        assert phone.page.evaluate(PHOTOS) == [[JOB, kept.name]]

        content = photo((820, 600), "PNG", compress_level=0)
        name = f"{hashlib.sha256(content).hexdigest()}.png"
        phone.page.evaluate(PHOTO, [JOB, name, base64.b64encode(content).decode()])
        phone.page.evaluate(CUT, ["pieces", JOB])
        phone.until("() => window.asked.some(window.cut)")
        laptop.kill()
        laptop.start()
        phone.page.reload()
        phone.until(READY)
        synced(phone)
        assert min(phone.page.evaluate(WANTED, ["answered", JOB])) >= 600_000
        with laptop.store() as store:
            assert store.photo(name) == content
    finally:
        phone.close()
