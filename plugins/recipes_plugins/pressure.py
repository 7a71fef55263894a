"""What every press step forecasts alike: pressure, the force to close, what is stored, and when the core sets."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.press import disc_radius, squeeze_force
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Band, Fact, Given, Open, assumed, calc
from recipes_plugins import profiles, surroundings

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from recipes_core.physics.matter import Matter
    from recipes_core.plugin_api import Case, Profile, Value, Work
    from recipes_plugins.pressed import Pressed

EQUATION = "transient conduction with freezing: wall, part, wall, and what is around them"
CLOSING = assumed(Band("closing", 1.0, 0.7, 1.5), "× 0.7 to 1.5")
WAY_FROM_THE_OVEN = {
    "transfer_spread": assumed(Band("transfer", 1.0, 0.7, 1.5), "× 0.7 to 1.5"),
    "plastic_emissivity": surroundings.PLASTIC_SHINE,
    "shop_film": surroundings.STILL_AIR,
}
STRETCH = assumed(0.002, "2 mm at full force, of a hand-built frame")
SLACK = assumed(0.25, "a quarter of the stretch, and of the force with it")


def charge(case: Case, work: Work) -> Value:
    """What was weighed out, or what the recipe asks for where nothing was weighed."""
    return work.charge if not isinstance(work.charge, Open) else case.middle("formula.charge")


def area(case: Case) -> Value:
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


def cavity(case: Case, side: str) -> Value:
    """A side of the mould's cavity; nothing, and no question, for a sheet between platens that no mould encloses."""
    free = any(step.process == "sheet-press" for step in case.recipe.steps)
    if free and case.recipe.raw(("equipment", "mould")) is None:
        return None
    return case.middle(f"equipment.mould.cavity.{side}")


def carried(
    profile: Profile, matter: Matter, transfer: Any, given: dict[str, Any]
) -> tuple[NDArray[Any], NDArray[Any]]:
    """The melt when it arrives from the oven: its temperatures, (cells, members) K, and those of its cooler face."""
    out = given["transfer_spread"].members() * profiles.last(transfer)
    air = Face(given["shop_air"].members(), given["shop_film"].members(), given["plastic_emissivity"].members())
    stack = Slab((Layer(matter, profile.areal_mass, profile.fractions),), bottom=air, top=air)
    history = solve(stack, profile.temperatures, profiles.growing(out, 6))
    return history.end, history.surface[-1].min(axis=0)


def force_facts(case: Case, charge: Value, area: Value, profile: Value) -> tuple[Fact, ...]:
    """``pressure`` (Pa), ``stored energy`` (J) of the frame, and the ``closing force`` (N) of the melt."""
    force = case.middle("force")
    pressure = calc(
        "pressure",
        "pressure",
        "force ÷ projected area",
        lambda force, area: [force / area],
        force=force,
        area=area,
    )
    energy = calc(
        "stored energy",
        "energy",
        "half of force × stretch of the frame",
        lambda force, stretch: [0.5 * force * stretch],
        force=force,
        stretch=STRETCH,
    )
    return pressure, energy, _squeeze(case, charge, area, profile)


def core_facts(case: Case, pressing: Value) -> tuple[Fact, ...]:
    """From full force: when the core is set and solid (s), how hot it is when the force ends (K), and the shortest
    time (s) in which the part shrinks away from a quarter of the force while its core is not solid yet.
    """

    def below(pressing: Pressed, level: float) -> Any:
        return pressing.below(level)

    def core(pressing: Pressed, hold: Any) -> Any:
        return pressing.core(profiles.first(hold))

    def slack(pressing: Pressed, density: Any, solid: float, stretch: float, slack: float) -> Any:
        return pressing.quickest(np.full(len(pressing.areal_mass), slack * stretch), density, solid)

    return (
        calc("core set after", "time", EQUATION, below, pressing=pressing, level=case.get("resin:set")),
        calc("core solid after", "time", EQUATION, below, pressing=pressing, level=case.get("resin:solid")),
        calc("core when the force ends", "temperature", EQUATION, core, pressing=pressing, hold=case.get("hold")),
        calc(
            "quarter of force lost in",
            "time",
            "thickness from the density of each layer against the stretch of the frame",
            slack,
            pressing=pressing,
            density=case.get("resin:density by temperature"),
            solid=case.get("resin:solid"),
            stretch=STRETCH,
            slack=SLACK,
        ),
    )


def _squeeze(case: Case, charge: Value, area: Value, profile: Value) -> Fact:
    """The force to bring the melt to the part's thickness within the closing time."""

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
