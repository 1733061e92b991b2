"""A form with files, taken apart (RFC 7578), each part by its name; what a file was called is not read."""

from __future__ import annotations

import re

from undertile.errors import InputError

MOST_PARTS = 100
_BOUNDARY = re.compile(r'\bboundary=(?:"([^"\r\n]{1,70})"|([^\s;,"]{1,70}))', re.ASCII | re.IGNORECASE)
_NAME = re.compile(rb'^content-disposition:[^\r\n]*?;\s*name="([^"\r\n]*)"', re.IGNORECASE | re.MULTILINE)


def parts_of(body: bytes, kind: str) -> dict[str, bytes]:
    """The parts of a form, each byte for byte.

    Parameters
    ----------
    body : bytes
    kind : str
        Its Content-Type.

    Returns
    -------
    dict of str to bytes
        Content by name; of two with one name the last. A part without a name is left out.

    Raises
    ------
    InputError
        If it is no such form or stops before its end.
    """
    found = _BOUNDARY.search(kind)
    if found is None:
        raise InputError("expected a form with its boundary, found none; send it again")
    between = b"\r\n--" + (found[1] or found[2]).encode("latin-1", "replace")
    body = b"\r\n" + body  # so that the first boundary is like the others
    out: dict[str, bytes] = {}
    at = body.find(between)
    for _ in range(MOST_PARTS):
        if at < 0:
            break
        at += len(between)
        if body.startswith(b"--", at):
            return out
        stop = body.find(between, at)
        head, _, content = body[at : max(stop, at)].partition(b"\r\n\r\n")
        name = _NAME.search(head)
        if name is not None and stop >= 0:
            out[name[1].decode("utf-8", "replace")] = content
        at = stop
    raise InputError(f"expected a whole form of at most {MOST_PARTS} parts, found another; send it again")
