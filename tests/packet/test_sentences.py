"""Every sentence that a stage makes has its Spanish, with the same slots; none stands there for nobody."""

from __future__ import annotations

import ast
import copy
import json
import pickle
import re
import string
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import undertile
from undertile.packet.told import foreign, told
from undertile.packet.words import TERMS, Words
from undertile.packet.words.cited import CITED, WEIGHT, cited
from undertile.packet.words.sentences import SPANISH
from undertile.packet.words.sentences.common import COMMON
from undertile.sentence import Sentence, joined, listed
from undertile.sources import SOURCES

SOURCE = Path(undertile.__file__).parent
ES = Words("es")


def literals(node: ast.expr) -> Iterator[str]:
    """The forms an argument can be; fails where it cannot be read from the source."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from literals(node.body)
        yield from literals(node.orelse)
    else:
        raise AssertionError(f"line {node.lineno}: a form is a literal, or marked with form()")


@cache
def forms() -> dict[str, str]:
    """Every form written in the package, and the file it stands in."""
    found = {"{first}, {then}": "sentence.py", "{first} and {then}": "sentence.py"}
    for path in sorted(SOURCE.rglob("*.py")):
        if path.name == "sentence.py" and path.parent == SOURCE:
            continue
        text = path.read_text("utf-8")
        if "undertile.sentence" not in text:
            continue
        tree = ast.parse(text)
        brought = {
            name.name
            for node in ast.walk(tree)
            if isinstance(node, ast.ImportFrom) and node.module == "undertile.sentence"
            for name in node.names
        }
        for node in ast.walk(tree):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
                continue
            name, given = node.func.id, node.args
            if name not in brought:
                continue  # a function of its own by that name
            if name == "Sentence" and isinstance(given[0], ast.Name | ast.Attribute | ast.Subscript):
                continue  # filled here, marked with form() where it is written
            told = {"Sentence": given[:1], "form": given[:1], "joined": given[1:]}.get(name, [])
            for literal in (each for every in told for each in literals(every)):
                found[literal] = path.relative_to(SOURCE).as_posix()
    return found


def slots(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


def test_every_form_has_its_spanish() -> None:
    """independent: the forms are read from the source by the parser of the language."""
    missing = [f"{where}: {each}" for each, where in forms().items() if each not in SPANISH]
    assert not missing, "\n".join(missing)


def test_no_spanish_for_a_form_nobody_writes() -> None:
    assert not sorted(set(SPANISH) - set(forms()) - set(COMMON))


def test_both_have_the_same_slots() -> None:
    assert len(SPANISH) > 500
    for english, spanish in SPANISH.items():
        assert slots(english) == slots(spanish), english
        assert "" not in slots(english), f"slots have names: {english}"


def test_one_word_for_one_thing() -> None:
    wrong = [
        (stem, spanish)
        for term in TERMS.values()
        for stem in term.avoid
        for spanish in SPANISH.values()
        if re.search(rf"(?<!\w){re.escape(stem)}", spanish, re.IGNORECASE)
    ]
    assert not wrong


@pytest.mark.parametrize("letter", sorted({"w", "p"}))
def test_a_form_ends_as_its_english_does(letter: str) -> None:
    """A capital and a full stop stand in both or in none: what stands around a sentence stays right."""
    judged = [each for each in SPANISH if (each.endswith(".") if letter == "p" else each[:1].isupper())]
    assert len(judged) > 50
    for english, spanish in SPANISH.items():
        if letter == "p":
            assert english.endswith(".") == spanish.endswith("."), english
        elif english[:1].isalpha() and spanish[:1].isalpha():
            assert english[:1].isupper() == spanish[:1].isupper() or english[:2].isupper(), english


def test_every_source_is_cited_in_spanish() -> None:
    assert set(CITED) == set(SOURCES)
    assert len(SOURCES) > 50
    for key, source in SOURCES.items():
        assert cited(key) == CITED[key] + WEIGHT[source.kind]
        sections = re.findall(r"[A-Z]?\d+(?:\.\d+)+", source.title)
        assert all(each in CITED[key] for each in sections), f"{key}: a section is missing"


def test_a_sentence_is_its_english() -> None:
    """independent: what any text does, this one does."""
    said = Sentence("{first} and {then}", first="x", then=Sentence("{first}, {then}", first="1", then="2"))
    assert said == "x and 1, 2"
    assert json.dumps([said]) == '["x and 1, 2"]'
    assert {said: 1} == {"x and 1, 2": 1}
    for again in (pickle.loads(pickle.dumps(said)), copy.deepcopy(said)):
        assert again == said
        assert told(again, ES) == told(said, ES) == "x y 1, 2"
    assert told(said, Words("en")) == said
    assert type(told(said, Words("en"))) is str


def test_rows_of_sentences() -> None:
    assert [listed([]), listed(["a"]), listed(["a", "b"]), listed("abc")] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]
    assert told(listed("abc"), ES) == "a, b y c"
    assert joined([]) == ""


def test_english_left_in_a_sentence_is_known() -> None:
    unknown = Sentence("nobody says this {what}", what="x")
    assert foreign(unknown, ES)
    assert foreign(Sentence("{first}, {then}", first="x", then=unknown), ES)
    assert not foreign(unknown, Words("en"))
    assert not foreign('3/16"', ES)
    assert told(unknown, ES) == "nobody says this x"
