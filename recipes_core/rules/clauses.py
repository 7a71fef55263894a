"""Free words, cut into the clauses that can tell somebody to do something, or not to."""

from __future__ import annotations

import re
from collections.abc import Iterator

_NEGATED = re.compile(r"\b(?:never|no|not|nobody|nor|without|cannot|unless|before|instead)\b|n't\b")
_SUPPOSED = re.compile(r"\bif\b")
_SENTENCE = re.compile(r"[.;!?]+|\n(?=\s*(?:[-*•0-9A-Z]|\n))")
"""A line that goes on in small letters goes on with its sentence."""
_CLAUSE = re.compile(r":|\(|\)|\bbut\b|\bthen\b|,\s*and\b", re.IGNORECASE)


def sentences(text: str) -> list[str]:
    """The sentences of a text, in the author's words."""
    return _SENTENCE.split(text)


def clauses(sentence: str) -> Iterator[tuple[str, str]]:
    """Each clause as it is to be quoted, and in small letters as it is to be searched."""
    for clause in _CLAUSE.split(sentence):
        quoted = " ".join(clause.split()).strip(" ,")
        yield quoted, " ".join(clause.lower().replace("’", "'").split())


def negated(before: str, *, supposed: bool = True) -> bool:
    """Whether what stands before a verb turns it round, in its own part of the clause or in a list with "or".

    An "if" turns it round too, but not where the verb is what to do then: ``supposed=False``.
    """
    own = before if re.search(r"\b(?:or|nor)\b", before) else before.rpartition(",")[2]
    return bool(_NEGATED.search(own) or (supposed and _SUPPOSED.search(own)))
