"""What tells two checks of a kind apart, depth, length of the rule, the way it is laid: in Spanish too."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from undertile.bundled import bundled_jobs
from undertile.findings import Check
from undertile.job import plan, read_job
from undertile.packet.told import titled
from undertile.packet.words import Words
from undertile.recheck.result import RecheckResult

FIGURE = re.compile(r"[0-9]+(?:-[0-9]+)?(?:/[0-9]+)?(?:\"| mm)")


def checks_of(name: str) -> list[Check]:
    results = plan(read_job(bundled_jobs()[name])).results
    found = [check for each in results.values() for check in getattr(each, "checks", ())]
    again = results["recheck"]
    assert isinstance(again, RecheckResult)
    found += again.room
    for wall in again.walls:
        found += wall.checks
        found += [check for stud in wall.studs for check in stud.checks]
    return found


@pytest.mark.parametrize("name", ["old-alcove", "read-again", "wet-corner"])
def test_no_two_checks_of_a_place_read_alike_in_spanish_that_do_not_in_english(name: str) -> None:
    """independent: the English title, which the stage writes; each figure of it stands in the Spanish."""
    spanish = Words("es")
    found = checks_of(name)
    assert len(found) > 30
    for check in found:
        assert Counter(FIGURE.findall(titled(check, spanish))) == Counter(FIGURE.findall(check.title))
    apart = {(str(check.title), str(check.where)) for check in found}
    assert len({(titled(check, spanish), str(check.where)) for check in found}) >= len(apart)


def test_they_are_headlines_in_spanish_too() -> None:
    spanish = Words("es")
    told = {titled(check, spanish) for check in checks_of("read-again")}
    assert {'Holgura a 16" del fondo', 'Hacia arriba en cada montante, regla larga de 24"'} <= told
    assert all(each[:1] == each[:1].upper() for each in told)
