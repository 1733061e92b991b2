"""How wide a text will be, without a font at hand: advance widths of an open sans face, rounded up.

Measured from DejaVu Sans and DejaVu Sans Bold 2.37, in hundredths of the type size, up to the next even
one. That face is wider than those a reader is likely to have for a plain sans (Arial, Helvetica, Liberation
Sans, Roboto, Noto Sans), so a text takes the room kept for it or less: what does not collide here does not
collide there. The tests measure the table against the fonts that are installed.

Characters outside the table are kept room for generously: 1.4 of the type size for wide ones (emoji, CJK),
1.1 for others (Arabic, Hebrew), nothing for combining marks and joiners.
"""

from __future__ import annotations

import unicodedata
from functools import cache

_REGULAR: dict[int, str] = {
    24: "\u2032",
    28: "'ijl\u00ec\u00ed\u00ee\u00ef\u0129\u012b\u012d\u012f\u0131\u0135\u013a\u013c",
    30: "IJ\u00cc\u00cd\u00ce\u00cf\u0128\u012a\u012c\u012e\u0130\u0134\u0142",
    32: " ,.\u00a0\u00b7\u2018\u2019",
    34: "/:;\\|\u00a6",
    36: "f\u0140\u017f",
    38: "-\u00ad\u013e\u2033",
    40: "()[]t\u0163\u0165\u0167",
    42: "!r\u00a1\u00b2\u00b3\u00b9\u0155\u0157\u0159",
    46: '"',
    48: "\u00aa\u00ba",
    50: "*_`\u00a7\u00a8\u00af\u00b0\u00b4\u00b8\u2013",
    52: "\u201c\u201d",
    54: "?sz\u00bf\u015b\u015d\u015f\u0161\u017a\u017c\u017e",
    56: "Lc\u00e7\u0107\u0109\u010b\u010d\u0133\u0139\u013b\u013d\u013f",
    58: "Fk\u0137\u0138\u0141",
    60: "vxy\u00fd\u00ff\u0132\u0177\u2022",
    62: (
        "PTYaeo\u00ab\u00bb\u00dd\u00de\u00e0\u00e1\u00e2\u00e3\u00e4\u00e5\u00e8\u00e9\u00ea"
        "\u00eb\u00f0\u00f2\u00f3\u00f4\u00f5\u00f6\u00f8\u0101\u0103\u0105\u0113\u0115\u0117"
        "\u0119\u011b\u014d\u014f\u0151\u0162\u0164\u0166\u0176\u0178"
    ),
    64: (
        "$0123456789ESbdghnpqu{}\u00a2\u00a3\u00a4\u00a5\u00b5\u00b6\u00c8\u00c9\u00ca\u00cb"
        "\u00df\u00f1\u00f9\u00fa\u00fb\u00fc\u00fe\u010f\u0111\u0112\u0114\u0116\u0118\u011a"
        "\u011d\u011f\u0121\u0123\u0125\u0144\u0146\u0148\u014b\u015a\u015c\u015e\u0160\u0169"
        "\u016b\u016d\u016f\u0171\u0173\u20ac"
    ),
    66: "K\u0136",
    70: (
        "ABCRVXZ\u00c0\u00c1\u00c2\u00c3\u00c4\u00c5\u00c7\u0100\u0102\u0104\u0106\u0108\u010a"
        "\u010c\u0127\u0154\u0156\u0158\u0179\u017b\u017d"
    ),
    74: "U\u00d9\u00da\u00db\u00dc\u0168\u016a\u016c\u016e\u0170\u0172",
    76: "HN\u00d1\u0124\u0143\u0145\u0147\u014a",
    78: "&DG\u00d0\u010e\u0110\u011c\u011e\u0120\u0122",
    80: "OQ\u00d2\u00d3\u00d4\u00d5\u00d6\u00d8\u014c\u014e\u0150",
    82: "w\u0149\u0175",
    84: "#+<=>^~\u00ac\u00b1\u00d7\u00f7\u2190\u2191\u2192\u2193\u2212\u2248\u2264\u2265",
    88: "M\u2205",
    92: "\u0126",
    96: "%",
    98: "m\u00bc\u00bd\u00be\u00c6\u2153\u2154\u215b\u215c\u215d\u215e",
    100: "@W\u00a9\u00ae\u00e6\u0174\u2014\u2026",
    104: "\u0153",
    108: "\u0152",
}
_BOLD: dict[int, str] = {
    28: "\u2032",
    32: "'",
    36: " ijl\u00a0\u00ec\u00ed\u00ee\u00ef\u0129\u012b\u012d\u012f\u0131\u0135\u013a\u013c",
    38: (
        ",./IJ\\|\u00a6\u00b7\u00cc\u00cd\u00ce\u00cf\u0128\u012a\u012c\u012e\u0130\u0134\u0142\u2018\u2019"
    ),
    40: ":;",
    42: "-\u00ad",
    44: "f\u00b2\u00b3\u00b9\u017f",
    46: "!()[]\u00a1\u2033",
    48: "t\u013e\u0163\u0165\u0167",
    50: "_`r\u00a7\u00a8\u00af\u00b0\u00b4\u00b8\u0155\u0157\u0159\u2013",
    54: '"*',
    56: "\u0140",
    58: "\u00aa\u00ba",
    60: "?csz\u00bf\u00e7\u0107\u0109\u010b\u010d\u015b\u015d\u015f\u0161\u017a\u017c\u017e",
    64: "L\u00a4\u00b6\u0139\u013b\u013d\u013f\u2022",
    66: "vxy\u00ab\u00bb\u00fd\u00ff\u0141\u0177\u201c\u201d",
    68: (
        "aek\u00e0\u00e1\u00e2\u00e3\u00e4\u00e5\u00e8\u00e9\u00ea\u00eb\u0101\u0103\u0105"
        "\u0113\u0115\u0117\u0119\u011b\u0137\u0138"
    ),
    70: (
        "$0123456789EFTo\u00a2\u00a3\u00a5\u00c8\u00c9\u00ca\u00cb\u00f0\u00f2\u00f3\u00f4"
        "\u00f5\u00f6\u00f8\u0112\u0114\u0116\u0118\u011a\u0133\u014d\u014f\u0151\u0162\u0164"
        "\u0166\u20ac"
    ),
    72: (
        "bdghnpqu{}\u00df\u00f1\u00f9\u00fa\u00fb\u00fc\u00fe\u010f\u0111\u011d\u011f\u0121"
        "\u0123\u0125\u0144\u0146\u0148\u014b\u0169\u016b\u016d\u016f\u0171\u0173"
    ),
    74: (
        "CPSYZ\u00b5\u00c7\u00dd\u00de\u0106\u0108\u010a\u010c\u015a\u015c\u015e\u0160\u0176"
        "\u0178\u0179\u017b\u017d"
    ),
    76: "\u0132",
    78: "ABKRVX\u00c0\u00c1\u00c2\u00c3\u00c4\u00c5\u0100\u0102\u0104\u0136\u0154\u0156\u0158",
    80: "\u0127",
    82: "U\u00d9\u00da\u00db\u00dc\u0168\u016a\u016c\u016e\u0170\u0172",
    84: (
        "#+<=>DGHN^~\u00ac\u00b1\u00d0\u00d1\u00d7\u00f7\u010e\u0110\u011c\u011e\u0120\u0122"
        "\u0124\u0143\u0145\u0147\u014a\u2190\u2191\u2192\u2193\u2212\u2248\u2264\u2265"
    ),
    86: "OQ\u00d2\u00d3\u00d4\u00d5\u00d6\u00d8\u014c\u014e\u0150\u2205",
    88: "&",
    94: "w\u0175",
    98: "\u0126",
    100: "@M\u00a9\u00ae\u0149\u2014\u2026",
    102: "%",
    104: "\u00bc\u00bd\u00be\u2153\u2154\u215b\u215c\u215d\u215e",
    106: "m\u00e6",
    110: "\u00c6\u0153",
    112: "W\u0174",
    118: "\u0152",
}

_WIDE, _OTHER = 140, 110
_LONGEST = {"\ufdfd": 1200, "\ufdfa": 400, "\u2014": 102, "\u2e3b": 310}
"""A few signs that are words of their own."""


def _flat(table: dict[int, str]) -> dict[str, int]:
    return {sign: width for width, signs in table.items() for sign in signs}


_WIDTHS = {False: _flat(_REGULAR), True: _flat(_BOLD)}


@cache
def _sign(sign: str, bold: bool) -> int:
    found = _WIDTHS[bold].get(sign)
    if found is not None:
        return found
    if sign in _LONGEST:
        return _LONGEST[sign]
    if unicodedata.category(sign) in ("Mn", "Me", "Cf", "Cc"):
        return 0
    wide = unicodedata.east_asian_width(sign) in ("W", "F") or ord(sign) >= 0x1F000
    return _WIDE if wide or unicodedata.category(sign) == "So" else _OTHER


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Room kept for a line of text, in the unit of ``size``; no common sans face needs more."""
    return sum(_sign(sign, bold) for sign in text) * size / 100


def rise_and_fall(text: str) -> tuple[float, float]:
    """How far a line stands above and hangs below its baseline, in type sizes."""
    return (0.78, 0.24) if all(sign in _WIDTHS[False] for sign in text) else (1.0, 0.36)


def fitted(text: str, size: float, room: float, bold: bool = False) -> str:
    """The text, or as much of it as fits with an ellipsis behind; "" where not even that does."""
    if text_width(text, size, bold) <= room:
        return text
    for end in range(len(text) - 1, 0, -1):
        cut = text[:end].rstrip() + "\u2026"
        if text_width(cut, size, bold) <= room:
            return cut
    return ""


def wrapped(text: str, size: float, room: float, bold: bool = False) -> list[str]:
    """Lines no wider than ``room``: broken between words, a word that is wider than that within itself."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if text_width(longer, size, bold) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        while text_width(word, size, bold) > room and len(word) > 1:
            end = max(
                1, next(e for e in range(len(word), 0, -1) if e == 1 or _fits(word[:e], size, room, bold))
            )
            lines.append(word[:end])
            word = word[end:]
        line = word
    return [*lines, line] if line else lines


def _fits(text: str, size: float, room: float, bold: bool) -> bool:
    return text_width(text, size, bold) <= room
