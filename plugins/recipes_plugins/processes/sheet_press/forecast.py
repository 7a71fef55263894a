"""What heated platens do to a charge: when it is molten, what the force does, and how the sheet cools under it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.plugin_api import (
    Band,
    Basis,
    Fact,
    Given,
    Open,
    Outcome,
    Profile,
    assumed,
    calc,
    oven_air,
    upper,
)
from recipes_plugins import piece, plastic, pressure, profiles, surroundings
from recipes_plugins.melted import ageing, curves
from recipes_plugins.pressure import EQUATION as COOLING
from recipes_plugins.processes.sheet_press.heating import FRACTIONS, Heating
from recipes_plugins.processes.sheet_press.platens import PlatenPressing, Platens

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work

EQUATION = "transient conduction with melting, from both platens through the liners"
BOTTOM, TOP = "liner platen bottom", "liner platen top"
SPREAD = assumed(Band("loading", 1.0, 0.9, 1.1), "± 10 % from place to place")
LOOSE = assumed(
    Band("convection", 0.003, 0.001, 0.005), "0.003 m² K/W between platen and plastic before the force", Basis.MEMORY
)
TIGHT = assumed(
    Band("convection", 0.001, 0.0002, 0.002), "0.001 m² K/W between platen and plastic under force", Basis.MEMORY
)
"""As conductances 200 to 1000 and 500 to 5000 W/(m2 K)."""
RIM = assumed(12.0, "12 W/(m² K) on the edges of the platens, still air and radiation", Basis.DERIVED)
COOLED = {
    "off": assumed(Band("outside of the mould", 10.0, 5.0, 15.0), "10 W/(m² K) behind platens left alone, ± 5"),
    "air": assumed(Band("outside of the mould", 35.0, 25.0, 45.0), "35 W/(m² K) behind platens in blown air, ± 10"),
    "water": assumed(Band("outside of the mould", 300.0, 150.0, 450.0), "300 W/(m² K) for water in channels, ± 150"),
}
"""What takes the heat off the back of a platen; the lowest of "off" is a board behind it (judgement)."""


def forecast(case: Case, work: Work) -> Outcome:
    """Times of melting count from the platens meeting the plastic, all others from full force, as hold does.

    The force comes up when the latest clock of the step is over, and the platens are cooled from full force on.
    """
    heat, area, charge = oven_air(case), pressure.area(case), pressure.charge(case, work)
    at_least, at_most, hold = case.get("at_least"), case.get("at_most"), case.get("hold")
    clocks = [clock for clock in (at_least, at_most) if isinstance(clock, Given)]
    full = calc(
        "full force after",
        "time",
        "the latest clock of the step + closing time",
        lambda clock, closing_time, spread: profiles.last(clock) + profiles.last(closing_time) * spread.members(),
        clock=max(clocks, key=upper) if clocks else at_least,
        closing_time=case.get("closing_time"),
        spread=pressure.CLOSING,
    )
    layer = _layer(case, work, charge, area)
    melting = _melting(case, work, layer, heat["oven air"], full)
    pressing = _pressing(case, melting, charge, area, full, heat["oven air"])
    thickness = calc(
        "sheet thickness",
        "length",
        "charge ÷ (1 + flash allowance) ÷ (area × density)",
        lambda charge, flash, area, density: [charge / (1.0 + flash) / area / density],
        charge=charge,
        flash=case.middle("formula.flash_allowance"),
        area=area,
        density=piece.density(case),
    )
    facts = (
        *heat.values(),
        calc("loading", "areal_mass", "charge ÷ area of the sheet", lambda layer: layer.areal_mass, layer=layer),
        _of(melting, "melted through after", "time", lambda melting: melting.through()),
        _of(melting, "coldest at the end", "temperature", _coldest, at_least=at_least),
        _of(melting, "hottest", "temperature", _hottest, at_most=at_most),
        ageing(case, melting, at_most, work),
        _floor(case, work, charge),
        melting,
        full,
        *pressure.force_facts(case, charge, area, layer),
        thickness,
        pressing,
        *pressure.core_facts(case, pressing),
        calc("hottest to the hand", "temperature", "the platens", lambda platens: platens, platens=heat["oven air"]),
    )
    named = {fact.name: fact for fact in facts}
    after = work.after(
        "pressed hot",
        charge=charge,
        aged=named["aged"],
        melts=work.melts + (work.form == "charge"),
        pressing=pressing,
        hold=hold,
        thickness=thickness,
    )
    return Outcome(after, named, curves=curves(case, melting, "since the platens met the plastic", at_least, at_most))


def _layer(case: Case, work: Work, charge: Value, area: Value) -> Fact:
    """What lies between the platens before the force: flake spread over the whole sheet, or the melt as it comes."""
    if work.form != "charge":
        return calc(
            "layer",
            "record",
            "the melt, after its way through the air of the shop",
            _arrived,
            profile=work.profile,
            transfer=case.get("transfer"),
            shop_air=surroundings.shop_air(case),
            **pressure.WAY_FROM_THE_OVEN,
            **plastic.inputs(case, "freezing curve"),
        )

    def spread(charge: float, area: float, evenness: Band) -> Profile:
        loading = charge / area * evenness.members()
        return Profile(np.full((len(FRACTIONS), len(loading)), surroundings.ROOM), FRACTIONS, loading)

    return calc("layer", "record", "charge ÷ area of the sheet", spread, charge=charge, area=area, evenness=SPREAD)


def _arrived(profile: Profile, transfer: Any, **given: Any) -> Profile:
    melt, _ = pressure.carried(profile, plastic.matter(given), transfer, given)
    return Profile(profiles.remap(melt, profile.fractions, FRACTIONS), FRACTIONS, profile.areal_mass)


def _melting(case: Case, work: Work, layer: Fact, platens: Fact, full: Fact) -> Fact:
    return calc(
        "melting",
        "record",
        EQUATION,
        _melt,
        layer=layer,
        platens=platens,
        gap=LOOSE,
        melted=case.get("resin:melted"),
        **_liners(case),
        **plastic.inputs(case, "melting curve"),
        **(plastic.bed_inputs(case) if work.form == "charge" else {}),
        **({} if isinstance(full.value, Open) else {"until": full}),
    )


def _melt(layer: Profile, platens: Any, gap: Band, melted: float, until: Any = 0.0, **given: Any) -> Heating:
    return Heating(
        matter=plastic.matter(given),
        loading=layer.areal_mass,
        start=layer.temperatures,
        platens=platens,
        gap=gap.members(),
        liners=_sheets(given),
        melted=melted,
        until=until,
    )


def _pressing(case: Case, melting: Fact, charge: Value, area: Value, full: Fact, platens: Fact) -> Fact:
    cooled = case.get("equipment.press.platen.cooled_by")
    sides = ("length", "width", "thickness")
    entries = {"conductivity": "conductivity", "density": "density", "heat_capacity": "heat capacity"}
    return calc(
        "pressing",
        "record",
        COOLING,
        _press,
        melting=melting,
        charge=charge,
        area=area,
        full=full,
        platens=platens,
        gap=TIGHT,
        cooling=COOLED[str(cooled.value)] if isinstance(cooled, Given) else cooled,
        rim=RIM,
        shop_air=surroundings.shop_air(case),
        **{f"platen_{side}": case.middle(f"equipment.press.platen.{side}") for side in sides},
        **{f"metal_{name}": case.get(f"platen material:{entry}") for name, entry in entries.items()},
        **_liners(case),
        **plastic.inputs(case, "freezing curve"),
    )


def _press(
    melting: Heating, charge: float, area: float, full: Any, platens: Any, gap: Band, cooling: Band, **given: Any
) -> PlatenPressing:
    bottom, top = _sheets(given)
    return PlatenPressing(
        start=profiles.remap(melting.profile(full), FRACTIONS, PART_FRACTIONS),
        fractions=PART_FRACTIONS,
        areal_mass=charge / area * melting.loading / melting.loading[0],
        matter=plastic.matter(given),
        closing=np.zeros(len(platens)),
        platens=Platens(
            conductivity=given["metal_conductivity"],
            density=given["metal_density"],
            heat_capacity=given["metal_heat_capacity"],
            thickness=given["platen_thickness"],
            length=given["platen_length"],
            width=given["platen_width"],
            gap=gap.members(),
            papers=(surroundings.paper(bottom), surroundings.paper(top)),
            cooling=cooling.members(),
            rim=given["rim"],
            air=given["shop_air"].members(),
        ),
        area=area,
        wall=platens[None],
    )


def _liners(case: Case) -> dict[str, Value]:
    return {**surroundings.liner_inputs(case, BOTTOM), **surroundings.liner_inputs(case, TOP)}


def _sheets(given: dict[str, Any]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    return surroundings.liner_sheet(given, BOTTOM), surroundings.liner_sheet(given, TOP)


def _of(melting: Fact, name: str, dimension: str, fn: Any, **clock: Value) -> Fact:
    return calc(name, dimension, EQUATION, fn, melting=melting, **clock)


def _coldest(melting: Heating, at_least: Any) -> Any:
    return melting.coldest(profiles.first(at_least))


def _hottest(melting: Heating, at_most: Any) -> Any:
    return melting.hottest(profiles.last(at_most))


def _floor(case: Case, work: Work, charge: Value) -> Fact:
    """The time that no heater of this power can beat: the heat of the flake over the power of the platens."""

    def floor(charge: float, power: Any, melted: float, **given: Any) -> Any:
        ends = np.array([[melted], [surroundings.ROOM]]) * np.ones((2, 65))
        rise = -np.diff(plastic.matter(given).enthalpy(ends), axis=0)[0]
        return charge * rise / profiles.first(power)

    return calc(
        "heater needs",
        "time",
        "heat of the plastic ÷ power of the platens",
        floor,
        charge=charge if work.form == "charge" else None,
        power=case.get("equipment.press.platen.power"),
        melted=case.get("resin:melted"),
        **plastic.inputs(case, "melting curve"),
    )
