"""What sanding does: how hot the rubbed face may get, and what turns to dust."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.contact import effusivity
from recipes_core.physics.cutting import surface_rise
from recipes_core.plugin_api import NOTHING, Band, Fact, Given, Outcome, assumed, calc
from recipes_plugins import piece

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work

EQUATION = "part + 2 q √(t/π) ÷ √(k ρ c), q from the power of the sander on the area it touches"
INTO_THE_PART = assumed(Band("loading", 0.65, 0.3, 1.0), "0.3 to 1.0 of the rated power")
"""How hard the belt is leant on and what the belt itself takes along: nothing is published. The place between the
ends is that of the oven's loading, which no number of this step meets."""


def forecast(case: Case, work: Work) -> Outcome:
    """Hottest place of the face (K), dust (kg), thickness and mass left (m, kg); the work keeps its form."""
    before, off = piece.thickness(case, work), case.middle("off")
    left = calc(
        "thickness left",
        "length",
        "thickness before - what is sanded off",
        lambda before, off: [before[0] - off],
        before=before,
        off=off,
    )
    dust = piece.removed_mass(case, "dust", off)
    mass, warm = piece.mass_left(work, dust), piece.warmth(case, work)
    facts = (warm, _surface(case, warm), dust, left, mass)
    outcome = work.after(work.form, thickness=left, mass=mass, left_warm=warm)
    return Outcome(outcome, {f.name: f for f in facts})


def _surface(case: Case, warm: Value) -> Fact:
    by = case.get("by")
    if isinstance(by, Given) and by.value == "hand":
        return Fact("surface when sanded", "temperature", NOTHING, EQUATION)  # a hand has no rating plate
    return calc(
        "surface when sanded",
        "temperature",
        EQUATION,
        _hottest,
        by=by,
        part=warm,
        power=case.middle("machine.power"),
        contact_area=case.middle("machine.contact_area"),
        contact_time=case.middle("machine.contact_time"),
        conductivity=case.get("resin:conductivity solid"),
        density=piece.density(case),
        heat_capacity=case.get("resin:heat capacity solid"),
        into_the_part=INTO_THE_PART,
    )


def _hottest(part: Any, power: float, contact_area: float, contact_time: float, **given: Any) -> Any:
    draws = effusivity(piece.at_room(given["conductivity"]), given["density"], piece.at_room(given["heat_capacity"]))
    flux = given["into_the_part"].members() * power / contact_area
    return np.asarray(part) + surface_rise(flux, contact_time, draws)
