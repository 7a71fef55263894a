"""What washing leaves: wet plastic, what the filters hold back, and particles that float or settle in the water."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from recipes_core.plugin_api import WATER, Basis, Fact, Given, Open, Outcome, assumed, calc, missing
from recipes_plugins import profiles

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work

WET = assumed("wet", "wet from the wash", Basis.DERIVED)
FRESH = assumed(WATER, "998 kg/m³ of fresh water at 20 °C", Basis.MEMORY)
RESIDUE = {"bleach": "bleach", "acid or alkali": "acid", "bodily": "ammonia"}
"""What the scrap held → what of it can react; contents that nobody knows may be any of them."""


def forecast(case: Case, work: Work) -> Outcome:
    """The finest filter, where the particles go, and what is still in the scrap when this wash begins."""
    densities: dict[str, Value] = {
        f"density {n + 1}": replace(case, lot=lot).spread("resin:density solid")
        for n, lot in enumerate(case.recipe.lots or (0,))
    }
    facts = (_finest(case), *_against_water(densities), _before(case))
    return Outcome(work.after(work.form, moisture=WET), {f.name: f for f in facts})


def _finest(case: Case) -> Fact:
    """The finest mesh that the water goes through; nothing to say where there is no filter."""
    filters = case.get("filter")
    meshes = [profiles.last(v) for v in filters.value if not isinstance(v, str)] if isinstance(filters, Given) else []
    if isinstance(filters, Given) and not meshes:
        return Fact("finest filter", "length", missing((), ""), "")
    return calc("finest filter", "length", "", lambda **_: [min(meshes)], filters=filters)


def _against_water(densities: dict[str, Value]) -> Iterator[Fact]:
    """How much heavier than water the lightest and the heaviest piece of all lots are; below zero they float."""

    def over(pick: Callable[..., float], at: int) -> Callable[..., list[float]]:
        return lambda water, **windows: [pick(window[at] for window in windows.values()) - water]

    equation = "density - that of water"
    lightest = calc("lightest piece over water", "density", equation, over(min, 1), water=FRESH, **densities)
    heaviest = calc("heaviest piece over water", "density", equation, over(max, 2), water=FRESH, **densities)
    yield from (lightest, heaviest)
    yield calc("particles float or settle", "record", "", _side, lightest=lightest, heaviest=heaviest)


def _side(lightest: list[float], heaviest: list[float]) -> str:
    return "float" if heaviest[0] < 0.0 else "settle" if lightest[0] > 0.0 else "either"


def _before(case: Case) -> Fact:
    """What the wash before this one left in it, else what the scrap held."""
    index = case.step.index if case.step else 0
    earlier = [s for s in case.recipe.steps if s.process == "wash" and s.index < index]
    if earlier:
        agents = case.recipe.get((*earlier[-1].path, "agents"), "wash")
        return calc("left from before", "record", "", _all, agents=agents)
    lots = [case.recipe.get(("formula", "feedstock", lot, "past_contents")) for lot in case.recipe.lots]
    held = ["unknown" if isinstance(v, Open) else str(v.value) for v in lots if v is not None]
    left = tuple(RESIDUE.get(word, word) for word in held)
    return Fact("left from before", "record", left, "")


def _all(agents: tuple[str, ...]) -> tuple[str, ...]:
    return agents
