"""Knife marks against a trade rule and the circle itself; the rubbed face against printed values and an oracle."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from recipes_core.physics.contact import effusivity
from recipes_core.physics.cutting import mark_pitch, passes, scallop, surface_rise

INCH, FOOT = 0.0254, 0.3048


@pytest.mark.parametrize(
    ("feed", "rpm", "knives", "diameter", "pitch", "to_the_inch", "ridge"),
    [
        (6, 8000, 2, 48, 0.375, 67.7, 0.732),
        (8, 10000, 2, 48, 0.400, 63.5, 0.833),
        (5, 6500, 3, 75, 0.2564, 99.1, 0.219),
        (10, 4500, 3, 100, 0.7407, 34.3, 1.372),
    ],
)
def test_table_of_heads(
    feed: float, rpm: float, knives: int, diameter: float, pitch: float, to_the_inch: float, ridge: float
) -> None:
    """Feed in m/min, head in mm: pitch in mm, marks to the inch, scallop in µm (computed independently)."""
    found = float(mark_pitch(feed / 60, rpm / 60, knives))
    assert found * 1e3 == pytest.approx(pitch, abs=5e-5)
    assert INCH / found == pytest.approx(to_the_inch, abs=0.05)
    assert float(scallop(found, diameter / 1e3)) * 1e6 == pytest.approx(ridge, abs=6e-4)


@given(st.floats(5, 100), st.floats(1000, 12000), st.integers(1, 6))
def test_the_rule_of_the_trade(fpm: float, rpm: float, knives: int) -> None:
    """Knife marks per inch = rpm × knives ÷ (12 × feet per minute) (published: FDMC trade magazine, January 2009)."""
    pitch = float(mark_pitch(fpm * FOOT / 60, rpm / 60, knives))
    assert INCH / pitch == pytest.approx(rpm * knives / (12 * fpm))


def test_twenty_to_the_inch() -> None:
    """1.27 mm apart: ridges of 8.40 µm from a head of 48 mm, 4.03 µm from 100 mm (computed independently)."""
    assert scallop(INCH / 20, np.array([0.048, 0.1])) * 1e6 == pytest.approx([8.40, 4.03], abs=5e-3)


@given(st.floats(0.01, 0.2), st.floats(1e-3, 0.04))
def test_the_ridge_between_two_circles(diameter: float, share: float) -> None:
    """Two arcs a pitch apart meet R - √(R² - p²/4) above their floors (geometry); 1e-4 more than p²/8R at p = R/25."""
    radius, pitch = diameter / 2, share * diameter / 2
    exact = radius - math.sqrt(radius**2 - pitch**2 / 4)
    assert float(scallop(pitch, diameter)) == pytest.approx(exact, rel=1.05e-4)


@pytest.mark.parametrize(("off", "cut", "count"), [(1.8, 0.5, 4), (1.5, 0.5, 3), (0.3, 0.1, 3), (0.0, 0.5, 0)])
def test_whole_passes(off: float, cut: float, count: int) -> None:
    """A last thin one counts; three times a tenth is three tenths, whatever binary fractions say."""
    assert int(passes(off * 1e-3, cut * 1e-3)) == count


@pytest.mark.parametrize(("kilowatt", "seconds", "kelvin"), [(50, 0.5, 43), (20, 2, 35), (10, 5, 27), (50, 3, 106)])
def test_polyethylene_under_a_belt(kilowatt: float, seconds: float, kelvin: float) -> None:
    """Flux in kW/m² into k 0.45, ρ 950, c 2000, b 925 (computed independently; printed to the kelvin)."""
    draws = effusivity(0.45, 950, 2000)
    assert float(draws) == pytest.approx(925, abs=0.5)
    assert float(surface_rise(kilowatt * 1e3, seconds, draws)) == pytest.approx(kelvin, abs=0.6)


@pytest.mark.parametrize(("conductivity", "density", "capacity"), [(0.44, 950, 1750), (0.2, 1190, 1500)])
def test_a_thick_body_solved_by_steps(conductivity: float, density: float, capacity: float) -> None:
    """The heat equation on 400 cells, 8 penetration depths deep, by a stiff integrator of scipy (oracle)."""
    flux, time, cells = 30e3, 0.7, 400
    diffusivity = conductivity / (density * capacity)
    size = 8.0 * math.sqrt(diffusivity * time) / cells

    def slope(_: float, above: np.ndarray) -> np.ndarray:
        flow = np.concatenate([[flux], -conductivity * np.diff(above) / size, [0.0]])
        return -np.diff(flow) / (density * capacity * size)

    found = integrate.solve_ivp(slope, (0.0, time), np.zeros(cells), method="LSODA", rtol=1e-8, atol=1e-8,
                                lband=1, uband=1)  # fmt: skip
    face = found.y[0, -1] + flux * size / (2.0 * conductivity)  # from the middle of the first cell to its face
    assert float(surface_rise(flux, time, effusivity(conductivity, density, capacity))) == pytest.approx(face, rel=1e-3)
