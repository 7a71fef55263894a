"""Mending what is certain in a recipe: how its units are spelt, and keys that can only be slips for others.

Nothing else is touched: no value, no comment, no order, no line end. Whatever else stands against a recipe is for its
author to change.
"""

from __future__ import annotations

import copy
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

from recipes_core.document import Document
from recipes_core.edits import edited, stretch
from recipes_core.findings import Change
from recipes_core.schema import check
from recipes_core.schema.compose import Schemas
from recipes_core.schema.fields import field
from recipes_core.schema.respell import respelled

MOST_TURNS = 5
"""A key that is mended shows what is below it; the deepest group of a recipe is not deeper."""

_LEFT_ALONE = frozenset(
    {"format-missing", "format-not-read", "format-too-new", "format-of-another-kind", "format-newer"}
)
"""In a format that is not quite ours a key may be right, and a word may mean something else."""


def mended(document: Document, schemas: Schemas) -> Document:
    """The document with what is certain mended; the very same one where there is nothing to mend."""
    for _ in range(MOST_TURNS):
        changes = _certain(document, schemas)
        after = edited(document, changes) if changes else None
        if after is None or after.data != _changed(document.data, changes):
            break  # an edit that says more than it should is not made, and neither are its neighbours
        document = after
    return document


def _certain(document: Document, schemas: Schemas) -> list[Change]:
    found = check(document, schemas)
    if any(f.rule in _LEFT_ALONE for f in found):
        return []
    slips = [change for f in found for way in f.advice for change in way.changes if change.key]
    claims = Counter((change.path[:-1], change.text) for change in slips)
    keys = [c for c in slips if claims[c.path[:-1], c.text] == 1]  # of two slips for one key either may be meant
    return [change for change in (*_spellings(document, schemas), *keys) if stretch(document, change) is not None]


def _spellings(document: Document, schemas: Schemas) -> Iterator[Change]:
    """A change for each quantity whose unit is spelt in another way than meltbook's."""
    for path in document.spans:
        value: Any = document.data
        process = None
        for at, part in enumerate(path):
            value = value[part]
            if at == 1 and path[0] == "procedure" and isinstance(value, dict):
                process = value.get("process")
        if not isinstance(value, str):
            continue
        try:
            about = field(path, process if isinstance(process, str) else None, schemas)
        except LookupError:  # a key of the author's own, or one that nobody knows
            continue
        if about.dimension is not None:
            text = respelled(value, about.dimension, about.forms, about.zero)
            if text is not None and text != value:
                yield Change(path, text)


def _changed(data: dict[str, Any], changes: Iterable[Change]) -> dict[str, Any]:
    """A copy of the data with the changes made: what a reader of the mended text must find."""
    data = copy.deepcopy(data)
    for change in sorted(changes, key=lambda c: (c.key, -len(c.path))):  # values by their old paths, keys from below
        group: Any = data
        for part in change.path[:-1]:
            group = group[part]
        if change.key:
            group[change.text] = group.pop(change.path[-1])
        else:
            group[change.path[-1]] = change.text
    return data
