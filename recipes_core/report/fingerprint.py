"""Names of findings that outlive an edit: by the ids of steps and the names of lots, not by lines and numbers.

So a report of today can be held against one of last week, although somebody wrote a comment above or moved a key.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from typing import Any

from recipes_core.document import Document, DocumentError, read
from recipes_core.findings import Finding, Kind, Path

_NAMES = ("id", "lot")
_LINE = re.compile(r"\bline [0-9]+")


def document_of(text: str, name: str = "") -> Document | None:
    """The document, or None where it cannot be read."""
    try:
        return read(text, name)
    except DocumentError:
        return None


def data_of(text: str) -> Any:
    """The data of a document, or nothing where it cannot be read."""
    document = document_of(text)
    return document.data if document else {}


def steady(path: Path, data: Any) -> tuple[str, ...]:
    """The path with the name of a step, a lot or a word of a list in the place of its index, where it has one."""
    names = []
    for part in path:
        data = _inside(data, part)
        names.append(_name(data) or str(part) if isinstance(part, int) else part)
    return tuple(names)


def fingerprints(findings: Iterable[Finding], data: Any) -> Iterator[str]:
    """One for each finding, from its rule, its steady path and what was found; a second of the same gets a number."""
    seen: dict[str, int] = {}
    for f in findings:
        said = f.message if f.kind is Kind.REVIEW or not f.path else ""
        parts = (f.rule, *steady(f.path, data), f.found or _LINE.sub("line", said))
        key = hashlib.sha256("\0".join(parts).encode("utf-8", "surrogatepass")).hexdigest()[:32]
        seen[key] = seen.get(key, 0) + 1
        yield key if seen[key] == 1 else f"{key}-{seen[key]}"


def _inside(data: Any, part: str | int) -> Any:
    if isinstance(data, dict):
        return data.get(part)
    return data[part] if isinstance(data, list) and isinstance(part, int) and part < len(data) else None


def _name(item: Any) -> str:
    if isinstance(item, dict):
        return next((item[key] for key in _NAMES if isinstance(item.get(key), str)), "")
    return item if isinstance(item, str) else ""
