"""Numbers of a step as the card shows them: in both systems, with what they rest on."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from recipes_core.case import number, upper
from recipes_core.facts import Fact, Given, Open
from recipes_core.quantities import Dimension, parse, rounded, show, show_author
from recipes_core.report.card.content import Times
from recipes_core.report.card.ready import reading
from recipes_core.schema.fields import field
from recipes_core.sheets.properties import PROPERTIES

if TYPE_CHECKING:
    from recipes_core.bench import Cell, Clock
    from recipes_core.case import Case

MOST_TICKS = 24
"""Boxes that fit a line of the card; more often than that, the card only says how often."""


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
        return split(show(value.nominal, Dimension(value.dimension)))
    dimension = _dimension(case, name)
    if dimension is None or not isinstance(value.value, float | int | tuple):
        return value.text, ""
    ours = dimension in (Dimension.TEMPERATURE, Dimension.TIME) or ":" in name  # not in the author's own unit
    if ours and not isinstance(value.value, tuple):
        return split(show(number(value), dimension))
    return split(show_author(parse(value.text, dimension)))


def _dimension(case: Case, name: str) -> Dimension | None:
    if ":" in name:
        entry = name.partition(":")[2]
        measure = PROPERTIES[entry].measure if entry in PROPERTIES else Dimension.TEMPERATURE  # else it is a state
        return measure if isinstance(measure, Dimension) else None
    path, process = case.path(name)
    return field(path, process, case.recipe.schemas).dimension


def aside(case: Case, cell: Cell) -> str:
    """A value in one line of words; empty where it is not known."""
    first, second = valued(case, cell.value)
    shown = f"{first} ({second})" if second else first
    return f"{cell.label}: {shown}{f' {cell.says}' if cell.says else ''}" if first else ""


def unmeasured(case: Case) -> str:
    """What the air may be where nobody measured it; empty where a dated reading corrects the dial."""
    if reading(case):
        return ""
    air, what = case.facts.get("oven air"), "oven" if case.setting == "oven" else "platens"
    if air is None or isinstance(air.value, Open):
        return f"{what} not measured"
    (low, low_f), (high, high_f) = (split(show(end, Dimension.TEMPERATURE)) for end in air.band())
    return f"{what} not measured: {low.split()[0]} to {high} ({low_f.split()[0]} to {high_f})"


def times(case: Case, clock: Clock, every: str) -> Times | None:
    """The times of a step; beside them the forecast's upper end where the step allows less."""
    least = case.get(clock.least)
    if not isinstance(least, Given):
        return None
    most = case.get(clock.most) if clock.most else None
    return Times(
        _short(number(least)),
        _short(upper(most)) if isinstance(most, Given) else "",
        _beside(case, clock, number(least)),
        *_ticks(case, every, number(least)),
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


def _ticks(case: Case, every: str, least: float) -> tuple[int, str]:
    value = case.get(every) if every else None
    if not isinstance(value, Given) or number(value) <= 0.0:
        return 0, ""
    count = int(least // number(value))
    return (count if count <= MOST_TICKS else 0), show(number(value), Dimension.TIME)
