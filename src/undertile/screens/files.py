"""Files as they are: the style sheet, the small modules, the photos."""

from __future__ import annotations

import hashlib
from collections.abc import Awaitable, Callable
from functools import cache
from pathlib import Path

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from undertile.errors import InputError
from undertile.store.interface import Store

FOLDER = Path(__file__).parent / "static"
KINDS = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}
PICTURES = {"jpg": "image/jpeg", "jpeg": "image/jpeg", "png": "image/png", "webp": "image/webp"}


@cache
def _file(name: str) -> tuple[bytes, str, str] | None:
    """Content, kind and tag of one of our own files; None where there is none of that name."""
    known = {path.name: path for path in FOLDER.iterdir() if path.suffix in KINDS}
    if name not in known:
        return None
    content = known[name].read_bytes()
    return content, KINDS[known[name].suffix], f'"{hashlib.sha256(content).hexdigest()[:16]}"'


async def static_file(request: Request) -> Response:
    """One of the package's own files."""
    found = _file(request.path_params["name"])
    if found is None:
        raise HTTPException(404)
    content, kind, tag = found
    headers = {"etag": tag, "cache-control": "no-cache", "x-content-type-options": "nosniff"}
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    return Response(content, media_type=kind, headers=headers)


def photo_file(store: Store) -> Callable[[Request], Awaitable[Response]]:
    """A handler for photos: shown as pictures and as nothing else."""

    async def shown(request: Request) -> Response:
        name = request.path_params["name"]
        kind = PICTURES.get(name.rpartition(".")[2])
        if kind is None:
            raise HTTPException(404)
        try:
            content = store.photo(name)
        except InputError:
            raise HTTPException(404) from None
        headers = {
            "cache-control": "private, max-age=31536000, immutable",
            "x-content-type-options": "nosniff",
            "content-security-policy": "sandbox; default-src 'none'",
        }
        return Response(content, media_type=kind, headers=headers)

    return shown
