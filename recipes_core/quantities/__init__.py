"""Quantities as people write them at a bench, read into SI and shown in both unit systems."""

from __future__ import annotations

from recipes_core.quantities.parse import looks_like_split_decimal, parse
from recipes_core.quantities.quantity import Quantity, QuantityError
from recipes_core.quantities.show import resolution, rounded, show, show_author
from recipes_core.quantities.spelling import spelled
from recipes_core.quantities.units import Dimension

__all__ = [
    "Dimension",
    "Quantity",
    "QuantityError",
    "looks_like_split_decimal",
    "parse",
    "resolution",
    "rounded",
    "show",
    "show_author",
    "spelled",
]
