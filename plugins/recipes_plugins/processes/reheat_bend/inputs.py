"""What the soak and the hold of a bend are computed from, by name, and the facts that hold their records."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.plugin_api import Band, Basis, Fact, Given, Profile, assumed, calc, missing, upper
from recipes_plugins import plastic, profiles, surroundings
from recipes_plugins.processes.reheat_bend.holding import Former, Holding
from recipes_plugins.processes.reheat_bend.soaking import Soaking

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value

EQUATION = "transient conduction through the piece, convection and radiation on its faces"
ON_THE_FORMER = "transient conduction through the piece, one face on the former and one in air"
BARE = assumed(200.0, "200 W/(m² K), lying loose on bare metal or wood", Basis.MEMORY)
HELD = assumed(200.0, "200 W/(m² K), held by hand or clamps", Basis.MEMORY)
TRANSFER = assumed(10.0, "10 s", Basis.JUDGEMENT)
TRANSFER_SPREAD = assumed(Band("transfer", 1.0, 0.7, 1.5), "× 0.7 to 1.5")


def soaking(case: Case, air: Fact, thickness: Value, clocks: list[Value]) -> Fact:
    """The record of the soak, followed to the longer of the clocks."""
    start, supported = case.get("oven_start"), case.get("supported")
    if isinstance(start, Given) and start.value == "cold":
        start = missing(start.origin.path, "Can it go into a hot oven? A cold start is not computed yet.")
    known = [v for v in clocks if isinstance(v, Given)]
    return calc(
        "soaking",
        "record",
        EQUATION,
        _soak,
        thickness=thickness,
        oven_air=air,
        oven_start=start,
        supported=supported,
        film=surroundings.film(case),
        plastic_emissivity=surroundings.PLASTIC_SHINE,
        foot=case.get("resin:forming foot"),
        **_support(case, supported),
        **plastic.inputs(case, "melting curve"),
        **({"latest": max(known, key=upper)} if known else {}),
    )


def _support(case: Case, supported: Value) -> dict[str, Value]:
    """What the piece lies on, and the liners about it: nothing where it hangs free or lies on a rack."""
    lies_on = case.get("lies_on")
    carried = "tray" if lies_on is None else str(lies_on.value) if isinstance(lies_on, Given) else ""
    if not isinstance(supported, Given) or not carried:
        return {} if lies_on is None else {"lies_on": lies_on}
    if supported.value == "no" or carried == "rack":
        return {"carried": assumed("air", "both faces in the air of the oven", Basis.DERIVED)}
    values: dict[str, Value] = {"carried": lies_on or assumed("tray", "it lies on the tray"), "bare_contact": BARE}
    if carried == "tray":
        values |= {
            "tray_finish": case.get("equipment.tray.finish"),
            "tray_emissivity": case.spread("tray material:emissivity"),
            "tray_thickness": case.middle("equipment.tray.thickness"),
            "tray_conductivity": case.get("tray material:conductivity"),
            "tray_density": case.get("tray material:density"),
            "tray_heat_capacity": case.get("tray material:heat capacity"),
        }
    return values | surroundings.liner_inputs(case, "liner") | surroundings.liner_inputs(case, "liner over")


def _soak(
    thickness: Any, oven_air: Any, foot: float, carried: str, density: Any, latest: Any = 0.0, **given: Any
) -> Soaking:
    cold = float(np.interp(surroundings.ROOM, *density))
    areal_mass = np.broadcast_to(np.asarray(thickness) * cold, oven_air.shape)
    matter = plastic.matter({**given, "density": density})
    return Soaking(areal_mass, matter, oven_air, foot, carried, given, profiles.last(latest))


def holding(case: Case, profile: Fact) -> Fact:
    """The record of the way to the former and the time on it, from the profile at the end of the soak."""
    given = case.middle("transfer")
    return calc(
        "holding",
        "record",
        ON_THE_FORMER,
        _hold,
        profile=profile,
        transfer=TRANSFER if given is None else given,
        transfer_spread=TRANSFER_SPREAD,
        former_conductivity=case.get("former material:conductivity"),
        former_density=case.get("former material:density"),
        former_heat_capacity=case.get("former material:heat capacity"),
        former_emissivity=case.spread("former material:emissivity"),
        former_wall=case.middle("former.wall"),
        former_contact=HELD,
        shop_air=surroundings.shop_air(case),
        shop_film=surroundings.STILL_AIR,
        plastic_emissivity=surroundings.PLASTIC_SHINE,
        **plastic.inputs(case, "freezing curve"),
    )


def _hold(profile: Profile, transfer: float, former_contact: float, **given: Any) -> Holding:
    former = Former(
        conductivity=given["former_conductivity"],
        density=given["former_density"],
        heat_capacity=given["former_heat_capacity"],
        wall=given["former_wall"],
        shine=Band("emissivity of the metal", *given["former_emissivity"]).members(),
    )
    return Holding(
        start=profile,
        matter=plastic.matter(given),
        transfer=given["transfer_spread"].members() * transfer,
        former=former,
        contact=former_contact,
        air=given["shop_air"].members(),
        film=given["shop_film"].members(),
        shine=given["plastic_emissivity"].members(),
    )
