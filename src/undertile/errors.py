"""What can go wrong with what was handed in, as one small tree.

    UndertileError
      InputError (also ValueError)   something unusable was typed or read; one clear line each
        LengthError                  a text is not one length
        BoundError                   a length that cannot be where it stands
        FileError                    a job file, grid or archive cannot be used; holds every problem found
      PlanError                      the planner was asked for something it cannot answer
      StoreError                     where jobs are kept cannot be used (full, read-only, damaged ...)

Field readings are never errors: they are judged (see ``findings``).
"""

from __future__ import annotations

from collections.abc import Sequence


class UndertileError(Exception):
    """Base of every error this package raises on purpose."""


class InputError(UndertileError, ValueError):
    """What was handed in cannot be used; the text says what was expected, what came, where, what to do."""


class LengthError(InputError):
    """A text that is not exactly one length; says what was understood and what to write instead.

    Attributes
    ----------
    typed : str
        The text as it is shown; "" where it was not read part by part.
    understood, instead : str
        What is wrong with it, ``has a comma``, and what to write, ``it without one``: sentences, so that they
        can be said in another language; "" where it was not read part by part.
    """

    def __init__(self, text: str, typed: str = "", understood: str = "", instead: str = "") -> None:
        super().__init__(text)
        self.typed, self.understood, self.instead = typed, understood, instead


class BoundError(InputError):
    """A length that cannot be where it stands, like a thickness of nothing.

    Attributes
    ----------
    expected, typed, do : str
        What can be there, what came, what to do: no capital, no full stop.
    """

    def __init__(self, expected: str, typed: str, do: str) -> None:
        self.expected, self.typed, self.do = expected, typed, do
        super().__init__(f"expected {expected}, found {typed}; {do}")


class FileError(InputError):
    """A file that cannot be used.

    Attributes
    ----------
    problems : tuple of str
        Every problem found in the one run, one line each.
    """

    def __init__(self, problems: Sequence[str]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


class PlanError(UndertileError):
    """The planner was asked for something it cannot answer (a stud that is not there, no wall at all)."""


class StoreError(UndertileError):
    """The place where jobs are kept cannot be used; what it holds stays as it is.

    Attributes
    ----------
    kind : str
        ``full``, ``read-only``, ``damaged``, ``busy``, ``newer`` or ``unusable``.
    """

    def __init__(self, kind: str, said: str) -> None:
        self.kind = kind
        super().__init__(said)
