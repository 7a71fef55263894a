"""Melt viscosity against worked and published values."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.flow import CrossWlf, melt_flow_shear, power_law, temperature_shift

ICE = 273.15
GRAM_PER_TEN_MINUTES = 1 / 600_000  # kg/s

# Open data of Krebelj et al., Polymers 13 (2021) 138 (published), injection-grade HDPE; PS of the same group
HDPE = CrossWlf(0.3935, 64_569.0, 3.762e15, 153.15, 33.21, 51.6)
PS = CrossWlf(0.252, 30_800.0, 4.76e10, 373.15, 25.7, 61.06)


@pytest.mark.parametrize(
    ("flow", "density", "rate", "viscosity"),
    [
        (0.30, 763.6, 0.73, 26_700),
        (0.48, 763.6, 1.16, 16_700),
        (2.0, 763.6, 4.8, 4_000),
        (20.0, 763.6, 48, 400),
        (4.0, 738.6, 10, 1_940),
        (12.0, 738.6, 30, 645),
        (40.0, 738.6, 100, 194),
    ],
)
def test_melt_flow_table(flow: float, density: float, rate: float, viscosity: float) -> None:
    """Rate and viscosity at 2.16 kg of PE (190 °C) and PP (230 °C) (worked; printed digits)."""
    mine_rate, mine_viscosity = melt_flow_shear(flow * GRAM_PER_TEN_MINUTES, density)
    assert float(mine_rate) == pytest.approx(rate, rel=0.01)
    assert float(mine_viscosity) == pytest.approx(viscosity, rel=0.01)


def test_wall_stress() -> None:
    """19.4 kPa at the die wall under 2.16 kg, whatever the melt flow (worked)."""
    rate, viscosity = melt_flow_shear(np.array([0.3, 20.0]) * GRAM_PER_TEN_MINUTES, 763.6)
    assert rate * viscosity == pytest.approx([19.4e3, 19.4e3], abs=50)


@pytest.mark.parametrize(
    ("melt", "celsius", "zero_shear", "within"),
    [
        (HDPE, 150, 2930, 5e-3), (HDPE, 160, 2490, 5e-3), (HDPE, 180, 1860, 5e-3), (HDPE, 200, 1430, 5e-3),
        (PS, 180, 22_300, 5e-3), (PS, 200, 5_590, 5e-3),
    ],
)  # fmt: skip
def test_zero_shear(melt: CrossWlf, celsius: float, zero_shear: float, within: float) -> None:
    """η₀ from the published constants (worked to three figures)."""
    assert float(melt.zero_shear(celsius + ICE)) == pytest.approx(zero_shear, rel=within)


def test_hdpe_thins_with_shear() -> None:
    """At 180 °C: 1665 Pa s at 1/s, 1264 at 10/s (worked from the published constants)."""
    assert HDPE.viscosity(180 + ICE, [1.0, 10.0]) == pytest.approx([1665, 1264], abs=1)


def test_ps_against_a_second_set() -> None:
    """24 300 and 5 550 Pa s at 180 and 200 °C by an independent second-hand set: 8 % and 1 %."""
    assert PS.zero_shear(np.array([180, 200]) + ICE) == pytest.approx([24_300, 5_550], rel=0.09)


def test_ldpe_power_law() -> None:
    """373.1 Pa s at 200 °C and 500/s (Rao and O'Brien, eq. 1.32 example, published)."""
    consistency = 135_990 * math.exp(-0.00863 * 200)
    assert float(power_law(consistency, 0.3286, 500)) == pytest.approx(373.1, abs=0.1)


@pytest.mark.parametrize(("energy", "ratio"), [(25.9e3, 1.34), (29.1e3, 1.39), (27.5e3, 1.36)])
def test_hdpe_temperature_shift(energy: float, ratio: float) -> None:
    """Viscosity at 180 over 200 °C (J. Rheol. 40 (1996) 1079, published abstract)."""
    assert float(temperature_shift(180 + ICE, 200 + ICE, energy)) == pytest.approx(ratio, abs=0.01)


def test_flow_energy_of_the_open_set() -> None:
    """The injection grade's WLF amounts to 23 kJ/mol between 150 and 200 °C (worked)."""
    low, high = 423.15, 473.15
    ratio = float(HDPE.zero_shear(low) / HDPE.zero_shear(high))
    energy = 8.314462618 * math.log(ratio) / (1 / low - 1 / high)
    assert energy == pytest.approx(23e3, rel=0.06)


@given(st.floats(150, 220), st.floats(1e-3, 1e4), st.floats(1.01, 100))
def test_shear_and_heat_thin_the_melt(celsius: float, rate: float, more: float) -> None:
    """Viscosity falls with rate and temperature, and stays below that at rest."""
    kelvin = celsius + ICE
    here = float(HDPE.viscosity(kelvin, rate))
    assert float(HDPE.viscosity(kelvin, rate * more)) < here < float(HDPE.zero_shear(kelvin))
    assert float(HDPE.viscosity(kelvin + 5, rate)) < here


@given(st.floats(150, 220), st.floats(1e-2, 1e3), st.floats(1e-2, 1e3))
def test_tangent_touches_and_bounds(celsius: float, touching: float, elsewhere: float) -> None:
    """The power law equals the model where it touches, has its slope there, and is never below it."""
    kelvin = celsius + ICE
    consistency, index = HDPE.tangent(kelvin, touching)
    here = float(HDPE.viscosity(kelvin, touching))
    assert float(power_law(consistency, index, touching)) == pytest.approx(here, rel=1e-9)
    slope = math.log(float(HDPE.viscosity(kelvin, touching * 1.001)) / here) / math.log(1.001)
    assert float(index) - 1 == pytest.approx(slope, abs=1e-3)
    bound = float(power_law(consistency, index, elsewhere))
    assert bound >= float(HDPE.viscosity(kelvin, elsewhere)) * (1 - 1e-9)
