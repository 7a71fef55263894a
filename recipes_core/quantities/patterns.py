"""What numbers, dashes and unit names look like; no pattern can backtrack further than its own text once."""

from __future__ import annotations

import re

VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4),
    "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8), "⅙": (1, 6), "⅚": (5, 6),
}  # fmt: skip
"""Fractions that are one character, as numerator and denominator."""

GAP = r"\s"  # also the thin and the non-breaking spaces that are proper before a unit
SKIP = re.compile(f"{GAP}*")
SIGN = re.compile(f"[-\u2212\u2013]{GAP}*")
DASH = re.compile(f"{GAP}*(?:[-\u2212\u2013\u2014]|to(?![^\\W0-9])){GAP}*")
NUMBER = re.compile(
    rf"(?:(?P<whole>[0-9]+){GAP}+)?(?P<top>[0-9]+)[/\u2044](?P<bottom>[0-9]+)"
    rf"|(?P<count>[0-9]*){GAP}*(?P<vulgar>[{''.join(VULGAR)}])"
    r"|(?P<decimal>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
)
MALFORMED = re.compile(r"[0-9][0-9.]*(?:,[0-9.,]*[0-9]|:[0-9][0-9:]*|[eE][-+]?[0-9]+)")

_LETTER = r"(?:[^\W\d_]|[°%\"'″′”’˚℃℉])"
_BRACKET = r"\((?![0-9])"
UNIT = re.compile(
    rf"(?!to\b)(?:1?/)?{_LETTER}(?:{_LETTER}|\^?[23](?![0-9A-Za-z.,])|[/·*)]|{_BRACKET}"
    rf"|{GAP}+(?!to\b)(?={_LETTER}|[/·*]|{_BRACKET}))*"
)
