"""A library's own sheet that ``tightens`` a shipped resin: its limits count where they are the stricter ones."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from recipes_core.errors import DataError
from recipes_core.facts import Given
from recipes_core.sheets.measures import ends

if TYPE_CHECKING:
    from recipes_core.sheets.sheet import Sheet

LOWER, HIGHER = "lower", "higher"
STRICTER: Mapping[str, str] = MappingProxyType({
    **dict.fromkeys((
        "oven-air cap", "bending line", "surface ceiling", "window high", "ageing reserve", "ageing limit",
        "most melts", "demould temperature", "demould temperature flat", "pressure high", "forming top", "bend set",
        "bend strain", "whitening line", "whitening time", "softening temperature", "planing cut", "machining high",
        "moisture limit", "bending moisture", "drying high", "stays dry",
    ), LOWER),
    **dict.fromkeys((
        "window low", "window foot", "pressure foot", "pressure low", "forming foot", "cold bend", "machining low",
        "drying low", "drying time",
    ), HIGHER),
})  # fmt: skip
"""The values that are limits, and which way each is stricter; nothing else can be tightened."""


def problems(sheet: Sheet) -> Iterator[DataError]:
    """What a tightening sheet says that is no limit: it may narrow a shipped sheet and change nothing of it."""
    for name in sheet.names():
        base = name.partition(", ")[0]
        if base not in STRICTER:
            yield sheet.error(
                ("values", base), f"{base} is no limit, and a sheet that tightens another gives limits only"
            )


def tightened(base: Sheet, by: Sheet) -> Sheet:
    """``base`` with those limits of ``by`` that are stricter than its own, or that it does not have."""
    values: dict[str, Any] = dict(base.values)
    for name in by.names():
        if _stricter(name, base, by):
            values[name] = by.values[name]
    sources = {**base.sources, **by.sources}
    data = {**base.document.data, "values": values, "sources": sources}
    return replace(base, document=replace(base.document, data=data))


def _stricter(name: str, base: Sheet, by: Sheet) -> bool:
    theirs, own = base.get(name), by.get(name)
    if not isinstance(own, Given):
        return False
    if not isinstance(theirs, Given):
        return True
    if STRICTER[name] == LOWER:
        return ends(own.value)[0] < ends(theirs.value)[0]
    return ends(own.value)[1] > ends(theirs.value)[1]
