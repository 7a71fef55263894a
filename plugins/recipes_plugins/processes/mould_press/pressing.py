"""A part in its mould from the moment they touch until it is cold, for every member at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import METAL_FRACTIONS, WOOD_FRACTIONS
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.plugin_api import Band
from recipes_plugins import profiles, surroundings
from recipes_plugins.pressed import MEAN_DRIVE, RADIATION, WARM, Pressed

Array = NDArray[Any]

METAL = 10.0
"""Conductivity, W/(m K), above which the side walls of a mould share in cooling the part (judgement)."""
STAND_CELLS = 4


class Stand(NamedTuple):
    """What the mould stands on, as W/(m K), kg/m3, J/(kg K) and m, and whether the same lies above it."""

    matter: tuple[float, float, float, float]
    above: bool


STANDS = {
    "on boards in the press": Stand((0.13, 500.0, 1600.0, 0.018), above=False),
    "on steel plates in the press": Stand((50.0, 7800.0, 450.0, 0.012), above=True),
}
"""Boards carry the mould and its lid faces the air; plates clamp it between them (judgement: their thickness)."""


@dataclass(frozen=True)
class Mould:
    """SI values of the mould: its material, its wall, its cavity, what it stands on, and the surroundings.

    ``contact`` is the conductance to the part under pressure, ``stand_contact`` that to the stand, W/(m2 K).
    """

    conductivity: float
    density: float
    heat_capacity: float
    emissivity: tuple[float, float, float]
    wall: float
    length: float
    width: float
    depth: float
    stands: str
    liner: tuple[float, ...]
    contact: float
    stand_contact: float
    air: Band
    film: float
    outside: Band
    board_shine: Band

    @property
    def shares(self) -> tuple[float, float, float]:
        """Mass of a wall, area of its rim and area of its outer face, each over the part's face.

        The side walls of a metal mould count half to each face. Those of wood do not: they conduct too little.
        """
        if self.conductivity < METAL:
            return 1.0, 0.0, 1.0
        face = self.length * self.width
        outer = (self.length + 2 * self.wall) * (self.width + 2 * self.wall)
        height = self.depth + 2 * self.wall
        rim = (self.length + self.width + 4 * self.wall) * height
        volume = outer * height - face * self.depth
        return 0.5 * volume / (face * self.wall), rim / face, outer / face

    @property
    def resistance(self) -> float:
        """Between part and wall, m2 K/W: the contact, and the liner in it."""
        return 1.0 / self.contact + surroundings.paper(self.liner)


@dataclass
class Pressing(Pressed):
    """The press step and all that follows in the mould.

    ``entry_skin`` (members,) K is the cooler face of the melt when it reaches the mould.
    """

    mould: Mould
    entry_skin: Array

    def __post_init__(self) -> None:
        self.part = 2 if self.mould.stands in STANDS else 1
        slab, air = self._slab(), self.mould.air.members()
        self.history = self._follow(slab, self._temperatures(slab), air, self._duration(air))

    def _duration(self, air: Array) -> Array:
        """Roughly when all is within WARM of the air, s, to choose steps by: heat to lose over a mean loss."""
        mould, (mass, rim, outer) = self.mould, self.mould.shares
        goal = air + WARM
        hot = np.asarray(self.fractions) @ self.start
        own = self.areal_mass * (self.matter.enthalpy(hot) - self.matter.enthalpy(goal))
        walls = 2.0 * mould.density * mould.heat_capacity * mould.wall * mass * (self.wall.mean(axis=0) - goal)
        loss = 1.0 / (mould.wall / mould.conductivity + 1.0 / ((mould.film + RADIATION) * (outer + rim)))
        return np.asarray(np.maximum(own + walls, own) / (2.0 * loss * MEAN_DRIVE))

    def _slab(self) -> Slab:
        mould = self.mould
        mass, rim, outer = mould.shares
        air, outside = mould.air.members(), mould.outside.members()
        shine = Band("emissivity of the metal", *mould.emissivity).members()
        metal = constant(mould.conductivity, mould.density, mould.heat_capacity)
        edge = Face(air, mould.film, shine, rim * outside) if rim else None
        areal, cut = mould.density * mould.wall * mass, self._cut()
        part = Layer(self.matter, self.areal_mass, self.fractions)
        layers = [Layer(metal, areal, cut[::-1], edge), part, Layer(metal, areal, cut, edge)]
        contacts = [mould.resistance, mould.resistance]
        bottom = top = Face(air, mould.film, shine, outer * outside)
        stand = STANDS.get(mould.stands)
        if stand:
            k, rho, c, thickness = stand.matter
            sheet = Layer(constant(k, rho, c), rho * thickness * outer, np.full(STAND_CELLS, 1.0 / STAND_CELLS))
            gap = 1.0 / (mould.stand_contact * outer)
            layers, contacts = [sheet, *layers], [gap, *contacts]
            bottom = Face(air, mould.film, mould.board_shine.members(), outer * outside)
            if stand.above:
                layers, contacts, top = [*layers, sheet], [*contacts, gap], bottom
        return Slab(tuple(layers), tuple(contacts), bottom, top)

    def _temperatures(self, slab: Slab) -> Array:
        air = self.mould.air.members()
        start = slab.temperatures(*[air] * len(slab.layers))
        even = np.full(len(self.wall), 1.0 / len(self.wall))
        inner = profiles.remap(self.wall, even, self._cut())
        start[slab.cells_of(self.part - 1)] = inner[::-1]
        start[slab.cells_of(self.part)] = self.start
        start[slab.cells_of(self.part + 1)] = inner
        return start

    def _cut(self) -> Array:
        return METAL_FRACTIONS if self.mould.conductivity >= METAL else WOOD_FRACTIONS
