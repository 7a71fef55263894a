"""Numbers of a step as the card shows them: in both systems, with what they rest on."""

from __future__ import annotations

from contextlib import suppress
from math import isfinite
from typing import TYPE_CHECKING

from recipes_core.case import number, upper
from recipes_core.facts import Fact, Given, Open
from recipes_core.oven import MACHINES
from recipes_core.quantities import Dimension, QuantityError, parse, rounded, show, show_author
from recipes_core.report.card.content import Times
from recipes_core.schema.fields import field
from recipes_core.sheets.properties import PROPERTIES

if TYPE_CHECKING:
    from collections.abc import Iterable

    from recipes_core.bench import Cell, Clock, Ticks
    from recipes_core.case import Case, Value

_SIDES = ("length", "width", "first", "second")
MOST_TICKS = 48
"""Boxes that fit two lines of the card; more often than that, the card only says how often."""


def split(text: str) -> tuple[str, str]:
    """``177 °C (350 °F)`` as its two parts."""
    first, _, second = text.partition(" (")
    return first, second.removesuffix(")")


def valued(case: Case, name: str) -> tuple[str, str]:
    """A value in both systems, the second empty where it is a word; both empty where it is not known."""
    value = case.get(name)
    if isinstance(value, Open) or value is None or (isinstance(value, Fact) and isinstance(value.value, Open)):
        return "", ""
    if isinstance(value, Fact):
        like = _thermometer(case) if value.dimension == Dimension.TEMPERATURE else None
        return split(show(value.nominal, Dimension(value.dimension), like))
    dimension = _dimension(case, name)
    if dimension is None or not isinstance(value.value, float | int | tuple):
        return value.text, ""
    if isinstance(value.value, tuple):
        return split(show_author(parse(value.text, dimension)))
    if dimension is Dimension.TEMPERATURE:
        return split(show(number(value), dimension, _thermometer(case)))
    if dimension is Dimension.TIME or ":" in name:
        return split(show(number(value), dimension))  # not in the author's own unit
    return split(show_author(parse(value.text, dimension)))


def _thermometer(case: Case) -> str | None:
    """The unit of the recipe's dials, which comes first: that of the first setting that can be read."""
    for step in case.recipe.steps:
        for machine in MACHINES:
            setting = case.recipe.raw((*step.path, machine))
            if isinstance(setting, str):
                with suppress(QuantityError):
                    return parse(setting, Dimension.TEMPERATURE).unit
    return None


def _dimension(case: Case, name: str) -> Dimension | None:
    if ":" in name:
        entry = name.partition(":")[2]
        measure = PROPERTIES[entry].measure if entry in PROPERTIES else Dimension.TEMPERATURE  # else it is a state
        return measure if isinstance(measure, Dimension) else None
    path, process = case.path(name)
    return field(path, process, case.recipe.schemas).dimension


def aside(case: Case, cell: Cell) -> str:
    """A value in one line of words, a group of sides as one size; empty where it is not known."""
    shown = _size(case, cell.value)
    if not shown:
        first, second = valued(case, cell.value)
        shown = f"{first} ({second})" if second else first
    return f"{cell.label}: {shown}{f' {cell.says}' if cell.says else ''}" if shown else ""


def _size(case: Case, name: str) -> str:
    group = None if ":" in name else case.recipe.raw(case.path(name)[0])
    if not isinstance(group, dict):
        return ""
    return sizes(case.get(f"{name}.{side}") for side in _SIDES if side in group)


def sizes(sides: Iterable[Value]) -> str:
    """Lengths as one size in each system, ``180 × 160 mm (7.1 × 6.3 in)``, of those that are known."""
    shown = [split(show(number(side), Dimension.LENGTH)) for side in sides if isinstance(side, Given)]
    if not shown:
        return ""
    systems = [" × ".join([*(s[at].rpartition(" ")[0] for s in shown[:-1]), shown[-1][at]]) for at in (0, 1)]
    same = all({s[at].rpartition(" ")[2] for s in shown} == {shown[-1][at].rpartition(" ")[2]} for at in (0, 1))
    return f"{systems[0]} ({systems[1]})" if same else " × ".join(f"{a} ({b})" for a, b in shown)


def unmeasured(case: Case) -> str:
    """What the air may be where nobody measured it; empty where a dated reading corrects the dial."""
    if reading(case):
        return ""
    air = case.facts.get("oven air")
    if air is None or isinstance(air.value, Open):
        return f"{case.setting} not measured"
    low, high = air.band()
    worst = case.facts.get("air at worst")
    ends = (low, max(high, worst.nominal) if worst and not isinstance(worst.value, Open) else high)
    (low_c, low_f), (high_c, high_f) = (split(show(end, Dimension.TEMPERATURE)) for end in ends)
    return f"{case.setting} not measured: {low_c.split()[0]} to {high_c} ({low_f.split()[0]} to {high_f})"


def times(case: Case, clock: Clock, again: Ticks | None) -> Times | None:
    """The times of a step; beside them the forecast's upper end where the step allows less."""
    least = case.get(clock.least)
    if not isinstance(least, Given):
        return None
    most = case.get(clock.most) if clock.most else None
    return Times(
        _short(number(least)),
        _short(upper(most)) if isinstance(most, Given) else "",
        clock.by,
        _beside(case, clock, number(least)),
        *_ticks(case, again),
    )


def _short(seconds: float) -> str:
    """``1 h 20 min`` without its last word, which would not fit beside the clock."""
    shown = show(seconds, Dimension.TIME)
    return shown.removesuffix(" min") if " h " in shown else shown


def _beside(case: Case, clock: Clock, least: float) -> str:
    needs = case.get(clock.needs) if clock.needs else None
    if not isinstance(needs, Fact) or isinstance(needs.value, Open):
        return ""
    high = needs.band()[1]
    ends = case.get(clock.ends) if clock.ends else None
    if isinstance(ends, Fact) and not isinstance(ends.value, Open):
        high -= ends.nominal - least  # counted from the start of this step, as its clock is
    if not isfinite(high):
        return "forecast: some ovens never get there"
    if rounded(high, Dimension.TIME) <= rounded(least, Dimension.TIME):
        return ""
    return f"forecast: up to {show(high, Dimension.TIME)}"


def _ticks(case: Case, again: Ticks | None) -> tuple[int, str]:
    every, over = (case.get(name) for name in (again.every, again.over)) if again else (None, None)
    if not isinstance(every, Given) or number(every) <= 0.0:
        return 0, ""
    count = int(number(over) // number(every)) if isinstance(over, Given) else 0
    return (count if count <= MOST_TICKS else 0), show(number(every), Dimension.TIME)


def reading(case: Case) -> str:
    """The dated reading of what the step sets; empty where there is none."""
    machine = MACHINES[case.setting]
    at, reads, on = (case.get(f"{machine}.measured.{key}") for key in ("set", "reads", "on"))
    if not (isinstance(at, Given) and isinstance(reads, Given) and isinstance(on, Given)):
        return ""
    return f"{case.setting} set to {at.text} gave {reads.text} on {on.text}"
