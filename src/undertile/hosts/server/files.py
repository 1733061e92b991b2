"""The phone's bundle over HTTP: only files that its own list names, no thread, compressed once."""

from __future__ import annotations

import gzip
import json
import re
from functools import cache
from pathlib import Path

from undertile.hosts.server.guard import Message, Receive, Send, say

KINDS = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".zip": "application/zip",
}
"""Said outright: a browser refuses a module or WebAssembly under another kind, without a word to the page."""
POLICY = b"content-security-policy"
PAGE, LIST = "index.html", "bundle.json"
"""Says itself which script and styles stand in it, by their hashes; the header adds what a page cannot."""
_POLICY = re.compile(rb'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')


class Bundle:
    """An ASGI app for one bundle.

    Parameters
    ----------
    folder : Path
        As ``build_bundle`` wrote it.
    under : str
        Path it is served under, with a slash at both ends.
    """

    def __init__(self, folder: Path, under: str = "/phone/") -> None:
        self._folder = folder
        self._under = under

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Answer a GET or HEAD for a file of the bundle."""
        name = scope["path"].removeprefix(self._under) or PAGE
        listed = self._listed()
        if name not in listed or scope["method"] not in ("GET", "HEAD"):
            await say(send, 404, "No such file in the phone's bundle.")
            return
        told = dict(scope["headers"])
        mark = f'"{listed[name]}"'.encode() if listed[name] else b""
        headers = [(b"cache-control", b"no-cache"), (b"vary", b"accept-encoding")]
        if found := _POLICY.search(self._page() if name == PAGE else b""):
            headers.append((POLICY, found[1] + b"; frame-ancestors 'none'; object-src 'none'"))
        if mark:
            headers.append((b"etag", mark))
            if told.get(b"if-none-match") == mark:
                await send({"type": "http.response.start", "status": 304, "headers": headers})
                await send({"type": "http.response.body", "body": b""})
                return
        path = self._folder / name
        content = _with_a_laptop(path.read_bytes()) if name == LIST else path.read_bytes()
        if name != LIST and b"gzip" in told.get(b"accept-encoding", b"") and path.suffix != ".png":
            content = _gzipped(path, path.stat().st_mtime_ns)
            headers.append((b"content-encoding", b"gzip"))
        kind = KINDS.get(path.suffix, "application/octet-stream")
        headers += [(b"content-type", kind.encode()), (b"content-length", str(len(content)).encode())]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else content})

    def _page(self) -> bytes:
        path = self._folder / PAGE
        return path.read_bytes() if path.is_file() else b""

    def _listed(self) -> dict[str, str]:
        """Names with their hashes; the two files that carry the list itself have none."""
        path = self._folder / LIST
        listed = _read(path, path.stat().st_mtime_ns) if path.is_file() else {}
        return {**listed, **({"sw.js": "", LIST: ""} if listed else {})}


def _with_a_laptop(listed: bytes) -> bytes:
    """The list as it is where a phone may ask for an exchange: the folder may be one for other hosts."""
    told = json.loads(listed)
    told.pop("alone", None)
    return json.dumps(told, indent=1).encode()


@cache
def _read(path: Path, changed: int) -> dict[str, str]:
    files = json.loads(path.read_text(encoding="utf-8"))["files"]
    return {name: digest for name, (digest, _) in files.items()}


@cache
def _gzipped(path: Path, changed: int) -> bytes:
    return gzip.compress(path.read_bytes(), 5, mtime=0)
