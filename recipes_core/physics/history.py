"""What a solved slab went through: every cell at every step, and the questions asked of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.slab import Slab


@dataclass(frozen=True)
class History:
    """Times and states of a slab at each of K + 1 instants, under S scenarios.

    ``times``, s (K+1, S); ``temperature``, K, and ``enthalpy``, J/kg, of the cells (K+1, cells, S), bottom to top;
    ``surface``, K, of the bottom and top face (K+1, 2, S); ``heat`` taken in from the surroundings so far, J/m²
    (K+1, S). A series is any (K+1, S) array, such as the coldest cell of a layer.
    """

    slab: Slab
    times: Floats
    temperature: Floats
    enthalpy: Floats
    surface: Floats
    heat: Floats

    @classmethod
    def empty(cls, slab: Slab, steps: int) -> History:
        """Room for ``steps`` steps; times are zero, the rest is unset."""
        cells, scenarios = slab.cells, slab.scenarios
        return cls(
            slab=slab,
            times=np.zeros((steps + 1, scenarios)),
            temperature=np.empty((steps + 1, cells, scenarios)),
            enthalpy=np.empty((steps + 1, cells, scenarios)),
            surface=np.empty((steps + 1, 2, scenarios)),
            heat=np.empty((steps + 1, scenarios)),
        )

    def until(self, step: int) -> History:
        """The history up to and including ``step``, without copying."""
        arrays = (self.times, self.temperature, self.enthalpy, self.surface, self.heat)
        return History(self.slab, *(array[: step + 1] for array in arrays))

    @property
    def end(self) -> Floats:
        """Cell temperatures at the end, K (cells, S): the start of what comes next."""
        return floats(self.temperature[-1])

    def coldest(self, layer: int) -> Floats:
        """Series of the coldest cell of a layer, K."""
        return floats(self._cells(layer).min(axis=1))

    def hottest(self, layer: int) -> Floats:
        """Series of the hottest cell of a layer, K."""
        return floats(self._cells(layer).max(axis=1))

    def mean(self, layer: int) -> Floats:
        """Series of the mean temperature of a layer by mass, K."""
        return self._weighted(layer, self._cells(layer))

    def melted_share(self, layer: int) -> Floats:
        """Series of the melted share of a layer by mass, 0 to 1."""
        return self._weighted(layer, self.slab.layers[layer].matter.melted_share(self._cells(layer)))

    def top_cell(self, layer: int = -1) -> Floats:
        """Series of the uppermost cell of a layer, K. The face itself is ``surface[:, 1]``."""
        return floats(self._cells(layer)[:, -1])

    def crossing(self, series: Floats, level: ArrayLike, rising: bool = True) -> Floats:
        """First time, s (S,), at which ``series`` reaches ``level`` from below (or from above); inf if never.

        Between two instants the series is taken as a straight line.
        """
        short = floats(level) - series if rising else series - floats(level)
        reached = short <= 0.0
        after = reached.argmax(axis=0)
        earlier = np.maximum(after - 1, 0)
        scenario = np.arange(series.shape[1])
        before, behind = short[earlier, scenario], short[after, scenario]
        share = np.divide(before, before - behind, out=np.zeros_like(before), where=before > behind)
        start, end = self.times[earlier, scenario], self.times[after, scenario]
        time = start + share * (end - start)
        return np.where(reached.any(axis=0), time, np.inf)

    def at(self, time: ArrayLike) -> Floats:
        """Cell temperatures, K (cells, S), at ``time``, s (one value or (S,)); straight lines between instants.

        Raises ValueError for times outside the history.
        """
        wanted = np.broadcast_to(floats(time), self.times.shape[1:])
        if np.any(wanted < 0.0) or np.any(wanted > self.times[-1] * (1.0 + 1e-9)):  # steps add up inexactly
            raise ValueError("the time asked for lies outside the history")
        after = np.clip((self.times < wanted).sum(axis=0), 1, len(self.times) - 1)
        scenario = np.arange(len(wanted))
        start, stop = self.times[after - 1, scenario], self.times[after, scenario]
        share = ((wanted - start) / (stop - start))[:, None]
        before, behind = self.temperature[after - 1, :, scenario], self.temperature[after, :, scenario]
        return floats((before + share * (behind - before)).T)

    def _cells(self, layer: int) -> Floats:
        return self.temperature[:, self.slab.cells_of(layer)]

    def _weighted(self, layer: int, values: Floats) -> Floats:
        fractions = floats(self.slab.layers[layer].fractions)
        return floats(np.tensordot(values, fractions, axes=(1, 0)))
