"""The phone's page packs a form with files itself: read back here by another reader, and by our own."""

from __future__ import annotations

import base64
import email
import email.policy
import json
import subprocess
from pathlib import Path

import undertile
from undertile.screens.multipart import parts_of

MODULE = Path(undertile.__file__).parent / "hosts" / "phone" / "shell" / "multipart.js"
CONTENT = bytes(range(256)) + b"\r\n--undertile\r\n"
PACK = """
const { multipart } = await import(process.argv[1]);
const form = new FormData();
form.append("text", "one\\ntwo\\r\\nthree");
form.append('odd"\\r\\nname', "ñ 🛁");
const content = Buffer.from(process.argv[2], "base64");
form.append("file", new File([content], 'wall "B"\\r\\nX-Evil: 1.png', { type: "image/png" }));
form.append("none", new File([], "", { type: "text/html\\r\\nX-Evil: 1" }));
const { headers, body } = await multipart(form);
console.log(JSON.stringify([headers["content-type"], Buffer.from(body).toString("base64")]));
"""


def test_every_part_comes_back_byte_for_byte_and_no_name_can_add_a_line(node: str) -> None:
    """independent: Python's own reader of such messages (``email``)."""
    command = [node, "--input-type=module", "-e", PACK, MODULE.as_uri(), base64.b64encode(CONTENT).decode()]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    kind, text = json.loads(done.stdout)
    body = base64.b64decode(text)

    message = email.message_from_bytes(
        b"Content-Type: " + kind.encode() + b"\r\n\r\n" + body, policy=email.policy.HTTP
    )
    found = list(message.iter_parts())  # type: ignore[attr-defined]
    assert [part.get_payload(decode=True) for part in found] == [
        b"one\r\ntwo\r\nthree",
        "ñ 🛁".encode(),
        CONTENT,
        b"",
    ]
    assert [part.get_content_type() for part in found[2:]] == ["image/png", "application/octet-stream"]
    assert not [part for part in found if part["X-Evil"]]
    names = [part.get_param("name", header="content-disposition") for part in found]
    assert names == ["text", "odd%22%0D%0Aname", "file", "none"]

    ours = parts_of(body, kind)
    assert (ours["file"], ours["none"], ours["text"]) == (CONTENT, b"", b"one\r\ntwo\r\nthree")
