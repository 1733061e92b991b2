"""What the laptop refuses is the tool's own page: what was asked for, why not, where to go on."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest

from tests.hosts.server_room import Room
from undertile.hosts.bridge import Answer, App, ask
from undertile.hosts.server.app import Paths, make
from undertile.screens.host import Host
from undertile.store import SqliteStore

HTML, TWIN = "text/html,*/*;q=0.8", "application/json"
NAME = "Bath of the Marchetti house"
SAID = {
    404: ("There is nothing at this address", "No hay nada en esta dirección"),
    405: ("Nothing can be opened at this address", "En esta dirección no se abre nada"),
    413: ("Expected at most", "Se esperaban"),
    500: ("Something broke here", "Algo falló aquí"),
    503: ("The tool for phones is not made yet", "La herramienta para teléfonos aún no está hecha"),
}


@pytest.fixture
def store() -> Iterator[SqliteStore]:
    with SqliteStore() as made:
        job = made.create()
        made.pen("d" * 32, "Lee", "2026-11-25").write(job, "name", NAME)
        yield made


def host() -> Host:
    return Host("server", "d" * 32, "Lee", lambda: "2026-11-25T08:00:00+00:00")


@pytest.fixture
def app(store: SqliteStore) -> App:
    async def desk(scope: Any, receive: Any, send: Any) -> None:
        from undertile.hosts.server.guard import say

        await say(send, 404, "No such page here.")

    return make(store, host(), lambda: None, desk=desk)


def told(
    app: App, path: str, accept: str, method: str = "GET", language: str = "en", length: str = ""
) -> Answer:
    headers = [("accept", accept), ("cookie", f"lang={language}")]
    if length:
        headers.append(("content-length", length))
    return asyncio.run(ask(app, method, path, headers, b"", ("localhost", 8420)))


ASKED = [
    ("/nothing", "GET", "", 404),
    ("/lan/nothing", "GET", "", 404),
    ("/static/nothing.js", "GET", "", 404),
    ("/sync", "GET", "", 405),
    ("/open", "GET", "", 405),
    ("/open", "POST", "999000000", 413),
    ("/phone/", "GET", "", 503),
]


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize(("path", "method", "length", "status"), ASKED)
def test_a_person_gets_a_page_and_a_script_its_twin(
    app: App, path: str, method: str, length: str, status: int, language: str
) -> None:
    page = told(app, path, HTML, method, language, length)
    words = SAID[status][language == "es"]
    assert page.status == status
    assert page.header("content-type").startswith("text/html")
    text = page.body.decode()
    assert f'lang="{language}"' in text
    assert words in text
    assert '<a class="next" href="/"' in text, "the way on is to the jobs"
    assert "default-src 'none'" in page.header("content-security-policy")
    assert NAME not in text

    twin = told(app, path, TWIN, method, language, length)
    assert twin.status == status
    said = json.loads(twin.body)
    assert said["next"]["text"].startswith(words)
    assert said["next"]["href"] == "/"
    assert said["asked"] == ("" if status == 503 else path)
    assert (said["asked"] in text) == bool(said["asked"]) or status == 503


@pytest.mark.parametrize(("path", "method"), [("/sync", "GET"), ("/phone/", "GET"), ("/lan/x", "GET")])
def test_who_asks_for_no_page_gets_one_line(app: App, path: str, method: str) -> None:
    answer = told(app, path, "*/*", method)
    assert answer.status in (404, 405, 503)
    assert answer.header("content-type").startswith("text/plain")
    assert len(answer.body.splitlines()) == 1


@pytest.mark.parametrize(
    "odd", ["<script>alert(1)</script>", '"onload="x', "{{ 7*7 }}", "\u202egpj", "x" * 3_000]
)
@pytest.mark.parametrize("under", ["/", "/lan/", "/static/", "/job/"])
def test_what_was_asked_for_is_words_and_not_without_end(app: App, odd: str, under: str) -> None:
    """Published: OWASP, cross-site scripting prevention: what is echoed is escaped where it stands."""
    answer = told(app, f"{under}{quote(odd)}?code=31415926", HTML)
    text = answer.body.decode()
    assert answer.status == 404
    assert "<script>" not in text
    assert 'onload="' not in text
    assert "49" not in text
    assert "31415926" not in text, "what stands behind the question mark may be a code"
    assert len(text) < 5_000


def test_what_is_sent_where_nothing_is_taken_is_said_not_to_be_kept(app: App, store: SqliteStore) -> None:
    (job,) = store.ids()
    before = store.summary(job)
    for language, words in (("en", "was not kept"), ("es", "no se guardó")):
        answer = told(app, f"/job/{job}/plan", HTML, "POST", language)
        assert answer.status == 405
        assert words in answer.body.decode()
        assert 'href="/"' in answer.body.decode()
    assert store.summary(job) == before


def test_a_fault_outside_the_screens_is_a_page_and_is_written_down(store: SqliteStore) -> None:
    def broken() -> Path | None:
        raise ZeroDivisionError("the inside of the machine")

    paths = Paths(store, host(), broken)
    sent: list[Any] = []

    async def keep(message: Any) -> None:
        sent.append(message)

    async def nothing() -> Any:
        return {"type": "http.request", "body": b"", "more_body": False}

    for language in ("en", "es"):
        sent.clear()
        headers = [(b"accept", HTML.encode()), (b"cookie", f"lang={language}".encode())]
        scope = {"type": "http", "method": "GET", "path": "/phone/x", "headers": headers}
        scope |= {"query_string": b"", "raw_path": b"/phone/x", "scheme": "http", "server": ("localhost", 1)}
        with pytest.raises(ZeroDivisionError):
            asyncio.run(paths(scope, nothing, keep))
        text = b"".join(each.get("body", b"") for each in sent).decode()
        assert sent[0]["status"] == 500
        assert SAID[500][language == "es"] in text
        assert "inside of the machine" not in text


def test_on_the_page_for_anybody_too(tmp_path: Path) -> None:
    """Over plain HTTP: what was asked, and the way to the page that helps."""
    room = Room(tmp_path)
    try:
        for language, words in (("en", "There is nothing"), ("es", "No hay nada")):
            path = f"/{quote('<b>x')}"
            answer = room.ask_plain(room.welcome, "GET", path, accept_language=language)
            assert answer.status == 404
            assert words in answer.text
            assert 'href="/"' in answer.text
            assert "<b>" not in answer.text
            assert "&lt;b&gt;x" in answer.text
    finally:
        room.stop()
