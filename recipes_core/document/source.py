"""From bytes to text: size, encoding, and the characters that no document may hold."""

from __future__ import annotations

import re

from recipes_core.document.model import span_of
from recipes_core.document.problems import START, DocumentError, Problem
from recipes_core.findings import Span

LARGEST = 256 * 1024  # bytes

_UTF16_UTF32 = (b"\xff\xfe", b"\xfe\xff", b"\x00\x00\xfe\xff")
_BOM = "\ufeff"
# Control characters but tab and line ends, marks that turn the direction of writing, half surrogate pairs,
# line breaks that only some programs see, byte order marks inside the text, and characters that do not exist.
FORBIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]"
)
DEEPEST = 40  # levels, the outermost group being the first
_OPENINGS = re.compile(rf"[\[{{](?:\s*+[\[{{]){{{DEEPEST}}}")
_DIRECTIVE = re.compile(r"(?:[ ]*(?:#[^\r\n]*)?(?:\r\n|\r|\n))*+(%[^\r\n]*)")


def decode(raw: bytes, name: str = "") -> str:
    """The text of ``raw`` without one byte order mark.

    Raises DocumentError (with ``name`` as its file) for what is too large or not UTF-8.
    """
    if len(raw) > LARGEST:
        sentence = f"the file is larger than {LARGEST // 1024} KiB: a recipe is a few KiB"
        raise DocumentError([Problem("too-large", sentence, START)], name)
    if raw.startswith(_UTF16_UTF32):
        sentence = "the file is UTF-16 or UTF-32: save it as UTF-8"
        raise DocumentError([Problem("not-utf-8", sentence, START)], name)
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8").removeprefix(_BOM)
        sentence = "this byte is not UTF-8: save the file as UTF-8"
        place = span_of(before, len(before), len(before))
        raise DocumentError([Problem("not-utf-8", sentence, place)], name) from None
    return text.removeprefix(_BOM)


def refuse_text(text: str) -> list[Problem]:
    """What can be refused before parsing: forbidden characters (each kind once), directives, bracket runs."""
    problems = {}
    for match in FORBIDDEN.finditer(text):
        if match[0] not in problems:
            sentence = f"{describe(match[0])} stands here: delete it"
            problems[match[0]] = Problem("character", sentence, span_of(text, *match.span()))
    found = list(problems.values())
    if directive := _DIRECTIVE.match(text):
        sentence = "a line that begins with % is a directive: delete it"
        found.append(Problem("directive", sentence, span_of(text, *directive.span(1))))
    # the pure parser looks ahead into a run of brackets, in quadratic time
    brackets = text.count("[") + text.count("{")
    if brackets > DEEPEST and (openings := _OPENINGS.search(text)):
        found.append(too_deep(span_of(text, openings.end() - 1, openings.end())))
    return found


def too_deep(span: Span) -> Problem:
    """The refusal of a value that lies deeper than the limit."""
    return Problem("too-deep", f"more than {DEEPEST} levels are too deep", span)


def describe(character: str) -> str:
    """What a forbidden character is, in words, with its Unicode number."""
    number = ord(character)
    if number in (0x85, 0x2028, 0x2029):
        kind = "a line break that only some programs see"
    elif 0xD800 <= number <= 0xDFFF:
        kind = "half of a character"
    elif number in (0x61C, 0x200E, 0x200F) or 0x202A <= number <= 0x2069:
        kind = "an invisible mark that turns the direction of writing"
    elif number in (0xFEFF, 0xFFFE, 0xFFFF):
        kind = "a character that means nothing"
    else:
        kind = "an invisible control character"
    return f"{kind} (U+{number:04X})"
