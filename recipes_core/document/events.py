"""YAML events from either parser of ruamel.yaml, and its errors in plain words.

Events only: loading or composing foreign text with the C parser can crash the process, and the pure one
recurses. Events come one by one, so that the reader can stop at its own limits.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from recipes_core.document.problems import Problem
from recipes_core.document.refusals import MISSING_KEY, NO_LINE_BREAK, SPACES_FIRST, UNQUOTED, UNSPACED
from recipes_core.findings import Span


class SyntaxProblem(Exception):  # noqa: N818 - the reader turns it into a DocumentError
    """The parser cannot go on; ``problem`` says why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.sentence)
        self.problem = problem


def events(text: str, stream: str | None = None) -> Iterator[Any]:
    """The events of ``text`` from the parser ``stream``: "c", "pure", or None for C where it is installed.

    Raises SyntaxProblem at the first place that is not YAML.
    """
    parser = _parser(text, stream)
    from ruamel.yaml.error import MarkedYAMLError, YAMLError
    from ruamel.yaml.events import StreamEndEvent

    event = None
    try:
        while not isinstance(event, StreamEndEvent):
            event = parser.get_event()
            yield event
    except MarkedYAMLError as error:
        raise SyntaxProblem(_in_words(text, error)) from None
    except (YAMLError, ValueError, OverflowError):  # an escape beyond Unicode: these know no place
        line, column = (event.end_mark.line, event.end_mark.column) if event is not None else (0, 0)
        place = Span(line + 1, column + 1, line + 1, column + 2)
        raise SyntaxProblem(Problem("syntax", f"{_UNCLEAR} after this", place)) from None


def _parser(text: str, stream: str | None) -> Any:
    if stream != "pure":
        try:
            from _ruamel_yaml import CParser

            return CParser(text)
        except ImportError:
            if stream == "c":
                raise
    from ruamel.yaml import YAML

    return YAML(typ="safe", pure=True).get_constructor_parser(text)[1]


_UNCLEAR = "this is not YAML: check indentation, colons, quotes and brackets"

# What the parsers say (both wordings) and what we say; {opened}: the line where the thing began.
_WORDS = (
    ("unexpected end of stream", "the quote opened on line {opened} is never closed"),
    ("unexpected document", "the quote opened on line {opened} is never closed before this line"),
    ("unknown escape", "this is no escape: write \\\\ for a backslash, or use single quotes"),
    ("hexdecimal", "this escape is not complete: use single quotes"),
    ("expected ',' or ']'", "the list opened with [ on line {opened} needs a comma or a ] here"),
    ("expected ',' or '}'", "the group opened with { on line {opened} needs a comma or a } here"),
    ("unexpected ':'", UNQUOTED),
    ("expected ':'", UNSPACED),
    ("values are not allowed", "a colon with a space may stand once on a line: put the text in quotes"),
    ("keys are not allowed", "a key may not begin here"),
    ("sequence entries are not allowed", "an item of a list begins on a line of its own"),
    (
        "expected '-'",
        "every item of the list that begins on line {opened} starts with a dash below the first",
    ),
    ("expected key", "this line fits no other: indent it like what begins on line {opened}"),
    ("<block end>", "this line fits no other: indent it like what begins on line {opened}"),
    ("cannot start any token", "a value cannot begin with this character: put the value in quotes"),
    ("indented follow up", SPACES_FIRST),
    ("block scalar", NO_LINE_BREAK),
    ("comment or", NO_LINE_BREAK),
    ("indentation", "the lines of this text are not indented alike"),
    ("tag", "a tag (!) has no place in a recipe: delete it"),
    ("alphabetic or numeric", "an anchor or alias (& or *) has no place in a recipe: put the text in quotes"),
)


def _in_words(text: str, error: Any) -> Problem:
    mark = error.problem_mark or error.context_mark
    opened = (error.context_mark or mark).line + 1
    said = f"{error.problem} {error.context}"
    place = Span(mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 2)
    character = text[mark.index : mark.index + 1]
    if "expected key" in said and character == ":":
        return Problem("odd-key", MISSING_KEY, place)
    glued = character == ":" and not text[mark.index + 1 : mark.index + 2].isspace()
    if "flow" in said and (character == "?" or glued):
        quoted = text[mark.index - 1 : mark.index] in ("'", '"')
        return Problem("syntax", UNSPACED if quoted else UNQUOTED, place)
    if "invalid Unicode" in said:
        return Problem("character", "this escape names no character: delete it", place)
    for words, ours in _WORDS:
        if words in said:
            sentence = ours.replace("{opened}", str(opened))
            break
    else:
        sentence = f"{_UNCLEAR} here"
    return Problem("syntax", sentence, place)
