"""How the part cools on in its mould: when the core is set, solid, cold enough, and how warm the mould still is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.shrinkage import bow
from recipes_core.plugin_api import Fact, Given, Line, Mark, Outcome, calc, missing
from recipes_plugins import pictures, profiles

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Curves, Value, Work

EQUATION = "transient conduction with freezing: mould, part, mould, and what the mould stands on"
TOUCH = 321.15
"""48 °C: what bare hands may hold for ten minutes (judgement on commonly quoted burn thresholds)."""


def forecast(case: Case, work: Work) -> Outcome:
    """Times count from full force, as the press step's hold does; the mould is opened at hold + at_least."""
    where = case.get("in")
    if isinstance(where, Given) and where.value not in ("mould", "platens"):
        where = missing(
            where.origin.path,
            "Does it cool in its mould or between its platens? Cooling in air or water is not computed yet.",
        )
    cooling = calc(
        "cooling", "record", EQUATION, lambda pressing, cooled_in: pressing, pressing=work.pressing, cooled_in=where
    )
    opened = calc(
        "opened after",
        "time",
        "hold + at_least",
        lambda hold, at_least: [profiles.first(hold) + profiles.first(at_least)],
        hold=work.hold,
        at_least=case.get("at_least"),
    )
    target = calc("target", "temperature", "", lambda target: [target], target=_target(case))
    facts = (
        opened,
        target,
        _of(cooling, "core set after", "time", _below, level=case.get("resin:set")),
        _of(cooling, "core solid after", "time", _below, level=case.get("resin:solid")),
        _of(cooling, "core cool enough after", "time", _below, level=target),
        _of(cooling, "cool to touch after", "time", lambda cooling: cooling.below(TOUCH, outside=True)),
        _of(cooling, "core when cooling starts", "temperature", _start, hold=work.hold),
        _of(cooling, "core when opened", "temperature", lambda cooling, opened: cooling.core(opened[0]), opened=opened),
        _of(cooling, "outside when opened", "temperature", _outside, opened=opened),
        _of(cooling, "mould at the start", "temperature", lambda cooling: cooling.inner(-cooling.closing)),
        _of(
            cooling, "mould when opened", "temperature", lambda cooling, opened: cooling.inner(opened[0]), opened=opened
        ),
        _bow(case, cooling),
        cooling,
    )
    named = {f.name: f for f in facts}
    touched = calc(
        "touched",
        "temperature",
        EQUATION,
        _hotter,
        core=named["core when opened"],
        outside=named["outside when opened"],
    )
    return Outcome(work.after("part", opened=touched), named, curves=_curves(case, work, cooling, opened, target))


def _curves(case: Case, work: Work, cooling: Fact, opened: Fact, target: Fact) -> tuple[Callable[[], Fact], ...]:
    """The pictures of the part from full force until it is opened: the press step's hold, and this step, as one."""
    marks = pictures.marks({"the hold ends": work.hold, "opened": opened})
    levels = {"set": case.get("resin:set"), "solid": case.get("resin:solid"), "may be opened": target}
    limits = pictures.lines(levels)

    def cooled(cooling: Any) -> Curves:
        times, history = cooling.history.times - cooling.closing, cooling.history
        series = {"core": history.hottest(cooling.part), "outside of the tool": cooling.outer()}
        touch = Line("burns bare skin in ten minutes", TOUCH)
        title, across = "core and tool", "since full force"
        return pictures.over_time(title, across, times, series, lines=(*limits, touch), marks=marks)

    def cuts(cooling: Any, opened: Any) -> Curves:
        moments = (Mark("at full force", 0.0), *pictures.moments(marks))
        return pictures.cut(
            cooling.history.times - cooling.closing, cooling.history, cooling.part, moments, lines=limits
        )

    return (
        lambda: calc("curves", "curves", EQUATION, cooled, cooling=cooling),
        lambda: calc("curves", "curves", EQUATION, cuts, cooling=cooling, opened=opened),
    )


def _bow(case: Case, cooling: Fact) -> Fact:
    """How far a plate bends as it cools on, when its two faces were apart as the core set, m."""

    def bent(cooling: Any, level: float, expansion: float, length: float, width: float, thickness: float) -> Any:
        return bow(expansion, cooling.uneven(cooling.below(level)), max(length, width), thickness)

    shape = case.get("part.shape")
    sides = {side: case.middle(f"part.{side}") for side in ("length", "width", "thickness")}
    if isinstance(shape, Given) and shape.value == "custom":
        sides = dict.fromkeys(sides)  # only a flat plate bends like this
    level, expansion = case.get("resin:set"), case.get("resin:thermal expansion")
    equation = "expansion × difference of the faces × length² ÷ (8 × thickness)"
    return calc("bow", "length", equation, bent, cooling=cooling, level=level, expansion=expansion, **sides)


def _hotter(core: Any, outside: Any) -> Any:
    return np.maximum(core, outside)


def _target(case: Case) -> Value:
    """The core temperature at which the step is done: its own words, but never above the demould temperature."""
    done, demould = case.get("done"), case.get("resin:demould temperature")
    if not isinstance(done, Given):
        return done if done is not None else demould
    named = {"core set": case.get("resin:set"), "core solid": case.get("resin:solid")}
    wanted = named.get(str(done.value), done)
    if done.value == "cool to touch" or not isinstance(wanted, Given) or not isinstance(demould, Given):
        return demould
    return wanted if wanted.value < demould.value else demould


def _of(cooling: Fact, name: str, dimension: str, fn: Any, **more: Value) -> Fact:
    return calc(name, dimension, EQUATION, fn, cooling=cooling, **more)


def _below(cooling: Any, level: Any) -> Any:
    return cooling.below(level[0] if isinstance(level, list) else level)


def _start(cooling: Any, hold: Any) -> Any:
    return cooling.core(profiles.first(hold))


def _outside(cooling: Any, opened: Any) -> Any:
    return cooling.outside(opened[0])


def _inside(cooling: Any, opened: Any) -> Any:
    return cooling.inner(opened[0])
