"""One data sheet, and how it is read: cheaply at first, each value in full when it is asked for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from recipes_core.errors import DataError
from recipes_core.facts import Given, Open, Origin, Source, missing
from recipes_core.findings import Path
from recipes_core.provenance import Citation, ProvenanceError, Sourced, citation, nearest, sourced
from recipes_core.sheets.measures import MeasureError, Words, ends, read, read_number, read_table
from recipes_core.sheets.properties import PROPERTIES, Property

if TYPE_CHECKING:
    from datetime import date

    from recipes_core.document import Document

ALWAYS = ("format", "id", "name", "values")
"""What stands at the head of every sheet."""
HEAD: Mapping[str, tuple[str, ...]] = {
    "resin": (*ALWAYS, "symbol", "kind", "family"),
    "liner": ALWAYS,
    "material": ALWAYS,
}
"""Kind of sheet → what stands at its head. A resin's own ``kind`` is semicrystalline or amorphous."""

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@dataclass(frozen=True)
class Sheet:
    """One data sheet. ``what`` is resin, liner or material; names of values are those of
    `recipes_core.sheets.properties`.

    A value that depends on a grade, a finish or another resin is asked for with it: ``consistency, bottle``.
    """

    document: Document
    what: str
    id: str
    name: str
    _known: dict[str, Given | Open] = field(default_factory=dict, init=False, compare=False, repr=False)

    def get(self, name: str) -> Given | Open:
        """A value in SI, open where the sheet gives none.

        A number, a (low, high) range, a text, a tuple of texts, or for a curve the pair (temperatures in K,
        values). What stands at the head of the sheet (``id``, ``family``) is a value too. Raises DataError
        for an entry that cannot be read, LookupError for a name that no sheet knows.
        """
        if name not in self._known:  # rules ask for the same few values again and again
            self._known[name] = self._read(name)
        return self._known[name]

    def _read(self, name: str) -> Given | Open:
        if name in HEAD[self.what]:
            return self._head(name)
        found = self.find(name)
        if found is None:
            return self._nothing(name)
        path, prop, entry = found
        try:
            if entry.table:
                lines = list(entry.table)
                words = f"{len(lines)} points, {lines[0]} to {lines[-1]}"
                return self._given(name, read_table(entry.table, prop.measure, prop.over), words, entry)
            words = entry.value if isinstance(entry.value, str) else ", ".join(entry.value)
            return self._given(name, read(entry.value, prop.measure), words, entry)
        except MeasureError as error:
            raise self.error((*path, "table" if entry.table else "value"), str(error)) from None

    def range(self, name: str) -> Given | Open:
        """The (low, high) range of a number in SI; the value itself at both ends where no range is stated.

        Raises as ``get`` does, and LookupError for a text or a table.
        """
        found = self.find(name)
        if found is None:
            return self._nothing(name)
        path, prop, entry = found
        if isinstance(prop.measure, Words) or prop.table:
            raise LookupError(f"{name} has no range")
        key, words = ("range", entry.range) if entry.range else ("value", entry.value)
        try:
            return self._given(name, ends(read_number(words, prop.measure)), str(words), entry)
        except MeasureError as error:
            raise self.error((*path, key), str(error)) from None

    def find(self, name: str) -> tuple[Path, Property, Sourced] | None:
        """Where a value stands, what it measures, and how it is known; None where the sheet gives none."""
        base, _, case = name.partition(", ")
        prop = PROPERTIES.get(base)
        if prop is None:
            raise LookupError(f'no sheet has a value "{base}"{nearest(base, PROPERTIES)}')
        path: Path = ("values", base)
        data = self.values.get(base)
        if isinstance(data, Mapping) and "by" in data:
            path, data = (*path, "by", case), _map(data["by"]).get(case)
        if data is None:
            return None
        try:
            return path, prop, sourced(data, path, self.sources)
        except ProvenanceError as error:
            raise self.error(error.path, error.sentence) from None

    def names(self) -> Iterator[str]:
        """The names of all values of this sheet, in its own order."""
        for name, data in self.values.items():
            if isinstance(data, Mapping) and "by" in data:
                yield from (f"{name}, {case}" for case in _map(data["by"]))
            else:
                yield name

    def citation(self, source: str) -> Citation:
        """One of the sheet's sources. Raises DataError where the sheet does not list it in full."""
        path: Path = ("sources", source)
        try:
            return citation(self.sources.get(source), path)
        except ProvenanceError as error:
            raise self.error(error.path, error.sentence) from None

    def problems(self, today: date) -> tuple[DataError, ...]:
        """Everything wrong with the sheet, read in full: for drop-in sheets and tests, not for every run."""
        from recipes_core.sheets.check import problems

        return problems(self, today)

    @property
    def tightens(self) -> str:
        """The id of the resin whose limits this sheet narrows; empty for a sheet of its own."""
        named = self.document.data.get("tightens") if self.what == "resin" else None
        return named if isinstance(named, str) else ""

    @property
    def values(self) -> Mapping[str, Any]:
        """The entries as they were read, by name."""
        return _map(self.document.data.get("values"))

    @property
    def sources(self) -> Mapping[str, Any]:
        """The sources as they were read, by key."""
        return _map(self.document.data.get("sources"))

    def error(self, path: Path, sentence: str) -> DataError:
        """An error at a place of this sheet."""
        return DataError(sentence, self.document.span(path), self.document.name)

    def _head(self, name: str) -> Given | Open:
        words = self.document.data.get(name)
        if not isinstance(words, str) or not words:
            return self._nothing(name)
        return Given(words, words, Origin(Source.SHEET, f"{self.id} sheet: {name}"))

    def _given(self, name: str, value: Any, words: str, entry: Sourced) -> Given:
        return Given(value, words, Origin(Source.SHEET, f"{self.id} sheet: {name}", basis=entry.basis))

    def _nothing(self, name: str) -> Open:
        return missing((f"{self.what} sheet", self.id, name), f"the data sheet of {self.id} gives no {name}")


def load_sheet(document: Document) -> Sheet:
    """The sheet in a document. Only its head is looked at; values are read, and checked, when they are asked
    for.

    Raises DataError when the document is no sheet, or has no usable id or name.
    """

    def refuse(key: str, sentence: str) -> DataError:
        return DataError(sentence, document.span((key,) if key in _map(document.data) else ()), document.name)

    data = _map(document.data)
    what, _, version = str(data.get("format", "")).partition("/")
    if what not in HEAD:
        raise refuse("format", f"the format of a data sheet is one of {', '.join(f'{kind}/1' for kind in HEAD)}")
    if version.partition(".")[0] != "1":
        raise refuse("format", f"{data['format']} is not a format this program reads: {what}/1 is")
    id_, name = data.get("id"), data.get("name")
    if not isinstance(id_, str) or not _ID.fullmatch(id_):
        raise refuse("id", "a sheet needs an id of small letters, digits and single hyphens")
    if not isinstance(name, str) or not name:
        raise refuse("name", "a sheet needs a name: what people call it")
    return Sheet(document, what, id_, name)


def _map(data: object) -> Mapping[str, Any]:
    return data if isinstance(data, Mapping) else {}
