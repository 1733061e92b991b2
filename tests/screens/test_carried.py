"""A job opened from a file and handed out as one: by the page's own form, and refused in words."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from urllib.parse import unquote

import httpx2
import pytest
from starlette.testclient import TestClient

from tests.screens.cast import EXAMPLES, Site, bring, site
from tests.store.cast import NEWER, entry, pen, png
from undertile.job import read_job
from undertile.job.entry import write_log
from undertile.screens import carried, create_app
from undertile.store import SqliteStore
from undertile.store.parcel import pack


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def opened(at: Site, content: bytes, name: str = "job.zip") -> httpx2.Response:
    """As a browser without script sends it: the form of the page, followed to where it leads."""
    page = at.page("/")
    form = re.search(
        r'<form method="post" action="/open" enctype="([^"]+)">.*?name="(\w+)"[^>]*required', page, re.S
    )
    assert form
    assert form[1] == "multipart/form-data"
    return at.client.post("/open", files={form[2]: (name, content)}, headers={"accept": "text/html"})


def refused(at: Site, content: bytes, name: str = "job.zip") -> list[str]:
    """The lines that are said; nothing is kept."""
    before = {row.id: at.store.digest(row.id) for row in at.store.jobs()}
    page = opened(at, content, name)
    twin = at.client.post("/open", content=content, headers={"accept": "application/json"})
    assert (page.status_code, twin.status_code) == (400, 400)
    problems: list[str] = twin.json()["problems"]
    for line in problems:
        assert "\n" not in line
    assert {row.id: at.store.digest(row.id) for row in at.store.jobs()} == before
    return problems


def a_job(store: SqliteStore) -> str:
    """With a line of a newer version and a photo."""
    job = store.create()
    writes = pen(store)
    writes.write(job, "name", "Hall bath")
    writes.write(job, "unit", "in")
    store.append_lines(job, [NEWER])
    store.add_photo(job, png(seed=1), writes, {"wall": "B"})
    return job


def test_a_copy_handed_out_here_is_the_same_job_once_it_is_opened_there(at: Site) -> None:
    job = a_job(at.store)
    link = re.search(rf'href="(/job/{job}/copy)" download', at.page("/"))
    assert link
    copy = at.client.get(link[1])
    assert copy.headers["content-type"] == "application/zip"
    assert "filename*=UTF-8''Hall-bath-2026-11-25.undertile.zip" in copy.headers["content-disposition"]
    other = site()
    page = opened(other, copy.content)
    assert page.url.path == f"/job/{job}"
    assert "From the file: 4 values new here, 0 known already." in page.text
    assert other.store.lines(job) == at.store.lines(job), "the newer line too, byte for byte"
    assert other.store.summary(job) == at.store.summary(job), "and the photo"
    assert "0 values new here, 4 known already" in opened(other, copy.content).text
    assert len(other.store.jobs()) == 1


def test_a_job_file_begins_a_new_job_and_is_handed_out_again(at: Site) -> None:
    content = (EXAMPLES / "old-alcove.toml").read_bytes()
    page = opened(at, content, "old-alcove.toml")
    (row,) = at.store.jobs()
    assert page.url.path == f"/job/{row.id}"
    link = re.search(rf'href="(/job/{row.id}/file)" download', at.page("/"))
    assert link
    answer = at.client.get(link[1])
    assert unquote(answer.headers["content-disposition"]).endswith("-2026-11-25.toml")
    assert read_job(answer.content) == read_job(content)
    assert {each.device for each in at.store.log(row.id)} == {at.host.device}


def test_a_bare_log_joins_the_job_that_shares_an_entry(at: Site) -> None:
    job = a_job(at.store)
    text = write_log([*at.store.log(job), entry("b-1")])
    assert opened(at, b"\xef\xbb\xbf" + text.encode(), "log.jsonl").url.path == f"/job/{job}"
    assert "b-1" in {each.id for each in at.store.log(job)}


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "Expected a file, found none"),
        (b"PK\x03\x04torn", "expected a zip archive, found a file that is none or is torn"),
        (b"SQLite format 3\0" + bytes(100), "undertile restore"),
        (b"%PDF-1.7\n\xff\xfe", "expected text in UTF-8"),
        (b"{}\n", "expected `id`"),
        (b"\0\0\0\x18ftypheic", "found a NUL byte"),
        (b'version = 2\nunit = "in"\nnames = "x"\n', "line 3"),
    ],
)
def test_what_is_no_job_is_said_and_nothing_is_kept(at: Site, content: bytes, says: str) -> None:
    assert says in refused(at, content)[0]


def packed(at: Site, name: str, content: bytes, how: int = zipfile.ZIP_DEFLATED) -> bytes:
    """A sound archive with one more file in it."""
    out = io.BytesIO(pack(at.store, a_job(at.store)))
    with zipfile.ZipFile(out, "a", how) as archive:
        archive.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize(
    "name", ["../../evil.txt", "/etc/passwd", "C:\\x.txt", "photos/../job.toml", "a\u202e\n.jpg", "nul\0.jpg"]
)
def test_a_stranger_s_path_is_one_line(at: Site, name: str) -> None:
    (problem,) = refused(at, packed(at, name, b"x"))
    assert "take it out" in problem
    assert "\u202e" not in problem


def test_a_stranger_s_bomb_is_one_line(at: Site) -> None:
    """60 MB of zeros in 60 kB; and one that lies about its size, which no header can."""
    bomb = packed(at, f"photos/{'a' * 64}.jpg", bytes(60_000_000))
    assert len(bomb) < 100_000
    (problem,) = refused(at, bomb)
    assert "expected at most 200 bytes out of one" in problem
    size = (60_000_000).to_bytes(4, "little")
    lies = bomb.replace(size, (50).to_bytes(4, "little"))
    assert lies != bomb
    (problem,) = refused(at, lies)
    assert "expected" in problem


def test_of_a_thousand_problems_a_dozen_are_listed(at: Site) -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for number in range(1000):
            archive.writestr(f"{number}.txt", b"x")
    problems = refused(at, out.getvalue())
    assert len(problems) == 13
    assert problems[-1] == "and 990 more like these", "1000 files, job.toml and log.jsonl, less 12"
    assert "1002 problems. Nothing was taken in." in opened(at, out.getvalue()).text


def test_a_photo_of_200_megapixels_stays_out_and_the_rest_comes_in(at: Site) -> None:
    from hashlib import sha256

    from undertile.job.archive import archive_bytes

    huge = png(20_000, 10_000)
    name = f"{sha256(huge).hexdigest()}.png"
    page = opened(at, archive_bytes([entry("b-1")], {name: huge}))
    assert page.status_code == 200
    assert "1 values came in" in page.text
    assert "expected a photo of at most 120 megapixels, found 200" in page.text
    (row,) = at.store.jobs()
    assert (row.entries, row.photos) == (1, 0)


@pytest.mark.parametrize(
    ("kind", "way"), [("server", "undertile restore"), ("phone", "Open it on the laptop")]
)
def test_a_file_that_is_too_large_is_said_with_the_way_round(
    monkeypatch: pytest.MonkeyPatch, kind: str, way: str
) -> None:
    monkeypatch.setitem(carried.MOST_FILE, kind, 2_000_000)
    found = site()
    app = create_app(found.store, replace(found.host, kind=kind))  # type: ignore[arg-type]
    found = Site(found.store, found.host, TestClient(app))
    problem = refused(found, b"PK" + bytes(2_000_000))[0]
    assert problem.startswith(
        "Expected a file of at most 2 MB here, found a larger one; nothing was taken in."
    )
    assert way in problem
    assert "none or is torn" in refused(found, b"PK" + bytes(1_999_998))[0], "at the limit it is read"


def test_a_job_that_is_not_here_has_no_file(at: Site) -> None:
    for path in ("copy", "file"):
        answer = at.client.get(f"/job/{'e' * 32}/{path}", headers={"accept": "text/html"})
        assert answer.status_code == 404
        assert "not on this device" in answer.text


def test_another_site_s_form_opens_nothing(at: Site) -> None:
    job = bring(at, "hand")
    before = at.store.digest(job)
    answer = at.client.post("/open", content=b"PK", headers={"sec-fetch-site": "cross-site"})
    assert answer.status_code == 400
    assert at.store.digest(job) == before


def test_the_page_is_whole_in_spanish_too(at: Site) -> None:
    page = at.page("/", lang="es")
    assert "Un trabajo desde un archivo" in page
