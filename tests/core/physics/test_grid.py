"""Default cells and steps against much finer ones, the estimate of duration, and the arithmetic of steps."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.arrays import Floats
from recipes_core.physics.grid import (
    COOL_STEPS,
    MELT_FRACTIONS,
    MELT_STEPS_PER_DURATION,
    bulging,
    even_steps,
    expected_duration,
    graded,
    growing,
    growing_steps,
)
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import ADIABATIC, Face, Layer, Slab
from recipes_core.physics.solver import solve

ICE = 273.15
LOADING = np.array([2.0, 3.3, 5.0, 7.5, 7.5, 7.5, 7.5, 11.0, 11.3, 11.0])
OVEN = np.array([177.0, 190.0, 177.0, 177.0, 177.0, 150.0, 205.0, 177.0, 177.0, 200.0])
CONVECTION = np.array([5.0, 10.0, 20.0, 5.0, 20.0, 5.0, 5.0, 5.0, 5.0, 30.0])
UNDERSIDE = np.array([0.85, 0.85, 0.85, 0.3, 0.3, 0.3, 0.3, 0.85, 0.3, 0.85])


def melting(tray: Callable[..., Slab], fractions: Floats, steps: int) -> tuple[Floats, Floats]:
    """Times until all of each bed is above 130 °C, s, and the expected durations."""
    slab = tray(LOADING, OVEN, CONVECTION, UNDERSIDE, fractions=fractions)
    start = slab.temperatures(20.0 + ICE, 20.0 + ICE)
    expected = expected_duration(slab, start, 130.0 + ICE)
    history = solve(slab, start, even_steps(1.25 * expected, round(1.25 * steps)))
    return history.crossing(history.coldest(1), 130.0 + ICE), expected


def test_default_melt_grid(tray: Callable[..., Slab]) -> None:
    """Melt-through within 0.5 % of 128 cells and eight times the steps, from 2 to 11 kg/m², still air to fan."""
    default, _ = melting(tray, MELT_FRACTIONS, MELT_STEPS_PER_DURATION)
    fine, _ = melting(tray, graded(128, 1.0), 8 * MELT_STEPS_PER_DURATION)
    assert default == pytest.approx(fine, rel=5e-3)


def test_expected_duration_of_melting(tray: Callable[..., Slab]) -> None:
    """Within 15 % for all trays but the thick one in fast air, which takes two thirds of the estimate or more."""
    ours, expected = melting(tray, MELT_FRACTIONS, MELT_STEPS_PER_DURATION)
    assert ours[:-1] == pytest.approx(expected[:-1], rel=0.15)
    assert 0.65 < ours[-1] / expected[-1] < 1.0


def core_frozen(slab: Slab, preheat: float, steps: Floats) -> float:
    """When the core of a part pressed at 165 °C is below 90 °C, s."""
    history = solve(slab, slab.temperatures(preheat + ICE, 165.0 + ICE, preheat + ICE), steps)
    return float(history.crossing(history.hottest(1), 90.0 + ICE, rising=False)[0])


@pytest.mark.parametrize(
    ("part", "wall", "wood", "preheat"),
    [(0.012, 0.005, False, 120.0), (0.006, 0.003, False, 100.0), (0.012, 0.018, True, 20.0)],
)
def test_default_cooling_grid(mould: Callable[..., Slab], part: float, wall: float, wood: bool, preheat: float) -> None:
    """The core frozen within 0.5 % of 100 cells in the part, 24 in the wall and 500 steps."""
    fine = mould(part, wall, wood=wood, fractions=graded(100, 1.02), wall_fractions=growing(24, 1.08))
    reference = core_frozen(fine, preheat, growing_steps(0.05, 5400.0, 500))
    default = core_frozen(mould(part, wall, wood=wood), preheat, growing_steps(0.5, 5400.0, COOL_STEPS))
    assert default == pytest.approx(reference, rel=5e-3)


@pytest.mark.parametrize(("part", "preheat"), [(0.012, 20.0), (0.008, 20.0), (0.004, 60.0)])
def test_default_grid_in_a_quench(mould: Callable[..., Slab], part: float, preheat: float) -> None:
    """Cold steel freezes the core in 1 to 7 minutes: default cells within 0.5 %, with default steps within 1.5 %."""
    fine = mould(part, 0.005, fractions=graded(100, 1.02), wall_fractions=growing(24, 1.08))
    reference = core_frozen(fine, preheat, growing_steps(0.05, 1500.0, 800))
    default = mould(part, 0.005)
    in_space = core_frozen(default, preheat, growing_steps(0.05, 1500.0, 800))
    assert in_space == pytest.approx(reference, rel=5e-3)
    in_time = core_frozen(default, preheat, growing_steps(0.5, 1500.0, COOL_STEPS))
    assert in_time == pytest.approx(reference, rel=1.5e-2)


def test_expected_duration_of_a_lump() -> None:
    """Metal cooling by convection: the logarithm of the temperature differences times the time constant."""
    air = Face(295.0, 10.0)
    slab = Slab((Layer(constant(50.0, 7850.0, 490.0), 40.0, (0.5, 0.5)),), (), air, air)
    exact = 40.0 * 490.0 / 20.0 * np.log((400.0 - 295.0) / (330.0 - 295.0))
    assert expected_duration(slab, 400.0, 330.0)[0] == pytest.approx(exact, rel=0.01)


def test_expected_duration_at_the_ends() -> None:
    """Nothing to do takes no time; what the surroundings never reach takes for ever."""
    oven = Face(420.0, 10.0)
    slab = Slab((Layer(constant(50.0, 7850.0, 490.0), 40.0, (0.5, 0.5)),), (), oven, ADIABATIC)
    assert expected_duration(slab, 300.0, 300.0)[0] == 0.0
    assert np.isinf(expected_duration(slab, 300.0, 430.0)[0])
    assert np.isinf(expected_duration(slab, 430.0, 410.0)[0])


@given(st.integers(2, 40), st.floats(0.5, 2.0))
def test_fractions_add_up(cells: int, growth: float) -> None:
    """All gradings are positive, add up to one, and the two-sided ones are symmetric."""
    for fractions in (graded(cells, growth), growing(cells, growth), bulging(cells)):
        assert fractions.min() > 0.0
        assert fractions.sum() == pytest.approx(1.0)
    assert bulging(cells) == pytest.approx(bulging(cells)[::-1])
    assert graded(cells, growth) == pytest.approx(graded(cells, growth)[::-1])


@given(st.floats(0.05, 5.0), st.floats(1000.0, 20000.0), st.integers(2, 100))
def test_growing_steps(first: float, duration: float, count: int) -> None:
    """The first step is as asked, steps grow, and they add up."""
    steps = growing_steps(first, duration, count)
    assert steps.shape == (count, 1)
    assert steps[0, 0] == pytest.approx(first)
    assert np.all(np.diff(steps[:, 0]) > 0.0)
    assert steps.sum() == pytest.approx(duration)


def test_steps_differ_by_scenario() -> None:
    """Durations (S,) give steps (count, S); a first step that is too long is refused."""
    assert even_steps([10.0, 20.0], 4).tolist() == [[2.5, 5.0]] * 4
    assert growing_steps(0.5, [100.0, 200.0], 10).sum(axis=0) == pytest.approx([100.0, 200.0])
    with pytest.raises(ValueError, match="longer"):
        growing_steps(20.0, 100.0, 10)
