"""What the press does: pressure, the skin frozen before full force, and how the part cools from there on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.plugin_api import NOTHING, Band, Basis, Fact, Outcome, assumed, calc
from recipes_plugins import plastic, pressure, profiles, surroundings
from recipes_plugins.pressure import EQUATION
from recipes_plugins.processes.mould_preheat.forecast import contact, wall_inputs
from recipes_plugins.processes.mould_press.pressing import Mould, Pressing

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Profile, Value, Work

ASSUMED = {
    **pressure.WAY_FROM_THE_OVEN,
    "closing_spread": pressure.CLOSING,
    "outside_of_the_mould": assumed(Band("outside of the mould", 1.0, 0.75, 1.25), "× 0.75 to 1.25"),
    "film_on_the_mould": assumed(7.0, "7 W/(m² K), free convection from a small hot body", Basis.DERIVED),
    "contact_under_pressure": assumed(1000.0, "1000 W/(m² K)", Basis.MEMORY),
    "contact_with_the_stand": assumed(300.0, "300 W/(m² K)", Basis.MEMORY),
}


def forecast(case: Case, work: Work) -> Outcome:
    """Pressure on the part, its skin at full force, and the time its core takes to set and to freeze."""
    area, wall, charge = pressure.area(case), _wall(case, work), pressure.charge(case, work)
    pressing = calc(
        "pressing",
        "record",
        EQUATION,
        _press,
        profile=work.profile,
        charge=charge,
        area=area,
        transfer=case.get("transfer"),
        closing_time=case.get("closing_time"),
        mould_wall=wall,
        shop_air=surroundings.shop_air(case),
        **_mould(case),
        **plastic.inputs(case, "freezing curve"),
        **ASSUMED,
    )
    facts = (
        pressing,
        *pressure.force_facts(case, charge, area, work.profile),
        *pressure.core_facts(case, pressing),
        _of(
            pressing,
            "skin at full force",
            "share",
            lambda pressing, level: pressing.skin(level),
            level=case.get("resin:set"),
        ),
        _of(pressing, "skin at the mould", "temperature", lambda pressing: pressing.entry_skin),
        calc("hottest to the hand", "temperature", "the melt, or the mould if hotter", _hottest, pressing=pressing),
        contact(case, wall),
    )
    return Outcome(work.after("pressed hot", pressing=pressing, hold=case.get("hold")), {f.name: f for f in facts})


def _press(
    profile: Profile, charge: float, area: float, transfer: Any, closing_time: Any, mould_wall: Any, **given: Any
) -> Pressing:
    matter = plastic.matter(given)
    melt, skin = pressure.carried(profile, matter, transfer, given)
    mould = Mould(
        conductivity=given["wall_conductivity"],
        density=given["wall_density"],
        heat_capacity=given["wall_heat_capacity"],
        emissivity=given["wall_emissivity"],
        wall=given["wall"],
        length=given["cavity_length"],
        width=given["cavity_width"],
        depth=given["cavity_depth"],
        stands=given["stands"],
        liner=surroundings.liner_sheet(given, "liner mould"),
        contact=given["contact_under_pressure"],
        stand_contact=given["contact_with_the_stand"],
        air=given["shop_air"],
        film=given["film_on_the_mould"],
        outside=given["outside_of_the_mould"],
        board_shine=given["plastic_emissivity"],
    )
    return Pressing(
        start=profiles.remap(melt, profile.fractions, PART_FRACTIONS),
        fractions=PART_FRACTIONS,
        areal_mass=charge / area * profile.areal_mass / profile.areal_mass[0],
        matter=matter,
        mould=mould,
        wall=mould_wall,
        closing=given["closing_spread"].members() * profiles.last(closing_time),
        entry_skin=skin,
    )


def _of(pressing: Fact, name: str, dimension: str, fn: Any, **more: Value) -> Fact:
    return calc(name, dimension, EQUATION, fn, pressing=pressing, **more)


def _hottest(pressing: Pressing) -> Any:
    return np.maximum(pressing.start.max(axis=0), pressing.wall.max(axis=0))


def _wall(case: Case, work: Work) -> Value:
    """The mould as the preheat step left it; at the shop's temperature where no step heated it."""
    if work.mould is NOTHING:
        cold = surroundings.shop_air(case)
        return calc("mould wall", "record", "", lambda shop_air: np.tile(shop_air.members(), (2, 1)), shop_air=cold)
    return work.mould


def _mould(case: Case) -> dict[str, Value]:
    cavity = {f"cavity_{side}": case.middle(f"equipment.mould.cavity.{side}") for side in ("length", "width", "depth")}
    return {
        **wall_inputs(case),
        **cavity,
        "wall": case.middle("equipment.mould.wall"),
        "stands": case.get("equipment.mould.stands"),
        **surroundings.liner_inputs(case, "liner mould"),
    }
