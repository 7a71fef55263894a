"""Builds plain data and places from YAML events, and collects what the format refuses."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from recipes_core.document import refusals
from recipes_core.document.model import LINE_BREAK, Place, Places, span
from recipes_core.document.problems import START, Problem
from recipes_core.document.source import DEEPEST, too_deep
from recipes_core.findings import Path

MOST_VALUES = 20_000
MOST_PROBLEMS = 100

_BLOCK = ("|", ">")
_QUOTES = ("'", '"')


class _Stop(Exception):  # noqa: N818 - the outcome is in the problems
    """There is no use in reading on."""


class _Frame:
    """A mapping or sequence that is being filled."""

    __slots__ = (
        "as_key",
        "container",
        "end",
        "expects_key",
        "flow",
        "key",
        "key_place",
        "lines",
        "mapping",
        "path",
        "previous",
        "start",
    )

    def __init__(self, container: Any, path: Path, start: Any, flow: bool, as_key: bool) -> None:
        self.container = container
        self.mapping = self.expects_key = isinstance(container, dict)
        self.path = path
        self.flow = flow
        self.as_key = as_key  # stands where a key should: refused, but read to its end
        self.start = (start.line, start.column)
        self.end = self.start
        self.key = ""
        self.key_place: Place | None = None
        self.lines: dict[str, int] = {}  # key → the line it stands on
        self.previous: tuple[str, Place] | None = None  # the scalar before this key


class Builder:
    """Takes events one by one. Afterwards ``data``, ``places``, ``problems``, ``shelters`` hold the outcome.

    ``shelters`` are the offsets of quoted and block texts, the places where a tab may stand.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        self.data: Any = None
        self.places: Places = {}
        self.problems: list[Problem] = []
        self.shelters: list[tuple[int, int]] = []
        self._stack: list[_Frame] = []
        self._documents = 0
        self._end = 0  # offset where the last event ended

    def build(self, events: Iterable[Any]) -> None:
        """Takes all events, or stops at a limit."""
        from ruamel.yaml import events as kinds

        take = {
            kinds.ScalarEvent: self._scalar,
            kinds.MappingStartEvent: self._open_mapping,
            kinds.SequenceStartEvent: self._open_sequence,
            kinds.MappingEndEvent: self._close,
            kinds.SequenceEndEvent: self._close,
            kinds.AliasEvent: self._alias,
            kinds.DocumentStartEvent: self._document,
        }
        try:
            for event in events:
                if (taker := take.get(type(event))) is not None:
                    taker(event)
                    self._end = event.end_mark.index
            if not self.problems:
                self._check_root()
        except _Stop:
            return

    def _check_root(self) -> None:
        if not self._stack and self.data in (None, ""):
            self._refuse("empty-document", "the document is empty: it begins with format", None)
        elif not isinstance(self.data, dict):
            sentence = "a document is made of keys with values, such as format: recipe/1"
            self._refuse("not-a-mapping", sentence, self.places[()][1])

    def _document(self, event: Any) -> None:
        self._documents += 1
        if self._documents > 1:
            sentence = "a second document begins here: one file holds one"
            self._refuse("second-document", sentence, _first(event))
            raise _Stop

    def _alias(self, event: Any) -> None:
        start, end = event.start_mark, event.end_mark
        place = (start.line, start.column, end.line, end.column)
        self._refuse("alias", f"*{event.anchor} is an alias: write the value out", place)
        frame = self._stack[-1] if self._stack else None
        if frame is not None and frame.expects_key:
            self._key(frame, "", place)
        else:
            self._add("*", place, True)

    def _scalar(self, event: Any) -> None:
        value, style, start, end = event.value, event.style, event.start_mark, event.end_mark
        if event.anchor is not None or event.ctag is not None:
            self._report(*refusals.properties(self.text, self._end, start.index))
        place = (start.line, start.column, end.line, end.column)
        if style in _BLOCK:
            place = self._block(start, end.index)
            value = value if value.strip() else ""  # blank lines alone are no value
        elif style:
            self.shelters.append((start.index, end.index))
            if style == '"' and (problem := refusals.decoded(value, place)):
                self._report(problem)
        frame = self._stack[-1] if self._stack else None
        if frame is not None and frame.flow:
            is_key = frame.expects_key
            if problem := refusals.in_flow(self.text, style, is_key, start.index, end.index):
                self._report(problem)
        if frame is not None and frame.expects_key:
            self._check_key(frame, value, not style, place, start.index)
            self._key(frame, value, place)
        elif value or style in _QUOTES:
            if not style and (problem := refusals.number(value, place)):
                self._report(problem)
            self._add(value, place, not style)
            if frame is not None and frame.flow:
                frame.previous = (value, place)
        elif frame is not None:
            self._add("", self._no_value(frame, place), True)

    def _check_key(self, frame: _Frame, key: str, plain: bool, place: Place, start: int) -> None:
        if not key:
            self._report(refusals.missing_key(self.text, self._end, place))
        elif plain and key == "<<":
            self._refuse("merge-key", "<< is a merge key: write the values out", place)
        elif key in frame.lines:
            sentence = f'the key "{key}" stands twice: here and on line {frame.lines[key]}'
            self._refuse("duplicate-key", sentence, place)
        elif problem := refusals.question_mark(self.text, self._end, start):
            self._report(problem)

    def _no_value(self, frame: _Frame, place: Place) -> Place:
        """Refuses an empty value; the answer is the place that stands for it."""
        if frame.mapping:
            assert frame.key_place is not None
            if frame.key:  # a missing key has been refused already
                self._report(refusals.no_value(frame.key, frame.key_place, frame.previous))
            return frame.key_place
        line, column = place[:2]
        dash = (line, max(column - 1, 0), line, column)
        self._refuse("no-value", "this item has no value; write unknown if you do not know it", dash)
        return dash

    def _open_mapping(self, event: Any) -> None:
        self._open(event, {})

    def _open_sequence(self, event: Any) -> None:
        self._open(event, [])

    def _open(self, event: Any, container: Any) -> None:
        if event.anchor is not None or event.ctag is not None:
            self._report(*refusals.properties(self.text, self._end, event.start_mark.index))
        frame = self._stack[-1] if self._stack else None
        as_key = frame is not None and frame.expects_key
        if frame is not None and as_key:
            self._refuse("odd-key", "a key is one piece of text", _first(event))
            self._key(frame, "", _first(event))
        flow = bool(event.flow_style)
        self._stack.append(_Frame(container, self._path(), event.start_mark, flow, as_key))
        if len(self._stack) > DEEPEST:
            self._report(too_deep(span(_first(event))))
            raise _Stop

    def _close(self, event: Any) -> None:
        frame = self._stack.pop()
        if frame.flow:  # a block ends with its last value, but the parsers see its end where the next begins
            frame.end = (event.end_mark.line, event.end_mark.column)
        if not frame.as_key:
            self._add(frame.container, (*frame.start, *frame.end), False)

    def _path(self) -> Path:
        """The path of the value that comes next."""
        if not self._stack:
            return ()
        frame = self._stack[-1]
        return (*frame.path, frame.key if frame.mapping else len(frame.container))

    def _key(self, frame: _Frame, key: str, place: Place) -> None:
        frame.lines[key] = place[0] + 1
        frame.key, frame.key_place, frame.expects_key = key, place, False

    def _add(self, value: Any, place: Place, plain: bool) -> None:
        if not self._stack:
            self.data = value
            self.places[()] = (None, place, plain)
            return
        frame = self._stack[-1]
        if frame.mapping:
            frame.container[frame.key] = value
            self.places[(*frame.path, frame.key)] = (frame.key_place, place, plain)
            frame.expects_key = True
        else:
            self.places[(*frame.path, len(frame.container))] = (None, place, plain)
            frame.container.append(value)
        frame.end = place[2:]
        frame.previous = None
        if len(self.places) > MOST_VALUES:
            self._refuse("too-many-values", f"more than {MOST_VALUES} values are too many", place)
            raise _Stop

    def _block(self, start: Any, end: int) -> Place:
        """Notes a block text; its place leaves out the blank lines behind it, which the parsers count in."""
        header, *lines = LINE_BREAK.split(self.text[start.index : end].rstrip(" \t\r\n"))
        self.shelters.append((start.index + len(header), end))
        if problem := refusals.block(self.text, start.index, header, lines):
            self._report(problem)
        if lines:
            return start.line, start.column, start.line + len(lines), len(lines[-1])
        return start.line, start.column, start.line, start.column + len(header)

    def _refuse(self, rule: str, sentence: str, place: Place | None) -> None:
        self._report(Problem(rule, sentence, span(place) if place else START))

    def _report(self, *problems: Problem) -> None:
        self.problems += problems
        if len(self.problems) >= MOST_PROBLEMS:
            raise _Stop


def _first(event: Any) -> Place:
    """The first character of an event."""
    mark = event.start_mark
    return mark.line, mark.column, mark.line, mark.column + 1
