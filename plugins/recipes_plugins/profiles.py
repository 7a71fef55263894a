"""Temperatures through a layer: read between steps, laid onto other cells, folded."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.ageing import ageing_rate
from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.plugin_api import Profile

Array = NDArray[Any]


def first(value: float | tuple[float, float]) -> float:
    """The lower end of a value that may be a range."""
    return value[0] if isinstance(value, tuple) else value


def last(value: float | tuple[float, float]) -> float:
    """The upper end of a value that may be a range."""
    return value[1] if isinstance(value, tuple) else value


def growing(total: float | Array, count: int, growth: float = 1.35) -> Array:
    """``count`` steps that grow by ``growth`` each and add up to ``total``; (count,) or (count, members)."""
    steps = growth ** np.arange(count)
    return np.asarray(np.multiply.outer(steps / steps.sum(), np.maximum(total, 1e-3)))


def at(times: Array, series: Array, time: float | Array) -> Array:
    """The value of each member's ``series`` (steps, ..., members) at ``time``, by straight lines between steps."""
    wanted = np.broadcast_to(time, times.shape[-1:])
    after = np.clip((times < wanted).sum(axis=0), 1, len(times) - 1)
    member = np.arange(times.shape[-1])
    t0, t1 = times[after - 1, member], times[after, member]
    share = np.clip((wanted - t0) / (t1 - t0), 0.0, 1.0)
    low = np.moveaxis(series, -1, 0)[member, after - 1]
    high = np.moveaxis(series, -1, 0)[member, after]
    weight = share.reshape((-1,) + (1,) * (low.ndim - 1))
    return np.moveaxis(low + weight * (high - low), 0, -1)


def aged_until(times: Array, hottest: Array, time: float, below: float, above: float, reference: float) -> Array:
    """Seconds at the reference temperature that age as much as each member's ``hottest`` (steps, members) did."""
    rate = ageing_rate(hottest, below, above, reference)
    grown = np.cumsum(0.5 * (rate[1:] + rate[:-1]) * np.diff(times, axis=0), axis=0)
    return at(times, np.concatenate([np.zeros_like(times[:1]), grown]), time)


def below_for_good(times: Array, series: Array, level: float) -> Array:
    """When each member's ``series`` (steps, members) was last above ``level``; 0 if never, infinity if to the end."""
    above = series > level
    last_above = len(times) - 1 - above[::-1].argmax(axis=0)
    member = np.arange(series.shape[1])
    after = np.minimum(last_above + 1, len(times) - 1)
    high, low = series[last_above, member], series[after, member]
    share = np.divide(high - level, high - low, out=np.zeros_like(high), where=high > low)
    time = times[last_above, member] + share * (times[after, member] - times[last_above, member])
    return np.where(above[-1], np.inf, np.where(above.any(axis=0), time, 0.0))


def remap(temperatures: Array, fractions: Array, wanted: Array) -> Array:
    """Cell temperatures on another division of the same mass; their mean over the mass is kept."""
    edges = np.concatenate([[0.0], np.cumsum(fractions)])
    heat = np.concatenate([np.zeros((1, temperatures.shape[1])), np.cumsum(fractions[:, None] * temperatures, axis=0)])
    new = np.concatenate([[0.0], np.cumsum(wanted)])
    place = np.clip(np.searchsorted(edges, new, side="right") - 1, 0, len(fractions) - 1)
    share = ((new - edges[place]) / fractions[place])[:, None]
    at_edges = heat[place] + np.clip(share, 0.0, 1.0) * (heat[place + 1] - heat[place])
    return np.asarray(np.diff(at_edges, axis=0) / wanted[:, None])


def stacked(profile: Profile, layers: int) -> Profile:
    """The layer folded upon itself: each layer the other way round than the one below it."""
    flips = [profile.temperatures if i % 2 == 0 else profile.temperatures[::-1] for i in range(layers)]
    turns = [profile.fractions if i % 2 == 0 else profile.fractions[::-1] for i in range(layers)]
    cells = remap(np.concatenate(flips), np.concatenate(turns) / layers, PART_FRACTIONS)
    return Profile(cells, PART_FRACTIONS, layers * profile.areal_mass)
