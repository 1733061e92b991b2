"""The published JSON Schema, held against a general validator."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings

from tests.depth import deep
from tests.job.cast import ROOM, job_of, tables
from tests.job.test_file import BAD
from undertile.job import job_schema, write_job
from undertile.job.schema import schema_text

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
VALIDATOR = jsonschema.Draft202012Validator(job_schema())

FOR_THE_READER = {
    # what facts say of each other, or of the inside of a text, is the reader's, not the schema's
    *(
        "text in tomllib",
        "decimal inch",
        "no length",
        "unreadable height",
        "too few readings",
        "too many readings",
    ),
    *("height not listed", "height twice", "heights repeat", "height below", "wrong wall", "no stud name"),
    *("leading zero", "not rising", "outside", "one place", "unknown stud held", "unknown stud level"),
    *("level upside down", "repeat nowhere", "window", "long text", "long list", "huge number", "nan"),
    "date",
}


def errors(text: str) -> list[str]:
    return [error.message for error in VALIDATOR.iter_errors(tomllib.loads(text))]


def test_the_schema_is_one_by_its_own_standard() -> None:
    jsonschema.Draft202012Validator.check_schema(job_schema())
    assert job_schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_published_schema_is_current() -> None:
    published = (ROOT / "docs" / "job.schema.json").read_text(encoding="utf-8")
    assert published == schema_text(), "run: python -m undertile.job.pages docs"
    assert json.loads(published) == job_schema()


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.name for path in EXAMPLES])
def test_every_bundled_job_is_valid(path: Path) -> None:
    assert errors(path.read_text(encoding="utf-8")) == []


def test_a_room_is_valid() -> None:
    assert errors(ROOM) == []


@settings(max_examples=deep(20, 40), deadline=None)
@given(tables())
def test_every_job_that_is_written_is_valid(table: dict[str, Any]) -> None:
    assert errors(write_job(job_of(table))) == []


@pytest.mark.parametrize(
    "content",
    [case[1] for case in BAD if case[0] not in FOR_THE_READER],
    ids=[c[0] for c in BAD if c[0] not in FOR_THE_READER],
)
def test_what_the_reader_refuses_for_its_form_the_schema_refuses_too(content: str) -> None:
    assert len(errors(content)) == 1
