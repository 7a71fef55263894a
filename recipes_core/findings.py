"""Findings: the frozen values that judgement produces and that reports see.

Levels and kinds carry the names of SARIF 2.1.0 (OASIS), so that a report can hand them on unchanged.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

Path = tuple[str | int, ...]


class Level(StrEnum):
    """How much a finding weighs. An error stops the recipe, a warning asks a person to act."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class Kind(StrEnum):
    """What a check came to. OPEN means that a value is missing: it is never counted as passed."""

    FAIL = "fail"
    OPEN = "open"
    REVIEW = "review"
    PASS = "pass"
    NOT_APPLICABLE = "notApplicable"
    INFORMATIONAL = "informational"


@dataclass(frozen=True, order=True)
class Span:
    """A stretch of text. Lines and columns count from 1, in code points; the end is exclusive."""

    line: int
    column: int
    end_line: int
    end_column: int


@dataclass(frozen=True)
class Change:
    """One edit of a recipe: the value at ``path``, or the ``key`` itself, becomes ``text``."""

    path: Path
    text: str
    key: bool = False


@dataclass(frozen=True)
class Way:
    """One way out of a finding: its edits, applied together, remove it; ``words`` say it to a person."""

    words: str
    changes: tuple[Change, ...]


@dataclass(frozen=True)
class Finding:
    """One result of one check at one place, complete enough to be read without its rule.

    ``found``, ``limit`` and ``margin`` are ready for display, in both unit systems where that helps.
    ``origins`` says where each input came from; ``basis`` how the limit is known.
    ``advice`` offers ways out that were tried: each removes the finding and adds no error.
    """

    rule: str
    level: Level
    kind: Kind
    message: str
    file: str = ""
    path: Path = ()
    span: Span | None = None
    found: str = ""
    limit: str = ""
    margin: str = ""
    why: str = ""
    do: str = ""
    origins: tuple[str, ...] = ()
    basis: str = ""
    sources: tuple[str, ...] = ()
    absolute: bool = False
    advice: tuple[Way, ...] = ()
