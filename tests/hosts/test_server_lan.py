"""The server for phones, by TLS on a real socket: who gets in, what strangers see, what an exchange bears."""

from __future__ import annotations

import io
import json
import logging
import re
import zipfile
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from urllib.parse import urlencode

import pytest

from tests.hosts.server_room import NOW, Room
from tests.hosts.test_server_photo import SECRET, exif, photo, png
from undertile.errors import InputError
from undertile.hosts.server import sync
from undertile.hosts.server.lan import listening
from undertile.store import SqliteStore, Talk
from undertile.store.parcel import pack

SECRET_NAME = "Bath of the Marchetti house"
PHONE = ("e" * 32, "Ann", NOW)
JSON = {"content_type": "application/json"}


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Room]:
    made = Room(tmp_path_factory.mktemp("lan"))
    yield made
    made.stop()


@pytest.fixture
def room(shared: Room) -> Room:
    """A server with a job, nobody paired, no code open."""
    for device in shared.lan.pairing.devices:
        shared.lan.pairing.remove(device.id)
    shared.lan.pairing.close()
    return shared


@pytest.fixture(scope="module")
def job(shared: Room) -> str:
    with shared.store() as store:
        made = store.create()
        store.pen("d" * 32, "Lee", NOW).write(made, "name", SECRET_NAME)
        store.add_photo(made, photo())
        return made


def a_phone() -> SqliteStore:
    """A phone's store with a job of its own, some of it typed, a photo taken."""
    store = SqliteStore()
    mine = store.create()
    pen = store.pen(*PHONE)
    for k in range(30):
        pen.write(mine, f"survey.walls.B.studs.B{k + 1}.along", str(k))
    store.add_photo(mine, photo((300, 200)))
    return store


# Strangers ----------------------------------------------------------------------------------------------


def paths(job: str) -> list[tuple[str, str]]:
    asked = [
        "/",
        f"/job/{job}",
        f"/job/{job}/history",
        f"/job/{job}/copy",
        "/phone/",
        "/phone/py/undertile.zip",
    ]
    asked += ["/static/style.css", "/lan", "/lan/qr.svg", "/nothing", "//", "/phone/../lan.css", "/sync"]
    return [
        *(("GET", path) for path in asked),
        *(
            ("POST", path)
            for path in ("/sync", "/open", "/jobs", f"/job/{job}/entries", "/lan/code", "/lan/off")
        ),
        ("PUT", "/"),
        ("DELETE", f"/job/{job}"),
        ("OPTIONS", "/sync"),
        ("HEAD", "/"),
    ]


@pytest.mark.parametrize("accept", ["text/html", "application/json", "*/*"])
@pytest.mark.parametrize("token", ["", "x", "A" * 43])
def test_a_stranger_gets_nothing_but_the_pairing_page(room: Room, job: str, accept: str, token: str) -> None:
    with room.store() as store:
        before = store.summary(job)
        for method, path in paths(job):
            reply = room.ask(method, path, b"x=1", token=token, accept=accept)
            assert reply.status == 401, (method, path)
            assert SECRET_NAME not in reply.text
            assert "set-cookie" not in reply.headers
            page = method == "GET" and accept == "text/html"
            assert ("<form" in reply.text) == page, (method, path)
            assert page or len(reply.body) < 200
        assert store.summary(job) == before
        assert room.lan.pairing.devices == ()


def test_a_stranger_cannot_fill_the_machine(room: Room) -> None:
    for path in ("/pair", "/sync", "/open"):
        reply = room.ask("POST", path, b"code=" + b"1" * 5_000)
        assert reply.status == 413, "judged before it is read: nothing of it is kept"


def test_every_answer_says_what_a_browser_may_do(room: Room) -> None:
    """Published: W3C Content Security Policy 3."""
    token = room.pair()
    for reply in (
        room.ask("GET", "/", accept="text/html"),
        room.ask("GET", "/", token=token, accept="text/html"),
        room.ask("POST", "/sync", b"x", token=token),
        room.ask_plain(room.welcome, "GET", "/"),
        room.ask_plain(room.desk, "GET", "/lan"),
    ):
        policy = reply.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe" not in policy
        assert reply.headers["x-content-type-options"] == "nosniff"
        assert "<script>" not in reply.text
        assert all(
            each[:9] in ("/static/a", "/lan.js")
            for each in re.findall('<script[^>]* src="([^"]*)', reply.text)
        )
        assert "style=" not in reply.text


def test_only_under_its_own_name_and_from_its_own_pages(room: Room) -> None:
    token = room.pair()
    assert room.ask("GET", "/", token=token, name="evil.example").status == 421
    assert room.ask("GET", "/", name="127.0.0.1").status == 421
    own = f"https://{room.lan.named.name}:{room.port}"
    for origin, status in ((own, 400), ("https://evil.example", 403), ("null", 403)):
        assert room.ask("POST", "/sync", b"x", token=token, origin=origin, **JSON).status == status


@pytest.mark.parametrize(
    ("typed", "told"), [("Ann", "Ann"), ("Zoë; Path=/x, b=\u202ec", "Zo%C3%AB%3B%20Path%3D/x%2C%20b%3Dc")]
)
def test_the_name_typed_is_told_to_the_phone_and_nothing_more(room: Room, typed: str, told: str) -> None:
    """Published: RFC 6265, 4.1.1: what may stand in a cookie's value; percent signs for the rest."""
    form = urlencode({"code": room.lan.pairing.open(), "name": typed}).encode()
    reply = room.ask("POST", "/pair", form, accept="application/json")
    _, name = reply.headers.get_all("set-cookie") or []
    assert name.partition(";")[0] == f"undertile-name={told}"
    assert "HttpOnly" not in name
    assert json.loads(reply.text) == {"paired": True, "name": room.lan.pairing.devices[-1].name}


# Codes --------------------------------------------------------------------------------------------------


def test_a_right_code_lets_a_phone_in_with_a_cookie_that_no_script_and_no_other_site_sees(
    room: Room, job: str
) -> None:
    """Published: RFC 6265bis, 4.1.2 and 4.1.3.2."""
    form = urlencode({"code": room.lan.pairing.open(), "name": "Ann", "to": f"/job/{job}"}).encode()
    reply = room.ask("POST", "/pair", form)
    assert (reply.status, reply.headers["location"]) == (303, f"/job/{job}")
    cookie = reply.headers["set-cookie"]
    assert cookie.startswith("__Host-")
    for word in ("Path=/", "Secure", "HttpOnly", "SameSite=Lax", "Max-Age="):
        assert word in cookie
    assert "Domain" not in cookie
    token = cookie.partition(";")[0].partition("=")[2]
    assert SECRET_NAME in room.ask("GET", "/", token=token, accept="text/html").text
    assert room.ask("GET", f"/job/{job}/history", token=token, accept="text/html").status == 200


@pytest.mark.parametrize(
    "to", ["//evil.example/", "https://evil.example", "/\\evil", "/a\r\nset-cookie: x=1", "é", ""]
)
def test_after_pairing_nobody_is_led_elsewhere(room: Room, to: str) -> None:
    form = urlencode({"code": room.lan.pairing.open(), "name": "Ann", "to": to}).encode()
    reply = room.ask("POST", "/pair", form)
    assert reply.headers["location"] == "/phone/"
    cookies = reply.headers.get_all("set-cookie") or []
    assert [each.partition("=")[0] for each in cookies] == ["__Host-undertile", "undertile-name"]


def test_wrong_codes_are_slowed_and_then_the_code_is_void(room: Room) -> None:
    code = room.lan.pairing.open()
    wrong = urlencode({"code": "0" if code != "0" * 8 else "1"}).encode()
    first = room.ask("POST", "/pair", wrong, accept="application/json")
    assert (first.status, json.loads(first.text)["why"]) == (403, "wrong")
    assert first.headers["retry-after"] == "1"
    again = room.ask("POST", "/pair", urlencode({"code": code}).encode(), accept="application/json")
    assert (again.status, json.loads(again.text)["why"]) == (429, "slow"), (
        "not even the right one is looked at"
    )
    page = room.ask("POST", "/phone/pair", wrong, accept="text/html", accept_language="es-MX,es;q=0.9")
    assert "Espere" in page.text
    assert 'action="/pair"' in page.text
    room.lan.pairing.close()
    closed = room.ask("POST", "/pair", urlencode({"code": code}).encode(), accept="application/json")
    assert json.loads(closed.text)["why"] == "closed"
    assert code not in closed.text


def test_what_a_stranger_typed_comes_back_as_words_only(room: Room) -> None:
    room.lan.pairing.open()
    form = urlencode({"code": "x", "name": '"><script>alert(1)</script>', "to": '"><b>'}).encode()
    reply = room.ask("POST", "/pair", form)
    assert "<script>" not in reply.text
    assert "<b>" not in reply.text


def test_a_phone_taken_off_is_refused_at_once_and_the_others_are_not(room: Room, job: str) -> None:
    gone, stays = room.pair("Ann"), room.pair("Bo")
    page = room.ask_plain(room.desk, "GET", "/lan").text
    assert "Ann" in page
    device = next(each for each in room.lan.pairing.devices if each.name == "Ann")
    off = room.ask_plain(room.desk, "POST", "/lan/off", urlencode({"id": device.id}).encode())
    assert off.status == 303
    with a_phone() as phone:
        text = Talk(phone).first().encode()
    assert room.ask("POST", "/sync", text, token=gone, **JSON).status == 401
    assert SECRET_NAME not in room.ask("GET", "/", token=gone, accept="text/html").text
    assert room.ask("POST", "/sync", text, token=stays, **JSON).status == 200


@pytest.mark.parametrize(
    ("language", "stopped", "rule"),
    [
        ("en", "Not here for more than 180 days", "not here for 180 days is asked for a code again"),
        ("es", "Más de 180 días sin venir", "no viene en 180 días se le pide otra vez un código"),
    ],
)
def test_a_phone_unseen_for_half_a_year_is_a_stranger_and_the_laptop_s_page_says_so(
    room: Room, job: str, language: str, stopped: str, rule: str
) -> None:
    token = room.pair("Ann")
    device = next(each for each in room.lan.pairing.devices if each.name == "Ann")

    def told() -> str:
        return room.ask_plain(room.desk, "GET", f"/lan?lang={language}").text

    assert f"{device.seen}" in told()
    assert rule in told()
    assert stopped not in told()
    later = (date.fromisoformat(device.seen) + timedelta(days=181)).isoformat()
    room.lan.pairing._day = lambda: later
    with a_phone() as phone:
        text = Talk(phone).first().encode()
    assert room.ask("POST", "/sync", text, token=token, **JSON).status == 401
    assert stopped in told()
    assert device.seen in told(), "the day it was last here"
    again = room.pair("Ann")
    assert room.ask("POST", "/sync", text, token=again, **JSON).status == 200


def test_what_a_paired_phone_types_on_the_laptop_s_screens_bears_its_person_s_name(
    room: Room, job: str
) -> None:
    token = room.pair("Marta")
    form = urlencode({"fact": "place", "value": "upstairs"}).encode()
    assert room.ask("POST", f"/job/{job}/entries", form, token=token).status == 303
    with room.store() as store:
        assert [entry.who for entry in store.history(job, "place")] == ["Marta"]


def test_phones_are_let_in_and_taken_off_at_the_laptop_alone(room: Room) -> None:
    token = room.pair()
    before = room.lan.pairing.devices
    for method, path in (
        ("GET", "/lan"),
        ("POST", "/lan/code"),
        ("POST", "/lan/off"),
        ("GET", "/lan/qr.svg"),
    ):
        assert room.ask(method, path, b"x=1", token=token).status in (404, 405)
    assert (room.lan.pairing.devices, room.lan.pairing.code) == (before, "")
    for name in ("evil.example", room.lan.named.name):
        assert room.ask_plain(room.desk, "GET", "/lan", host=name).status == 421
    assert room.ask_plain(room.desk, "POST", "/lan/code", origin="http://evil.example").status == 403


def test_the_page_for_anybody_has_the_certificate_and_no_secret(room: Room, job: str) -> None:
    code = room.lan.pairing.open()
    for language, words in (("en", "Trust it"), ("es", "Confíe en él")):
        page = room.ask_plain(room.welcome, "GET", "/", accept_language=language).text
        assert words in page
        assert room.lan.authority.fingerprint in page
        assert room.lan.named.address in page
        assert code not in page
        assert SECRET_NAME not in page
    reply = room.ask_plain(room.welcome, "GET", "/undertile-laptop.crt")
    assert reply.body == room.lan.authority.der
    assert reply.headers["content-type"] == "application/x-x509-ca-cert"
    for path in ("/pair", "/sync", "/job/x", "/issuer.key", "/../lan/issuer.key", "/lan"):
        assert room.ask_plain(room.welcome, "GET", path).status == 404
        assert room.ask_plain(room.welcome, "POST", path, b"x").status == 404


# The exchange -------------------------------------------------------------------------------------------


def exchange(room: Room, token: str, phone: SqliteStore, spoil: int = 0) -> Talk:
    """The whole exchange over TLS; with `spoil`, every so many-th answer is cut, lost and asked for again."""
    talk = Talk(phone, room=3_000)
    text: str | None = talk.first()
    count = 0
    while text is not None:
        reply = room.ask("POST", "/sync", text.encode(), token=token, **JSON)
        assert reply.status == 200, reply.text
        count += 1
        if spoil and count % spoil == 0:
            with pytest.raises(InputError, match="cut short"):
                talk.next(reply.text[: len(reply.text) // 2])
            room.ask("POST", "/sync", text.encode(), token=token, **JSON)  # lost, asked again
            talk = Talk(phone, room=3_000)  # and begun anew
            text = talk.first()
            spoil += 7
            continue
        text = talk.next(reply.text)
    return talk


@pytest.mark.parametrize("spoil", [0, 3])
def test_phone_and_laptop_end_with_the_same_whatever_is_lost_on_the_way(
    room: Room, job: str, spoil: int
) -> None:
    token = room.pair()
    with a_phone() as phone, room.store() as here:
        phone_jobs = phone.ids()
        talk = exchange(room, token, phone, spoil)
        assert talk.same
        assert set(phone.ids()) <= set(here.ids())
        for each in here.ids():
            assert [line.text for line in phone.lines(each)] == [line.text for line in here.lines(each)]
            assert phone.photos(each) == here.photos(each)
        (mine,) = phone_jobs
        assert len(talk.copied[mine]) == 30


BAD = {
    "no text": b"",
    "no utf-8": b"\xff\xfe{}",
    "cut": b'{"sync":1,"jobs":{"',
    "no message": b"[1,2,3]",
    "newer": b'{"sync":99}',
    "path as a job": b'{"sync":1,"jobs":{"../../etc/passwd":{"lines":["x"]}}}',
    "deep": b"[" * 100_000,
    "a large number": b'{"sync":' + b"9" * 10_000 + b"}",
    "piece of a lie": b'{"sync":1,"jobs":{"' + b"a" * 32 + b'":{"pieces":[{"hash":"x","size":-1,"at":0}]}}}',
}


@pytest.mark.parametrize("body", BAD.values(), ids=BAD)
def test_what_is_no_text_of_the_exchange_is_one_line_and_changes_nothing(room: Room, body: bytes) -> None:
    token = room.pair()
    with room.store() as store:
        before = [(each, store.summary(each)) for each in store.ids()]
        reply = room.ask("POST", "/sync", body or b" ", token=token, **JSON)
        assert reply.status == 400
        (problem,) = json.loads(reply.text)["problems"]
        assert "\n" not in problem
        assert problem.startswith("sync: expected")
        assert [(each, store.summary(each)) for each in store.ids()] == before


def test_too_much_at_once_is_one_line(room: Room) -> None:
    token = room.pair()
    body = b'{"sync":1,"jobs":{}}' + b" " * sync.MAX_BODY
    reply = room.ask("POST", "/sync", body, token=token, **JSON)
    assert reply.status == 413
    assert "at most 8 MB" in json.loads(reply.text)["problems"][0]
    assert room.ask("GET", "/sync", token=token).status == 405


# Files --------------------------------------------------------------------------------------------------


def form_with(content: bytes, name: str, kind: str = "image/jpeg") -> tuple[bytes, str]:
    """A form with a file, as a browser sends it (RFC 7578)."""
    edge = "----edge"
    head = f'--{edge}\r\nContent-Disposition: form-data; name="photo"; filename="{name}"\r\n'
    body = head.encode() + f"Content-Type: {kind}\r\n\r\n".encode() + content + f"\r\n--{edge}--\r\n".encode()
    return body, f"multipart/form-data; boundary={edge}"


NAMES = [
    "IMG_1.jpg",
    "../../../etc/passwd",
    "..\\..\\a.exe",
    "a\x00b.php",
    "<img src=x>.jpg",
    "x" * 5_000,
    "é\u202egpj.exe",
]


@pytest.mark.parametrize("name", NAMES, ids=range(len(NAMES)))
def test_a_photo_is_kept_without_its_place_under_its_hash_whatever_its_file_is_called(
    room: Room, job: str, name: str
) -> None:
    token = room.pair()
    content = photo((80, 60 + NAMES.index(name)), exif=exif())
    body, kind = form_with(content, name)
    reply = room.ask(
        "POST", f"/job/{job}/photos", body, token=token, content_type=kind, accept="application/json"
    )
    assert reply.status == 200, reply.text
    kept = json.loads(reply.text)["name"]
    assert len(kept) == 68
    assert kept.endswith(".jpg")
    with room.store() as store:
        found = store.photo(kept)
        assert SECRET not in found
        assert found != content
    assert not [
        path for path in room.place.rglob("*") if "passwd" in path.name or path.suffix in (".exe", ".php")
    ]


def test_a_photo_of_two_hundred_megapixels_is_one_line_and_loses_nothing(room: Room, job: str) -> None:
    token = room.pair()
    with room.store() as store:
        before = store.summary(job)
        body, kind = form_with(png(20_000, 10_000), "large.png", "image/png")
        reply = room.ask(
            "POST", f"/job/{job}/photos", body, token=token, content_type=kind, accept="application/json"
        )
        assert reply.status == 400
        assert "120 megapixels, found 200" in reply.text
        assert store.summary(job) == before


def bombs(job: str) -> dict[str, bytes]:
    """Archives that are small and unpack to much, or to somewhere else."""
    made = {}
    for name, inside in (
        ("log", "log.jsonl"),
        ("photo", f"photos/{'a' * 64}.jpg"),
        ("path", "../../evil.txt"),
    ):
        out = io.BytesIO()
        with SqliteStore() as store:
            mine = store.create()
            store.pen(*PHONE).write(mine, "name", "x")
            whole = pack(store, mine)
        with (
            zipfile.ZipFile(io.BytesIO(whole)) as old,
            zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
        ):
            for each in old.namelist():
                if each != inside:
                    new.writestr(each, old.read(each))
            new.writestr(inside, b"x" if name == "path" else b"0" * 60_000_000)
        made[name] = out.getvalue()
    return made


def test_zip_bombs_and_path_tricks_are_refused_and_nothing_is_lost(room: Room, job: str) -> None:
    token = room.pair()
    with room.store() as store:
        before = [(each, store.summary(each)) for each in store.ids()]
        for name, content in bombs(job).items():
            assert len(content) < 1_000_000
            told = {"content_type": "application/zip", "accept": "application/json"}
            reply = room.ask("POST", "/open", content, token=token, **told)
            assert reply.status == 400, name
            problems = json.loads(reply.text)["problems"]
            assert len(problems) == 1, name
            assert "\n" not in problems[0]
        assert [(each, store.summary(each)) for each in store.ids()] == before
    assert room.ask("POST", "/", b"PK" + b"0" * 41_000_000, token=token).status == 413
    assert room.ask("POST", "/open", b"PK" + b"0" * 201_100_000, token=token).status == 413


# What is written down -----------------------------------------------------------------------------------


def test_no_secret_is_logged(
    room: Room, job: str, caplog: pytest.LogCaptureFixture, capfd: pytest.CaptureFixture[str]
) -> None:
    caplog.set_level(logging.DEBUG)
    code = room.lan.pairing.open()
    form = urlencode({"code": code, "name": "Ann"}).encode()
    token = room.ask("POST", "/pair", form).headers["set-cookie"].partition(";")[0].partition("=")[2]
    room.ask("GET", f"/job/{job}?code={code}", token=token, accept="text/html")
    room.ask("POST", "/sync", b"{", token=token, **JSON)
    second = room.lan.pairing.open()
    room.ask("POST", "/pair", urlencode({"code": second + "1"}).encode())
    room.lan.tell("http://localhost:8420", show=False)
    logging.getLogger("uvicorn.error").warning("the capture works")
    out, err = capfd.readouterr()
    written = "\n".join([caplog.text, out, err, *room.said])
    assert "the capture works" in written
    for secret in (code, f"{code[:4]} {code[4:]}", second, token, job, SECRET_NAME):
        assert secret not in written
    for path in room.place.rglob("*"):
        if path.is_file():
            assert token.encode() not in path.read_bytes(), path.name


def test_the_code_is_for_eyes(tmp_path: Path, room: Room) -> None:
    del room.said[:]
    room.lan.tell("http://localhost:8420", show=True)
    code = room.lan.pairing.code
    assert f"{code[:4]} {code[4:]}" in "\n".join(room.said)
    desk = room.ask_plain(room.desk, "GET", "/lan").text
    assert f"{code[:4]} {code[4:]}" in desk


def test_the_port_that_phones_know_is_not_swapped_for_another(room: Room) -> None:
    with pytest.raises(InputError, match=rf"port {room.port} free, the one phones know"):
        listening(room.port, "127.0.0.1")
    with listening(room.port, "127.0.0.1", 20) as other:
        assert other.getsockname()[1] != room.port, "the page for anybody may move"
