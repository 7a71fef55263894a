"""A soft piece on its way to the former and on it, until it is cold, for every member at once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import METAL_FRACTIONS, WOOD_FRACTIONS, growing_steps
from recipes_core.physics.history import History
from recipes_core.physics.matter import Matter, constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Profile
from recipes_plugins import profiles

Array = NDArray[Any]

METAL = 10.0
"""Conductivity, W/(m K), from which a former is cut into cells as metal is (judgement)."""
COLD = 2.0
"""The piece is followed until it is within 2 K of the shop's air."""
WARM, MEAN_DRIVE, RADIATION = 25.0, 55.0, 6.0
CARRY_STEPS, STEPS, TAIL, GROWTH = 6, 60, 40, 1.2
FIRST = 1.0
"""First step on the former, s. Set and release come within 1 % of much finer steps."""


class Former(NamedTuple):
    """What the piece is bent over: W/(m K), kg/m3, J/(kg K), m, and how its back shines, one value a member."""

    conductivity: float
    density: float
    heat_capacity: float
    wall: float
    shine: Array


@dataclass
class Holding:
    """The solved history on the former, one face on it and one in air; the clock starts when it is bent.

    ``start`` is the piece as it leaves the oven; ``transfer`` (members,) s until it is bent; ``contact`` W/(m2 K)
    to the former; ``air`` K, ``film`` W/(m2 K) and ``shine`` of the shop and of the plastic, one value a member.
    """

    start: Profile
    matter: Matter
    transfer: Array
    former: Former
    contact: float
    air: Array
    film: Array
    shine: Array
    bent: Array = field(init=False)
    history: History = field(init=False)

    def __post_init__(self) -> None:
        piece = Layer(self.matter, self.start.areal_mass, self.start.fractions)
        shop = Face(self.air, self.film, self.shine)
        way = Slab((piece,), bottom=shop, top=shop)
        self.bent = solve(way, self.start.temperatures, profiles.growing(self.transfer, CARRY_STEPS)).end
        former = self.former
        metal = constant(former.conductivity, former.density, former.heat_capacity)
        cut = METAL_FRACTIONS if former.conductivity >= METAL else WOOD_FRACTIONS[::-1]
        behind = Layer(metal, former.density * former.wall, cut)
        slab = Slab((behind, piece), (1.0 / self.contact,), Face(self.air, self.film, former.shine), shop)
        start = slab.temperatures(self.air, self.air)
        start[slab.cells_of(1)] = self.bent
        duration = self._duration()
        steps = growing_steps(np.minimum(FIRST, 0.5 * duration / STEPS), duration, STEPS)
        tail = np.multiply.outer(GROWTH ** np.arange(1, TAIL + 1), steps[-1])
        self.history = solve(slab, start, np.concatenate([steps, tail]), stop=self._cold)

    def coldest(self) -> Array:
        """The coldest plastic when it is bent, K."""
        return np.asarray(self.bent.min(axis=0))

    def hottest(self, time: float) -> Array:
        """The hottest plastic ``time`` seconds after the bend, K."""
        return profiles.at(self.history.times, self.history.hottest(1), time)

    def below(self, level: float) -> Array:
        """When all of the piece is below ``level``, s after the bend."""
        return self.history.crossing(self.history.hottest(1), level, rising=False)

    def _cold(self, history: History) -> bool:
        return bool(np.all(history.temperature[-1, history.slab.cells_of(1)] < self.air + COLD))

    def _duration(self) -> Array:
        """Roughly when the piece alone in the air would be within WARM of it, s, to choose the steps by."""
        hot, goal = self.bent.mean(axis=0), self.air + WARM
        heat = self.start.areal_mass * (self.matter.enthalpy(np.maximum(hot, goal + 1.0)) - self.matter.enthalpy(goal))
        return np.asarray(heat / (2.0 * (self.film + RADIATION) * MEAN_DRIVE))
