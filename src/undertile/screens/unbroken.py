"""A page in which no length and no day is parted over two lines: browsers break ``1-1/2`` behind its hyphen.

Done to the whole page and not line by line, so that no screen and no paper can forget it. The text gets no
other characters: what is copied, searched or read aloud is as it was.
"""

from __future__ import annotations

import re

__all__ = ["unbroken"]

_INCH = r'(?:"|&#34;|&quot;)'
_FOOT = r"(?:'|&#39;|&#x27;)"
_PARTED = r"\d{1,4}(?:-\d{1,3}){1,2}(?:/\d{1,3})?"
"""``48-1/16``, ``6-0``, ``2026-03-05``; not a serial number, which may be wider than the screen."""
_FIND = re.compile(
    # tags, and elements whose text is no line of the page
    r"<(head|script|style|textarea|select|svg)\b.*?</\1>|<[^>]*>"
    r"|(?<![\w./-])(?P<figure>[~+-]{0,2}"
    rf"(?:(?:\d{{1,3}}{_FOOT} ?)?{_PARTED}{_INCH}?|\d{{1,3}}{_FOOT} ?\d{{1,2}}(?:/\d{{1,3}})?{_INCH}"
    r"|\d{1,5}(?:\.\d{1,3})? mm))(?![\w/-])",
    re.ASCII | re.DOTALL,
)


def unbroken(page: str) -> str:
    """The page with each such figure in an element that does not wrap.

    Parameters
    ----------
    page : str
        HTML in which texts are escaped.
    """
    return _FIND.sub(
        lambda found: f'<span class="fig">{found[0]}</span>' if found["figure"] else found[0], page
    )
