"""The few pages of their own that serving phones needs: how to open it, the code, the laptop's own desk."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from undertile.hosts.phone.build import SHELL
from undertile.hosts.server.pages.words import WORDS
from undertile.screens.files import FOLDER as STATIC
from undertile.screens.words import LANGUAGES, Language

_HERE = Path(__file__).parent


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(_HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def says(language: Language, key: str, **slots: object) -> str:
    """A sentence of these pages with its slots filled."""
    return WORDS[key][LANGUAGES.index(language)].format(**slots)


def page(template: str, language: Language, /, **view: Any) -> bytes:
    """A page in a language.

    Parameters
    ----------
    template : str
        Its name, without the ending.
    language : {"en", "es"}
    **view
        What it shows.
    """

    def w(key: str, **slots: object) -> str:
        return says(language, key, **slots)

    return _environment().get_template(f"{template}.html").render(w=w, language=language, **view).encode()


@cache
def style() -> bytes:
    """The look of the screens, with what these pages need besides."""
    return (STATIC / "style.css").read_bytes() + (_HERE / "lan.css").read_bytes()


@cache
def script() -> bytes:
    """What keeps a phone's key on the page that asks for the code: the phone's own module before it."""
    return (SHELL / "key.js").read_bytes() + (_HERE / "pair.js").read_bytes()


def language_of(headers: Mapping[str, str], query: str, otherwise: Language = "en") -> Language:
    """The language a browser asks for, by its address or its own settings."""
    for language in LANGUAGES:
        if f"lang={language}" in query.split("&"):
            return language
    for each in headers.get("accept-language", "").split(","):
        for language in LANGUAGES:
            if each.strip().lower().startswith(language):
                return language
    return otherwise
