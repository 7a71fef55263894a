"""Transient conduction through a slab: implicit, of second order in time, conserving enthalpy.

Each cell obeys ``m de/dt = sum of inflows`` (method of lines on cells of constant areal mass), and all scenarios
are advanced at once. The time step is the singly diagonally implicit Runge-Kutta method of two stages with
γ = 1 - 1/√2, L-stable and of order 2 (Alexander, SIAM J. Numer. Anal. 14 (1977) 1006-1021; memory).

A tray in an oven, and a part cooling in a mould; any number may be an array (S,)::

    steel = constant(conductivity=50.0, density=7850.0, heat_capacity=490.0)
    flake = polymer(..., latent_heat=latent, melted=melting_curve, bed=Bed(330.0, bed_conductivity))
    tray = Slab(
        layers=(Layer(steel, 0.0008 * 7850.0), Layer(flake, loading, MELT_FRACTIONS)),
        contacts=(liner_resistance,),
        bottom=Face(oven, convection, emissivity=0.3),
        top=Face(oven, convection, emissivity=0.9),
    )
    start = tray.temperatures(293.15, 293.15)
    expected = np.minimum(expected_duration(tray, start, target=403.15), 7200.0)
    steps = even_steps(2.5 * expected, round(2.5 * MELT_STEPS_PER_DURATION))
    flakes = tray.cells_of(1)
    history = solve(tray, start, steps, stop=lambda h: bool((h.end[flakes] >= 403.15).all()))
    melt_through = history.crossing(history.coldest(1), 403.15)

    plate = polymer(..., latent_heat=latent, melted=freezing_curve)
    wall = Layer(steel, 0.005 * 7850.0, METAL_FRACTIONS)
    air = Face(295.15, convection, emissivity=0.8)
    mould = Slab((wall, Layer(plate, areal_mass, PART_FRACTIONS), wall), (contact, contact), air, air)
    start = mould.temperatures(preheat, melt_temperature, preheat)
    history = solve(mould, start, growing_steps(first=0.5, duration=5400.0, count=COOL_STEPS))
    core_frozen = history.crossing(history.hottest(1), 363.15, rising=False)
    at_closing = history.at(30.0)[mould.cells_of(1)]

What follows in other surroundings starts from ``history.end`` or from a profile, by temperature.
A mould that reaches beyond the part: multiply the heat capacity of its matter and the ``area`` of its face by
the ratio of areas.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.balance import Balance
from recipes_core.physics.history import History
from recipes_core.physics.slab import Slab

GAMMA = 1.0 - 0.5**0.5

TOLERANCE = 500.0
"""Largest last correction of Newton's method, J/kg, 0.2 K of sensible heat. What it leaves is of second order:
melting times differ by less than 0.005 % from those with 1e-3 J/kg."""

ITERATIONS = 60
"""Most Newton iterations of a stage. Two or three are usual; a melting range of 0.5 K has taken twelve."""


def solve(
    slab: Slab,
    start: ArrayLike,
    steps: ArrayLike,
    stop: Callable[[History], bool] | None = None,
    tolerance: float = TOLERANCE,
) -> History:
    """Advance ``slab`` from cell temperatures ``start``, K (cells, S), by ``steps``, s (K,) or (K, S).

    ``stop`` is asked after each step with the history so far; once it says True the other steps are left out.
    ``tolerance`` is that of Newton's method, J/kg. Raises ValueError for steps that are not above zero and
    FloatingPointError if a stage does not settle.
    """
    temperature = np.broadcast_to(floats(start), (slab.cells, slab.scenarios))
    durations = floats(steps)
    durations = np.broadcast_to(durations.reshape(len(durations), -1), (len(durations), slab.scenarios))
    if not np.all(durations > 0.0):
        raise ValueError("time steps must be above zero")
    balance = Balance(slab, temperature)
    history = History.empty(slab, len(durations))
    enthalpy = slab.enthalpies(temperature)[balance.order]
    rate, heat = np.zeros_like(enthalpy), np.zeros(slab.scenarios)
    _record(history, 0, balance, enthalpy, heat)
    for k, step in enumerate(durations, start=1):
        # The last known rate of change gives both stages their first guess.
        stage, rest = GAMMA * step, (1.0 - GAMMA) * step
        first = enthalpy + stage * rate
        heat += rest * balance.solve_stage(first, enthalpy, stage, tolerance, ITERATIONS)
        rate = (first - enthalpy) / stage
        known = enthalpy + rest * rate
        enthalpy = known + stage * rate
        heat += stage * balance.solve_stage(enthalpy, known, stage, tolerance, ITERATIONS)
        rate = (enthalpy - known) / stage
        history.times[k] = history.times[k - 1] + step
        _record(history, k, balance, enthalpy, heat)
        if stop is not None and stop(history.until(k)):
            return history.until(k)
    return history


def _record(history: History, k: int, balance: Balance, enthalpy: Floats, heat: Floats) -> None:
    temperature, surface = balance.temperatures(enthalpy)
    history.temperature[k, balance.order] = temperature
    history.enthalpy[k, balance.order] = enthalpy
    history.surface[k] = surface
    history.heat[k] = heat
