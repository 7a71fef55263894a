"""Tait's equation against worked checks, handbook values and a second fit."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.density import Tait, TwoDomainTait

ICE = 273.15
ATM = 0.1e6  # the checks are stated at 0.1 MPa

# Danner and High, Handbook of Polymer Solution Thermodynamics, Table 3B-1 p. 41 (published; read in a copy)
HDPE = Tait(1.1567e-3, 6.2888e-7, 1.1268e-9, 1.7867e8, 4.7254e-3)
LDPE = Tait(1.1004e-3, 1.4557e-6, -1.5749e-9, 1.7598e8, 4.6677e-3)
IPP = Tait(1.2033e-3, 4.8182e-7, 7.7589e-10, 1.4236e8, 4.0184e-3)
PS = Tait(9.3805e-4, 3.3086e-7, 6.6910e-10, 2.5001e8, 4.1815e-3)
PMMA = Tait(8.2396e-4, 3.0490e-7, 7.0201e-10, 2.9803e8, 4.3789e-3)
PC = Tait(7.9165e-4, 4.4201e-7, 2.8583e-10, 3.1268e8, 3.9728e-3)

# Open data of Krebelj et al., Polymers 13 (2021) 138 (published); PS: the same group's open case
OPEN_HDPE = TwoDomainTait(
    1.24953e-3, 1.026e-6, 1.04215e8, 4.941e-3, 1.070046e-3, 2.077e-7, 3.32420e8, 2.46e-6,
    390.65, 1.543e-7, 1.89858e-4, 0.0283477, 1.023e-8,
)  # fmt: skip
OPEN_PS = TwoDomainTait(9.76e-4, 5.8e-7, 1.67e8, 3.6e-3, 9.76e-4, 2.3e-7, 2.6e8, 3.0e-3, 373.0, 5.1e-7, 0.0, 0.0, 0.0)
# Table 1 of PMC7388655 (published); PLA: Oliaei et al. 2016, as transcribed in an open materials library
OPEN_PMMA = TwoDomainTait(
    8.5982e-4, 5.697e-7, 2.09e8, 4.908e-3, 8.60702e-4, 1.995e-7, 2.73e8, 3.394e-3, 383.0, 2e-7, 0.0, 0.0, 0.0
)
OPEN_PLA = TwoDomainTait(
    8.27e-4, 8.5e-7, 1.63e8, 6.196e-3, 8.21e-4, 4.47e-7, 2.14e8, 6.078e-3, 361.26, 7.5e-8, 0.0, 0.0, 0.0
)


@pytest.mark.parametrize(
    ("melt", "celsius", "pressure", "volume"),
    [
        (HDPE, 180, ATM, 1.3063),
        (HDPE, 180, 10e6, 1.2920),
        (HDPE, 200, ATM, 1.3274),
        (IPP, 200, ATM, 1.3305),
        (IPP, 230, ATM, 1.3549),
        (LDPE, 180, ATM, 1.3112),
        (LDPE, 180, 10e6, 1.2969),
        (PS, 190, ATM, 1.0250),
    ],
)
def test_worked_volumes(melt: Tait, celsius: float, pressure: float, volume: float) -> None:
    """cm³/g to 1e-4 (worked from the published constants)."""
    assert float(melt.volume(celsius + ICE, pressure)) * 1e3 == pytest.approx(volume, abs=1e-4)


def test_hdpe_against_a_textbook() -> None:
    """1.33 cm³/g at 200 °C, 1 K above the range of the constants (published textbook
    extract).
    """
    assert float(HDPE.volume(473.15)) * 1e3 == pytest.approx(1.33, abs=0.005)


def test_pc_against_its_maker() -> None:
    """1.07 g/cm³ at 275 °C (published supplier page), 0.5 %."""
    assert float(PC.density(275 + ICE)) == pytest.approx(1070, rel=5e-3)


def test_pmma_against_a_second_fit() -> None:
    """v₀(150 °C) of Cho and Sanchez, Polymer Handbook VI-591 (published)."""
    other = 0.8254 + 2.8383e-4 * 150 + 7.792e-7 * 150**2
    assert float(PMMA.volume(150 + ICE, 0.0)) * 1e3 == pytest.approx(other, abs=1e-4)


def test_press_pressure_hardly_packs_the_melt() -> None:
    """10 MPa shrinks HDPE melt at 180 °C by 1.1 % (worked from the published constants)."""
    change = 1 - float(HDPE.volume(453.15, 10e6) / HDPE.volume(453.15, ATM))
    assert change == pytest.approx(0.011, abs=5e-4)


@pytest.mark.parametrize(
    ("celsius", "density"),
    [
        (20, 942), (60, 913), (80, 887), (100, 846), (110, 819), (117.6, 800),
        (150, 780), (180, 761), (200, 750),
    ],
)  # fmt: skip
def test_two_domain_hdpe(celsius: float, density: float) -> None:
    """kg/m³ at 0.1 MPa (worked from the open constants; printed digits)."""
    assert float(OPEN_HDPE.density(celsius + ICE, ATM)) == pytest.approx(density, abs=0.6)


def test_branches_meet_the_wrong_way_at_the_transition() -> None:
    """At b5 and no pressure the melt is 1/b1m = 800.3, the solid 1/(b1s + b7) = 793.7 kg/m³: 0.8 % lighter
    (by hand).

    A density curve drawn from this set has to be smoothed there.
    """
    below, above = OPEN_HDPE.density(390.65 + np.array([-1e-6, 1e-6]), 0.0)
    assert [below, above] == pytest.approx([1 / (1.070046e-3 + 1.89858e-4), 1 / 1.24953e-3], rel=1e-6)


def test_two_domain_hdpe_agrees_with_the_one_domain_melt() -> None:
    """Independent sets at 150 and 180 °C within 0.6 %."""
    kelvin = np.array([150, 180]) + ICE
    assert OPEN_HDPE.density(kelvin) == pytest.approx(HDPE.density(kelvin), rel=6e-3)


@pytest.mark.parametrize(
    ("melt", "celsius", "density"),
    [
        (OPEN_PS, 180, 978),
        (OPEN_PMMA, 150, 1133),
        (OPEN_PMMA, 220, 1084),
        (OPEN_PLA, 23, 1263),
        (OPEN_PLA, 190, 1095),
    ],
)
def test_two_domain_of_other_resins(melt: TwoDomainTait, celsius: float, density: float) -> None:
    """kg/m³ at 0.1 MPa (worked from the published constants)."""
    assert float(melt.density(celsius + ICE, ATM)) == pytest.approx(density, abs=0.6)


def test_two_domain_ps_agrees_with_the_one_domain_melt() -> None:
    """978 against 981 kg/m³ at 180 °C: two independent sets within 0.5 %."""
    assert float(OPEN_PS.density(453.15)) == pytest.approx(float(PS.density(453.15)), rel=5e-3)


@given(st.floats(145, 198), st.floats(0, 50e6), st.floats(0.1, 5))
def test_heat_swells_and_pressure_packs(celsius: float, pressure: float, step: float) -> None:
    """Volume rises with temperature and falls with pressure, in both forms."""
    for melt in (HDPE, OPEN_HDPE):
        base = float(melt.volume(celsius + ICE, pressure))
        assert float(melt.volume(celsius + ICE + step, pressure)) > base
        assert float(melt.volume(celsius + ICE, pressure + step * 1e6)) < base


@given(st.floats(0, 109))
def test_solid_branch_swells_with_heat(celsius: float) -> None:
    """The solid of the two-domain set loses density all the way to its transition."""
    assert float(OPEN_HDPE.density(celsius + ICE)) > float(OPEN_HDPE.density(celsius + 5 + ICE))
