"""How a number of a data sheet is known: its basis, its source, the place in it, and what was not taken."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from recipes_core.facts import Basis
from recipes_core.findings import Path

SEEN = ("text", "abstract", "secondary")
_ENTRY = ("value", "table", "range", "basis", "source", "locator", "from", "note", "alternatives")
_ALTERNATIVE = ("value", "range", "basis", "source", "locator", "from", "note", "instead")


class ProvenanceError(ValueError):
    """An entry that does not say how it is known; ``path`` is the place inside the sheet."""

    def __init__(self, path: Path, sentence: str) -> None:
        super().__init__(sentence)
        self.path = path
        self.sentence = sentence


@dataclass(frozen=True)
class Citation:
    """A document that was consulted: how to cite it, how much of it was seen, and when."""

    cite: str
    seen: str
    checked: date


@dataclass(frozen=True)
class Sourced:
    """A value in its own words and how it is known. Just one of ``value`` and ``table`` says something.

    ``source`` is a key of the sheet's sources; ``derived_from`` says what a derived value was worked out
    from; ``alternatives`` are values that were not taken, each with its reason in ``instead``.
    """

    value: str | tuple[str, ...]
    table: Mapping[str, str]
    range: str
    basis: Basis
    source: str = ""
    locator: str = ""
    derived_from: tuple[str, ...] = ()
    note: str = ""
    instead: str = ""
    alternatives: tuple[Sourced, ...] = ()


def citation(data: object, path: Path) -> Citation:
    """Read one of the sheet's sources. Raises ProvenanceError."""
    fields = _fields(data, path, ("cite", "seen", "checked"))
    for name in ("cite", "seen", "checked"):
        if not fields.get(name):
            raise ProvenanceError(path, f"this source does not say {name}")
    if fields["seen"] not in SEEN:
        raise ProvenanceError((*path, "seen"), f"seen is one of {', '.join(SEEN)}")
    try:
        checked = date.fromisoformat(_text(fields["checked"], (*path, "checked")))
    except ValueError:
        raise ProvenanceError((*path, "checked"), "write the date as 2026-11-25") from None
    return Citation(_text(fields["cite"], (*path, "cite")), str(fields["seen"]), checked)


def sourced(data: object, path: Path, sources: Mapping[str, object]) -> Sourced:
    """Read one entry. Raises ProvenanceError where it leaves out how it is known."""
    entry = _sourced(data, path, sources, _ENTRY)
    if bool(entry.value) == bool(entry.table):
        raise ProvenanceError(path, "write either a value or a table")
    return entry


def _sourced(data: object, path: Path, sources: Mapping[str, object], allowed: tuple[str, ...]) -> Sourced:
    fields = _fields(data, path, allowed)
    basis = _basis(fields, path)
    for name, needed in (
        ("value", "instead" in allowed),
        ("source", basis is Basis.PUBLISHED),
        ("locator", basis is Basis.PUBLISHED),
        ("from", basis is Basis.DERIVED),
        ("note", basis is Basis.JUDGEMENT),
        ("instead", "instead" in allowed),
    ):
        if needed and not fields.get(name):
            kind = "alternative" if name in ("value", "instead") else f"{basis} value"
            raise ProvenanceError(path, f"this {kind} needs {_NEED[name]}")
    source = _text(fields.get("source", ""), (*path, "source"))
    if source and source not in sources:
        raise ProvenanceError((*path, "source"), f'the sheet lists no source "{source}"{nearest(source, sources)}')
    others = fields.get("alternatives", [])
    if not isinstance(others, list):
        raise ProvenanceError((*path, "alternatives"), "alternatives are a list")
    return Sourced(
        _words(fields.get("value", ""), (*path, "value")),
        {k: _text(v, (*path, "table", k)) for k, v in _map(fields.get("table", {}), (*path, "table")).items()},
        _text(fields.get("range", ""), (*path, "range")),
        basis,
        source,
        _text(fields.get("locator", ""), (*path, "locator")),
        _listed(fields.get("from", []), (*path, "from")),
        _text(fields.get("note", ""), (*path, "note")),
        _text(fields.get("instead", ""), (*path, "instead")),
        tuple(_sourced(other, (*path, "alternatives", at), sources, _ALTERNATIVE) for at, other in enumerate(others)),
    )


_NEED: Mapping[str, str] = {
    "value": "a value",
    "source": "a source",
    "locator": "a locator: the table, page or section of its source",
    "from": "from: what it was worked out from",
    "note": "a note that gives the reason",
    "instead": "instead: why the chosen one was taken",
}


def _basis(fields: Mapping[str, Any], path: Path) -> Basis:
    words = _text(fields.get("basis", ""), (*path, "basis"))
    if not words:
        raise ProvenanceError(path, f"basis is missing: one of {', '.join(Basis)}")
    try:
        return Basis(words)
    except ValueError:
        near = nearest(words, tuple(Basis))
        raise ProvenanceError((*path, "basis"), f'"{words}" is no basis: one of {", ".join(Basis)}{near}') from None


def _fields(data: object, path: Path, allowed: tuple[str, ...]) -> Mapping[str, Any]:
    fields = _map(data, path)
    for name in fields:
        if name not in allowed:
            raise ProvenanceError((*path, name), f'"{name}" is not known here{nearest(name, allowed)}')
    return fields


def _map(data: object, path: Path) -> Mapping[str, Any]:
    if not isinstance(data, Mapping):
        raise ProvenanceError(path, "names with values belong here, such as basis: published")
    return data


def _text(data: object, path: Path) -> str:
    if not isinstance(data, str):
        raise ProvenanceError(path, "one plain value belongs here")
    return data


def _listed(data: object, path: Path) -> tuple[str, ...]:
    items = data if isinstance(data, list) else [data]
    return tuple(_text(item, (*path, at)) for at, item in enumerate(items))


def _words(data: object, path: Path) -> str | tuple[str, ...]:
    return _listed(data, path) if isinstance(data, list) else _text(data, path)


def nearest(name: str, known: Iterable[str]) -> str:
    """``; did you mean "..."?`` with the nearest of the known names, or nothing."""
    from difflib import get_close_matches  # only a mistake pays for this import

    found = get_close_matches(name, list(known), n=1, cutoff=0.6)
    return f'; did you mean "{found[0]}"?' if found else ""
