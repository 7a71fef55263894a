"""Surfaces that exchange heat with their surroundings by convection and radiation, linearised for Newton."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.slab import Face
from recipes_core.physics.surface import STEFAN_BOLTZMANN


class Exchange:
    """Surfaces (surfaces, S) at ``temperature``, K, each in front of a cell behind a resistance in m² K/W."""

    def __init__(self, faces: Sequence[Face], temperature: Floats) -> None:
        self.temperature = temperature.copy()
        scenarios = temperature.shape[1]

        def rows(values: Sequence[ArrayLike]) -> Floats:
            return np.stack([np.broadcast_to(floats(value), scenarios) for value in values])

        area = rows([face.area for face in faces])
        self._environment = rows([face.environment for face in faces])
        self._convection = area * rows([face.convection for face in faces])
        self._radiation = STEFAN_BOLTZMANN * area * rows([face.emissivity for face in faces])
        self._fourth_power = self._environment**4

    def linearise(
        self, cell: Floats, resistance: Floats, running: NDArray[np.bool_] | bool = True
    ) -> tuple[Floats, Floats]:
        """Return the heat flow into each cell, W/m², and its fall per kelvin of the cell's temperature.

        One Newton step of the surface temperature T: what the surroundings give at T, linearised at its last
        value, equals ``(T - cell) / resistance``. The new surface temperature is kept in ``running`` scenarios (S,).
        """
        surface = self.temperature
        square = surface * surface
        flow = self._convection * (self._environment - surface)
        flow += self._radiation * (self._fourth_power - square * square)
        stiffness = self._radiation * square
        stiffness *= surface
        stiffness *= 4.0
        stiffness += self._convection
        share = stiffness * resistance
        share += 1.0
        change = resistance * flow
        change += cell
        change -= surface
        change /= share
        np.add(surface, change, out=surface, where=running)
        change *= stiffness
        flow -= change
        stiffness /= share
        return flow, stiffness
