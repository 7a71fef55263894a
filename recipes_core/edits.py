"""Changes of a recipe as changes of its text: only what is said to change does, comments and line ends stay.

A change that would have to lay out text anew (a block text, a key that is not there) is none that is made here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from recipes_core.document import Document, read, replaced
from recipes_core.document.model import cut
from recipes_core.findings import Change, Span

_SAFE = r"[^\W_](?:[^\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff\"'\\#:,\[\]{}&*!|>@`]*[^\s\"'\\#:,\[\]{}&*!|>@`])?"
_PLAIN = re.compile(_SAFE)
"""A text that means itself in YAML wherever a value or a key may stand, with or without quotes."""
_LIST = re.compile(rf"\[{_SAFE}\]")
_QUOTES = ("'", '"')


def stretch(document: Document, change: Change) -> tuple[Span, str] | None:
    """The stretch of text that the change replaces, and what comes in its place; None where there is none.

    Quotes stay round a word that stood in them, so that it is a key or a value as before.
    """
    entry = document.spans.get(change.path)
    at = entry if entry is None else entry.key if change.key else entry.value
    if at is None:
        return None
    old = cut(document.text, at)
    if old.startswith(("|", ">")):
        return None
    if _PLAIN.fullmatch(change.text):
        quote = old[0] if old.startswith(_QUOTES) else ""
        return at, f"{quote}{change.text}{quote}"
    return (at, change.text) if _LIST.fullmatch(change.text) and not change.key else None


def edited(document: Document, changes: Iterable[Change]) -> Document | None:
    """A copy of the document with the changes made; None where one of them is no stretch of text."""
    stretches = [stretch(document, change) for change in changes]
    made = [s for s in stretches if s is not None]
    return read(replaced(document.text, made), document.name) if len(made) == len(stretches) else None
