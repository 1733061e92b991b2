"""The bundle over HTTP: only what its list names, under the kinds a browser insists on, packed once."""

from __future__ import annotations

import asyncio
import gzip
import hashlib
import json
from pathlib import Path

import pytest

from undertile.hosts.bridge import Answer, ask
from undertile.hosts.server.files import Bundle
from undertile.hosts.server.guard import PHONE_POLICY, Guard

CONTENT = b"const x = 1;\n" * 50


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / "bundle"
    (made / "shell").mkdir(parents=True)
    files = {
        "index.html": b"<!doctype html>",
        "shell/page.js": CONTENT,
        "x.mjs": b"1",
        "x.wasm": b"\0asm",
        "x.zip": b"PK",
    }
    for name, content in files.items():
        (made / name).write_bytes(content)
    listed = {name: [hashlib.sha256(content).hexdigest(), len(content)] for name, content in files.items()}
    (made / "bundle.json").write_text(json.dumps({"version": "1", "files": listed}), encoding="utf-8")
    (made / "sw.js").write_bytes(b"//")
    (tmp_path / "secret.txt").write_bytes(b"secret")
    (made / "stray.txt").write_bytes(b"not listed")
    return made


def get(folder: Path, path: str, method: str = "GET", **headers: str) -> Answer:
    pairs = [(key.replace("_", "-"), value) for key, value in headers.items()]
    return asyncio.run(ask(Bundle(folder), method, f"/phone/{path}", pairs))


def test_a_folder_written_for_a_host_of_files_alone_says_here_that_a_laptop_answers(folder: Path) -> None:
    """Else its phones would never ask for an exchange."""
    path = folder / "bundle.json"
    told = json.loads(path.read_text(encoding="utf-8"))
    path.write_text(json.dumps({"alone": True, **told}), encoding="utf-8")
    assert json.loads(get(folder, "bundle.json").body) == told
    assert get(folder, "shell/page.js").status == 200


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("", "text/html; charset=utf-8"),
        ("shell/page.js", "text/javascript; charset=utf-8"),
        ("x.mjs", "text/javascript; charset=utf-8"),
        ("x.wasm", "application/wasm"),
        ("sw.js", "text/javascript; charset=utf-8"),
        ("bundle.json", "application/json"),
    ],
)
def test_a_listed_file_comes_under_its_kind(folder: Path, name: str, kind: str) -> None:
    """Published: HTML standard (modules need a JavaScript type), WebAssembly Web API (application/wasm)."""
    answer = get(folder, name)
    assert (answer.status, answer.header("content-type")) == (200, kind)


@pytest.mark.parametrize(
    "name", ["stray.txt", "../secret.txt", "%2e%2e/secret.txt", "shell", "shell/../../secret.txt"]
)
def test_nothing_else_does(folder: Path, name: str) -> None:
    answer = get(folder, name)
    assert answer.status == 404
    assert b"secret" not in answer.body


def test_it_is_packed_where_that_is_accepted_and_known_by_its_hash(folder: Path) -> None:
    packed = get(folder, "shell/page.js", accept_encoding="br, gzip")
    assert gzip.decompress(packed.body) == CONTENT
    assert packed.header("content-encoding") == "gzip"
    plain = get(folder, "shell/page.js")
    assert plain.body == CONTENT
    assert plain.header("etag") == f'"{hashlib.sha256(CONTENT).hexdigest()}"'
    assert get(folder, "shell/page.js", if_none_match=plain.header("etag")).status == 304
    assert get(folder, "shell/page.js", "HEAD").body == b""
    assert get(folder, "shell/page.js", "POST").status == 404


def test_the_page_names_itself_what_runs_in_it_and_the_header_says_no_less(folder: Path) -> None:
    """A header of its own would forbid it: of two policies both hold (Content Security Policy Level 3)."""
    own = "default-src 'none'; script-src 'self' 'sha256-abc='"
    page = f'<!doctype html><meta http-equiv="Content-Security-Policy" content="{own}">'
    (folder / "index.html").write_text(page, encoding="utf-8")

    def through(path: str) -> Answer:
        return asyncio.run(ask(Guard(Bundle(folder), ["localhost"]), "GET", path))

    told = through("/phone/").header("content-security-policy")
    assert told == f"{own}; frame-ancestors 'none'; object-src 'none'"
    for path in ("/phone/x.wasm", "/phone/nothing"):
        assert through(path).header("content-security-policy") == PHONE_POLICY
