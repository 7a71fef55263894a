"""A part between two walls from full contact until it is cold, and what is asked of it: lent to processes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import growing_steps
from recipes_core.physics.history import History
from recipes_core.physics.matter import Matter
from recipes_core.physics.slab import Slab
from recipes_core.physics.solver import solve
from recipes_plugins import profiles

Array = NDArray[Any]

COLD = 2.0
"""The part is followed until its core is within 2 K of the shop's air: a recipe may wait for any warmer core."""
WARM, MEAN_DRIVE, RADIATION = 25.0, 55.0, 6.0
SHORTEST = 60.0
"""What comes cold is followed for a minute all the same."""
STEPS, TAIL, GROWTH = 46, 22, 1.3
"""Steps until the walls are expected within 25 K of the shop's air, the first an eighth of the closing time; then a
tail of longer ones. Core frozen and core cool enough come within 1 % of much finer steps and cells."""


@dataclass
class Pressed:
    """The solved history of a pressed part and the walls on both sides of it; the clock starts at contact.

    ``start`` (cells, members) K with ``fractions``; ``areal_mass`` (members,) kg/m2; ``closing`` (members,) s until
    full force; ``wall`` (cells, members) K from the inner face outwards, as it was at contact. The walls lie directly
    under and over the part, which is layer ``part`` of the slab.
    """

    start: Array
    fractions: Array
    areal_mass: Array
    matter: Matter
    closing: Array
    wall: Array
    part: int = field(init=False)
    history: History = field(init=False)

    def core(self, time: float | Sequence[float] | Array) -> Array:
        """The hottest plastic ``time`` seconds after full force, K."""
        return profiles.at(self.history.times, self.history.hottest(self.part), self.closing + np.asarray(time))

    def outside(self, time: float | Array) -> Array:
        """The hotter outer face of the walls ``time`` seconds after full force, K."""
        return profiles.at(self.history.times, self.outer(), self.closing + time)

    def inner(self, time: float | Array) -> Array:
        """The hotter inner face of the walls ``time`` seconds after full force, K."""
        slab = self.history.slab
        bottom = self.history.temperature[:, slab.cells_of(self.part - 1).stop - 1]
        top = self.history.temperature[:, slab.cells_of(self.part + 1).start]
        return profiles.at(self.history.times, np.maximum(bottom, top), self.closing + time)

    def uneven(self, time: Array) -> Array:
        """How far apart the two faces of the part are ``time`` seconds after full force, K."""
        cells = self.history.slab.cells_of(self.part)
        faces = self.history.temperature[:, [cells.start, cells.stop - 1]]
        first, last = profiles.at(self.history.times, faces, self.closing + time)
        return np.asarray(np.abs(first - last))

    def below(self, level: float, outside: bool = False) -> Array:
        """From when on the core (or the outside of the walls) stays below a temperature, s after full force.

        A cold mould starts cool outside, warms up, and only then cools for good.
        """
        series = self.outer() if outside else self.history.hottest(self.part)
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

    def quickest(self, shrinkage: Array, density: tuple[Sequence[float], Sequence[float]], level: float) -> Array:
        """The shortest time in which the part gets thinner by ``shrinkage`` (members,) m, s.

        Its thickness is that of its mass at the ``density`` (kg/m3 against K) of each cell; only the time from full
        force until the core is below ``level`` counts. Infinite where the part never shrinks so far.
        """
        cells = self.history.temperature[:, self.history.slab.cells_of(self.part)]
        volume = np.tensordot(1.0 / np.interp(cells, *density), self.fractions, axes=(1, 0))
        lost = np.maximum.accumulate(self.areal_mass * (volume[0] - volume), axis=0)
        ends = self.closing + self.below(level)
        shortest = np.full(len(ends), np.inf)
        for member, (first, last) in enumerate(zip(self.closing, ends, strict=True)):
            times = self.history.times[:, member]
            start = np.linspace(first, min(last, times[-1]), 200)
            sunk = np.interp(start, times, lost[:, member])
            later = np.searchsorted(sunk, sunk + shrinkage[member])
            reached = later < len(start)
            if reached.any():
                shortest[member] = np.min(start[later[reached]] - start[reached])
        return shortest

    def _follow(self, slab: Slab, start: Array, air: Array, duration: Array) -> History:
        """Until the core is as cold as the ``air`` (members,) K; ``duration`` s is about when all is nearly so."""
        cells = slab.cells_of(self.part)

        def cold(history: History) -> bool:
            return bool(np.all(history.temperature[-1, cells] < air + COLD))

        duration = np.maximum(duration, SHORTEST)
        first = np.minimum(np.maximum(self.closing, 2.0) / 8.0, 0.5 * duration / STEPS)
        steps = growing_steps(first, duration, STEPS)
        tail = np.multiply.outer(GROWTH ** np.arange(1, TAIL + 1), steps[-1])
        return solve(slab, start, np.concatenate([steps, tail]), stop=cold)

    def outer(self) -> Array:
        """Series of the hotter outer face of the walls, K."""
        slab = self.history.slab
        bottom = self.history.temperature[:, slab.cells_of(self.part - 1).start]
        top = self.history.temperature[:, slab.cells_of(self.part + 1).stop - 1]
        return np.maximum(bottom, top)
