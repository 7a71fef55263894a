"""A part in its mould from the moment they touch until it is cold, for every member at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import METAL_FRACTIONS, WOOD_FRACTIONS, growing_steps
from recipes_core.physics.history import History
from recipes_core.physics.matter import Matter, constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Band
from recipes_plugins import profiles

Array = NDArray[Any]

METAL = 10.0
"""Conductivity, W/(m K), above which the side walls of a mould share in cooling the part (judgement)."""
STAND_CELLS = 4
COLD = 2.0
"""The part is followed until its core is within 2 K of the shop's air: a recipe may wait for any warmer core."""
WARM, MEAN_DRIVE, RADIATION = 25.0, 55.0, 6.0
STEPS, TAIL, GROWTH = 46, 22, 1.3
"""Steps until the mould is expected within 25 K of the shop's air, the first an eighth of the closing time; then a
tail of longer ones. Core frozen and core cool enough come within 1 % of much finer steps and cells."""


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
        paper = self.liner[3] / self.liner[1] / self.liner[0] if self.liner else 0.0
        return 1.0 / self.contact + paper


@dataclass
class Pressing:
    """The solved history of the press step and all that follows in the mould; the clock starts at contact.

    ``start`` (cells, members) K with ``fractions``; ``areal_mass`` (members,) kg/m2; ``wall`` (cells, members) K
    from the inner face outwards; ``closing`` (members,) s until full force; ``entry_skin`` (members,) K, the
    cooler face of the melt when it reaches the mould.
    """

    start: Array
    fractions: Array
    areal_mass: Array
    matter: Matter
    mould: Mould
    wall: Array
    closing: Array
    entry_skin: Array
    part: int = field(init=False)
    history: History = field(init=False)

    def __post_init__(self) -> None:
        self.part = 2 if self.mould.stands in STANDS else 1
        slab = self._slab()
        cells, air = slab.cells_of(self.part), self.mould.air.members()

        def cold(history: History) -> bool:
            return bool(np.all(history.temperature[-1, cells] < air + COLD))

        start = self._temperatures(slab)
        duration = self._duration(air)
        first = np.minimum(np.maximum(self.closing, 2.0) / 8.0, 0.5 * duration / STEPS)
        steps = growing_steps(first, duration, STEPS)
        tail = np.multiply.outer(GROWTH ** np.arange(1, TAIL + 1), steps[-1])
        self.history = solve(slab, start, np.concatenate([steps, tail]), stop=cold)

    def core(self, time: float | Sequence[float] | Array) -> Array:
        """The hottest plastic ``time`` seconds after full force, K."""
        return profiles.at(self.history.times, self.history.hottest(self.part), self.closing + np.asarray(time))

    def outside(self, time: float | Array) -> Array:
        """The hotter outer face of the mould ``time`` seconds after full force, K."""
        return profiles.at(self.history.times, self._outer(), self.closing + time)

    def below(self, level: float, outside: bool = False) -> Array:
        """From when on the core (or the outside of the mould) stays below a temperature, s after full force.

        A cold mould starts cool outside, warms up, and only then cools for good.
        """
        series = self._outer() if outside else self.history.hottest(self.part)
        still_to_come = np.maximum.accumulate(series[::-1], axis=0)[::-1]
        return np.maximum(self.history.crossing(still_to_come, level, rising=False) - self.closing, 0.0)

    def skin(self, level: float) -> Array:
        """The share of the part's mass that is colder than ``level`` at full force, both faces together."""
        cells = self.history.temperature[:, self.history.slab.cells_of(self.part)]
        now = profiles.at(self.history.times, cells, self.closing)
        edges = np.concatenate([[0.0], np.cumsum(self.fractions)])
        centre = 0.5 * (edges[1:] + edges[:-1])
        fine = np.linspace(0.0, 1.0, 401)
        return np.array([np.mean(np.interp(fine, centre, column) < level) for column in now.T])

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

    def _outer(self) -> Array:
        slab = self.history.slab
        bottom = self.history.temperature[:, slab.cells_of(self.part - 1).start]
        top = self.history.temperature[:, slab.cells_of(self.part + 1).stop - 1]
        return np.maximum(bottom, top)
