"""The resolution at which quantities are shown and compared: one table.

Every row is a judgement (ours): fine enough to tell two settings of a bench apart, coarse enough to claim no
digit that a kitchen scale, an oven dial or a steel rule does not give. A row holds from its size (in its own
unit, without sign) up to the next row's. Where two rows meet, the size is a whole number of steps of both, so
that rounding twice changes nothing.
"""

from __future__ import annotations

from typing import NamedTuple

from recipes_core.quantities.units import UNITS, Dimension, Unit, plain


class Row(NamedTuple):
    """From ``least`` (SI) up, show in ``unit`` to the nearest ``step`` (in that unit)."""

    least: float
    unit: Unit
    step: float


# Per dimension, for SI and then for inch-pound units: (from this size in this unit, unit, step).
_Rows = tuple[tuple[float, str, float], ...]
_D = Dimension
_JUDGED: dict[Dimension, tuple[_Rows, _Rows]] = {
    _D.TEMPERATURE: (((0, "°C", 1),), ((0, "°F", 1),)),
    _D.TEMPERATURE_DIFFERENCE: (((0, "K", 0.1), (10, "K", 1)), ((0, "F°", 0.1), (10, "F°", 1))),
    _D.MASS: (
        ((0, "g", 0.01), (1, "g", 0.1), (10, "g", 1), (1, "kg", 0.01), (10, "kg", 0.1), (1, "t", 0.01)),
        ((0, "oz", 0.01), (1, "oz", 0.1), (1, "lb", 0.1), (10, "lb", 1)),
    ),
    _D.LENGTH: (
        ((0, "µm", 1), (0.1, "mm", 0.01), (1, "mm", 0.1), (100, "mm", 1), (1, "m", 0.01), (10, "m", 0.1)),
        ((0, "in", 0.0001), (0.001, "in", 0.001), (0.1, "in", 0.01), (1, "in", 0.1), (10, "ft", 0.1)),
    ),
    _D.AREA: (
        ((0, "mm²", 1), (1, "cm²", 0.1), (100, "cm²", 1), (1, "m²", 0.01), (10, "m²", 0.1)),
        ((0, "in²", 0.01), (1, "in²", 0.1), (100, "in²", 1), (10, "ft²", 0.1)),
    ),
    _D.VOLUME: (
        ((0, "cm³", 0.01), (1, "cm³", 0.1), (100, "cm³", 1), (1, "l", 0.01), (10, "l", 0.1), (1, "m³", 0.1)),
        ((0, "in³", 0.001), (0.1, "in³", 0.01), (1, "in³", 0.1), (100, "in³", 1), (1, "ft³", 0.1)),
    ),
    _D.TIME: (((0, "s", 0.1), (10, "s", 1), (2, "min", 1), (1, "d", 1 / 24)), ()),
    _D.FORCE: (
        ((0, "N", 0.1), (10, "N", 1), (1, "kN", 0.01), (10, "kN", 0.1), (100, "kN", 1)),
        ((0, "lbf", 0.1), (10, "lbf", 1), (1000, "lbf", 10), (10000, "lbf", 100)),
    ),
    _D.PRESSURE: (
        ((0, "Pa", 1), (1, "kPa", 0.1), (10, "kPa", 1), (1, "MPa", 0.01), (10, "MPa", 0.1)),
        ((0, "psi", 0.01), (1, "psi", 0.1), (10, "psi", 1), (1000, "psi", 10)),
    ),
    _D.POWER: (((0, "W", 0.1), (10, "W", 1), (1, "kW", 0.01), (10, "kW", 0.1)), ()),
    _D.ANGLE: (((0, "deg", 0.1), (10, "deg", 1)), ()),
    _D.SPEED: (
        ((0, "mm/s", 0.1), (10, "mm/s", 1), (0.1, "m/s", 0.01), (1, "m/s", 0.1)),
        ((0, "ft/min", 0.1), (10, "ft/min", 1)),
    ),
    _D.DENSITY: (
        ((0, "kg/m³", 0.001), (1, "kg/m³", 0.1), (100, "g/cm³", 0.001)),
        ((0, "lb/ft³", 0.001), (1, "lb/ft³", 0.1)),
    ),
    _D.SHARE: (((0, "ppm", 1), (0.1, "%", 0.01), (1, "%", 0.1)), ()),
    _D.CONDUCTIVITY: (((0, "W/(m K)", 0.001), (1, "W/(m K)", 0.1), (10, "W/(m K)", 1)), ()),
    _D.HEAT_CAPACITY: (((0, "kJ/(kg K)", 0.01),), ()),
    _D.SPECIFIC_ENERGY: (((0, "kJ/kg", 0.1), (10, "kJ/kg", 1)), ()),
    _D.MOLAR_ENERGY: (((0, "kJ/mol", 0.1), (10, "kJ/mol", 1)), ()),
    _D.HEAT_TRANSFER: (((0, "W/(m² K)", 0.1), (10, "W/(m² K)", 1)), ()),
    _D.AREAL_MASS: (
        ((0, "g/m²", 1), (1, "kg/m²", 0.01), (10, "kg/m²", 0.1)),
        ((0, "lb/ft²", 0.001), (0.1, "lb/ft²", 0.01), (1, "lb/ft²", 0.1)),
    ),
    _D.RATE: (((0, "1/h", 0.1), (1, "1/min", 0.1), (10, "1/min", 1)), ()),
    _D.VISCOSITY: (((0, "Pa s", 0.01), (1, "Pa s", 0.1), (10, "Pa s", 1), (1000, "Pa s", 10)), ()),
    _D.VOLTAGE: (((0, "V", 0.1), (10, "V", 1)), ()),
    _D.CURRENT: (((0, "A", 0.01), (1, "A", 0.1), (10, "A", 1)), ()),
}


def _rows(dimension: Dimension, judged: _Rows) -> tuple[Row, ...]:
    units = UNITS[dimension]
    return tuple(Row(size * units[plain(name)].factor, units[plain(name)], step) for size, name, step in judged)


STEPS = {d: (_rows(d, si), _rows(d, inch_pound)) for d, (si, inch_pound) in _JUDGED.items()}
"""Dimension → rows for SI, rows for inch-pound units (none where the trade uses SI or none exists)."""


def row(dimension: Dimension, si: float, inch_pound: bool = False) -> Row:
    """The row that a value of this size is shown by; inch-pound only where the dimension has such rows."""
    rows = STEPS[dimension][inch_pound]
    size = abs(si) * (1 + 1e-12)  # a size on the border, but for the last bit, belongs to the upper row
    return next((candidate for candidate in reversed(rows) if size >= candidate.least), rows[0])
