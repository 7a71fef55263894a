"""The value of a field with its units spelt as meltbook prints them."""

from __future__ import annotations

from recipes_core.quantities import Dimension, QuantityError, spelled
from recipes_core.schema.fields import measured, split


def respelled(value: str, dimension: Dimension, forms: tuple[str, ...] = ("{}",), zero: bool = False) -> str | None:
    """``value`` with its units in meltbook's spelling; None where that is not certain, or it holds no quantity.

    ``forms`` are the ways the field may be worded, ``zero`` says whether nothing is a size (see `Field`).
    """
    worded = split(value, forms)
    if worded is None or "{}" not in worded[0]:
        return None
    _, start, end = worded
    quantity = spelled(value[start:end], dimension)
    if quantity is None:
        return None
    try:
        measured(quantity, dimension, zero)
    except QuantityError:  # a size of nothing: its spelling is the least of it
        return None
    return f"{value[:start]}{quantity}{value[end:]}"
