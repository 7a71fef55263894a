"""The plastic as heat sees it: matter that melts or freezes, from the resin's sheet, for every member."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from recipes_core.plugin_api import Band, assumed

if TYPE_CHECKING:
    from recipes_core.physics.matter import Matter
    from recipes_core.plugin_api import Case, Value

ENTRIES = {
    "solid_heat_capacity": "heat capacity solid",
    "melt_heat_capacity": "heat capacity melt",
    "solid_conductivity": "conductivity solid",
    "melt_conductivity": "conductivity melt",
    "density": "density by temperature",
    "latent_heat": "latent heat",
}
"""What `matter` needs of a sheet, by the name of its parameter."""

SPREADS = {
    "latent_heat_spread": assumed(Band("latent heat", 1.0, 0.9, 1.1), "× 0.9 to 1.1"),
    "heat_capacity_spread": assumed(Band("heat capacity", 1.0, 0.95, 1.05), "× 0.95 to 1.05"),
}


def inputs(case: Case, curve: str) -> dict[str, Value]:
    """The values for `matter`; ``curve`` is ``melting curve`` on the way up, ``freezing curve`` on the way down."""
    values = {name: case.get(f"resin:{entry}") for name, entry in ENTRIES.items()}
    return {**values, "curve": case.get(f"resin:{curve}"), **SPREADS}


def bed_inputs(case: Case) -> dict[str, Value]:
    """The values that make loose flake a bed: its bulk density, and its conductivity over the sheet's range."""
    return {"bulk_density": case.get("resin:bulk density"), "bed_conductivity": case.spread("resin:bed conductivity")}


def matter(values: dict[str, Any], sets: int = 1, conducts: float = 1.0) -> Matter:
    """Matter for ``sets`` times the nominal member and the 64 others.

    With the values of `bed_inputs` it starts as loose flake. ``conducts`` multiplies the conductivity.
    """
    from recipes_core.physics.matter import Bed, polymer

    bed = None
    if "bulk_density" in values and conducts == 1.0:
        conductivity = Band("bed conductivity", *values["bed_conductivity"])
        bed = Bed(values["bulk_density"], conductivity.members(sets))
    return polymer(
        solid_heat_capacity=values["solid_heat_capacity"],
        melt_heat_capacity=values["melt_heat_capacity"],
        solid_conductivity=values["solid_conductivity"],
        melt_conductivity=values["melt_conductivity"],
        solid_density=values["density"],
        melt_density=values["density"],
        latent_heat=values["latent_heat"] * values["latent_heat_spread"].members(sets),
        heat_capacity_factor=values["heat_capacity_spread"].members(sets),
        conductivity_factor=conducts,
        melted=values["curve"],
        bed=bed,
    )
