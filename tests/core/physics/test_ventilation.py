"""Dilution, decay and vapour in an oven against a published example and the worked cases."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from recipes_core.physics.ventilation import (
    build_up_time,
    concentration,
    decay_time,
    dilution_flow,
    generation,
    hot_flammable_limit,
    vapour_share,
)

HOUR, FOOT, POUND = 3600.0, 0.3048, 0.45359237
STYRENE, FORMALDEHYDE, CAPROLACTAM = 104.15e-3, 30.03e-3, 113.16e-3
HALF_HOUR, ROOM = 1800.0, 50.0


@pytest.mark.parametrize(
    ("ppm", "molar_mass", "told"),
    [(2, STYRENE, 8.519), (0.75, FORMALDEHYDE, 0.9210), (0.016, FORMALDEHYDE, 0.01965), (0.22, CAPROLACTAM, 1.0182)],
)
def test_ppm_and_milligrams(ppm: float, molar_mass: float, told: float) -> None:
    """mg/m³ at 25 °C (computed independently; the factor 24.45 is the published convention)."""
    assert float(concentration(ppm * 1e-6, molar_mass)) * 1e6 == pytest.approx(told, rel=2e-3)


def test_published_open_tank() -> None:
    """Toluene, tank of 5 ft, 77 °F, 3000 ft³/min (Crowl and Louvar, Chemical Process Safety, example 3-8; the
    statement was seen in copied slides): 0.162 lb/min evaporate, and a mixing factor k = 1/K of 1, 0.5 and 0.1 gives
    230, 461 and 2303 ppm. Coefficient of water and vapour pressure are from memory.
    """
    coefficient = 0.83e-2 * (18 / 92) ** (1 / 3)
    area = np.pi / 4 * (5 * FOOT) ** 2
    release = 92.14e-3 * coefficient * area * (28.2 / 760 * 101_325) / (8.314462618 * 298.15)
    assert release / (POUND / 60) == pytest.approx(0.162, rel=5e-3)
    for mixing, ppm in ((1, 230), (2, 461), (10, 2303)):
        air = dilution_flow(release, concentration(ppm * 1e-6, 92.14e-3), mixing)
        assert float(air) / (FOOT**3 / 60) == pytest.approx(3000, rel=0.01)


def test_against_the_us_formula() -> None:
    """Q[cfm] = 403e6 SG ER[pint/min] K/(M C[ppm]) (board equation list and a university page, published).

    Its 403 holds at 70 °F (387 ft³/lbmol, derived), which is 1.3 % less than at the 25 °C of exposure limits.
    """
    pint, water = 473.176473e-6, 998.0
    release = 0.866 * water * pint * 0.5 / 60  # half a pint of toluene a minute
    air = dilution_flow(release, concentration(100e-6, 92.14e-3), 4) / (FOOT**3 / 60)
    assert float(air) == pytest.approx(403e6 * 0.866 * 0.5 * 4 / (92.14 * 100) * 298.15 / 294.26, rel=2e-3)


@pytest.mark.parametrize(
    ("factor", "target", "air_3", "air_10", "changes"),
    [
        (20, concentration(2e-6, STYRENE), 14, 47, 0.9),
        (100, concentration(2e-6, STYRENE), 70, 235, 4.7),
        (440, concentration(2e-6, STYRENE), 310, 1033, 20.7),
        (1, concentration(0.75e-6, FORMALDEHYDE), 6.5, 22, 0.4),
        (1, concentration(0.016e-6, FORMALDEHYDE), 305, 1018, 20.4),
        (20, 0.08e-6, 1500, 5000, 100),
        (720, concentration(0.22e-6, CAPROLACTAM), 4243, 14143, 283),
    ],
)
def test_a_kilogram_in_half_an_hour(factor: float, target: float, air_3: float, air_10: float, changes: float) -> None:
    """µg/g to m³/h at K 3 and 10, and air changes of 50 m³ at K 10 (computed independently, rounded in print)."""
    release = generation(factor * 1e-6, 1.0, HALF_HOUR)
    for mixing, told in ((3, air_3), (10, air_10)):
        assert float(dilution_flow(release, target, mixing)) * HOUR == pytest.approx(told, rel=0.015)
    air = dilution_flow(release, target, 10)
    assert float(air) * HOUR / ROOM == pytest.approx(changes, rel=2e-3, abs=0.05)


@pytest.mark.parametrize(
    ("changes", "half", "tenth", "hundredth"),
    [(0.5, 83, 276, 553), (2, 21, 69, 138), (6, 7, 23, 46), (12, 3.5, 12, 23)],
)
def test_decay(changes: float, half: float, tenth: float, hundredth: float) -> None:
    """Minutes, to the printed digit (computed independently; the equation is published)."""
    minutes = decay_time(changes / HOUR, [2, 10, 100]) / 60
    assert minutes == pytest.approx([half, tenth, hundredth], abs=0.5)


def test_build_up_against_an_integrator() -> None:
    """dC/dt = (G − Q C)/V, solved by scipy from 1 to 4 mg/m³."""
    volume, flow, release = 50.0, 100 / HOUR, 880e-6 / HOUR
    time = float(build_up_time(volume, flow, release, 1e-6, 4e-6))
    solved = solve_ivp(lambda _, c: (release - flow * c) / volume, (0, time), [1e-6], rtol=1e-9, atol=1e-15)
    assert solved.y[0, -1] == pytest.approx(4e-6, rel=1e-6)
    assert float(build_up_time(volume, flow, release, 0.0, 9e-6)) == np.inf


@pytest.mark.parametrize(("grams", "percent", "of_limit"), [(0.1, 0.0714, 9.0), (1.0, 0.714, 90), (0.277, 0.198, 25)])
def test_styrene_in_a_closed_oven(grams: float, percent: float, of_limit: float) -> None:
    """50 l at 180 °C, limit 0.9 % by volume at 25 °C (computed independently)."""
    share = vapour_share(grams / 1e3, STYRENE, 453.15, 0.05)
    assert float(share) * 100 == pytest.approx(percent, rel=2e-3)
    assert float(share / hot_flammable_limit(0.009, 453.15)) * 100 == pytest.approx(of_limit, rel=6e-3)


@pytest.mark.parametrize(
    ("grams", "molar_mass", "volume", "kelvin", "percent"),
    [(1.6, 72.15e-3, 0.05, 298.15, 1.1), (1.1, 72.15e-3, 0.05, 453.15, 1.1)],
)
def test_pentane_of_foam(grams: float, molar_mass: float, volume: float, kelvin: float, percent: float) -> None:
    """1.6 g of pentane fill 50 l to 1.1 % at 25 °C, 1.1 g at 180 °C (computed independently, two digits)."""
    assert float(vapour_share(grams / 1e3, molar_mass, kelvin, volume)) * 100 == pytest.approx(percent, rel=0.05)


@pytest.mark.parametrize(("grams", "molar_mass", "ppm"), [(5.83, 36.46e-3, 78), (0.64 * 0.583, 36.46e-3, 5)])
def test_acid_of_pvc_in_a_closed_room(grams: float, molar_mass: float, ppm: float) -> None:
    """Hydrogen chloride of 10 g and of 0.64 g of PVC in 50 m³ (computed independently)."""
    assert grams / 1e3 / ROOM == pytest.approx(float(concentration(ppm * 1e-6, molar_mass)), rel=0.01)


@given(st.floats(1e-12, 1e-3), st.floats(1e-9, 1e-3), st.floats(1.0, 10.0))
def test_air_holds_the_balance(release: float, target: float, mixing: float) -> None:
    """What is given off leaves with the air at the target, K times thinned."""
    assert float(dilution_flow(release, target, mixing)) * target == pytest.approx(mixing * release)
