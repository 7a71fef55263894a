"""What a bend does to a sheet or part: when it is warm through, how far it is stretched, when it may be let go."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.plugin_api import NOTHING, Fact, Given, Open, Outcome, Profile, calc, missing, oven_air
from recipes_plugins import plastic, profiles, surroundings
from recipes_plugins.melted import ageing
from recipes_plugins.processes.reheat_bend.curves import held_curves, soaked_curves
from recipes_plugins.processes.reheat_bend.inputs import EQUATION, ON_THE_FORMER, holding, soaking
from recipes_plugins.processes.reheat_bend.shape import lengths, strain

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work
    from recipes_plugins.processes.reheat_bend.holding import Holding
    from recipes_plugins.processes.reheat_bend.soaking import Soaking


def forecast(case: Case, work: Work) -> Outcome:
    """The soak in this oven, the bend, and the hold; the piece as it is when it is let go."""
    heat, thickness = oven_air(case), _thickness(case, work)
    at_least, at_most, hold = case.get("at_least"), case.get("at_most"), case.get("hold")
    soak = soaking(case, heat["oven air"], thickness, [at_least, at_most])
    held = holding(case, _soaked(soak, "profile", "record", _profile, at_least=at_least))
    hottest = _soaked(soak, "hottest", "temperature", _hottest, at_most=at_most)
    released = _held(held, "mid-plane at release", "temperature", _at_release, hold=hold)
    facts = [
        *heat.values(),
        calc("thickness", "length", "of the piece as it is now", _one, thickness=thickness),
        _soaked(soak, "heated through after", "time", lambda soaking: soaking.through()),
        _soaked(soak, "coldest at the end", "temperature", _coldest, at_least=at_least),
        hottest,
        _soaked(soak, "over the whitening line for", "time", _white, at_most=at_most, line=_line(case)),
        ageing(case, soak, at_most, work),
        _floor(case, thickness),
        _held(held, "coldest when bent", "temperature", lambda holding: holding.coldest()),
        strain(case, thickness),
        *lengths(case, thickness),
        _held(held, "set after", "time", lambda holding, level: holding.below(level), level=_set(case)),
        released,
        calc("hottest to the hand", "temperature", "the piece as it leaves the oven", _same, hottest=hottest),
        soak,
        held,
    ]
    named = {f.name: f for f in facts}
    after = work.after(
        "bent part", aged=named["aged"], thickness=thickness, left_warm=released, oven_air=heat["oven air"]
    )
    return Outcome(after, named, curves=(*soaked_curves(case, soak), held_curves(case, held, _set(case))))


def _one(thickness: Any) -> Any:
    return np.atleast_1d(thickness)


def _same(hottest: Any) -> Any:
    return hottest


def _thickness(case: Case, work: Work) -> Value:
    """That of the sheet or part as it is now; a part fresh from its mould is as thick as it should be."""
    if work.thickness is NOTHING:
        shape = case.get("part.shape")
        custom = isinstance(shape, Given) and shape.value == "custom"
        return case.middle("part.thickest" if custom else "part.thickness")
    value = work.thickness
    if isinstance(value, Given) and isinstance(value.value, tuple):
        return Given(0.5 * (value.value[0] + value.value[1]), value.text, value.origin)
    return value


def _soaked(soaking: Fact, name: str, dimension: str, fn: Any, **more: Value) -> Fact:
    return calc(name, dimension, EQUATION, fn, soaking=soaking, **more)


def _coldest(soaking: Soaking, at_least: Any) -> Any:
    return soaking.coldest(profiles.first(at_least))


def _hottest(soaking: Soaking, at_most: Any) -> Any:
    return soaking.hottest(profiles.last(at_most))


def _profile(soaking: Soaking, at_least: Any) -> Profile:
    return Profile(soaking.profile(profiles.first(at_least)), PART_FRACTIONS, soaking.areal_mass)


def _line(case: Case) -> Value:
    """The whitening line; most plastics have none, which is no question."""
    line = case.get("resin:whitening line")
    return line if isinstance(line, Given) else missing((), "")


def _white(soaking: Soaking, at_most: Any, line: float) -> Any:
    return soaking.above(profiles.last(at_most), line)


def _floor(case: Case, thickness: Value) -> Fact:
    """The time that no heater of this power can beat: the heat of the piece alone over the power."""

    def floor(thickness: Any, area: float, power: Any, foot: float, density: Any, **given: Any) -> Any:
        matter = plastic.matter({**given, "density": density})
        rise = matter.enthalpy(np.full((1, 65), foot)) - matter.enthalpy(np.full((1, 65), surroundings.ROOM))
        mass = np.asarray(thickness) * area * float(np.interp(surroundings.ROOM, *density))
        return mass * rise[0] / profiles.first(power)

    return calc(
        "heater needs",
        "time",
        "heat of the piece ÷ power of the oven",
        floor,
        thickness=thickness,
        area=_area(case),
        power=case.get("equipment.oven.power"),
        foot=case.get("resin:forming foot"),
        **plastic.inputs(case, "melting curve"),
    )


def _area(case: Case) -> Value:
    """The area of one face, m2."""
    shape = case.get("part.shape")
    if isinstance(shape, Given) and shape.value == "custom":
        return case.middle("part.projected_area")
    sides = {side: case.middle(f"part.{side}") for side in ("length", "width")}
    return calc("face", "area", "length × width of the part", lambda length, width: length * width, **sides)


def _held(holding: Fact, name: str, dimension: str, fn: Any, **more: Value) -> Fact:
    return calc(name, dimension, ON_THE_FORMER, fn, holding=holding, **more)


def _at_release(holding: Holding, hold: Any) -> Any:
    return holding.hottest(profiles.first(hold))


def _set(case: Case) -> Value:
    """Where a bend keeps its shape: what the sheet says of bends, or where this kind of plastic sets."""
    own = case.get("resin:bend set")
    return case.get("resin:set") if isinstance(own, Open) else own
