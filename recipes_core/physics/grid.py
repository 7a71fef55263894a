"""How fine to cut layers and time.

The fractions below answer within 0.5 % of grids of 96 cells and more (melting through, freezing to the core
at 90 °C), found by trial over loadings of 2 to 11 kg/m², still and moving air, steel and wooden moulds; the tests
repeat trials of that kind. One grid serves a nominal forecast and its spread alike.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.slab import Slab
from recipes_core.physics.surface import STEFAN_BOLTZMANN


def growing(cells: int, growth: float) -> Floats:
    """Fractions of a layer whose cells grow by a factor from bottom to top; they add up to 1."""
    size = floats(growth) ** np.arange(cells)
    return floats(size / size.sum())


def graded(cells: int, growth: float) -> Floats:
    """Fractions of a layer whose cells grow by a factor from both faces to the middle; they add up to 1."""
    size = floats(growth) ** np.minimum(np.arange(cells), np.arange(cells)[::-1])
    return floats(size / size.sum())


def bulging(cells: int) -> Floats:
    """Fractions that follow a flat cosine across the layer, the outermost halved; they add up to 1."""
    size = np.cos(2.4 * ((np.arange(cells) + 0.5) / cells - 0.5))
    size[[0, -1]] *= 0.5
    return floats(size / size.sum())


MELT_FRACTIONS = bulging(16)
"""A bed melting from both faces."""

PART_FRACTIONS = graded(22, 1.08)
"""A pressed part: the outermost cells, 3 % of the thickness each, resolve a frozen skin."""

METAL_FRACTIONS = growing(2, 1.0)
"""A metal wall, nearly of one temperature."""

WOOD_FRACTIONS = growing(6, 1.2)
"""A wooden wall above the part, thin cells at the contact; reversed (``[::-1]``) for the wall below."""

MELT_STEPS_PER_DURATION = 32
"""Even steps in the expected duration of melting: with `MELT_FRACTIONS` within 0.5 % of much finer answers."""

COOL_STEPS = 60
"""Growing steps of a cooling of one or two hours from a first step of 0.5 s: a core frozen within 0.5 % in
preheated and wooden moulds. Cold steel freezes it in minutes: end at a few times that, or the error is 1-3 %."""

_LEVELS = 17
_LAG = 1.0 / 6.0  # of through-resistance: mean below surface in quasi-steady heating from both faces (derived)


def expected_duration(slab: Slab, start: ArrayLike, target: ArrayLike) -> Floats:
    """Time, s (S,), for the whole slab to come from ``start`` (cells, S) to ``target``, K, by its energy balance.

    ``t = ∫ dH / q(T)`` along uniform temperatures from the starting cell farthest off, q being what both
    faces exchange at T, less what conduction inside holds back. An estimate to choose steps by: within 15 % for
    usual trays, up to 50 % long for thick beds in fast air. Infinite where the target is never reached.
    Rims are left out.
    """
    begin = np.broadcast_to(floats(start), (slab.cells, slab.scenarios))
    goal = np.broadcast_to(floats(target), slab.scenarios)
    heating = goal >= (slab.mass * begin).sum(axis=0) / slab.mass.sum(axis=0)
    farthest = np.where(heating, begin.min(axis=0), begin.max(axis=0))
    levels = farthest + np.linspace(0.0, 1.0, _LEVELS)[:, None] * (goal - farthest)

    content, resistance = np.zeros_like(levels), np.zeros_like(levels)
    for layer in slab.layers:
        content += floats(layer.areal_mass) * layer.matter.enthalpy(levels)
        resistance += floats(layer.areal_mass) * layer.matter.resistance(levels)
    for contact in slab.contacts:
        resistance += floats(contact)
    flow = np.zeros_like(levels)
    for face in (slab.bottom, slab.top):
        environment, area = floats(face.environment), floats(face.area)
        convection, radiation = floats(face.convection), STEFAN_BOLTZMANN * floats(face.emissivity)
        given = convection * (environment - levels) + radiation * (environment**4 - levels**4)
        stiffness = convection + 4.0 * radiation * levels**3
        flow += area * given / (1.0 + _LAG * resistance * area * stiffness)

    way = np.where(heating, 1.0, -1.0)
    held = (slab.mass * slab.enthalpies(begin)).sum(axis=0)
    gain = np.diff(np.maximum(way * content, way * held), axis=0)
    speed = way * 0.5 * (flow[1:] + flow[:-1])
    pace = np.divide(1.0, speed, out=np.full_like(speed, np.inf), where=speed > 0.0)
    return floats(np.multiply(gain, pace, out=np.zeros_like(gain), where=gain > 0.0).sum(axis=0))


def even_steps(duration: ArrayLike, count: int) -> Floats:
    """``count`` equal steps, s (count, S), that add up to ``duration`` (one value or (S,))."""
    return np.tile(np.atleast_1d(floats(duration)) / count, (count, 1))


def growing_steps(first: ArrayLike, duration: ArrayLike, count: int) -> Floats:
    """``count`` steps, s (count, S), growing from ``first`` to add up to ``duration`` (one value or (S,) each).

    For a sudden change of surroundings. Instant k is ``duration (k / count)^p``, p chosen for the first step.
    Raises ValueError if ``first`` is longer than an even share of the duration.
    """
    total = np.atleast_1d(floats(duration))
    power = np.log(total / floats(first)) / np.log(count)
    if np.any(power < 1.0):
        raise ValueError("the first step is longer than an even share of the duration")
    instants = total * (np.arange(count + 1)[:, None] / count) ** power
    return floats(np.diff(instants, axis=0))
