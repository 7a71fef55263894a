"""The solver against scipy's stiff integrators on the same cells, with equations written anew here.

The right-hand side below shares no code with the solver: it has its own enthalpy curve, potential, blending and
surface balance (a quartic, by Newton). Only the cells are the same, so that the difference is the solver's
error in time, in its tables and in its iteration.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from recipes_core.physics.arrays import Floats
from recipes_core.physics.grid import (
    COOL_STEPS,
    MELT_FRACTIONS,
    MELT_STEPS_PER_DURATION,
    METAL_FRACTIONS,
    PART_FRACTIONS,
    WOOD_FRACTIONS,
    bulging,
    even_steps,
    expected_duration,
    growing_steps,
)
from recipes_core.physics.matter import Bed, peaked_share, polymer
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve

ICE = 273.15
Method = Literal["LSODA", "BDF", "Radau"]
SIGMA = 5.670374419e-8


def integral(values: Floats, over: Floats) -> Floats:
    """Running integral by the trapezoidal rule, from zero."""
    return np.concatenate([[0.0], np.cumsum(0.5 * (values[1:] + values[:-1]) * np.diff(over))])


@dataclass
class Stuff:
    """Enthalpy, resistance and potential over temperature (K) on a fine grid."""

    kelvin: Floats
    enthalpy: Floats
    resistance: Floats

    def __post_init__(self) -> None:
        self.potential = integral(1.0 / self.resistance, self.kelvin)


def triangle(kelvin: Floats, onset: float, peak: float, end: float) -> Floats:
    """Melted share by integrating a triangular peak."""
    density = np.interp(kelvin - ICE, [onset, peak, end], [0.0, 2.0 / (end - onset), 0.0], left=0.0, right=0.0)
    return integral(density, kelvin)


def hdpe(onset: float, peak: float, end: float, bed: bool) -> Stuff:
    """2100/2500 J/(kg K), 190 kJ/kg, .42/.25 W/(m K), 950/760 kg/m³; bed 330 kg/m³ and .09 W/(m K)."""
    kelvin = np.linspace(250.0, 600.0, 70001)
    x = triangle(kelvin, onset, peak, end)
    sensible = integral(2100.0 + 400.0 * x, kelvin)
    if bed:
        w = np.maximum(0.0, 2.0 * x - 1.0)
        resistance = ((1.0 - w) / 330.0 + w / 760.0) * ((1.0 - w) / 0.09 + w / 0.25)
    else:
        resistance = (1.0 - x) / (0.42 * 950.0) + x / (0.25 * 760.0)
    return Stuff(kelvin, sensible + 190e3 * x, resistance)


def plain(k: float, rho: float, cp: float) -> Stuff:
    """Matter without phase change."""
    kelvin = np.array([250.0, 600.0])
    return Stuff(kelvin, cp * (kelvin - 250.0), np.full(2, 1.0 / (k * rho)))


@dataclass
class Surface:
    """Surroundings of one face."""

    environment: float
    convection: float
    emissivity: float
    area: float = 1.0

    def inflow(self, cell: float, half: float) -> float:
        """Flow into the cell, W/m², behind half a cell: Newton on the surface temperature."""
        t = cell
        for _ in range(50):
            q = self.convection * (self.environment - t) + self.emissivity * SIGMA * (self.environment**4 - t**4)
            slope = self.convection + 4.0 * self.emissivity * SIGMA * t**3
            step = (self.area * q - (t - cell) / half) / (self.area * slope + 1.0 / half)
            t += step
            if abs(step) < 1e-9:
                break
        return (t - cell) / half


@dataclass
class Column:
    """Layers of (stuff, areal mass, fractions) with contacts and surfaces, as an ODE in enthalpy."""

    layers: list[tuple[Stuff, float, Floats]]
    contacts: list[float]
    bottom: Surface
    top: Surface

    def rates(self, _: float, e: Floats) -> Floats:
        """de/dt of all cells, W/kg."""
        inflow = np.zeros_like(e)
        ends = []
        at = 0
        for stuff, mass, fractions in self.layers:
            m, cells = mass * fractions, slice(at, at + len(fractions))
            t = np.interp(e[cells], stuff.enthalpy, stuff.kelvin)
            p = np.interp(t, stuff.kelvin, stuff.potential)
            up = (p[:-1] - p[1:]) / (0.5 * (m[:-1] + m[1:]))
            inflow[cells][:-1] -= up
            inflow[cells][1:] += up
            half = 0.5 * m[[0, -1]] * np.interp(t[[0, -1]], stuff.kelvin, stuff.resistance)
            ends.append((cells.start, cells.stop - 1, t[0], t[-1], half[0], half[1]))
            at = cells.stop
        for (_, low, _, t_low, _, r_low), (high, _, t_high, _, r_high, _), r in zip(
            ends[:-1], ends[1:], self.contacts, strict=True
        ):
            up = (t_low - t_high) / (r_low + r + r_high)
            inflow[low] -= up
            inflow[high] += up
        inflow[0] += self.bottom.inflow(ends[0][2], ends[0][4])
        inflow[-1] += self.top.inflow(ends[-1][3], ends[-1][5])
        return inflow / np.concatenate([mass * fractions for _, mass, fractions in self.layers])

    def time(self, start: list[float], layer: int, level: float, rising: bool, method: Method, until: float) -> float:
        """When the last cell of a layer passes a temperature, s."""
        first = sum(len(fractions) for _, _, fractions in self.layers[:layer])
        stuff = self.layers[layer][0]
        cells = slice(first, first + len(self.layers[layer][2]))
        limit = float(np.interp(level, stuff.kelvin, stuff.enthalpy))

        def passed(_: float, e: Floats) -> float:
            return float(e[cells].min() - limit) if rising else float(e[cells].max() - limit)

        passed.terminal = True  # type: ignore[attr-defined]
        e0: Floats = np.concatenate(
            [
                np.full(len(fractions), np.interp(t, stuff.kelvin, stuff.enthalpy))
                for t, (stuff, _, fractions) in zip(start, self.layers, strict=True)
            ]
        )
        answer = solve_ivp(self.rates, (0.0, until), e0, method=method, rtol=1e-8, atol=1e-2, events=passed)
        assert answer.success
        assert answer.t_events is not None
        return float(answer.t_events[0][0])


@pytest.mark.parametrize(
    ("loading", "oven", "convection", "underside", "method"),
    [
        (3.3, 177.0, 5.0, 0.85, "LSODA"),  # thin, dark, still
        (7.5, 177.0, 5.0, 0.3, "BDF"),  # thick, bright, still
        (7.5, 177.0, 20.0, 0.3, "LSODA"),  # thick, bright, fan
        (5.0, 177.0, 20.0, 0.85, "Radau"),  # dark, fan
        (5.0, 230.0, 5.0, 0.85, "LSODA"),  # hot oven
        (11.0, 200.0, 30.0, 0.85, "LSODA"),  # very thick in fast air
    ],
)
def test_melting_time(
    tray: Callable[..., Slab], loading: float, oven: float, convection: float, underside: float, method: Method
) -> None:
    """All of the bed above 130 °C, default steps: within 0.5 % of the integrator at rtol 1e-8."""
    te = oven + ICE
    column = Column(
        [
            (plain(50.0, 7850.0, 490.0), 6.28, np.ones(1)),
            (hdpe(100.0, 130.0, 136.0, bed=True), loading, MELT_FRACTIONS),
        ],
        [0.003],
        Surface(te, convection, underside),
        Surface(te, convection, 0.9),
    )
    slab = tray(loading, oven, convection, underside)
    start = slab.temperatures(20.0 + ICE, 20.0 + ICE)
    expected = expected_duration(slab, start, 130.0 + ICE)
    history = solve(slab, start, even_steps(1.5 * expected, round(1.5 * MELT_STEPS_PER_DURATION)))
    ours = history.crossing(history.coldest(1), 130.0 + ICE)[0]
    oracle = column.time([293.15, 293.15], 1, 130.0 + ICE, True, method, 3.0 * float(expected[0]))
    assert ours == pytest.approx(oracle, rel=5e-3)


@pytest.mark.parametrize(
    ("loading", "gap", "method"),
    [(2.0, 0.001, "LSODA"), (6.0, 0.003, "BDF"), (6.0, 0.001, "Radau"), (12.0, 0.003, "LSODA")],
)
def test_melting_time_between_platens(loading: float, gap: float, method: Method) -> None:
    """All of a bed above 136 °C between platens at 180 °C, 32 cells, steps of a heated press: within 2 %.

    Platens that touch send a sharper front than air does; the bed is through in 0.6 of what its balance tells.
    """
    te, fractions = 180.0 + ICE, bulging(32)
    face = Surface(te, 1.0 / gap, 0.0)
    column = Column([(hdpe(100.0, 130.0, 136.0, bed=True), loading, fractions)], [], face, face)
    matter = polymer(
        solid_heat_capacity=2100.0,
        melt_heat_capacity=2500.0,
        solid_conductivity=0.42,
        melt_conductivity=0.25,
        solid_density=950.0,
        melt_density=760.0,
        melted=peaked_share(373.15, 403.15, 409.15),
        latent_heat=190e3,
        bed=Bed(330.0, 0.09, 0.5),
    )
    slab = Slab((Layer(matter, loading, fractions),), (), Face(te, 1.0 / gap), Face(te, 1.0 / gap))
    start = slab.temperatures(20.0 + ICE)
    step = 0.6 * expected_duration(slab, start, 136.0 + ICE) / MELT_STEPS_PER_DURATION
    history = solve(slab, start, np.outer(np.ones(3 * MELT_STEPS_PER_DURATION), step))
    ours = history.crossing(history.coldest(0), 136.0 + ICE)[0]
    oracle = column.time([20.0 + ICE], 0, 136.0 + ICE, True, method, float(history.times[-1, 0]))
    assert ours == pytest.approx(oracle, rel=0.02)


@pytest.mark.parametrize(
    ("part", "wall", "wood", "preheat", "convection", "method"),
    [
        (0.012, 0.005, False, 120.0, 5.0, "LSODA"),  # plate in preheated steel
        (0.006, 0.003, False, 100.0, 20.0, "BDF"),  # thin plate, thin steel, fan
        (0.012, 0.005, False, 20.0, 5.0, "LSODA"),  # cold steel
        (0.012, 0.018, True, 20.0, 5.0, "LSODA"),  # cold wood
        (0.008, 0.018, True, 80.0, 5.0, "Radau"),  # warm wood
    ],
)
def test_freezing_time(
    mould: Callable[..., Slab], part: float, wall: float, wood: bool, preheat: float, convection: float, method: Method
) -> None:
    """The core of a 165 °C plate below 110 and below 90 °C, default steps: within 0.5 % of the integrator."""
    k, rho, cp = (0.12, 550.0, 1700.0) if wood else (50.0, 7850.0, 490.0)
    cells = WOOD_FRACTIONS if wood else METAL_FRACTIONS
    matter, air = plain(k, rho, 1.6 * cp), Surface(22.0 + ICE, convection, 0.8, 1.6)
    column = Column(
        [
            (matter, rho * wall, cells[::-1]),
            (hdpe(90.0, 116.0, 122.0, bed=False), 950.0 * part, PART_FRACTIONS),
            (matter, rho * wall, cells),
        ],
        [1e-3, 1e-3],
        air,
        air,
    )
    slab = mould(part, wall, wood=wood, convection=convection)
    kelvin = [preheat + ICE, 165.0 + ICE, preheat + ICE]
    history = solve(slab, slab.temperatures(*kelvin), growing_steps(0.5, 7200.0, COOL_STEPS))
    for level in (110.0, 90.0):
        ours = history.crossing(history.hottest(1), level + ICE, rising=False)[0]
        oracle = column.time(kelvin, 1, level + ICE, False, method, 7200.0)
        assert ours == pytest.approx(oracle, rel=5e-3), level
