"""Forms with files taken apart: byte for byte what a general library put in."""

from __future__ import annotations

import httpx2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.errors import InputError
from undertile.screens.multipart import parts_of


def sent(files: dict[str, tuple[str, bytes]], data: dict[str, str] | None = None) -> tuple[bytes, str]:
    """independent: another library writes the form."""
    request = httpx2.Request("POST", "http://localhost/", files=files, data=data)
    return request.read(), request.headers["content-type"]


@given(st.binary(max_size=300), st.text(max_size=40), st.text(max_size=20))
def test_what_was_put_in_comes_out(content: bytes, note: str, name: str) -> None:
    note = note.encode("utf-8", "ignore").decode()
    name = name.encode("utf-8", "ignore").decode()
    found = parts_of(*sent({"photo": (name, content)}, {"note": note}))
    assert found == {"photo": content, "note": note.encode()}


@pytest.mark.parametrize(
    "content",
    [
        b"\r\n",
        b"\r\n--",
        b"--x--\r\n",
        b"a\r\n\r\nb\n\n",
        b"\x85\x0b\x0c\x1c\r",
        b"\xff\xd8\r\n\xff\xd9\n",
        b"",
    ],
)
def test_line_ends_and_dashes_in_a_file_are_a_file_s(content: bytes) -> None:
    assert parts_of(*sent({"photo": ("a.jpg", content)}))["photo"] == content


def test_a_hostile_name_is_nobody_s_path() -> None:
    hostile = '../../etc/passwd"; name="note'
    found = parts_of(*sent({"photo": (hostile, b"x")}))
    assert found == {"photo": b"x"}


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (b"--x\r\n\r\nno end", "multipart/form-data; boundary=x"),
        (b"", "multipart/form-data; boundary=x"),
        (b"--x--", "multipart/form-data"),
        (b"--x--", "multipart/form-data; boundary="),
        (b"--x\r\n\r\n" * 200 + b"--x--", "multipart/form-data; boundary=x"),
    ],
)
def test_what_is_no_whole_form_is_one_line(body: bytes, kind: str) -> None:
    with pytest.raises(InputError, match=r"^expected a (whole )?form .*; send it again$"):
        parts_of(body, kind)
