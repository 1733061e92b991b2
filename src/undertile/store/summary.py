"""What a device has, said in few words: hashes of hashes, branch by branch.

Each thing kept for a job (an entry, a photo) has a key: the first 32 hex digits of the hash of its text or
content. A branch is the keys that begin with some digits. Two branches with one digest hold the same things,
whatever holes the numbering of the devices has and whatever happened to a copy on the way.
"""

from __future__ import annotations

import hashlib
from bisect import bisect_left
from collections.abc import Iterable, Sequence

KEY = 32
"""Hex digits of a key: 128 bits."""
LEAF = 48
"""A branch of so many keys or fewer is listed instead of branched again."""
DEPTH = 6
"""Digits after which a branch is listed, however many keys it has."""
_DIGITS = "0123456789abcdef"


def short(key: str) -> str:
    """A hash as a summary spells it."""
    return key[:KEY]


def under(keys: Sequence[str], branch: str) -> Sequence[str]:
    """The keys of a branch.

    Parameters
    ----------
    keys : sequence of str
        Sorted.
    branch : str
        Hex digits; ``""`` is everything.
    """
    return keys[bisect_left(keys, branch) : bisect_left(keys, branch + "g")]  # g follows f


def digest(keys: Iterable[str]) -> str:
    """One hash for many keys in their order."""
    return hashlib.sha256("\n".join(keys).encode()).hexdigest()[:KEY]


def branches(keys: Sequence[str], branch: str = "") -> dict[str, str]:
    """The sixteen branches of a branch, each with its digest."""
    return {branch + digit: digest(under(keys, branch + digit)) for digit in _DIGITS}


def is_leaf(keys: Sequence[str], branch: str) -> bool:
    """Whether a branch (its keys) is better listed than branched."""
    return len(keys) <= LEAF or len(branch) >= DEPTH
