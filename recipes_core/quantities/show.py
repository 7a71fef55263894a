"""Showing quantities in both unit systems, and rounding them to what is shown."""

from __future__ import annotations

from math import copysign, floor, isfinite, isinf

from recipes_core.quantities.quantity import Quantity
from recipes_core.quantities.steps import STEPS, Row, row
from recipes_core.quantities.units import DAY, HOUR, MINUTE, UNITS, Dimension, plain


def resolution(dimension: Dimension, si: float) -> float:
    """The step, in SI, at which a value of this size (SI) is shown."""
    shown_by = row(dimension, si)
    return shown_by.step * shown_by.unit.factor


def rounded(si: float, dimension: Dimension) -> float:
    """The SI value that is displayed for ``si``; comparisons are made between such values. Infinity stays."""
    return si if isinf(si) else _from_steps(_steps(si, row(dimension, si)), row(dimension, si))


def show(si: float, dimension: Dimension, like: str | None = None) -> str:
    """A value (SI) in both systems, such as ``177 °C (350 °F)``; the system of ``like``, a unit, comes first.

    Without the brackets, every answer reads back through ``parse``. An infinite time is ``never``; any other
    infinity, and NaN, raises ValueError.
    """
    if dimension is Dimension.TIME:
        return _time(si)
    if not isfinite(si):
        raise ValueError(f"{dimension.noun} of {si} cannot be shown")
    if dimension is Dimension.SHARE and si == 0.0:
        return "0 %"  # nothing is told in percent, not in millionths
    first, second = _one(si, dimension, False), _other(si, dimension, False)
    if second is None:
        return first
    unit = UNITS[dimension].get(plain(like)) if like else None
    if unit is not None and unit.inch_pound:
        first, second = second, first
    return f"{first} ({second})"


def show_author(quantity: Quantity) -> str:
    """The author's own text, with the other system in brackets: ``350 °F (177 °C)``."""
    dimension = quantity.dimension
    in_inch_pound = UNITS[dimension][plain(quantity.unit)].inch_pound
    low, high = (_other(si, dimension, in_inch_pound) for si in (quantity.low, quantity.high))
    if low is None or high is None:
        return quantity.text
    return f"{quantity.text} ({low if low == high else f'{low} to {high}'})"


def _other(si: float, dimension: Dimension, inch_pound: bool) -> str | None:
    """The value in the system that is not the given one, where the dimension has two."""
    return _one(si, dimension, not inch_pound) if STEPS[dimension][not inch_pound] else None


def _one(si: float, dimension: Dimension, inch_pound: bool) -> str:
    shown_by = row(dimension, si, inch_pound)
    return f"{_digits(_steps(si, shown_by) * shown_by.step, shown_by.step)} {shown_by.unit.name}"


def _steps(si: float, shown_by: Row) -> int:
    steps = (si - shown_by.unit.offset) / shown_by.unit.factor / shown_by.step
    return int(copysign(floor(abs(steps) * (1 + 1e-12) + 0.5), steps))  # a half goes up, whatever its last bit


def _from_steps(steps: int, shown_by: Row) -> float:
    return steps * shown_by.step * shown_by.unit.factor + shown_by.unit.offset


def _digits(number: float, step: float) -> str:
    """A number to the decimals of its step, without idle zeros: 2.0 is 2."""
    text = f"{number:.{0 if step >= 1 else len(f'{step:g}') - 2}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _time(si: float) -> str:
    """Seconds below two minutes, then hours and minutes, from a day on days and hours."""
    if isinf(si) and si > 0:
        return "never"
    seconds = rounded(si, Dimension.TIME)
    if seconds < 2 * MINUTE:
        return f"{_digits(seconds, 0.1)} s"
    units = (("d", DAY), ("h", HOUR)) if seconds >= DAY else (("h", HOUR), ("min", MINUTE))
    (big_name, big), (small_name, small) = units
    whole, rest = divmod(round(seconds / small), round(big / small))
    parts = [f"{whole} {big_name}"] * bool(whole) + [f"{rest} {small_name}"] * bool(rest)
    return " ".join(parts)
