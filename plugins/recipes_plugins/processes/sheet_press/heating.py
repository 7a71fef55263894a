"""Flake, or a melt, between hot platens until it is molten, for every member at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import bulging, expected_duration
from recipes_core.physics.matter import Matter, constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_plugins.melted import NEVER, Melted

Array = NDArray[Any]

FRACTIONS = bulging(32)
"""Twice as fine as a bed in an oven: platens that touch drive a sharper front through it than air does."""

SETTLES = 240.0
"""What a melt that comes hot takes about to be as hot as the platens, s, to choose the steps by."""

SOONER = 0.6
"""Between platens flake is through sooner than its energy balance tells; by this share of it the steps are chosen."""


@dataclass
class Heating(Melted):
    """The solved history of a layer between two platens that stay as hot as they are.

    ``loading`` (kg/m2), ``platens`` (K) and ``gap`` (m2 K/W, at each face) hold one value per member;
    ``start`` (cells, members) K of `FRACTIONS`; ``liners`` are the sheets under and over the plastic, empty for
    none; ``melted`` (K) is where the plastic is molten; ``until`` (members,) s is how long to go on at least.
    """

    matter: Matter
    loading: Array
    start: Array
    platens: Array
    gap: Array
    liners: tuple[tuple[float, ...], tuple[float, ...]]
    melted: float
    until: Array

    def __post_init__(self) -> None:
        slab = self._slab()
        cells = slab.cells_of(self.layer)
        start = slab.temperatures(*[self.start.mean(axis=0)] * len(slab.layers))
        start[cells] = self.start
        solid = bool(np.all(self.start.max(axis=0) < np.minimum(self.melted, self.platens - NEVER)))
        expected = np.full(len(self.loading), SETTLES)
        if solid:
            expected = SOONER * expected_duration(slab, start, np.minimum(self.melted, self.platens - NEVER))
        self.history = self.follow(slab, start, self.platens, expected, self.until)

    @property
    def layer(self) -> int:
        """The layer of the slab that is the plastic."""
        return 1 if self.liners[0] else 0

    @property
    def level(self) -> float:
        """Where the plastic is molten, K."""
        return self.melted

    def _slab(self) -> Slab:
        under, over = ([Layer(constant(*sheet[:3]), sheet[3])] if sheet else [] for sheet in self.liners)
        layers = (*under, Layer(self.matter, self.loading, FRACTIONS), *over)
        face = Face(self.platens, 1.0 / self.gap)
        return Slab(layers, (0.0,) * (len(layers) - 1), face, face)
