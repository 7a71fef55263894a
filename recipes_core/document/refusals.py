"""What the format refuses at one key or value: each with its sentence and its place."""

from __future__ import annotations

import re

from recipes_core.document.model import Place, span, span_of
from recipes_core.document.problems import Problem
from recipes_core.document.source import FORBIDDEN, describe
from recipes_core.quantities import looks_like_split_decimal

_LARGEST_WHOLE = 2**53  # beyond it, programs that keep numbers as binary fractions lose the last digits

MISSING_KEY = "the key before this colon is missing"

NO_LINE_BREAK = "after | or > the text begins on the next line"
SPACES_FIRST = "the first line of this text is blank but for spaces: delete them"
UNQUOTED = "between brackets, a text with : or ? needs quotes"
UNSPACED = "a key needs a colon and a space after it"

_PROPERTY = re.compile(r"(![<][^>\s]*>|[&!][^\s,\[\]{}]*)(?:\s|#[^\r\n]*)*")
_GLUED_COMMENT = re.compile(r"[|>][-+0-9]*#")
_INDENTED = re.compile(r"[|>][-+]?[1-9]")
_LEADING = re.compile(r"[ \r\n]*")
_COMMENT = re.compile(r"#[^\r\n]*")
_NUMBER = re.compile(r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?\Z")
_NAMED = re.compile(r"[-+]?\.(?:inf|Inf|INF)\Z|\.(?:nan|NaN|NAN)\Z")


def properties(text: str, before: int, start: int) -> list[Problem]:
    """The anchor and the tag in front of a value or key; ``before`` is where the last event ended.

    The parsers disagree on where such a value starts, so the search begins behind what came before it.
    """
    gap = _without_comments(text[before:start])
    at = next((before + i for i, character in enumerate(gap) if character in "&!"), start)
    problems: list[Problem] = []
    while len(problems) < 2 and (match := _PROPERTY.match(text, at)):  # YAML allows one of each
        at_fault = span_of(text, *match.span(1))
        if match[0].startswith("&"):
            problems.append(Problem("anchor", f"{match[1]} is an anchor: delete it", at_fault))
        else:
            problems.append(Problem("tag", f"{match[1]} is a tag: delete it, or quote the text", at_fault))
        at = match.end()
    return problems


def decoded(value: str, place: Place) -> Problem | None:
    """A forbidden character that a quoted text names by an escape."""
    match = FORBIDDEN.search(value)
    character = match[0] if match else "\r" if "\r" in value else None
    if character is None:
        return None
    return Problem("character", f"this text holds {describe(character)}: delete its escape", span(place))


def number(value: str, place: Place) -> Problem | None:
    """An unquoted number that is not finite, or whole and too long to be kept exactly."""
    if value[0] not in "+-.0123456789":
        return None
    if _NAMED.match(value):
        return Problem("not-finite", f"{value} is not a finite number", span(place))
    if len(value) < 5 or not _NUMBER.match(value):  # 9e99 is finite
        return None
    if abs(float(value)) == float("inf"):
        return Problem("not-finite", f"{_short(value)} is too large a number", span(place))
    digits = value.lstrip("+-0")
    if digits.isdigit() and (len(digits) > 16 or int(digits) > _LARGEST_WHOLE):
        sentence = f"{_short(value)} is too large a whole number: quote it if it is a name"
        return Problem("huge-number", sentence, span(place))
    return None


def in_flow(text: str, style: str, is_key: bool, start: int, end: int) -> Problem | None:
    """A scalar between brackets, ``text[start:end]``, that only one of the parsers would take."""
    if not style:
        at = next((i for i in range(start, end) if text[i] in ":?"), None)
        return Problem("syntax", UNQUOTED, span_of(text, at, at + 1)) if at is not None else None
    if is_key and not text[end + 1 : end + 2].isspace() and text.startswith(":", end):
        return Problem("syntax", UNSPACED, span_of(text, end, end + 1))
    return None


def block(text: str, start: int, header: str, lines: list[str]) -> Problem | None:
    """A block text at ``start``, of a header and lines, that only one of the parsers would take."""
    if clash := _GLUED_COMMENT.match(header):
        at = start + clash.end()
        return Problem("syntax", NO_LINE_BREAK, span_of(text, at - 1, at))
    if not lines or not lines[0] or lines[0].strip(" ") or _INDENTED.match(header):
        return None
    first = next(i for i, line in enumerate(lines) if line.strip(" "))
    indents = [len(line) - len(line.lstrip(" ")) for line in lines[: first + 1]]
    if max(indents) <= indents[0]:
        return None
    leading = _LEADING.match(text, start + len(header))
    at = leading.end() if leading else start
    return Problem("syntax", SPACES_FIRST, span_of(text, at, at + 1))


def missing_key(text: str, before: int, place: Place) -> Problem:
    """A key without a letter in front of the colon at or behind ``before``."""
    colon = text.find(":", before)
    return Problem("odd-key", MISSING_KEY, span_of(text, colon, colon + 1) if colon >= 0 else span(place))


def question_mark(text: str, before: int, start: int) -> Problem | None:
    """A key at ``start`` that a question mark announces; ``before`` is where the last event ended."""
    if text.find("?", before, start) < 0 or (at := _without_comments(text[before:start]).find("?")) < 0:
        return None
    return Problem("odd-key", "delete this question mark", span_of(text, before + at, before + at + 1))


def no_value(word: str, place: Place, previous: tuple[str, Place] | None) -> Problem:
    """A key without a value; in a flow mapping it may be the tail of a number with a decimal comma."""
    if previous is not None and previous[0][-1:].isdigit() and looks_like_split_decimal(word):
        whole, start = previous
        head = whole.split()[-1]
        both = span((*start[:2], *place[2:]))
        sentence = f"{head},{word} has a decimal comma, which splits it in two: write {head}.{word}, with a point"
        return Problem("split-decimal", sentence, both)
    return Problem("no-value", f"{word} has no value; write unknown if you do not know it", span(place))


def _without_comments(gap: str) -> str:
    return _COMMENT.sub(lambda comment: " " * len(comment[0]), gap)


def _short(digits: str) -> str:
    return digits if len(digits) <= 20 else f"{digits[:17]}..."
