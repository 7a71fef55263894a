"""What folding does: the stack it makes, the skin it cools, and what the return to the oven restores."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.slab import ADIABATIC, Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Outcome, Profile, calc
from recipes_plugins import plastic, profiles, surroundings

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Work

EQUATION = "transient conduction through the folded stack, out of the oven and back in it"
LOOK_BACK = 1200.0
"""How long the return is followed, s, so that the time it needs can be told even if the step is shorter."""
FOLDED_AT = 433.15
"""The density of the stack is told at 160 °C, where a melt is usually folded."""


def forecast(case: Case, work: Work) -> Outcome:
    """The skin after ``out_of_oven``, the time its gloss takes to come back, and the stack's height."""
    layers = case.get("layers")
    folding = calc(
        "folding",
        "record",
        EQUATION,
        _fold,
        profile=work.profile,
        layers=layers,
        out_of_oven=case.get("out_of_oven"),
        back_for=case.get("back_for"),
        oven_air=work.oven_air,
        oven_film=surroundings.film(case),
        shop_film=surroundings.STILL_AIR,
        shop_air=surroundings.shop_air(case),
        plastic_emissivity=surroundings.PLASTIC_SHINE,
        foot=case.get("resin:window foot"),
        **plastic.inputs(case, "freezing curve"),
    )
    height = calc(
        "stack height",
        "length",
        "layers × loading ÷ density of the melt",
        lambda profile, layers, density: int(layers) * profile.areal_mass / float(np.interp(FOLDED_AT, *density)),
        profile=work.profile,
        layers=layers,
        density=case.get("resin:density by temperature"),
    )
    hands = calc("hottest to the hand", "temperature", "", _hottest, profile=work.profile)
    coldest = calc("coldest at folding", "temperature", "", _coldest, profile=work.profile)
    told = {"skin after folding": "temperature", "skin after the return": "temperature", "return needed": "time"}
    facts = [calc(name, dimension, EQUATION, _read(name), folding=folding) for name, dimension in told.items()]
    profile = calc("profile", "record", EQUATION, _read("profile"), folding=folding)
    named = {f.name: f for f in (folding, coldest, *facts, height, hands)}
    return Outcome(work.after("folded melt", profile=profile), named)


def _coldest(profile: Profile) -> Any:
    return profile.temperatures.min(axis=0)


def _hottest(profile: Profile) -> Any:
    return profile.temperatures.max(axis=0)


def _read(name: str) -> Any:
    return lambda folding: folding[name]


def _fold(profile: Profile, layers: str, out_of_oven: Any, back_for: Any, foot: float, **given: Any) -> dict[str, Any]:
    stack = profiles.stacked(profile, int(layers))
    back = profiles.first(back_for)
    layer = Layer(plastic.matter(given), stack.areal_mass, stack.fractions)
    shine = given["plastic_emissivity"].members()
    shop = Face(given["shop_air"].members(), given["shop_film"].members(), shine)
    cooling = Slab((layer,), bottom=ADIABATIC, top=shop)  # it lies on its own warm liner
    out = solve(cooling, stack.temperatures, profiles.growing(profiles.last(out_of_oven), 8))
    oven = Face(given["oven_air"], given["oven_film"].members(), shine)
    again = solve(Slab((layer,), bottom=oven, top=oven), out.end, profiles.growing(max(back, LOOK_BACK), 18))
    skin = again.surface[:, 1]
    cells = profiles.at(again.times, again.temperature, back)
    return {
        "skin after folding": out.surface[-1, 1],
        "skin after the return": profiles.at(again.times, skin, back),
        "return needed": again.crossing(skin, foot),
        "profile": Profile(cells, stack.fractions, stack.areal_mass),
    }
