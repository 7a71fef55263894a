"""Press mechanics against the worked tables."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from recipes_core.physics.press import (
    closing_time,
    disc_radius,
    needed_force,
    pressure,
    squeeze_force,
    stored_energy,
    working_force,
)

TONNE = 9806.65  # N
PLATE = 0.150 * 0.100  # m²
GAPS = np.array([20, 12, 8, 4, 2]) * 1e-3


def test_jack_table() -> None:
    """2, 6, 12 and 20 t jacks on 100 to 600 cm²: MPa (computed independently; printed to three figures)."""
    force = np.array([2, 6, 12, 20])[:, None] * TONNE
    area = np.array([100, 150, 300, 600]) * 1e-4
    printed = [
        [1.96, 1.31, 0.65, 0.33],
        [5.88, 3.92, 1.96, 0.98],
        [11.8, 7.85, 3.92, 1.96],
        [19.6, 13.1, 6.54, 3.27],
    ]
    assert pressure(force, area) / 1e6 == pytest.approx(np.array(printed), rel=5e-3, abs=5e-3)


def test_force_of_a_plate() -> None:
    """150 x 100 mm at 1.5 MPa needs 22.5 kN; a 20 t jack on 300 x 200 mm gives 3.3 MPa (worked examples)."""
    assert float(needed_force(1.5e6, PLATE)) == pytest.approx(22_500)
    assert float(pressure(20 * TONNE, 0.3 * 0.2)) == pytest.approx(3.3e6, rel=0.01)
    assert float(pressure(needed_force(1.5e6, PLATE), PLATE)) == pytest.approx(1.5e6)


def test_working_force_and_stored_energy() -> None:
    """Half of a 6 t rating; 58.8 kN over 0.37 mm store about 11 J, half of force times way."""
    assert float(working_force(6 * TONNE, 0.5)) == pytest.approx(29_420, abs=1)
    assert float(stored_energy(58_800, 0.37e-3)) == pytest.approx(10.88, abs=0.01)


def test_equivalent_disc() -> None:
    """A 150 x 100 mm plate is a disc of 69.1 mm radius (computed independently)."""
    assert float(disc_radius(PLATE)) * 1e3 == pytest.approx(69.1, abs=0.05)


def test_newtonian_check() -> None:
    """η 2000, R 0.1 m, h 8 mm, v 1 mm/s: 1.841 kN; 20 to 8 mm at 20 kN: 0.309 s (computed independently)."""
    assert float(squeeze_force(0.1, 8e-3, 1e-3, consistency=2000, index=1.0)) == pytest.approx(1841, abs=0.5)
    assert float(closing_time(0.1, 20e-3, 8e-3, 20e3, consistency=2000, index=1.0)) == pytest.approx(0.309, abs=5e-4)


@pytest.mark.parametrize(
    ("consistency", "index", "kilonewton"),
    [(5e3, 1.0, [0.07, 0.31, 1.05, 8.39, 67.1]), (2e4, 0.45, [0.52, 1.38, 2.97, 11.1, 41.4])],
)
def test_plate_table(consistency: float, index: float, kilonewton: list[float]) -> None:
    """The plate at 1 mm/s, Newtonian and power law (computed independently; printed digits)."""
    force = squeeze_force(disc_radius(PLATE), GAPS, 1e-3, consistency=consistency, index=index) / 1e3
    assert force == pytest.approx(kilonewton, rel=5e-3, abs=5e-3)


def test_closing_times_of_the_plate() -> None:
    """12 to 4 mm, power law: 7.1, 0.33 and 0.03 s at 5, 20 and 58.8 kN (computed independently; printed
    digits).
    """
    times = closing_time(disc_radius(PLATE), 12e-3, 4e-3, np.array([5e3, 20e3, 58.8e3]), consistency=2e4, index=0.45)
    assert times == pytest.approx([7.1, 0.33, 0.03], rel=0.01, abs=5e-3)


@pytest.mark.parametrize(
    ("consistency", "index", "kilonewton"),
    [(6678, 0.49, [0.46, 1.02, 4.03]), (12_189, 0.42, [0.84, 1.77, 6.35])],
)
def test_abs_band(consistency: float, index: float, kilonewton: list[float]) -> None:
    """ABS constants of Materials 16 (2023) 7664, Table 1, at 12, 8 and 4 mm (published constants, force
    computed).
    """
    force = squeeze_force(disc_radius(PLATE), GAPS[1:4], 1e-3, consistency=consistency, index=index) / 1e3
    assert force == pytest.approx(kilonewton, rel=0.011)


@given(st.floats(0.2, 1.0), st.floats(2e3, 1e5), st.floats(1e2, 1e5))
def test_closing_time_is_the_integral_of_the_force_law(index: float, force: float, consistency: float) -> None:
    """∫ dh/v with v from ``squeeze_force`` equals the closed form (scipy quadrature as oracle)."""
    unit = float(squeeze_force(0.07, 1.0, 1.0, consistency=consistency, index=index))  # force at h = 1, v = 1

    def slowness(gap: float) -> float:
        return float((unit / (force * gap ** (2 * index + 1))) ** (1 / index))

    expected, _ = integrate.quad(slowness, 4e-3, 12e-3)
    assert float(closing_time(0.07, 12e-3, 4e-3, force, consistency=consistency, index=index)) == pytest.approx(
        expected, rel=1e-6
    )


@given(st.floats(1e-3, 2e-2), st.floats(1.01, 5.0), st.floats(0.2, 1.0))
def test_thinner_and_faster_press_harder(gap: float, more: float, index: float) -> None:
    """Force falls with the gap and rises with speed."""
    base = float(squeeze_force(0.07, gap, 1e-3, consistency=2e4, index=index))
    assert float(squeeze_force(0.07, gap * more, 1e-3, consistency=2e4, index=index)) < base
    assert float(squeeze_force(0.07, gap, 1e-3 * more, consistency=2e4, index=index)) > base
