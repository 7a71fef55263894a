"""A sheet between platens that are cooled under force, until it is cold, for every member at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import METAL_FRACTIONS
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_plugins.pressed import MEAN_DRIVE, WARM, Pressed

Array = NDArray[Any]

SOONER = 0.5
"""Platens start far hotter than a mould, so that the sheet is solid early in what their heat takes to leave."""


@dataclass(frozen=True)
class Platens:
    """SI values of the platens, and of what is between them and around them.

    ``thickness``, ``length`` and ``width`` of each in m. ``gap`` (members,) m2 K/W is the resistance to the
    sheet at each face, ``papers`` those of the liners under and over it. ``cooling`` (members,)
    W/(m2 K) acts on the outer face of each, ``rim`` on its edges; both exchange with ``air`` (members,) K.
    """

    conductivity: float
    density: float
    heat_capacity: float
    thickness: float
    length: float
    width: float
    gap: Array
    papers: tuple[float, float]
    cooling: Array
    rim: float
    air: Array

    def shares(self, area: float) -> tuple[float, float]:
        """Area of the outer face and of the edges of one platen, each over the ``area`` of the sheet's face, m2."""
        edges = 2.0 * (self.length + self.width) * self.thickness
        return self.length * self.width / area, edges / area


@dataclass
class PlatenPressing(Pressed):
    """The sheet from full force on; its clock starts there, so ``closing`` is nothing.

    ``area`` m2 is that of the sheet. Platens are of one temperature, and those that reach beyond the sheet share all
    their heat with it, as metal does.
    """

    platens: Platens
    area: float

    def __post_init__(self) -> None:
        self.part = 1
        slab = self._slab()
        start = slab.temperatures(*[self.wall[0]] * len(slab.layers))
        start[slab.cells_of(self.part)] = self.start
        self.history = self._follow(slab, start, self.platens.air, self._duration())

    def _slab(self) -> Slab:
        p = self.platens
        outer, edges = p.shares(self.area)
        metal = constant(p.conductivity, p.density, p.heat_capacity * outer)
        wall = Layer(metal, p.density * p.thickness, METAL_FRACTIONS, Face(p.air, p.rim, area=edges))
        part = Layer(self.matter, self.areal_mass, self.fractions)
        contacts = tuple(p.gap + paper for paper in p.papers)
        face = Face(p.air, p.cooling, area=outer)
        return Slab((wall, part, wall), contacts, face, face)

    def _duration(self) -> Array:
        """Roughly when all is within WARM of the air, s, to choose steps by: heat to lose over a mean loss."""
        p = self.platens
        outer, edges = p.shares(self.area)
        goal, hot = p.air + WARM, np.asarray(self.fractions) @ self.start
        own = self.areal_mass * (self.matter.enthalpy(hot) - self.matter.enthalpy(goal))
        walls = 2.0 * p.density * p.heat_capacity * p.thickness * outer * (self.wall[0] - goal)
        inside = self.areal_mass * self.matter.resistance(goal) / 8.0 + p.gap
        loss = 1.0 / (inside + p.thickness / p.conductivity + 1.0 / (p.cooling * outer + p.rim * edges))
        return np.asarray(SOONER * np.maximum(own + walls, own) / (2.0 * loss * MEAN_DRIVE))
