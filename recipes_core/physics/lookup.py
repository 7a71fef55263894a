"""Fast look-up of what every cell's enthalpy means: temperature, resistance, potential and its slope."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.arrays import Floats
from recipes_core.physics.slab import Slab

Intervals = NDArray[np.intp]


class Lines:
    """A function of enthalpy made of straight lines: the intervals of all materials, one after the other."""

    def __init__(self, pieces: Sequence[Floats]) -> None:
        self.intercept: Floats = np.concatenate([piece[0].ravel() for piece in pieces])
        self.slope: Floats = np.concatenate([piece[1].ravel() for piece in pieces])

    def at(self, interval: Intervals, enthalpy: Floats) -> Floats:
        """Values at ``enthalpy``, which lies in ``interval``."""
        value: Floats = self.slope.take(interval)
        value *= enthalpy
        value += self.intercept.take(interval)
        return value


class Lookup:
    """The tables of all layers of ``slab``, for cells in the given ``order``."""

    def __init__(self, slab: Slab, order: Intervals) -> None:
        matters = [layer.matter for layer in slab.layers]
        self.potential = Lines([matter.lines(matter.potentials) for matter in matters])
        self.temperature = Lines([matter.lines(matter.temperatures) for matter in matters])
        self.resistance = Lines([matter.lines(matter.resistances) for matter in matters])
        shape = (slab.cells, slab.scenarios)
        first, scale, last = np.empty(shape, np.intp), np.empty(shape), np.empty(shape)
        used = 0
        for i, matter in enumerate(matters):
            cells, intervals = slab.cells_of(i), matter.temperatures.shape[1] - 1
            first[cells] = used + intervals * np.arange(matter.scenarios)
            scale[cells] = 1.0 / matter.spacing
            last[cells] = intervals - 1.0
            used += intervals * matter.scenarios
        self._first, self._scale, self._last = first[order], scale[order], last[order]
        self._highest = (self._last + 1.0) / self._scale
        self._zero, self._place, self._interval = np.zeros(shape), np.empty(shape), np.empty(shape, np.intp)

    def locate(self, enthalpy: Floats) -> Intervals:
        """The interval of each cell's enthalpy, J/kg. The array is reused by the next call."""
        place, interval = self._place, self._interval
        np.multiply(enthalpy, self._scale, place)
        np.fmax(place, self._zero, place)
        np.fmin(place, self._last, place)
        np.copyto(interval, place, casting="unsafe")
        np.add(interval, self._first, interval)
        return interval

    def confine(self, enthalpy: Floats) -> None:
        """Bring enthalpies back into the span of the tables, in place."""
        np.fmax(enthalpy, self._zero, enthalpy)
        np.fmin(enthalpy, self._highest, enthalpy)
