"""Curves that a forecast can show: numbers with their spread, limits beside them, and marks on the clock.

They are data, in SI, and know nothing of how they are drawn. A forecast hands out functions that make them, so that
nothing is computed before somebody asks for a picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from recipes_core.quantities import Dimension

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]


@dataclass(frozen=True)
class Series:
    """One curve: its name, the value of the nominal shop at each place of the picture's ``x``, and its band.

    ``band`` are the 5 % and the 95 % points over the plausible shops; None where only the nominal shop is shown.
    """

    name: str
    nominal: Array
    band: tuple[Array, Array] | None = None

    @classmethod
    def over(cls, name: str, x: Array, times: Array, values: Array) -> Series:
        """From ``values`` (steps, members) at ``times`` (steps, members), s, read at ``x`` by straight lines."""
        import numpy as np  # here, so that listing and explaining stay light

        read = np.array([np.interp(x, t, v) for t, v in zip(times.T, values.T, strict=True)])
        low, high = np.quantile(read[1:], [0.05, 0.95], axis=0)
        return cls(name, read[0], (low, high))


@dataclass(frozen=True)
class Line:
    """A value that matters, such as a limit of the data sheet: a line across the picture."""

    name: str
    value: float


@dataclass(frozen=True)
class Mark:
    """A moment that matters, s: a line down the picture."""

    name: str
    time: float


@dataclass(frozen=True)
class Curves:
    """One picture. ``x`` runs over times (s) or, for a cut through a layer, over shares of its mass from the bottom.

    ``across`` says in words what x is; ``dimension`` is what all series and lines are: temperatures (K) or shares.
    The first series is the one that matters most.
    """

    title: str
    x: Array
    across: str
    series: tuple[Series, ...]
    lines: tuple[Line, ...] = ()
    marks: tuple[Mark, ...] = ()
    dimension: Dimension = Dimension.TEMPERATURE
    over: Dimension = Dimension.TIME

    def __post_init__(self) -> None:
        """ValueError where there is nothing to draw, or a number that cannot be drawn."""
        import numpy as np

        curves = [self.x, *(values for s in self.series for values in (s.nominal, *(s.band or ())))]
        if not self.series or any(np.shape(values) != (len(self.x),) for values in curves):
            raise ValueError(f"{self.title}: each series needs one number for each of x")
        others = [*(line.value for line in self.lines), *(mark.time for mark in self.marks)]
        if not all(np.all(np.isfinite(values)) for values in (*curves, others)) or np.any(np.diff(self.x) <= 0.0):
            raise ValueError(f"{self.title}: numbers must be finite, and x must rise")
