"""What an oven does to a tray of flake: when it looks melted, when it is melted through, what the heat costs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.grid import MELT_FRACTIONS
from recipes_core.plugin_api import (
    Band,
    Fact,
    Given,
    Open,
    Outcome,
    Profile,
    Table,
    assumed,
    calc,
    missing,
    oven_air,
    upper,
)
from recipes_plugins import plastic, profiles, surroundings, water
from recipes_plugins.melted import ageing, curves
from recipes_plugins.processes.flake_melt import vapour
from recipes_plugins.processes.flake_melt.melting import Melting

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work

EQUATION = "transient conduction with melting, convection and radiation on both faces"
LADDER = (0.5, 0.75, 1.0, 1.5, 2.0)
SPREAD = assumed(Band("loading", 1.0, 0.9, 1.1), "± 10 % from place to place")


def forecast(case: Case, work: Work) -> Outcome:
    """The layer from the charge and the tray; its melting in this oven; its state when the step may end."""
    heat = oven_air(case)
    charge = work.charge if not isinstance(work.charge, Open) else case.middle("formula.charge")
    loading = _loading(case, charge)
    at_least, at_most = case.get("at_least"), case.get("at_most")
    inputs = _inputs(case, at_least, at_most)
    melting = calc("melting", "record", EQUATION, _melt, loading=loading, oven_air=heat["oven air"], **inputs)
    facts = [
        *heat.values(),
        loading,
        _of(melting, "surface melted after", "time", lambda melting: melting.surface()),
        _of(melting, "melted through after", "time", lambda melting: melting.through()),
        _of(melting, "coldest at the end", "temperature", _coldest, at_least=at_least),
        _of(melting, "hottest", "temperature", _hottest, at_most=at_most),
        ageing(case, melting, at_most, work),
        _floor(case, charge),
        *water.steam_in_layer(case, work, charge),
        *vapour.oven_facts(case, charge, heat["oven air"]),
        melting,
    ]
    named = {f.name: f for f in facts}
    profile = _of(melting, "profile", "record", _profile, at_least=at_least)
    after = work.after(
        "melt", charge=charge, profile=profile, aged=named["aged"], melts=work.melts + 1, oven_air=heat["oven air"]
    )
    shown = curves(case, melting, "since the tray went into the hot oven", at_least, at_most)
    if isinstance(melting.value, Open):
        return Outcome(after, named, curves=shown)
    tables = (lambda: _ladder(melting.value), *vapour.air_tables(case, charge, at_least))
    return Outcome(after, named, tables, shown)


def _loading(case: Case, charge: Value) -> Fact:
    return calc(
        "loading",
        "areal_mass",
        "charge ÷ area of the tray",
        lambda charge, length, width, evenness: charge / (length * width) * evenness.members(),
        charge=charge,
        length=case.middle("equipment.tray.length"),
        width=case.middle("equipment.tray.width"),
        evenness=SPREAD,
    )


def _inputs(case: Case, at_least: Value, at_most: Value) -> dict[str, Value]:
    """Everything the melt depends on besides the loading and the oven's air, by name."""
    start = case.get("oven_start")
    if isinstance(start, Given) and start.value == "cold":
        start = missing(start.origin.path, "Can it go into a hot oven? A cold start is not computed yet.")
    clocks = [v for v in (at_least, at_most) if isinstance(v, Given)]
    return {
        "oven_start": start,
        "film": surroundings.film(case),
        "plastic_emissivity": surroundings.PLASTIC_SHINE,
        "tray_finish": case.get("equipment.tray.finish"),
        "tray_emissivity": case.spread("tray material:emissivity"),
        "tray_thickness": case.middle("equipment.tray.thickness"),
        "tray_conductivity": case.get("tray material:conductivity"),
        "tray_density": case.get("tray material:density"),
        "tray_heat_capacity": case.get("tray material:heat capacity"),
        **surroundings.liner_inputs(case, "liner"),
        **surroundings.liner_inputs(case, "liner over"),
        **plastic.inputs(case, "melting curve"),
        **plastic.bed_inputs(case),
        "peak": case.get("resin:surface melted"),
        "end": case.get("resin:melted"),
        **({"latest": max(clocks, key=upper)} if clocks else {}),
    }


def _melt(loading: Any, oven_air: Any, latest: Any = 0.0, **given: Any) -> Melting:
    return Melting(loading, oven_air, given, profiles.last(latest))


def _of(melting: Fact, name: str, dimension: str, fn: Any, **clock: Value) -> Fact:
    return calc(name, dimension, EQUATION, fn, melting=melting, **clock)


def _coldest(melting: Melting, at_least: Any) -> Any:
    return melting.coldest(profiles.first(at_least))


def _hottest(melting: Melting, at_most: Any) -> Any:
    return melting.hottest(profiles.last(at_most))


def _profile(melting: Melting, at_least: Any) -> Profile:
    return Profile(melting.profile(profiles.first(at_least)), MELT_FRACTIONS, melting.loading)


def _floor(case: Case, charge: Value) -> Fact:
    """The time that no heater of this power can beat: the heat of plastic and tray over the power."""

    def floor(charge: float, power: Any, end: float, **given: Any) -> Any:
        matter = plastic.matter(given)
        rise = matter.enthalpy(np.full((1, 65), end)) - matter.enthalpy(np.full((1, 65), surroundings.ROOM))
        tray = given["length"] * given["width"] * given["thickness"] * given["metal_density"] * given["metal_capacity"]
        return (charge * rise[0] + tray * (end - surroundings.ROOM)) / profiles.first(power)

    return calc(
        "heater needs",
        "time",
        "heat of the plastic and the tray ÷ power of the oven",
        floor,
        charge=charge,
        power=case.get("equipment.oven.power"),
        end=case.get("resin:melted"),
        length=case.middle("equipment.tray.length"),
        width=case.middle("equipment.tray.width"),
        thickness=case.middle("equipment.tray.thickness"),
        metal_density=case.get("tray material:density"),
        metal_capacity=case.get("tray material:heat capacity"),
        **plastic.inputs(case, "melting curve"),
    )


def _ladder(melting: Melting) -> Table:
    """Thinner and thicker layers in the same oven, and what of their time is the heat's way through the layer."""
    surface, through = melting.by_loading(LADDER)
    _, at_once = melting.by_loading(LADDER, conducts=1000.0)
    rows = []
    for share, top, core, free in zip(LADDER, surface, through, at_once, strict=True):
        # the band has the times of shops as its ends, and the way is never where it never melts: nothing is NaN
        low, high = np.quantile(core[1:], 0.05, method="lower"), np.quantile(core[1:], 0.95, method="higher")
        way = core[0] - free[0] if np.isfinite(core[0]) else np.inf
        rows.append((share * melting.loading[0], top[0], core[0], low, high, way))
    return Table(
        "the same oven with other layers",
        (
            ("layer", "areal_mass"),
            ("looks melted", "time"),
            ("melted through", "time"),
            ("from", "time"),
            ("to", "time"),
            ("heat's own way", "time"),
        ),
        tuple(rows),
        "Twice the flake needs twice the heat, which takes twice as long to get in; and that heat has to cross "
        "twice the depth. The last column is the time that this crossing adds: it more than doubles, so twice the "
        "layer takes more than twice as long.",
    )
