"""A document that has been read: plain data, and where each key and value of it stands."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from recipes_core.findings import Path, Span

LINE_BREAK = re.compile(r"\r\n|\r|\n")

Place = tuple[int, int, int, int]
"""Line and column of the start and of the end, counted from 0 as the parsers do."""

Places = dict[Path, tuple[Place | None, Place, bool]]
"""Path → the place of the key, that of the value, whether the value is a plain scalar."""


@dataclass(frozen=True)
class Entry:
    """Where one value stands, and its key if it has one. ``plain`` is a scalar that stands without quotes."""

    key: Span | None
    value: Span
    plain: bool


class Spans(Mapping[Path, Entry]):
    """Path → Entry. Most places are never asked for, so an entry is made when it is."""

    def __init__(self, places: Places) -> None:
        self._places = places

    def __getitem__(self, path: Path) -> Entry:
        key, value, plain = self._places[path]
        return Entry(span(key) if key else None, span(value), plain)

    def __contains__(self, path: object) -> bool:
        return path in self._places

    def __iter__(self) -> Iterator[Path]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._places)


@dataclass(frozen=True)
class Document:
    """One YAML document. ``data`` holds dicts, lists and texts only: each field decides how its text is read.

    ``text`` is the source without a byte order mark; ``sha256`` is that of the bytes as they came.
    """

    name: str
    text: str
    data: dict[str, Any]
    spans: Mapping[Path, Entry]
    sha256: str

    def span(self, path: Path) -> Span:
        """The place of the value at ``path``, else of the nearest parent that exists."""
        while path not in self.spans:
            path = path[:-1]
        return self.spans[path].value

    def key_span(self, path: Path) -> Span:
        """The place of the key at ``path``; of the value where there is no key (items of a list)."""
        entry = self.spans.get(path)
        return entry.key if entry is not None and entry.key is not None else self.span(path)

    def literal(self, path: Path) -> str:
        """The source text of the value at ``path`` as the author wrote it. KeyError if absent."""
        return cut(self.text, self.spans[path].value)


def cut(text: str, at: Span) -> str:
    """The stretch of ``text`` that ``at`` marks."""
    start, end = _offsets(_line_starts(text), at)
    return text[start:end]


def replaced(text: str, changes: Iterable[tuple[Span, str]]) -> str:
    """``text`` with each of the stretches marked replaced; they must not overlap."""
    starts, kept, done = _line_starts(text), [], 0
    for at, new in sorted(changes):
        start, end = _offsets(starts, at)
        kept += [text[done:start], new]
        done = end
    return "".join([*kept, text[done:]])


@lru_cache(maxsize=2)  # one text is asked for thousands of its stretches
def _line_starts(text: str) -> tuple[int, ...]:
    return (0, *(line.end() for line in LINE_BREAK.finditer(text)))


def _offsets(starts: tuple[int, ...], at: Span) -> tuple[int, int]:
    return starts[at.line - 1] + at.column - 1, starts[at.end_line - 1] + at.end_column - 1


def span(place: Place) -> Span:
    """A place as a span, which counts from 1."""
    line, column, end_line, end_column = place
    return Span(line + 1, column + 1, end_line + 1, end_column + 1)


def span_of(text: str, start: int, end: int) -> Span:
    """The span from offset ``start`` up to offset ``end``."""
    line, column = _place(text, start)
    end_line, end_column = _place(text, end)
    return Span(line, column, end_line, end_column)


def _place(text: str, offset: int) -> tuple[int, int]:
    line, start = 1, 0
    for match in LINE_BREAK.finditer(text, 0, offset):
        line, start = line + 1, match.end()
    return line, offset - start + 1
