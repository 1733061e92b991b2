"""What keeps a patch open besides moisture: joists under it that are not sound (convention 5.4).

Three things hold it: a stop that no person lifted, a soft place not mended, and a check of a joist under it,
of the panel or of the patch's spans that fails or is not shown. What lifts each: a person's lift
(convention 6.2), a sister fastened on a day, an engineer's word with who and when, or a check that passes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.floor.joists import JoistIs
from undertile.floor.mended import word_stands
from undertile.sentence import Sentence, listed

Kind = Literal["stop", "soft", "fails", "not shown"]
ENGINEERS = ("joist-notch-", "joist-hole-", "joist-strength-", "joist-shear-")
"""Checks of a joist that wait for an engineer where they fail; the rest has another way."""


PANELS = ("panel-", "patch-spans-")
"""Checks of what lies on the joists: the panel between them, and that a patch runs over two spans."""


@dataclass(frozen=True)
class Hold:
    """One thing that keeps the patch open.

    Attributes
    ----------
    kind : {"stop", "soft", "fails", "not shown"}
    where : str
        Its place, as the finding or the check has it.
    joist : str
        Its name; "" for the panel and for what is not of the floor.
    step : str
        What to do.
    engineer : bool
        Whether an engineer's word is waited for.
    """

    kind: Kind
    where: str
    joist: str
    step: str
    engineer: bool = False


def holds(
    under: Sequence[JoistIs],
    joists: Sequence[JoistIs],
    findings: Iterable[Finding],
    checks: Iterable[Check],
) -> tuple[Hold, ...]:
    """Everything that keeps a patch open, each once.

    Parameters
    ----------
    under : sequence of JoistIs
        Those the patches lie on.
    joists : sequence of JoistIs
        All of them.
    findings : iterable of Finding
        With what a person lifted taken off; the safety's own among them.
    checks : iterable of Check

    Returns
    -------
    tuple of Hold
        Stops, soft places, what fails, what is not shown.
    """
    names = [joist.name for joist in joists]
    own = {joist.name: joist for joist in under}
    out: list[Hold] = []
    for each in findings:
        name = joist_at(each.where, names)
        if each.severity is Severity.STOP and (name in own or not name):
            out.append(Hold("stop", each.where, name, each.next_step))
        elif each.code == "joist-soft" and name in own and not word_stands(own[name]):
            out.append(Hold("soft", each.where, name, each.next_step))
    for check in checks:
        if check.verdict is Verdict.PASS:
            continue
        kind: Kind = "fails" if check.verdict is Verdict.FAIL else "not shown"
        if check.code.startswith(PANELS):
            out.append(Hold(kind, check.where, "", check.next_step))
        elif check.code.startswith("joist-"):
            name = joist_at(check.where, names)
            if name in own and not word_stands(own[name]):
                waits = kind == "fails" and check.code.startswith(ENGINEERS)
                out.append(Hold(kind, check.where, name, check.next_step, waits))
    order = ("stop", "soft", "fails", "not shown")
    return tuple(sorted(dict.fromkeys(out), key=lambda each: order.index(each.kind)))


def joist_at(where: str, names: Sequence[str]) -> str:
    """The joist that a place of the floor is of; "" where it is of none."""
    text = str(where).removeprefix("joist ")
    found = [name for name in names if text == name or text.startswith(f"{name} ")]
    return max(found, key=len, default="")


def said(every: Sequence[Hold]) -> Iterator[str]:
    """The holds in the words of the one line for all of them."""
    told: dict[tuple[str, str], str] = {}
    for each in every:
        if each.kind == "stop":
            told["stop", each.where] = Sentence("{where}: a stop that nobody lifted", where=each.where)
        elif each.kind == "soft":
            told["soft", each.where] = Sentence("{where}: not mended", where=each.where)
        elif each.kind == "fails" and (each.engineer or ("fails", each.where) not in told):
            told["fails", each.where] = Sentence(
                "{where} fails and waits for an engineer" if each.engineer else "{where} fails",
                where=each.where,
            )
    yield from told.values()
    fails = {each.where for each in every if each.kind == "fails"}
    open_ = dict.fromkeys(
        each.joist or each.where for each in every if each.kind == "not shown" and each.where not in fails
    )
    if open_:
        yield Sentence("not shown to carry it: {names}", names=listed(open_))
