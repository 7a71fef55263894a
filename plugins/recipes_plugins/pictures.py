"""What a solved history looks like: its curves over time and its cuts through the layer, lent to processes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import isfinite
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.plugin_api import Curves, Dimension, Fact, Given, Line, Mark, Open, Series, number, show
from recipes_plugins import profiles

if TYPE_CHECKING:
    from recipes_core.physics.history import History
    from recipes_core.plugin_api import Value

Array = NDArray[Any]

BEYOND = 1.08
"""A picture goes on a little after the last moment that matters, so that its line does not lie on the frame."""
ALIKE = 0.05
"""Curves that are nowhere further apart, K, are drawn as one."""
ON_THE_WAY = (0.25, 0.5)
CUT = "cut through the plastic"
FROM_BELOW = "the plastic, by mass, lies below this place (left: bottom, right: top)"


def lines(values: Mapping[str, Value], read: Callable[[Value], float] = number) -> tuple[Line, ...]:
    """A line for each value that is known, as a sheet need not state them all; ``read`` takes it from a range."""
    return tuple(Line(name, known) for name, value in values.items() for known in _known(value, read))


def marks(values: Mapping[str, Value], read: Callable[[Value], float] = number) -> tuple[Mark, ...]:
    """A mark for each moment that is known, s; ``read`` takes it from a range."""
    return tuple(Mark(name, known) for name, value in values.items() for known in _known(value, read))


def _known(value: Value, read: Callable[[Value], float]) -> tuple[float, ...]:
    if isinstance(value, Fact):
        return () if isinstance(value.value, Open) or not isfinite(value.nominal) else (value.nominal,)
    return (read(value),) if isinstance(value, Given) else ()


def heated(title: str, across: str, history: History, layer: int, **more: Any) -> Curves:
    """The coldest of a layer that is heated, and its two faces, against time.

    The coldest, not the middle: it is what a step waits for, and on a tray it lies elsewhere.
    """
    cells = history.temperature[:, history.slab.cells_of(layer)]
    series = {"coldest inside": cells.min(axis=1), "top": cells[:, -1], "bottom": cells[:, 0]}
    return over_time(title, across, history.times, series, **more)


def over_time(
    title: str,
    across: str,
    times: Array,
    series: Mapping[str, Array],
    marks: tuple[Mark, ...] = (),
    until: float = 0.0,
    **more: Any,
) -> Curves:
    """Series (steps, members) at ``times`` (steps, members), s, from 0 to a little after the marks and ``until``.

    It ends where the first member is no longer followed. The nominal shop is shown at each of its own steps.
    """
    known = float(times[-1].min())
    last = max([m.time for m in marks] + [until] * isfinite(until), default=0.0)
    end = min(known, BEYOND * last) if last > 0.0 else known
    own = times[:, 0]
    seen = [m.time for m in marks if 0.0 <= m.time <= end]
    x = np.unique(np.concatenate([[0.0], own[(own > 0.0) & (own < end)], seen, [end]]))
    shown = [Series.over(name, x, times, values) for name, values in series.items()]
    return Curves(title, x, across, _joined(shown), marks=marks, **more)


def _joined(series: list[Series]) -> tuple[Series, ...]:
    """Curves that nobody could tell apart as one that bears all their names."""
    found: list[Series] = []
    for one in series:
        twin = next((i for i, other in enumerate(found) if _alike(one, other)), None)
        if twin is None:
            found.append(one)
        else:
            found[twin] = replace(found[twin], name=f"{found[twin].name}, {one.name}")
    return tuple(found)


def _alike(one: Series, other: Series) -> bool:
    pairs = zip((one.nominal, *(one.band or ())), (other.nominal, *(other.band or ())), strict=True)
    return all(np.allclose(a, b, rtol=0.0, atol=ALIKE) for a, b in pairs)


def moments(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """When to cut through a layer: on the way to the first mark, and at each mark."""
    early = [_whole(share * marks[0].time) for share in ON_THE_WAY]
    on_the_way = (Mark(f"after {show(time, Dimension.TIME)}", time) for time in early)
    named = (Mark(f"{m.name} {show(m.time, Dimension.TIME)}", m.time) for m in marks)
    return (*on_the_way, *named)


def _whole(time: float) -> float:
    """A time that is just what it is shown as: whole minutes from two on, else whole seconds."""
    return 60.0 * round(time / 60.0) if time >= 120.0 else float(round(time))


def cut(times: Array, history: History, layer: int, moments: tuple[Mark, ...], **more: Any) -> Curves:
    """The temperatures from bottom to top of a layer in the nominal shop, at each of the moments.

    ``times`` (steps, members) s are those of the history, counted from where the moments are counted from.
    """
    cells = history.temperature[:, history.slab.cells_of(layer)]
    fractions = np.asarray(history.slab.layers[layer].fractions)
    x = np.cumsum(fractions) - 0.5 * fractions
    shown = [Series(m.name, profiles.at(times, cells, m.time)[:, 0]) for m in reversed(moments)]
    return Curves(CUT, x, FROM_BELOW, _joined(shown), over=Dimension.SHARE, **more)
