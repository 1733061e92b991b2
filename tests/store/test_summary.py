"""Summaries say what is there, whatever holes there are."""

from __future__ import annotations

import hashlib

from hypothesis import given
from hypothesis import strategies as st

from undertile.store import summary

KEYS = st.sets(st.text("0123456789abcdef", min_size=32, max_size=32), max_size=40)
BRANCH = st.text("0123456789abcdef", max_size=3)


@given(KEYS, BRANCH)
def test_a_branch_is_the_keys_that_begin_with_it(keys: set[str], branch: str) -> None:
    """independent: str.startswith."""
    assert list(summary.under(sorted(keys), branch)) == sorted(key for key in keys if key.startswith(branch))


@given(KEYS)
def test_the_branches_of_a_branch_are_all_of_it(keys: set[str]) -> None:
    ordered = sorted(keys)
    found = [key for branch in summary.branches(ordered) for key in summary.under(ordered, branch)]
    assert found == ordered


@given(KEYS, KEYS)
def test_digests_are_equal_exactly_where_the_keys_are(mine: set[str], theirs: set[str]) -> None:
    assert (summary.digest(sorted(mine)) == summary.digest(sorted(theirs))) == (mine == theirs)


def test_a_digest_is_the_hash_of_the_keys_one_a_line() -> None:
    """independent: hashed here by hand."""
    assert summary.digest(["ab", "cd"]) == hashlib.sha256(b"ab\ncd").hexdigest()[:32]
