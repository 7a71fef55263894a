"""The plastic as heat sees it: matter that melts or freezes, from the resin's sheet, for every member."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from recipes_core.plugin_api import Band, Basis, Given, assumed, calc

if TYPE_CHECKING:
    from recipes_core.physics.matter import Matter
    from recipes_core.plugin_api import Case, Fact, Value

ENTRIES = {
    "solid_heat_capacity": "heat capacity solid",
    "melt_heat_capacity": "heat capacity melt",
    "solid_conductivity": "conductivity solid",
    "melt_conductivity": "conductivity melt",
    "density": "density by temperature",
}
"""What `matter` needs of a sheet, by the name of its parameter."""

LATENT_HEAT_SPREAD = assumed(Band("latent heat", 1.0, 0.9, 1.1), "× 0.9 to 1.1")
HEAT_CAPACITY_SPREAD = assumed(Band("heat capacity", 1.0, 0.95, 1.05), "× 0.95 to 1.05")
NO_LATENT_HEAT = assumed(0.0, "none, as it has no crystals to melt", Basis.DERIVED)
_TRIED = {
    "conductivity spread": "bed conductivity",
    "heat capacity spread": "heat capacity",
    "melting shift": "shrinkage",
    "freezing shift": "shrinkage",
}
"""Which factor of the plausible shops a sheet's range spreads over. A plastic that conducts well makes a bed that
does; no time depends on the shrinkage, so that its place serves for the ranges."""


def inputs(case: Case, curve: str) -> dict[str, Value]:
    """The values for `matter`; ``curve`` is ``melting curve`` on the way up, ``freezing curve`` on the way down.

    What is poorly known of a plastic is spread as widely as its sheet says.
    """
    values = {name: case.get(f"resin:{entry}") for name, entry in ENTRIES.items()}
    values["heat_capacity_spread"] = _stated(case, "heat capacity spread") or HEAT_CAPACITY_SPREAD
    if conductivity := _stated(case, "conductivity spread"):
        values["conductivity_spread"] = conductivity
    kind = case.get("resin:kind")
    if isinstance(kind, Given) and kind.value == "amorphous":
        return {**values, "curve": _softening(case), "latent_heat": NO_LATENT_HEAT}
    if shift := _stated(case, f"{curve.split(maxsplit=1)[0]} shift"):
        values["shift"] = shift
    latent = {"latent_heat": case.get("resin:latent heat"), "latent_heat_spread": LATENT_HEAT_SPREAD}
    return {**values, "curve": case.get(f"resin:{curve}"), **latent}


def _stated(case: Case, entry: str) -> Given | None:
    """A sheet's number with its range as a band over the members; None where the sheet does not state it."""
    value = case.spread(f"resin:{entry}")
    if not isinstance(value, Given):
        return None
    return Given(Band(_TRIED.get(entry, entry), *value.value), value.text, value.origin)


def _softening(case: Case) -> Fact:
    """The share that is soft: nothing at the glass transition, all of it at the foot of the melt window.

    A plastic that is only bent has no such window; it is soft where it can be formed.
    """
    foot = case.get("resin:window foot")
    return calc(
        "softening",
        "record",
        "from the glass transition to the heat that it fuses at, in a straight line",
        lambda glass, foot: ([glass, foot], [0.0, 1.0]),
        glass=case.get("resin:glass transition"),
        foot=foot if isinstance(foot, Given) else case.get("resin:forming foot"),
    )


def bed_inputs(case: Case) -> dict[str, Value]:
    """The values that make loose flake a bed: its bulk density, and its conductivity over the sheet's range."""
    return {"bulk_density": bulk_density(case), "bed_conductivity": case.spread("resin:bed conductivity")}


def bulk_density(case: Case) -> Value:
    """The loose flake as somebody weighed it, else as the sheet says; the lots of a blend are weighed together."""
    return case.middle("lot.bulk_density") or case.middle("resin:bulk density")


def matter(values: dict[str, Any], sets: int = 1, conducts: float = 1.0) -> Matter:
    """Matter for ``sets`` times the nominal member and the 64 others.

    With the values of `bed_inputs` it starts as loose flake. ``conducts`` multiplies the conductivity.
    """
    from recipes_core.physics.matter import Bed, polymer

    def spread(name: str, otherwise: float) -> Any:
        return values[name].members(sets) if name in values else otherwise

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
        latent_heat=values["latent_heat"] * spread("latent_heat_spread", 1.0),
        heat_capacity_factor=values["heat_capacity_spread"].members(sets),
        conductivity_factor=conducts * spread("conductivity_spread", 1.0),
        melted=values["curve"],
        shift=spread("shift", 0.0),
        bed=bed,
    )
