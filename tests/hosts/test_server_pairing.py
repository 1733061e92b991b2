"""Codes and phones, with a clock that the test turns; names that phones know a laptop by."""

from __future__ import annotations

import json
import stat
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from undertile.errors import InputError, StoreError
from undertile.hosts.server.naming import Announced, Named, checked, named
from undertile.hosts.server.pairing import (
    DIGITS,
    MAX_DEVICES,
    MOST_WRONG,
    OPEN_S,
    PROVEN_S,
    UNSEEN_DAYS,
    Device,
    Pairing,
)


class Clock:
    def __init__(self) -> None:
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


DAY = "2026-11-25"


def kept(tmp_path: Path, clock: Callable[[], float] = time.monotonic, day: str = DAY) -> Pairing:
    """What a laptop started anew knows, on a day."""
    return Pairing(tmp_path / "phones.json", clock, lambda: day)


@pytest.fixture
def pairing(tmp_path: Path, clock: Clock) -> Pairing:
    return kept(tmp_path, clock)


def other(code: str) -> str:
    return f"{(int(code) + 1) % 10**DIGITS:0{DIGITS}}"


def test_a_code_lets_one_phone_in_and_the_phone_is_known_from_then_on(
    pairing: Pairing, tmp_path: Path
) -> None:
    code = pairing.open()
    assert len(code) == 8
    tried = pairing.try_code(f" {code[:4]}-{code[4:]} ", "Ann", "10.0.0.7")
    device = pairing.device_of(tried.token)
    assert device is not None
    assert device.name == "Ann"
    assert pairing.try_code(code, "Eve", "10.0.0.8").why == "closed", "once"
    again = kept(tmp_path).device_of(tried.token)
    assert again == device, "after a restart too"


KEY = "0123456789abcdef" * 2


def came_in(pairing: Pairing, name: str = "Ann", key: str = "") -> Device:
    device = pairing.device_of(pairing.try_code(pairing.open(), name, "a", key).token)
    assert device is not None
    return device


@pytest.mark.parametrize("late", [False, True])
def test_a_phone_ended_before_its_cookie_was_on_the_disk_comes_in_by_its_key(
    pairing: Pairing, clock: Clock, tmp_path: Path, late: bool
) -> None:
    """Sent with the code, or left right after it by a phone that is older than this laptop."""
    token = pairing.try_code(pairing.open(), "Ann", "a", "" if late else KEY).token
    device = pairing.device_of(token)
    assert device is not None
    if late:
        assert pairing.leave(device, KEY)
    tried = pairing.again(KEY)
    assert tried.name == "Ann"
    back = pairing.device_of(tried.token)
    assert back is not None
    assert back.id == device.id, "the same phone, no second one"
    assert pairing.device_of(token) is None, "what was lost opens nothing any more"
    assert len(pairing.devices) == 1
    assert KEY not in (tmp_path / "phones.json").read_text(encoding="utf-8")


def test_a_pairing_outlives_the_laptop_s_restart_and_the_phone_s_lost_cookie(
    pairing: Pairing, clock: Clock, tmp_path: Path
) -> None:
    """However late the phone comes, and though it loses what it is given a second time."""
    device = came_in(pairing, key=KEY)
    for days in (0, 30):
        clock.now += days * 86_400
        laptop = Pairing(tmp_path / "phones.json", clock, lambda: "2026-12-25")
        back = laptop.device_of(laptop.again(KEY).token)
        assert back is not None
        assert back.id == device.id
        assert len(laptop.devices) == 1


@pytest.mark.parametrize("restarted", [False, True])
def test_a_cookie_that_is_on_the_disk_ends_the_key(
    pairing: Pairing, clock: Clock, tmp_path: Path, restarted: bool
) -> None:
    device = came_in(pairing, key=KEY)
    pairing.see(device)
    laptop = kept(tmp_path, clock) if restarted else pairing
    clock.now += PROVEN_S - 1
    laptop.see(device)
    token = laptop.again(KEY).token
    assert token, "it may still be in memory alone"
    clock.now += PROVEN_S
    again = laptop.device_of(token)
    assert again is not None
    laptop.see(again)
    for each in (laptop, kept(tmp_path, clock)):
        assert each.again(KEY).why == "closed"
        assert each.device_of(token) is not None, "by its cookie it comes in as ever"


def test_a_key_left_opens_nothing_else_and_is_taken_of_a_new_phone_alone(
    pairing: Pairing, clock: Clock, tmp_path: Path
) -> None:
    device = came_in(pairing)
    for typed in ("", "short", KEY):
        assert pairing.again(typed).why == "closed", "none was left"
    assert not pairing.leave(device, "short")
    assert pairing.leave(device, KEY)
    assert pairing.again(KEY[:-1] + "0").why == "closed", "another key"
    assert not kept(tmp_path, clock).leave(device, KEY), "paired before the restart"
    clock.now += PROVEN_S
    assert not pairing.leave(device, KEY), "nor of a phone paired long ago"
    came_in(pairing, "Bo", key="short")
    assert pairing.again("short").why == "closed"


def test_phones_of_an_older_list_are_known(pairing: Pairing, tmp_path: Path) -> None:
    token = pairing.try_code(pairing.open(), "Ann", "a").token
    path = tmp_path / "phones.json"
    told = json.loads(path.read_text(encoding="utf-8"))
    del told["left"]
    path.write_text(json.dumps(told), encoding="utf-8")
    assert kept(tmp_path).device_of(token) is not None


def test_a_phone_taken_off_does_not_come_in_by_a_key(pairing: Pairing, tmp_path: Path) -> None:
    device = came_in(pairing, key=KEY)
    pairing.remove(device.id)
    for each in (pairing, kept(tmp_path)):
        assert each.again(KEY).why == "closed"


def test_what_is_kept_is_no_key(pairing: Pairing, tmp_path: Path) -> None:
    token = pairing.try_code(pairing.open(), "Ann", "a").token
    path = tmp_path / "phones.json"
    assert token not in path.read_text(encoding="utf-8")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert len(token) >= 43, "256 bits in base64"


def test_wrong_codes_are_slowed_and_the_right_one_is_not_looked_at_meanwhile(
    pairing: Pairing, clock: Clock
) -> None:
    """Hand calculation: 1, 2, 4, 8 seconds."""
    code = pairing.open()
    for wait in (1, 2, 4, 8):
        tried = pairing.try_code(other(code), "", "a")
        assert (tried.why, tried.wait_s) == ("wrong", wait)
        assert pairing.try_code(code, "", "a").why == "slow"
        clock.now += wait - 0.01
        assert pairing.try_code(code, "", "a").why == "slow"
        clock.now += 0.02
    assert pairing.try_code(code, "Ann", "a").token


def test_a_stranger_who_guesses_does_not_make_others_wait(pairing: Pairing) -> None:
    code = pairing.open()
    for _ in range(3):
        pairing.try_code(other(code), "", "stranger")
    assert pairing.try_code(code, "Ann", "phone").token


def test_ten_wrong_ones_from_wherever_end_the_code(pairing: Pairing) -> None:
    code = pairing.open()
    said = [pairing.try_code(other(code), "", f"10.0.0.{k}").why for k in range(MOST_WRONG)]
    assert said == ["wrong"] * 9 + ["closed"]
    assert pairing.try_code(code, "", "phone").why == "closed"
    assert pairing.code == ""
    assert pairing.open() != code
    assert pairing.try_code(pairing.code, "Ann", "phone").token


def test_a_code_ends_by_itself_and_no_code_lets_nobody_in(pairing: Pairing, clock: Clock) -> None:
    assert pairing.try_code("", "", "a").why == "closed"
    code = pairing.open()
    clock.now += OPEN_S + 1
    assert (pairing.code, pairing.try_code(code, "", "a").why) == ("", "closed")


def test_a_phone_taken_off_is_a_stranger(pairing: Pairing, tmp_path: Path) -> None:
    tokens = [pairing.try_code(pairing.open(), name, "a").token for name in ("Ann", "Bo")]
    gone = pairing.device_of(tokens[0])
    assert gone is not None
    assert pairing.remove(gone.id)
    assert not pairing.remove(gone.id)
    for each in (pairing, kept(tmp_path)):
        assert each.device_of(tokens[0]) is None
        assert each.device_of(tokens[1]) is not None


def test_a_phone_not_seen_for_half_a_year_is_asked_for_a_code_and_keeps_its_place(
    pairing: Pairing, tmp_path: Path
) -> None:
    """ours, no source: 180 days. independent: days counted by hand, from 2026-11-25."""
    token = pairing.try_code(pairing.open(), "Ann", "a", KEY).token
    last, late = "2027-05-24", "2027-05-25"  # 5 + 31 + 31 + 28 + 31 + 30 + 24 = 180
    assert UNSEEN_DAYS == 180
    assert kept(tmp_path, day=last).device_of(token) is not None
    laptop = kept(tmp_path, day=late)
    assert laptop.device_of(token) is None
    assert laptop.again(KEY).why == "closed", "nor by the key it left"
    assert [laptop.stopped(each) for each in laptop.devices] == [True]
    fresh = laptop.device_of(laptop.try_code(laptop.open(), "Ann", "a").token)
    assert fresh is not None
    assert laptop.device_of(token) is None, "what it held before opens nothing"
    assert kept(tmp_path, day=last).device_of(token) is not None, "a clock wrong for a day stopped nobody"


def test_each_day_a_phone_is_seen_its_time_begins_anew(pairing: Pairing, tmp_path: Path) -> None:
    token = pairing.try_code(pairing.open(), "Ann", "a").token
    for day in ("2027-05-20", "2027-11-16", "2028-05-14"):
        laptop = kept(tmp_path, day=day)
        device = laptop.device_of(token)
        assert device is not None, day
        laptop.see(device)
    assert kept(tmp_path, day="2028-11-11").device_of(token) is None


def test_phones_that_have_stopped_take_nobody_s_place(pairing: Pairing, tmp_path: Path) -> None:
    for number in range(MAX_DEVICES):
        assert pairing.try_code(pairing.open(), f"phone {number}", "a").token
    assert pairing.try_code(pairing.open(), "Ann", "a").why == "full"
    later = kept(tmp_path, day="2027-06-01")
    assert later.try_code(later.open(), "Ann", "a").token


@pytest.mark.parametrize("token", ["", "x", "é" * 50, "A" * 43])
def test_no_token_is_known_by_chance(pairing: Pairing, token: str) -> None:
    pairing.try_code(pairing.open(), "Ann", "a")
    assert pairing.device_of(token) is None


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("  Ann \n Lee ", "Ann Lee"), ("", "phone 1"), ("\x00\x1b[31m", "[31m"), ("é" * 99, "é" * 40)],
)
def test_a_name_is_words_whatever_was_typed(pairing: Pairing, typed: str, kept: str) -> None:
    pairing.try_code(pairing.open(), typed, "a")
    assert pairing.devices[0].name == kept


def test_a_day_that_is_none_is_a_torn_list(pairing: Pairing, tmp_path: Path) -> None:
    """Else nobody could say whether the phone may come in."""
    came_in(pairing)
    path = tmp_path / "phones.json"
    path.write_text(path.read_text(encoding="utf-8").replace(DAY, "last week"), encoding="utf-8")
    with pytest.raises(StoreError, match="pair the phones again"):
        kept(tmp_path)


def test_a_torn_list_is_said_and_left(tmp_path: Path) -> None:
    path = tmp_path / "phones.json"
    path.write_text('{"devices": [{"id"', encoding="utf-8")
    path.chmod(0o600)
    with pytest.raises(StoreError, match="pair the phones again"):
        Pairing(path)
    assert path.read_text(encoding="utf-8").endswith('"id"')


# Names --------------------------------------------------------------------------------------------------


def test_a_name_is_chosen_once_and_stays(tmp_path: Path) -> None:
    first = named(tmp_path)
    assert first.is_announced
    assert named(tmp_path) == first
    assert first.address == f"https://{first.name}:8443"
    assert named(tmp_path, first.name, first.port) == first


def test_another_name_or_port_would_strand_what_phones_hold(tmp_path: Path) -> None:
    first = named(tmp_path, "laptop.lan", 9000)
    assert first == Named("laptop.lan", 9000)
    for name, port in (("other.lan", 0), ("", 9001)):
        with pytest.raises(InputError, match=r"belongs to https://laptop\.lan:9000"):
            named(tmp_path, name, port)


@pytest.mark.parametrize("name", ["Laptop.LAN", "my-laptop.local.", "192.168.1.20", "10.1.2.3"])
def test_a_name_in_the_network_can_be_chosen(name: str) -> None:
    assert checked(name) == name.lower().rstrip(".")


@pytest.mark.parametrize(
    "name",
    ["laptop", "-a.lan", "a_b.lan", "a b.lan", "8.8.8.8", "127.0.0.1", "1.2.3", "x" * 64 + ".lan", "::1"],
)
def test_what_is_no_such_name_is_refused(name: str) -> None:
    with pytest.raises(InputError, match="leave --name out"):
        checked(name)


def test_a_torn_name_is_said_and_no_other_is_chosen(tmp_path: Path) -> None:
    path = tmp_path / "name.json"
    path.write_text(json.dumps({"name": "laptop.lan"})[:-3], encoding="utf-8")
    path.chmod(0o600)
    with pytest.raises(StoreError, match="phones know this laptop by"):
        named(tmp_path)


async def _looks(each: list[list[str]]) -> list[bool]:
    told = Announced(Named("laptop.lan"), lambda text: None)
    return [await told.look(addresses) for addresses in each]


def test_a_new_address_is_noticed() -> None:
    import asyncio

    assert asyncio.run(_looks([["10.0.0.2"], ["10.0.0.2"], ["10.0.0.3"], []])) == [True, False, True, True]


def test_the_name_is_found_on_the_network_by_whoever_asks() -> None:
    """Independent: a second multicast DNS party on this machine."""
    import asyncio

    from zeroconf import AddressResolverIPv4
    from zeroconf.asyncio import AsyncZeroconf

    async def found() -> list[str]:
        told = Announced(Named("undertile-asked.local"), lambda text: None)
        await told.look(["127.0.0.1"])
        other = AsyncZeroconf(interfaces=["127.0.0.1"])
        asked = AddressResolverIPv4("undertile-asked.local.")
        await asked.async_request(other.zeroconf, 5_000)
        await other.async_close()
        await told.close()
        addresses: list[str] = asked.parsed_addresses()
        return addresses

    assert asyncio.run(found()) == ["127.0.0.1"]
