"""A layer of flake on a lined tray in an oven, from cold to molten, for every member at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import MELT_FRACTIONS, expected_duration
from recipes_core.physics.history import History
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.plugin_api import Band
from recipes_plugins import plastic
from recipes_plugins.melted import NEVER, Melted
from recipes_plugins.surroundings import ROOM, liner_sheet

Array = NDArray[Any]

TOP_FLAKE = 0.25
"""The topmost flake, kg/m2: a quarter of a millimetre of bottle wall (judgement). The surface looks melted when
the underside of it is."""


@dataclass
class Melting(Melted):
    """The solved history of a tray of flake.

    ``loading`` (kg/m2) and ``air`` (K) hold one value per member; ``given`` the other inputs by name, in SI;
    ``until`` (s) is how long to go on after all is molten.
    """

    loading: Array
    air: Array
    given: dict[str, Any]
    until: float

    def __post_init__(self) -> None:
        self.history = self._solve(self.loading, self.air)

    @property
    def layer(self) -> int:
        """The layer of the slab that is the flake."""
        return 2 if liner_sheet(self.given, "liner") else 1

    @property
    def level(self) -> float:
        """Where the flake is molten, K."""
        return float(self.given["end"])

    def surface(self) -> Array:
        """When the topmost flake has passed the melting peak, s: what an operator sees as melted."""
        return self._surface(self.history, self.loading)

    def by_loading(self, shares: Sequence[float], conducts: float = 1.0) -> tuple[Array, Array]:
        """Surface and through, s, (shares, members), for the loading times each share, in one batch.

        ``conducts`` multiplies the conductivity of the layer, to see what conduction costs.
        """
        loading = np.concatenate([self.loading * share for share in shares])
        history = self._solve(loading, np.tile(self.air, len(shares)), conducts)
        surface = self._surface(history, loading)
        through = history.crossing(history.coldest(self.layer), self.level)
        return surface.reshape(len(shares), -1), through.reshape(len(shares), -1)

    def _solve(self, loading: Array, air: Array, conducts: float = 1.0) -> History:
        """Until every member that can melt is molten, and ``until`` is past; members come in whole sets."""
        given, sets = self.given, len(loading) // len(self.air)
        metal = constant(given["tray_conductivity"], given["tray_density"], given["tray_heat_capacity"])
        layers = [Layer(metal, given["tray_density"] * given["tray_thickness"])]
        contacts: list[float] = []
        under, over = liner_sheet(given, "liner"), liner_sheet(given, "liner over")
        if under:
            layers.append(Layer(constant(*under[:3]), under[3]))
            contacts.append(1.0 / under[4])
        layers.append(Layer(plastic.matter(given, sets, conducts), loading, MELT_FRACTIONS))
        contacts.append(0.0)
        if over:
            layers.append(Layer(constant(*over[:3]), over[3]))
            contacts.append(1.0 / over[4])
        film = given["film"].members(sets)
        shine = Band("emissivity of the metal", *given["tray_emissivity"]).members(sets)
        bottom, top = Face(air, film, shine), Face(air, film, given["plastic_emissivity"].members(sets))
        slab = Slab(tuple(layers), tuple(contacts), bottom, top)
        start = slab.temperatures(*[ROOM] * len(layers))
        expected = expected_duration(slab, start, np.minimum(self.level, air - NEVER))
        return self.follow(slab, start, air, expected, self.until)

    def _surface(self, history: History, loading: Array) -> Array:
        centre = np.cumsum(MELT_FRACTIONS) - 0.5 * MELT_FRACTIONS
        place = np.clip(1.0 - TOP_FLAKE / loading, centre[0], centre[-1])
        above = np.clip(np.searchsorted(centre, place), 1, len(centre) - 1)
        share = (place - centre[above - 1]) / (centre[above] - centre[above - 1])
        cells = history.temperature[:, history.slab.cells_of(self.layer)]
        member = np.arange(len(loading))
        series = (1.0 - share) * cells[:, above - 1, member] + share * cells[:, above, member]
        return history.crossing(series, self.given["peak"])
