"""Reading a document: a strict subset of YAML 1.2, once, into plain data and the place of each value.

Every scalar becomes text; what it means is decided by the field that holds it. So ``revision: 1.10`` keeps
its zero, and ``no``, ``012`` and ``12:30`` are texts.
"""

from __future__ import annotations

import hashlib
import os

from recipes_core.document.builder import MOST_PROBLEMS, Builder
from recipes_core.document.events import SyntaxProblem, events
from recipes_core.document.model import LINE_BREAK, Document, Entry, Spans, replaced
from recipes_core.document.problems import DocumentError, Problem
from recipes_core.document.source import LARGEST, decode, refuse_text
from recipes_core.document.tabs import refuse_tabs
from recipes_core.errors import DataError

__all__ = ["LINE_BREAK", "Document", "DocumentError", "Entry", "Problem", "read", "read_file", "replaced"]


def read(source: bytes | str, name: str = "", *, stream: str | None = None) -> Document:
    """Read one document. Raises DocumentError with every problem that was found.

    ``stream`` names the parser: "c", "pure", or None for C where it is installed. Both give the same answers.
    """
    raw = source.encode("utf-8", "surrogatepass") if isinstance(source, str) else source
    text = decode(raw, name)
    problems = refuse_text(text)
    if not problems and "\t" in text:
        spaced, problems = _build(text.replace("\t", " "), stream)
        problems += refuse_tabs(text, spaced.shelters, MOST_PROBLEMS)
    if not problems:
        built, problems = _build(text, stream)
    if problems:
        raise DocumentError(problems, name)
    return Document(name, text, built.data, Spans(built.places), hashlib.sha256(raw).hexdigest())


def read_file(path: str | os.PathLike[str]) -> Document:
    """Read the document in a file, but no more of it than the limit. Raises DataError or DocumentError."""
    name = os.fspath(path)
    try:
        with open(name, "rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as error:
        raise DataError(f"the file cannot be read: {error.strerror}", file=name) from None
    return read(raw, name)


def _build(text: str, stream: str | None) -> tuple[Builder, list[Problem]]:
    builder = Builder(text)
    problems = builder.problems
    try:
        builder.build(events(text, stream))
    except SyntaxProblem as error:
        problems.append(error.problem)
    return builder, problems
