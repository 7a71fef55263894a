"""How long the mould takes to get warm in this oven, and what the melt will feel when it touches it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.contact import contact_temperature, effusivity
from recipes_core.physics.history import History
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import ADIABATIC, Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Band, Fact, Given, Outcome, calc, missing, oven_air, upper
from recipes_plugins import pictures, profiles, surroundings

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Curves, Value, Work

EQUATION = "transient conduction into the wall of the closed mould, heated from outside"
CELLS = 6
ON_ITS_WAY = 5.0
RADIATION = 9.0
"""Radiation of a black face near 100 °C in an oven, W/(m2 K) (derived), to choose the time steps by."""


def forecast(case: Case, work: Work) -> Outcome:
    """The wall's temperature over time, the time to ``to``, and the contact temperature with the melt."""
    heat = oven_air(case)
    by = case.get("by")
    if isinstance(by, Given) and by.value != "oven":
        by = missing(by.origin.path, "Can the mould be heated in the oven? Plate, torch and gun are not computed yet.")
    soaking = calc(
        "soaking",
        "record",
        EQUATION,
        _soak,
        by=by,
        **_start(case),
        oven_air=heat["oven air"],
        film=surroundings.film(case),
        wall=case.middle("equipment.mould.wall"),
        at_least=case.get("at_least"),
        to=case.get("to"),
        **wall_inputs(case),
    )
    ready = calc("mould ready after", "time", EQUATION, lambda soaking: soaking["ready"], soaking=soaking)
    mould = calc("mould wall", "record", EQUATION, lambda soaking: soaking["wall"], soaking=soaking)
    inner = calc("mould at the end", "temperature", EQUATION, lambda wall: wall[0], wall=mould)
    hands = calc("hottest to the hand", "temperature", EQUATION, lambda wall: wall.max(axis=0), wall=mould)
    facts = (*heat.values(), soaking, ready, inner, hands, contact(case, mould), _floor(case))
    return Outcome(work.after(work.form, mould=mould), {f.name: f for f in facts}, curves=(_curves(case, soaking),))


def _curves(case: Case, soaking: Fact) -> Callable[[], Fact]:
    """The picture of the wall as it warms up, beside the temperature that is asked for."""
    limits = pictures.lines({"asked for": case.get("to")}, upper)
    marks = pictures.marks({"at least": case.get("at_least")})

    def warmed(soaking: dict[str, Any]) -> Curves:
        history, ready = soaking["history"], float(soaking["ready"][0])
        series = {"inner face of the mould": history.temperature[:, 0], "outer face": history.temperature[:, -1]}
        title, across = "temperature of the mould", "since the mould went into the hot oven"
        return pictures.over_time(title, across, history.times, series, lines=limits, marks=marks, until=ready)

    return lambda: calc("curves", "curves", EQUATION, warmed, soaking=soaking)


def _start(case: Case) -> dict[str, Value]:
    """The mould goes into a hot oven, unless the step says otherwise, or that nobody knows."""
    start = case.get("oven_start")
    if isinstance(start, Given) and start.value == "cold":
        start = missing(start.origin.path, "Can it go into a hot oven? A cold start is not computed yet.")
    said = case.recipe.raw(case.path("oven_start")[0]) is not None
    return {"oven_start": start} if said else {}


def wall_inputs(case: Case) -> dict[str, Value]:
    """What the heat needs to know of the mould's material."""
    entries = ("conductivity", "density", "heat capacity")
    values = {f"wall_{entry.replace(' ', '_')}": case.get(f"mould material:{entry}") for entry in entries}
    return {**values, "wall_emissivity": case.spread("mould material:emissivity")}


def contact(case: Case, mould: Value) -> Fact:
    """The temperature at which the melt and the mould meet, before any of it freezes.

    The melt is taken a little below the lower end of its window: what it loses on its way (judgement).
    """

    def meet(
        mould: Any, melt: float, k: float, rho: Any, c: float, wall_k: float, wall_rho: float, wall_c: float
    ) -> Any:
        melt -= ON_ITS_WAY
        own = effusivity(k, float(np.interp(melt, *rho)), c)
        return contact_temperature(melt, own, mould[0], effusivity(wall_k, wall_rho, wall_c))

    return calc(
        "contact temperature",
        "temperature",
        "two thick bodies brought together",
        meet,
        mould=mould,
        melt=case.get("resin:window low"),
        k=case.get("resin:conductivity melt"),
        rho=case.get("resin:density by temperature"),
        c=case.get("resin:heat capacity melt"),
        wall_k=case.get("mould material:conductivity"),
        wall_rho=case.get("mould material:density"),
        wall_c=case.get("mould material:heat capacity"),
    )


def _soak(oven_air: Any, film: Band, wall: float, at_least: Any, to: Any, **given: Any) -> dict[str, Any]:
    matter = constant(given["wall_conductivity"], given["wall_density"], given["wall_heat_capacity"])
    shine = Band("emissivity of the metal", *given["wall_emissivity"]).members()
    flow = film.members()
    layer = Layer(matter, wall * given["wall_density"], np.full(CELLS, 1.0 / CELLS))
    slab = Slab((layer,), bottom=ADIABATIC, top=Face(oven_air, flow, shine))
    target, least = profiles.last(to), profiles.first(at_least)
    lumped = wall * given["wall_density"] * given["wall_heat_capacity"] / (flow + RADIATION * shine)
    steps = np.multiply.outer(np.concatenate([np.full(16, 0.12), 0.12 * 1.2 ** np.arange(1, 40)]), lumped)

    def done(history: History) -> bool:
        reached = (history.coldest(0)[-1] >= target) | (oven_air <= target + 1.0)
        return bool(np.all(reached) and np.all(history.times[-1] >= least))

    history = solve(slab, slab.temperatures(surroundings.ROOM), steps, stop=done)
    return {
        "ready": history.crossing(history.coldest(0), target),
        "wall": profiles.at(history.times, history.temperature, least),
        "history": history,
    }


def _floor(case: Case) -> Fact:
    """The time no heater of this power can beat: the heat of both halves over the power."""

    def floor(length: float, width: float, depth: float, wall: float, heat: Any, to: Any, power: Any) -> Any:
        outside = (length + 2 * wall) * (width + 2 * wall) * (depth + 2 * wall)
        shell = outside - length * width * depth
        return [shell * heat * (profiles.last(to) - surroundings.ROOM) / profiles.first(power)]

    heat = calc(
        "heat of the wall",
        "record",
        "density × heat capacity",
        lambda density, capacity: density * capacity,
        density=case.get("mould material:density"),
        capacity=case.get("mould material:heat capacity"),
    )
    cavity = {side: case.middle(f"equipment.mould.cavity.{side}") for side in ("length", "width", "depth")}
    return calc(
        "heater needs",
        "time",
        "heat of the mould ÷ power of the oven",
        floor,
        wall=case.middle("equipment.mould.wall"),
        heat=heat,
        to=case.get("to"),
        power=case.get("equipment.oven.power"),
        **cavity,
    )
