"""A slab: layers, the contacts between them and the surroundings of both faces, under S scenarios at once.

Everything here is description; `recipes_core.physics.solver` advances it in time. Cells run from the bottom
face to the top face, temperatures are in K, and all areas are per reference area (of the tray, of the part).
Wherever a coefficient is asked for, one value serves all scenarios and an array (S,) gives each its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.matter import HIGHEST, LOWEST, Matter


@dataclass(frozen=True)
class Face:
    """Surroundings of a surface: ``q = area [h (Te - T) + emissivity σ (Te⁴ - T⁴)]``, W per reference m².

    ``environment`` Te, K, for air and walls alike; ``convection`` h, W/(m² K); ``emissivity`` 0 to 1; ``area`` the
    exchanging over the reference area. A convection of 1e6 holds the surface at Te.
    Raises ValueError for negative values and for surroundings outside the tables of `matter`.
    """

    environment: ArrayLike
    convection: ArrayLike
    emissivity: ArrayLike = 0.0
    area: ArrayLike = 1.0

    def __post_init__(self) -> None:
        environment = floats(self.environment)
        if not np.all((environment >= LOWEST) & (environment <= HIGHEST)):
            raise ValueError(f"surroundings must be between {LOWEST} and {HIGHEST} K")
        if not all(np.all(floats(value) >= 0.0) for value in (self.convection, self.emissivity, self.area)):
            raise ValueError("convection, emissivity and area must not be negative")


ADIABATIC = Face(environment=300.0, convection=0.0)
"""A face that exchanges nothing; also the plane of symmetry of a slab cut in half."""


@dataclass(frozen=True)
class Layer:
    """One layer: ``areal_mass``, kg/m², of ``matter``, cut into cells.

    ``fractions`` are the cells' shares of the mass from bottom to top. ``rim`` is what surrounds the layer's edge,
    its ``area`` the edge over the reference area; the edge is as warm as the cell, which is true of metal and
    too generous for wood. Raises ValueError unless masses and fractions are above 0 and fractions add up to 1.
    """

    matter: Matter
    areal_mass: ArrayLike
    fractions: Sequence[float] | Floats = (1.0,)
    rim: Face | None = None

    def __post_init__(self) -> None:
        if not (np.isclose(np.sum(self.fractions), 1.0) and np.min(self.fractions) > 0.0):
            raise ValueError("the cell fractions of a layer must be positive and add up to 1")
        if not np.all(floats(self.areal_mass) > 0.0):
            raise ValueError("a layer needs an areal mass above zero")


@dataclass(frozen=True)
class Slab:
    """Layers from bottom to top, ``contacts`` between them in m² K/W (0 is perfect), and the two faces.

    Raises ValueError for a wrong number of contacts, a negative contact and fewer than two cells.
    """

    layers: tuple[Layer, ...]
    contacts: tuple[ArrayLike, ...] = ()
    bottom: Face = ADIABATIC
    top: Face = ADIABATIC

    def __post_init__(self) -> None:
        if len(self.contacts) != len(self.layers) - 1:
            raise ValueError("a slab needs one contact resistance between each two layers")
        if not all(np.all(floats(contact) >= 0.0) for contact in self.contacts):
            raise ValueError("a contact resistance must not be negative")
        if self.cells < 2:
            raise ValueError("a slab needs at least two cells")

    @cached_property
    def _bounds(self) -> list[int]:
        return [0, *np.cumsum([len(layer.fractions) for layer in self.layers]).tolist()]

    @property
    def cells(self) -> int:
        """Number of cells of all layers."""
        return self._bounds[-1]

    @cached_property
    def scenarios(self) -> int:
        """Number of scenarios S: the length that all arrays share."""
        faces = [self.bottom, self.top, *(layer.rim for layer in self.layers if layer.rim)]
        given = [v for face in faces for v in (face.environment, face.convection, face.emissivity, face.area)]
        given += [*self.contacts, *(layer.areal_mass for layer in self.layers)]
        shapes = [np.shape(value) for value in given]
        shapes += [(layer.matter.scenarios,) for layer in self.layers]
        return int(np.broadcast_shapes((1,), *shapes)[0])

    def cells_of(self, layer: int) -> slice:
        """The cells of one layer, as a slice of the cell axis; negative numbers count from the top."""
        index = range(len(self.layers))[layer]
        return slice(self._bounds[index], self._bounds[index + 1])

    def rim_of(self, cell: int) -> Face | None:
        """The surroundings of one cell's edge, with the cell's share of the edge; None without a rim."""
        index = int(np.searchsorted(self._bounds, cell, side="right")) - 1
        layer = self.layers[index]
        if layer.rim is None:
            return None
        share = float(layer.fractions[cell - self._bounds[index]])
        return replace(layer.rim, area=share * floats(layer.rim.area))

    @cached_property
    def mass(self) -> Floats:
        """Areal mass of each cell, kg/m² (cells, S)."""
        rows = [
            np.multiply.outer(floats(layer.fractions), np.broadcast_to(floats(layer.areal_mass), self.scenarios))
            for layer in self.layers
        ]
        return floats(np.concatenate(rows))

    def temperatures(self, *by_layer: ArrayLike) -> Floats:
        """Cell temperatures, K (cells, S), of layers that are each uniform, given from bottom to top."""
        rows = [
            np.broadcast_to(floats(temperature), (len(layer.fractions), self.scenarios))
            for temperature, layer in zip(by_layer, self.layers, strict=True)
        ]
        return np.concatenate(rows)

    def enthalpies(self, temperature: ArrayLike) -> Floats:
        """Specific enthalpies, J/kg, of cell temperatures (cells, S), K."""
        given = np.broadcast_to(floats(temperature), (self.cells, self.scenarios))
        rows = [layer.matter.enthalpy(given[self.cells_of(i)]) for i, layer in enumerate(self.layers)]
        return np.concatenate(rows)
