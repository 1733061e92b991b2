"""A sentence that a stage makes: its English, and what is needed to say it in another language.

A stage writes ``Sentence("take {amount} off wall {wall}", amount='1/8"', wall="L")`` where it would write an
f-string. It *is* a ``str``, the English one, so it prints, compares, sorts, travels and turns into JSON as
any text does. Beside it stand its form (the English with its slots open: the key) and what fills the slots.

Spanish is one line in ``packet/words/sentences/`` under the same form::

    "take {amount} off wall {wall}": "quite {amount} de la {wall:wall}",

and a face says it by ``packet.told.told(text, words)`` or ``says.told(text)``. A test holds that every form
has its Spanish with the same slots, and that no Spanish stands there for a form nobody writes.

What to keep to:

- a form is a literal, so that it can be found: no f-string, no ``+``; one sentence for one pass and another
  for many, instead of an ``s`` put on. A form that is filled somewhere else is marked with `form`.
- a slot holds a figure as it prints, a name, or another sentence, which is then said in its own turn. A
  piece of English in a slot stays English: make it a sentence.
- to put sentences together use `joined` and `listed`, or a form of their own (``"{first}; {then}"``). An
  f-string or ``+`` makes plain English of them; for a capital or none there is `with_first`.
- in the Spanish, ``{wall:wall}`` says ``L`` as the left wall, ``{where:place}`` a place such as ``B2 at 48``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Literal

__all__ = ["Sentence", "form", "joined", "listed", "with_first"]


First = Literal["", "lower", "upper"]


class Sentence(str):
    """English text that knows its form and what fills it.

    Parameters
    ----------
    form : str
        The English, its slots in braces.
    **slots
        What fills them: figures as they print, names, other sentences.

    Attributes
    ----------
    form : str
    slots : dict
    first : {"", "lower", "upper"}
        Whether its first letter was made small or a capital (`with_first`).

    Raises
    ------
    KeyError
        If a slot has nothing to fill it.
    """

    __slots__ = ("first", "form", "slots")

    form: str
    slots: Mapping[str, object]
    first: First

    def __new__(cls, form: str, /, **slots: object) -> Sentence:
        """The text of a form with its slots filled."""
        made = super().__new__(cls, form.format_map(slots) if slots else form)
        made.form, made.slots, made.first = form, slots, ""
        return made

    def __reduce__(self) -> tuple[Any, ...]:
        return _made, (self.form, dict(self.slots), self.first)


def _made(form: str, slots: Mapping[str, object], first: First = "") -> Sentence:
    text = form.format_map(slots) if slots else form
    made = str.__new__(Sentence, _first(text, first))
    made.form, made.slots, made.first = form, slots, first
    return made


def _first(text: str, first: First) -> str:
    return (text[:1].upper() if first == "upper" else text[:1].lower() if first else text[:1]) + text[1:]


def with_first(text: str, first: Literal["lower", "upper"]) -> str:
    """The same with a small first letter, or with a capital; a sentence stays one."""
    return _made(text.form, text.slots, first) if isinstance(text, Sentence) else _first(text, first)


def form(text: str) -> str:
    """The same text: a form written here and filled somewhere else, marked so that it is found."""
    return text


def joined(items: Iterable[str], between: str = "{first}, {then}") -> str:
    """Sentences in a row, as one; "" for none.

    Parameters
    ----------
    items : iterable of str
    between : str
        The form of two: ``"{first}; {then}"``.
    """
    said = ""
    for item in items:
        said = Sentence(between, first=said, then=item) if said else item
    return said


def listed(items: Iterable[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``; "" for none."""
    *most, last = [*items] or [""]
    return Sentence("{first} and {then}", first=joined(most), then=last) if most else last
