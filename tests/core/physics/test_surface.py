"""Surface coefficients against a general heat-transfer library and worked tables."""

from __future__ import annotations

import ht
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.surface import (
    air,
    horizontal,
    nusselt_horizontal,
    nusselt_vertical,
    radiation,
    vertical,
)

ICE = 273.15
TRAY = 0.2 * 0.15 / 0.7  # area over perimeter of a 200 x 150 mm tray, 43 mm


def test_air() -> None:
    """k at 20, 50, 100, 177 °C (computed independently from Sutherland-type fits) and Pr near 0.7."""
    conductivity, _, prandtl = air(np.array([20, 50, 100, 177]) + ICE)
    assert conductivity == pytest.approx([0.0257, 0.0280, 0.0317, 0.0371], rel=4e-3)
    assert np.all(np.abs(prandtl - 0.7) < 0.03)


@given(st.floats(1e3, 1e12), st.floats(0.6, 1.0))
def test_vertical_against_the_library(rayleigh: float, prandtl: float) -> None:
    """Churchill-Chu as in ``ht``."""
    expected = ht.Nu_vertical_plate_Churchill(prandtl, rayleigh / prandtl)
    assert float(nusselt_vertical(rayleigh, prandtl)) == pytest.approx(expected, rel=1e-9)


@given(st.floats(1e5, 1e10).filter(lambda ra: abs(ra - 1e7) > 10), st.booleans())
def test_horizontal_against_the_library(rayleigh: float, rising: bool) -> None:
    """McAdams as in ``ht``, both senses, in the range of both."""
    expected = ht.Nu_horizontal_plate_McAdams(0.7, rayleigh / 0.7, buoyancy=rising)
    assert float(nusselt_horizontal(rayleigh, rising)) == pytest.approx(expected, rel=1e-9)


def test_textbook_fire_screen() -> None:
    """0.71 m plate at 232 °C in 23 °C air: Ra 1.813e9, Nu 147, h 7.0 (Incropera Example 9.2, from memory)."""
    assert float(nusselt_vertical(1.813e9, 0.690)) == pytest.approx(147, abs=0.5)
    assert float(vertical(232 + ICE, 23 + ICE, 0.71)) == pytest.approx(7.0, rel=0.02)


def test_hot_mould_in_room_air() -> None:
    """0.1 m vertical at 40 to 150 °C in 22 °C air (computed independently with ``ht``; printed to 0.1)."""
    celsius = np.array([40, 60, 80, 100, 120, 150])
    printed = [5.0, 6.0, 6.7, 7.2, 7.5, 8.0]
    assert vertical(celsius + ICE, 22 + ICE, 0.1) == pytest.approx(printed, abs=0.1)


def test_tray_in_a_static_oven() -> None:
    """Cold face up and down in 177 °C air (computed independently with ``ht``; printed to 0.1)."""
    surface = np.array([30, 60, 100, 130, 160]) + ICE
    assert horizontal(surface, 177 + ICE, TRAY, True) == pytest.approx([5.0, 4.7, 4.2, 3.6, 2.8], abs=0.1)
    assert horizontal(surface, 177 + ICE, TRAY, False) == pytest.approx([10.0, 9.4, 8.3, 7.3, 5.6], abs=0.15)


def test_radiation_tables() -> None:
    """ε 0.9 and 0.3 in a 177 °C oven; ε 0.8 in a 22 °C room (computed independently; printed to 0.1)."""
    cold = np.array([30, 60, 100, 130, 160]) + ICE
    assert radiation(0.9, cold, 177 + ICE) == pytest.approx([11.3, 12.5, 14.4, 15.9, 17.6], abs=0.06)
    assert radiation(0.3, cold, 177 + ICE) == pytest.approx([3.8, 4.2, 4.8, 5.3, 5.9], abs=0.06)
    hot = np.array([40, 60, 80, 100, 120, 150]) + ICE
    assert radiation(0.8, hot, 22 + ICE) == pytest.approx([5.1, 5.7, 6.2, 6.9, 7.6, 8.7], abs=0.06)


@given(st.floats(250, 500), st.floats(250, 500), st.floats(0.1, 1.0))
def test_radiation_is_the_exact_exchange(one: float, two: float, emissivity: float) -> None:
    """h (T₁ − T₂) = ε σ (T₁⁴ − T₂⁴), and neither order matters."""
    coefficient = float(radiation(emissivity, one, two))
    flux = emissivity * 5.670374419e-8 * (one**4 - two**4)
    assert coefficient * (one - two) == pytest.approx(flux, abs=1e-6)
    assert coefficient == pytest.approx(float(radiation(emissivity, two, one)))


@given(st.floats(0.5, 150), st.floats(1.0, 50), st.booleans())
def test_greater_difference_carries_more(step: float, more: float, facing_up: bool) -> None:
    """The flux rises with the temperature difference on every face."""
    room = 295.0
    for coefficient in (
        lambda t: vertical(t, room, 0.1),
        lambda t: horizontal(t, room, TRAY, facing_up),
    ):
        assert float(coefficient(room + step + more)) * (step + more) > float(coefficient(room + step)) * step
