"""A sheet or part of solid plastic in an oven, from cold to soft throughout, for every member at once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import (
    MELT_STEPS_PER_DURATION,
    PART_FRACTIONS,
    WOOD_FRACTIONS,
    expected_duration,
)
from recipes_core.physics.history import History
from recipes_core.physics.matter import Matter, constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Band
from recipes_plugins import profiles
from recipes_plugins.surroundings import ROOM, liner_sheet

Array = NDArray[Any]

MORE_STEPS = 60
"""Steps after the expected time; they grow by a tenth each."""
NEVER = 1.0
"""An oven less than 1 K above the foot of the forming window does not warm the core to it in any useful time."""
BOARD = (0.13, 500.0, 1600.0, 0.018)
"""A board of softwood: W/(m K), kg/m3, J/(kg K), m (judgement: its thickness). It goes into the oven cold."""


@dataclass
class Soaking:
    """The solved history of the piece in the oven; the clock starts when the door shuts.

    ``areal_mass`` (kg/m2) and ``air`` (K) hold one value per member; ``foot`` (K) is what the coldest must reach;
    ``carried`` what it lies on: tray, board or air; ``given`` the other inputs by name, in SI; ``until`` (s) is how
    long to follow it.
    """

    areal_mass: Array
    matter: Matter
    air: Array
    foot: float
    carried: str
    given: dict[str, Any]
    until: float
    part: int = field(init=False)
    history: History = field(init=False)

    def __post_init__(self) -> None:
        below = self._below()
        self.part = len(below)
        self.history = self._solve(below)

    def through(self) -> Array:
        """When the coldest of the piece has reached the foot of the forming window, s."""
        return self.history.crossing(self.history.coldest(self.part), self.foot)

    def coldest(self, time: float) -> Array:
        """The coldest plastic after ``time``, K."""
        return profiles.at(self.history.times, self.history.coldest(self.part), time)

    def hottest(self, time: float) -> Array:
        """The hottest plastic after ``time``, K."""
        return profiles.at(self.history.times, self.history.hottest(self.part), time)

    def profile(self, time: float) -> Array:
        """The temperatures through the piece after ``time``, K, (cells, members)."""
        cells = self.history.slab.cells_of(self.part)
        return profiles.at(self.history.times, self.history.temperature[:, cells], time)

    def aged(self, time: float, below: float, above: float, reference: float) -> Array:
        """Seconds at the reference temperature that age as much as the hottest plastic did until ``time``."""
        hottest = self.history.hottest(self.part)
        return profiles.aged_until(self.history.times, hottest, time, below, above, reference)

    def above(self, time: float, level: float) -> Array:
        """How long, until ``time``, the hottest plastic was above ``level``, s."""
        reached = self.history.crossing(self.history.hottest(self.part), level)
        return np.maximum(time - reached, 0.0)

    def _below(self) -> list[tuple[Layer, float]]:
        """The layers under the piece, each with its contact to what lies on it, m2 K/W."""
        if self.carried == "air":
            return []
        given, paper = self.given, liner_sheet(self.given, "liner")
        loose = 1.0 / (paper[4] if paper else given["bare_contact"])
        if self.carried == "tray":
            metal = constant(given["tray_conductivity"], given["tray_density"], given["tray_heat_capacity"])
            layers = [(Layer(metal, given["tray_density"] * given["tray_thickness"]), loose)]
        else:
            k, rho, c, thickness = BOARD
            layers = [(Layer(constant(k, rho, c), rho * thickness, WOOD_FRACTIONS[::-1]), loose)]
        return [*layers, (Layer(constant(*paper[:3]), paper[3]), 0.0)] if paper else layers

    def _solve(self, below: list[tuple[Layer, float]]) -> History:
        """Until every member that can get there is warm through, and ``until`` is past."""
        given, over = self.given, liner_sheet(self.given, "liner over")
        layers = [layer for layer, _ in below] + [Layer(self.matter, self.areal_mass, PART_FRACTIONS)]
        contacts = [contact for _, contact in below]
        if over and below:
            layers.append(Layer(constant(*over[:3]), over[3]))
            contacts.append(1.0 / over[4])
        film, shine = given["film"].members(), given["plastic_emissivity"].members()
        under = shine
        if self.carried == "tray":
            under = Band("emissivity of the metal", *given["tray_emissivity"]).members()
        slab = Slab(tuple(layers), tuple(contacts), Face(self.air, film, under), Face(self.air, film, shine))
        start = slab.temperatures(*[ROOM] * len(layers))
        cells, reachable = slab.cells_of(self.part), self.air > self.foot + NEVER

        def done(history: History) -> bool:
            if not np.all(history.times[-1] >= self.until):
                return False
            return bool(np.all((history.temperature[-1, cells].min(axis=0) >= self.foot) | ~reachable))

        expected = expected_duration(slab, start, np.minimum(self.foot, self.air - NEVER))
        growth = np.concatenate([np.ones(MELT_STEPS_PER_DURATION), 1.1 ** np.arange(1, MORE_STEPS + 1)])
        return solve(slab, start, np.outer(growth, expected / MELT_STEPS_PER_DURATION), stop=done)
