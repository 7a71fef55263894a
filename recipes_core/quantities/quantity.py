"""A quantity as an author gave it, and the sentence for one that cannot be read."""

from __future__ import annotations

from dataclasses import dataclass

from recipes_core.errors import DataError
from recipes_core.quantities.units import Dimension


@dataclass(frozen=True)
class Quantity:
    """A value or a range in SI, with the author's own words.

    ``low`` equals ``high`` for a single value. ``unit`` is the canonical name of the author's unit (the
    first, if several). ``step`` is the resolution, in SI, that the author's digits claim.
    """

    low: float
    high: float
    text: str
    dimension: Dimension
    unit: str
    step: float

    @property
    def value(self) -> float:
        """The single value in SI. A range has none: asking for it raises ValueError."""
        if self.low != self.high:
            raise ValueError(f"{self.text} is a range, not one value")
        return self.low


class QuantityError(DataError):
    """A text that is no quantity of the wanted dimension; ``start`` and ``end`` mark the wrong part of it."""

    def __init__(self, sentence: str, start: int, end: int) -> None:
        super().__init__(sentence)
        self.start = start
        self.end = end
