"""What the page itself says: in both languages, with the same blanks, and everything it asks for is there."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path

SHELL = Path(__file__).resolve().parents[2] / "src" / "undertile" / "hosts" / "phone" / "shell"
ASK = 'import("./words.js").then(({ everything }) => process.stdout.write(JSON.stringify(everything)))'


def words(node: str) -> dict[str, dict[str, str]]:
    done = subprocess.run([node, "-e", ASK], capture_output=True, text=True, cwd=SHELL, check=True)
    found: dict[str, dict[str, str]] = json.loads(done.stdout)
    return found


def test_every_word_is_there_in_both_languages_with_the_same_blanks(node: str) -> None:
    every = words(node)
    english = every.pop("en")
    assert every
    for other in every.values():
        assert other.keys() == english.keys()
        for key, text in english.items():
            assert sorted(re.findall(r"\{\w+\}", text)) == sorted(re.findall(r"\{\w+\}", other[key])), key


def test_a_sentence_begins_as_a_sentence(node: str) -> None:
    """One that ends with a stop: what follows another in a line is not lower case."""
    for language, texts in words(node).items():
        for key, text in texts.items():
            if text.endswith("."):
                assert re.match(r"[A-ZÁÉÍÓÚÑ¿¡{]", text), (language, key, text)


def test_every_word_that_is_asked_for_is_there(node: str) -> None:
    known = words(node)["en"].keys()
    asked = {
        key
        for path in SHELL.glob("*.js")
        for key in re.findall(r"(?<![.\w])say\(\"([\w-]+)\"", path.read_text(encoding="utf-8"))
    }
    assert len(asked) > 15
    assert asked <= known


def test_every_module_can_be_read(node: str) -> None:
    for path in sorted(SHELL.glob("*.js")):
        done = subprocess.run([node, "--check", path], capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
