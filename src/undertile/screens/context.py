"""What every screen is given: the job, its answers, the words, and the person's address bar."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any
from urllib.parse import quote, urlencode

from undertile.errors import InputError, UndertileError
from undertile.job.address import join
from undertile.job.model import fact_at
from undertile.job.standing import Fact
from undertile.lengths import Unit
from undertile.screens.answers import Answers, State
from undertile.screens.host import Host
from undertile.screens.words import Says
from undertile.store.interface import Store

View = dict[str, Any]
"""What a screen shows, as plain data: the page prints it, the JSON twin is it."""


class NotHere(InputError):
    """What was asked for is not in this job, or on no screen."""


class Broken(UndertileError):
    """A screen stands on a stage that raised what none should raise; the record and taking back stand."""


@dataclass
class Context:
    """One request.

    Attributes
    ----------
    store : Store
    host : Host
    answers : Answers
    says : Says
        The words of the person's language.
    root : str
        What stands before every path.
    job : str
        "" on the list of jobs.
    query : mapping of str to str
    path : mapping of str to str
    ahead : bool
        Nobody waits for it yet: the page asks for what may be asked for next.
    judged : dict or None
        What the survey says, once it was asked (``pad_sheet.judged``).
    """

    store: Store
    host: Host
    answers: Answers
    says: Says
    root: str = ""
    job: str = ""
    query: Mapping[str, str] = field(default_factory=dict)
    path: Mapping[str, str] = field(default_factory=dict)
    ahead: bool = False
    _state: State | None = None
    judged: View | None = None

    @property
    def state(self) -> State:
        """The log of the job and what it comes to."""
        if self._state is None:
            digest, today = self.store.digest(self.job), self.host.now()[:10]
            self._state = self.answers.of(
                digest, lambda: self.store.log(self.job), today, lambda: self.store.unread(self.job)
            )
        return self._state

    def forget(self) -> None:
        """Something was written: what is known of the log is known no more."""
        self._state = self.judged = None

    def speak(self) -> None:
        """The words in the job's unit and of its places, once it is known which job it is."""
        again = {
            key: f"{its.stud} at {its.height.text}"
            for key, its in self.state.folded.job.survey.repeats.items()
        }
        self.says = replace(self.says, unit=self.unit, again=again)

    @property
    def unit(self) -> Unit:
        """The job's unit; inches where none stands, and then nothing is measured yet."""
        unit: Unit = self.state.folded.job.unit
        return unit

    def href(self, *parts: str, **query: str) -> str:
        """The path of a screen of this job; a part is one segment."""
        path = "/".join(["", "job", quote(self.job, safe=""), *(quote(part, safe="") for part in parts)])
        return self.root + path + (f"?{urlencode(query)}" if query else "")

    def fact(self, address: str) -> Fact | None:
        """A fact of the log by its address; None where nobody set it.

        Raises
        ------
        NotHere
            If no job has such a fact.
        """
        try:
            path, _ = fact_at(address)
        except InputError as error:
            raise NotHere(str(error)) from None
        return self.state.facts.get(path)

    def standing(self, address: str) -> tuple[str | None, tuple[str, ...]]:
        """What stands of a fact as typed, and the ids that do; None and none where nothing does.

        In a clash there is no one value: it is None and the ids are those of every side.
        """
        fact = self.fact(address)
        if fact is None or not fact.standing:
            return None, ()
        ids = tuple(entry.id for entry in fact.standing)
        return (fact.standing[0].value if len(fact.standing) == 1 else None), ids


def clean(address: str) -> str:
    """The canonical address.

    Raises
    ------
    NotHere
        If no job has such a fact.
    """
    try:
        return join(fact_at(address)[0])
    except InputError as error:
        raise NotHere(str(error)) from None
