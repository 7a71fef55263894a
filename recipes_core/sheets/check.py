"""Reads a whole data sheet and says everything that is wrong with it: for drop-in sheets, and for tests."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from recipes_core.errors import DataError
from recipes_core.findings import Path
from recipes_core.provenance import Sourced, nearest
from recipes_core.quantities import Dimension
from recipes_core.sheets.measures import MeasureError, Plain, Words, ends, read_number
from recipes_core.sheets.properties import PROPERTIES
from recipes_core.sheets.sheet import ALWAYS, HEAD, Sheet
from recipes_core.sheets.tighten import problems as tightening

_KINDS = ("semicrystalline", "amorphous", "unknown")


def problems(sheet: Sheet, today: date) -> tuple[DataError, ...]:
    """Everything wrong with the sheet, at most one error for each entry and source."""
    return (*_head(sheet), *_values(sheet), *_sources(sheet, today))


def _head(sheet: Sheet) -> Iterator[DataError]:
    data, head = sheet.document.data, HEAD[sheet.what]
    if sheet.tightens:
        head = (*ALWAYS, "tightens")
        yield from tightening(sheet)
    for key in data:
        if key not in (*head, "sources") and not key.startswith("x-"):
            yield sheet.error((key,), f'"{key}" is not known here{nearest(key, (*head, "sources", "tightens"))}')
    for key in head:
        if not data.get(key):
            yield sheet.error((), f"the sheet does not say {key}")
    if "kind" in head and data.get("kind") not in (*_KINDS, None):
        yield sheet.error(("kind",), f"kind is {', '.join(_KINDS[:-1])} or {_KINDS[-1]}")


def _values(sheet: Sheet) -> Iterator[DataError]:
    for name in sheet.names():
        try:
            _value(sheet, name)
        except DataError as error:
            yield error


def _value(sheet: Sheet, name: str) -> None:
    """One entry, read in full: value, range and alternatives, against each other."""
    base, _, case = name.partition(", ")
    if base not in PROPERTIES or sheet.what not in PROPERTIES[base].sheets:
        fitting = [known for known, prop in PROPERTIES.items() if sheet.what in prop.sheets]
        raise sheet.error(("values", base), f'"{base}" is no value of a {sheet.what} sheet{nearest(base, fitting)}')
    found = sheet.find(name)
    if found is None:
        raise sheet.error(("values", base), f"{name} is empty")
    path, prop, entry = found
    if case and not prop.by:
        raise sheet.error((*path[:2], "by"), f"{base} does not depend on anything")
    if bool(entry.table) != prop.table:
        raise sheet.error(path, f"{name} is {f'a table over {prop.over}' if prop.table else 'one value'}")
    sheet.get(name)
    if not isinstance(prop.measure, Words):
        _spread(sheet, entry, prop.measure, path)
        for at, other in enumerate(entry.alternatives):
            _spread(sheet, other, prop.measure, (*path, "alternatives", at))


def _spread(sheet: Sheet, entry: Sourced, measure: Dimension | Plain, path: Path) -> None:
    """The range has two ends and holds the value."""
    key = "value"
    try:
        if entry.value:
            inner = ends(read_number(entry.value, measure))
        if not entry.range:
            return
        key = "range"
        if entry.table:
            raise MeasureError("a table has no range")
        outer = read_number(entry.range, measure)
        if not isinstance(outer, tuple):
            raise MeasureError("write the lower and the upper end, such as 5 - 7 mm")
        if not outer[0] <= inner[0] <= inner[1] <= outer[1]:
            raise MeasureError("the value lies outside this range")
    except MeasureError as error:
        raise sheet.error((*path, key), str(error)) from None


def _sources(sheet: Sheet, today: date) -> Iterator[DataError]:
    used = set(_named(sheet.values))
    for source in sheet.sources:
        try:
            checked = sheet.citation(source).checked
        except DataError as error:
            yield error
            continue
        if checked > today:
            yield sheet.error(("sources", source, "checked"), "this day is still to come")
        if source not in used:
            yield sheet.error(("sources", source), "no value names this source")


def _named(data: object) -> Iterator[str]:
    """Every text under a key ``source``, wherever it stands."""
    if isinstance(data, list):
        for item in data:
            yield from _named(item)
    elif isinstance(data, Mapping):
        for key, item in data.items():
            if key == "source" and isinstance(item, str):
                yield item
            else:
                yield from _named(item)
