"""Sharp melting and freezing fronts against the similarity solutions of Neumann.

Case data and λ marked [X] were computed independently for the collection of check values. The polymer melts
within 0.2 K; the front is the melted (frozen) share times the depth, averaged over one cell's passage because
a front crosses a cell in steps.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from recipes_core.physics.arrays import Floats
from recipes_core.physics.grid import graded, growing, growing_steps
from recipes_core.physics.history import History
from recipes_core.physics.matter import Matter, constant, polymer
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve

ICE = 273.15
DEPTH, CELLS = 0.03, 200


def sharp(melting: float, solid: tuple[float, float], melt: tuple[float, float], rho: float, latent: float) -> Matter:
    """Matter that melts within 0.2 K; solid and melt are conductivity and heat capacity; ``melting`` in °C."""
    return polymer(
        solid_heat_capacity=solid[1],
        melt_heat_capacity=melt[1],
        solid_conductivity=solid[0],
        melt_conductivity=melt[0],
        solid_density=rho,
        melt_density=rho,
        melted=([melting + ICE - 0.1, melting + ICE + 0.1], [0.0, 1.0]),
        latent_heat=latent,
        points=2048,
    )


def mean_error(history: History, layer: int, melts: bool, depth: float, coefficient: float, cell: float) -> float:
    """Mean relative error of the front while it crosses the last cell it reached."""
    share = history.melted_share(layer)[1:, 0]
    front: Floats = (share if melts else 1.0 - share) * depth
    exact = coefficient * np.sqrt(history.times[1:, 0])
    passage = exact > exact[-1] - cell
    assert passage.sum() > 5
    return float(np.mean(front[passage] / exact[passage] - 1.0))


@pytest.mark.parametrize(
    ("melts", "wall", "change", "start", "lam", "millimetres"),
    [
        (True, 177.0, 130.0, 20.0, 0.21052095, 3.5375),
        (True, 177.0, 130.0, 129.9, 0.49826776, 8.3726),
        (False, 30.0, 118.0, 177.0, 0.44022588, 10.5795),
        (False, 30.0, 118.0, 118.1, 0.61214507, 14.7111),
    ],
)
def test_front_from_a_held_wall(
    melts: bool, wall: float, change: float, start: float, lam: float, millimetres: float
) -> None:
    """ρ 850, solid .45/2200, melt .25/2500, 200 kJ/kg: front after 10 minutes [X], within 1 %."""
    k, cp = (0.25, 2500.0) if melts else (0.45, 2200.0)
    coefficient = 2.0 * lam * math.sqrt(k / (850.0 * cp))
    assert coefficient * math.sqrt(600.0) * 1e3 == pytest.approx(millimetres, abs=6e-4)
    matter = sharp(change, (0.45, 2200.0), (0.25, 2500.0), 850.0, 200e3)
    depth = 0.06
    slab = Slab((Layer(matter, depth * 850.0, graded(CELLS, 1.0)),), (), Face(wall + ICE, 1e7))
    history = solve(slab, slab.temperatures(start + ICE), growing_steps(0.05, 600.0, 400))
    assert abs(mean_error(history, 0, melts, depth, coefficient, depth / CELLS)) < 0.01


@pytest.mark.parametrize(
    ("mould", "zeta", "millimetres", "face"),
    [((50.0, 7850.0, 490.0), 0.61345, 4.662, 29.53), ((0.12, 550.0, 1700.0), 0.19768, 1.502, 110.71)],
)
def test_freezing_onto_a_thick_mould(
    mould: tuple[float, float, float], zeta: float, millimetres: float, face: float
) -> None:
    """HDPE (.45/850/2200, 200 kJ/kg, 118 °C) onto thick steel and wood at 20 °C: front after 60 s [X] within 1 %.

    The contact temperature is constant in time [X], met within 0.7 K.
    """
    coefficient = 2.0 * zeta * math.sqrt(0.45 / (850.0 * 2200.0))
    assert coefficient * math.sqrt(60.0) * 1e3 == pytest.approx(millimetres, abs=1e-3)
    matter = sharp(118.0, (0.45, 2200.0), (0.45, 2200.0), 850.0, 200e3)
    depth = 0.012
    reach = 8.0 * math.sqrt(mould[0] / (mould[1] * mould[2]) * 60.0)
    below = Layer(constant(*mould), mould[1] * reach, growing(60, 1.06)[::-1])
    slab = Slab((below, Layer(matter, depth * 850.0, graded(160, 1.0))), (0.0,))
    start = slab.temperatures(20.0 + ICE, 118.1 + ICE)
    history = solve(slab, start, growing_steps(0.01, 60.0, 300))
    assert abs(mean_error(history, 1, False, depth, coefficient, depth / 160)) < 0.01
    below_r = float(slab.mass[59, 0]) / (mould[0] * mould[1])
    above_r = float(slab.mass[60, 0]) / (0.45 * 850.0)
    low, high = history.end[59, 0], history.end[60, 0]
    assert (low * above_r + high * below_r) / (below_r + above_r) - ICE == pytest.approx(face, abs=0.7)


def test_textbook_casting_problem() -> None:
    """Iron slab 100 mm, thick copper mould: solid after 59.44 s [X]; the companion prints 0.016563 h, 59.63 s.

    (Ghosh and Mallik, Manufacturing Science, sample problem 2.6, p. 73, seen in a companion: 1540/28 °C, 272 kJ/kg,
    iron 83/7850/670, copper 398/8960/376, ζ 0.815 printed, 0.81625 exact.) The tables end at 347 °C, so every
    temperature difference and the latent heat are divided by five, which leaves the equations as they are.
    """
    scale, cold = 5.0, 290.0
    melting = cold + 1512.0 / scale - ICE
    matter = sharp(melting, (83.0, 670.0), (83.0, 670.0), 7850.0, 272e3 / scale)
    reach = 8.0 * math.sqrt(398.0 / (8960.0 * 376.0) * 60.0)
    copper = Layer(constant(398.0, 8960.0, 376.0), 8960.0 * reach, growing(60, 1.06)[::-1])
    half = 0.05
    slab = Slab((copper, Layer(matter, 7850.0 * half, graded(200, 1.0))), (0.0,))
    history = solve(slab, slab.temperatures(cold, melting + ICE + 0.1), growing_steps(0.01, 70.0, 400))
    coefficient = 2.0 * 0.81625 * math.sqrt(83.0 / (7850.0 * 670.0))
    assert (half / coefficient) ** 2 == pytest.approx(59.44, abs=0.02)
    frozen = history.crossing(1.0 - history.melted_share(1), 0.9)[0]
    assert frozen == pytest.approx((0.9 * half / coefficient) ** 2, rel=0.02)
    assert frozen / 0.81 == pytest.approx(59.63, rel=0.02)
