"""What makes a document unusable: all problems that one pass finds, each with its place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from recipes_core.errors import DataError
from recipes_core.findings import Span

START = Span(1, 1, 1, 1)


@dataclass(frozen=True)
class Problem:
    """One refusal: the name of the broken rule, one sentence, the place."""

    rule: str
    sentence: str
    span: Span


class DocumentError(DataError):
    """The text is not a document that meltbook reads. ``problems`` stand in the order of the text."""

    def __init__(self, problems: Iterable[Problem], file: str = "") -> None:
        self.problems = tuple(sorted(problems, key=lambda problem: problem.span))
        super().__init__(self.problems[0].sentence, self.problems[0].span, file)

    def __reduce__(self) -> tuple[type[DocumentError], tuple[tuple[Problem, ...], str]]:
        """As one process hands it to another."""
        return type(self), (self.problems, self.file)
