"""What the press does: pressure, the skin frozen before full force, and how the part cools from there on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.physics.press import disc_radius, squeeze_force
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import NOTHING, Band, Basis, Fact, Given, Open, Outcome, assumed, calc
from recipes_plugins import plastic, profiles, surroundings
from recipes_plugins.processes.mould_preheat.forecast import contact, wall_inputs
from recipes_plugins.processes.mould_press.pressing import Mould, Pressing

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Profile, Value, Work

EQUATION = "transient conduction with freezing: mould, part, mould, and what the mould stands on"
ASSUMED = {
    "transfer_spread": assumed(Band("transfer", 1.0, 0.7, 1.5), "× 0.7 to 1.5"),
    "closing_spread": assumed(Band("closing", 1.0, 0.7, 1.5), "× 0.7 to 1.5"),
    "outside_of_the_mould": assumed(Band("outside of the mould", 1.0, 0.75, 1.25), "× 0.75 to 1.25"),
    "film_on_the_mould": assumed(7.0, "7 W/(m² K), free convection from a small hot body", Basis.DERIVED),
    "contact_under_pressure": assumed(1000.0, "1000 W/(m² K)", Basis.MEMORY),
    "contact_with_the_stand": assumed(300.0, "300 W/(m² K)", Basis.MEMORY),
    "plastic_emissivity": surroundings.PLASTIC_SHINE,
    "shop_film": surroundings.STILL_AIR,
}
STRETCH = assumed(0.002, "2 mm at full force, of a hand-built frame")


def forecast(case: Case, work: Work) -> Outcome:
    """Pressure on the part, its skin at full force, and the time its core takes to set and to freeze."""
    area, wall = _area(case), _wall(case, work)
    charge = work.charge if not isinstance(work.charge, Open) else case.middle("formula.charge")
    force, hold = case.middle("force"), case.get("hold")
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
    peak, end = case.get("resin:set"), case.get("resin:solid")
    facts = (
        pressing,
        _pressure(force, area),
        _energy(force),
        _of(pressing, "core set after", "time", lambda pressing, level: pressing.below(level), level=peak),
        _of(pressing, "core solid after", "time", lambda pressing, level: pressing.below(level), level=end),
        _of(pressing, "skin at full force", "share", lambda pressing, level: pressing.skin(level), level=peak),
        _of(pressing, "skin at the mould", "temperature", lambda pressing: pressing.entry_skin),
        _of(pressing, "core when the force ends", "temperature", _core, hold=hold),
        _squeeze(case, charge, area, work.profile),
        calc("hottest to the hand", "temperature", "the melt, or the mould if hotter", _hottest, pressing=pressing),
        contact(case, wall),
    )
    return Outcome(work.after("pressed hot", pressing=pressing, hold=hold), {f.name: f for f in facts})


def _press(
    profile: Profile, charge: float, area: float, transfer: Any, closing_time: Any, mould_wall: Any, **given: Any
) -> Pressing:
    matter = plastic.matter(given)
    out = given["transfer_spread"].members() * profiles.last(transfer)
    shine = given["plastic_emissivity"].members()
    air = Face(given["shop_air"].members(), given["shop_film"].members(), shine)
    stack = Slab((Layer(matter, profile.areal_mass, profile.fractions),), bottom=air, top=air)
    carried = solve(stack, profile.temperatures, profiles.growing(out, 6))
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
        start=profiles.remap(carried.end, profile.fractions, PART_FRACTIONS),
        fractions=PART_FRACTIONS,
        areal_mass=charge / area * profile.areal_mass / profile.areal_mass[0],
        matter=matter,
        mould=mould,
        wall=mould_wall,
        closing=given["closing_spread"].members() * profiles.last(closing_time),
        entry_skin=carried.surface[-1].min(axis=0),
    )


def _of(pressing: Fact, name: str, dimension: str, fn: Any, **more: Value) -> Fact:
    return calc(name, dimension, EQUATION, fn, pressing=pressing, **more)


def _core(pressing: Pressing, hold: Any) -> Any:
    return pressing.core(profiles.first(hold))


def _hottest(pressing: Pressing) -> Any:
    return np.maximum(pressing.start.max(axis=0), pressing.wall.max(axis=0))


def _pressure(force: Value, area: Value) -> Fact:
    equation = "force ÷ projected area"
    return calc("pressure", "pressure", equation, lambda force, area: [force / area], force=force, area=area)


def _energy(force: Value) -> Fact:
    equation = "half of force × stretch of the frame"
    return calc(
        "stored energy",
        "energy",
        equation,
        lambda force, stretch: [0.5 * force * stretch],
        force=force,
        stretch=STRETCH,
    )


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


def _area(case: Case) -> Value:
    """The projected area of the part, m2."""
    shape = case.get("part.shape")
    if isinstance(shape, Given) and shape.value == "custom":
        return case.middle("part.projected_area")
    return calc(
        "projected area",
        "area",
        "length × width of the part",
        lambda length, width: length * width,
        length=case.middle("part.length"),
        width=case.middle("part.width"),
    )


def _squeeze(case: Case, charge: Value, area: Value, profile: Value) -> Fact:
    """The force to bring the stack to the part's thickness within the closing time."""

    def force(
        charge: float,
        area: float,
        closing_time: Any,
        density: float,
        consistency: float,
        index: float,
        profile: Profile,
    ) -> Any:
        gap = charge / (area * density)
        closing = max(profiles.first(closing_time), 1.0)  # nobody closes a press faster by hand
        speed = np.maximum(profile.areal_mass / density - gap, 0.1 * gap) / closing
        return squeeze_force(disc_radius(area), gap, speed, consistency=consistency, index=index)

    return calc(
        "closing force",
        "force",
        "squeeze film of a power-law melt between discs",
        force,
        charge=charge,
        area=area,
        closing_time=case.get("closing_time"),
        density=case.get("resin:density melt"),
        consistency=case.get("resin:consistency"),
        index=case.get("resin:flow index"),
        profile=profile,
    )
