"""Invented plastics for the tests: polyethylene as it is shipped, but with other water and other drying.

What a rule does with a plastic that takes up water, or with a table of a sheet, must not hang on the numbers of
one shipped sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from recipes_core.case import Library
from recipes_core.sheets import Sheet
from recipes_core.shelf import Shelf


def _memory(**values: str) -> dict[str, Any]:
    return {name.replace("_", " "): {"value": value, "basis": "memory"} for name, value in values.items()}


_OVEN = _memory(drying_low="50 °C", drying_high="70 °C", softening_temperature="80 °C")
_BED = _memory(bulk_density="330 kg/m³", density_solid="950 kg/m³", melting_peak="130 °C")
_LIMIT = _memory(moisture_limit="0.2 %")

TRIALS: Mapping[str, Mapping[str, Any]] = {
    "trial-surface": {
        **_OVEN,
        **_BED,
        **_LIMIT,
        **_memory(takes_up_water="no"),
        "drying time": {"value": "90 min", "range": "1 - 2 h", "basis": "memory"},
    },
    "trial-thirsty": {
        **_OVEN,
        **_BED,
        **_LIMIT,
        **_memory(takes_up_water="yes", moisture="proved", bending_moisture="0.4 %", stays_dry="30 min"),
        "drying time": {"value": "4 h", "range": "4 - 6 h", "basis": "memory"},
    },
    "trial-polycarbonate": {
        **_memory(takes_up_water="yes", moisture_limit="0.02 %", bending_moisture="0.05 %", moisture="proved"),
        **_memory(drying_low="80 °C", drying_high="125 °C", softening_temperature="138 °C"),
        "family": "polycarbonate",
        "sheet drying temperature": {"value": "125 °C", "basis": "memory"},
        "sheet drying time": {
            "table": {
                "1 mm": "1.5 h", "2 mm": "4 h", "3 mm": "7 h", "4 mm": "12 h", "5 mm": "18 h", "6 mm": "26 h",
                "8 mm": "45 h",
            },
            "basis": "memory",
        },
        "sheet drying square": {"value": "0.8 h/mm²", "basis": "memory"},
        "sheet drying energy": {"value": "25 kJ/mol", "basis": "memory"},
    },
    "trial-soft": _memory(softening_temperature="60 °C", takes_up_water="no"),
    "trial-vinyl": {"family": "chlorinated"},
    "trial-acetal": {"family": "acetal"},
}  # fmt: skip
"""The last table is that of a polycarbonate sheet maker's guide (125 °C, film off, 20-30 mm apart)."""


def made_from(sheet: Sheet, name: str, values: Mapping[str, Any]) -> Sheet:
    """A sheet of another name with some values of its own; a text is an entry of the head."""
    head = {key: value for key, value in values.items() if isinstance(value, str)}
    own = {key: value for key, value in values.items() if key not in head and value is not None}
    kept = {key: value for key, value in sheet.values.items() if key not in values and "drying" not in key}
    data = {**sheet.document.data, "id": name, **head, "values": {**kept, **own}}
    return replace(sheet, id=name, name=name, document=replace(sheet.document, data=data))


def stocked(shelf: Shelf, more: Mapping[str, Mapping[str, Any]] | None = None) -> Shelf:
    """The shelf with the trial plastics beside those that are shipped."""
    shipped = shelf.library.resins
    made = {name: made_from(shipped["hdpe"], name, values) for name, values in {**TRIALS, **(more or {})}.items()}
    resins = {**{name: shipped[name] for name in shipped}, **made}
    liners = {name: _letting_go(shelf.library.liners[name], made) for name in shelf.library.liners}
    return replace(shelf, library=Library(resins, liners, shelf.library.materials))


def _letting_go(liner: Sheet, resins: Iterable[str]) -> Sheet:
    """A liner that does with the trial plastics as it does with polyethylene."""
    values = {
        name: {**entry, "value": [*entry["value"], *resins]} if "hdpe" in entry.get("value", ()) else entry
        for name, entry in liner.values.items()
    }
    return replace(liner, document=replace(liner.document, data={**liner.document.data, "values": values}))
