"""Trays and moulds of invented shops, shared by the tests of the slab."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.grid import MELT_FRACTIONS, METAL_FRACTIONS, PART_FRACTIONS, WOOD_FRACTIONS
from recipes_core.physics.matter import Bed, Matter, constant, peaked_share, polymer
from recipes_core.physics.slab import Face, Layer, Slab

ICE = 273.15


def hdpe(
    melted: tuple[Floats, Floats],
    bed: Bed | None = None,
    latent_heat: ArrayLike = 190e3,
    heat_capacity_factor: ArrayLike = 1.0,
) -> Matter:
    """HDPE as the check values use it: 2100/2500 J/(kg K), 190 kJ/kg, 0.42/0.25 W/(m K), 950/760 kg/m³ (memory)."""
    return polymer(
        solid_heat_capacity=2100.0,
        melt_heat_capacity=2500.0,
        solid_conductivity=0.42,
        melt_conductivity=0.25,
        solid_density=950.0,
        melt_density=760.0,
        melted=melted,
        latent_heat=latent_heat,
        heat_capacity_factor=heat_capacity_factor,
        bed=bed,
    )


def build_tray(
    loading: ArrayLike,
    oven: ArrayLike,
    convection: ArrayLike,
    underside: ArrayLike,
    *,
    liner: ArrayLike = 0.003,
    fractions: Floats = MELT_FRACTIONS,
    slump_onset: float = 0.5,
    latent_heat: ArrayLike = 190e3,
) -> Slab:
    """0.8 mm steel tray, liner, flake of 330 kg/m³ and 0.09 W/(m K) melting at 100-136 °C; ``oven`` in °C."""
    steel = constant(50.0, 7850.0, 490.0)
    flake = hdpe(peaked_share(373.15, 403.15, 409.15), Bed(330.0, 0.09, slump_onset), latent_heat)
    surroundings = floats(oven) + ICE
    return Slab(
        layers=(Layer(steel, 0.0008 * 7850.0), Layer(flake, loading, fractions)),
        contacts=(liner,),
        bottom=Face(surroundings, convection, underside),
        top=Face(surroundings, convection, 0.9),
    )


def build_mould(
    part: ArrayLike,
    wall: float,
    *,
    wood: bool = False,
    convection: ArrayLike = 5.0,
    ratio: float = 1.6,
    contact: ArrayLike = 1e-3,
    fractions: Floats = PART_FRACTIONS,
    wall_fractions: Floats | None = None,
) -> Slab:
    """Mould, part, mould in air of 22 °C; thicknesses in m. Freezing 90-122 °C, peak 116 °C (memory).

    Steel 50/7850/490 or softwood 0.12/550/1700. ``ratio`` is exterior over part area, for mass and surface.
    """
    k, rho, cp = (0.12, 550.0, 1700.0) if wood else (50.0, 7850.0, 490.0)
    cells = wall_fractions if wall_fractions is not None else WOOD_FRACTIONS if wood else METAL_FRACTIONS
    matter = constant(k, rho, cp * ratio)
    air = Face(22.0 + ICE, convection, 0.8, ratio)
    plate = hdpe(peaked_share(363.15, 389.15, 395.15))
    return Slab(
        layers=(
            Layer(matter, rho * wall, cells[::-1]),
            Layer(plate, 950.0 * floats(part), fractions),
            Layer(matter, rho * wall, cells),
        ),
        contacts=(contact, contact),
        bottom=air,
        top=air,
    )


@pytest.fixture
def tray() -> Callable[..., Slab]:
    """Builder of trays in ovens, see `build_tray`."""
    return build_tray


@pytest.fixture
def mould() -> Callable[..., Slab]:
    """Builder of moulds with a part in air, see `build_mould`."""
    return build_mould
