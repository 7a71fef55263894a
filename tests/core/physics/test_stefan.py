"""Stefan and Neumann solutions against tabulated, published and independently computed values."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, special

from recipes_core.physics.stefan import (
    front,
    front_time,
    mould_face,
    one_phase,
    stefan_number,
    two_phase,
)

# (rho 850, ks .45, kl .25, cs 2200, cl 2500, L 200e3): the polymer of the two-phase check values
RHO, SOLID, LIQUID, L = 850.0, (0.45, 2200.0), (0.25, 2500.0), 200e3


def _diffusivity(phase: tuple[float, float], density: float = RHO) -> float:
    return phase[0] / (density * phase[1])


def test_one_phase_table() -> None:
    """λ against Ste (values computed with another solver)."""
    stefan = [0.05, 0.1, 0.2, 0.5, 1, 2, 5]
    lam = [0.1568209, 0.2200163, 0.3064239, 0.4647859, 0.6200626, 0.8006014, 1.059687]
    assert one_phase(stefan) == pytest.approx(lam, abs=6e-7)


def test_textbook_lava_and_dike() -> None:
    """L 400 kJ/kg, c 1, ΔT 1050: λ 0.876; 320, 1.2, 1000: 0.73 (Turcotte and Schubert, from memory)."""
    lake = stefan_number(1000, 1050, 400e3)
    assert float(one_phase(lake)) == pytest.approx(0.876, abs=5e-4)
    # the dike cools both ways: its face sits inside the wall rock, so φ = 1
    dike = stefan_number(1200, 1000, 320e3)
    assert float(one_phase(dike, 1.0)) == pytest.approx(0.73, abs=1e-3)


@pytest.mark.parametrize(
    ("grow", "origin", "celsius", "lam", "depths"),
    [
        (LIQUID, SOLID, (177, 130, 20), 0.21052095, [1.1186, 3.5375]),
        (LIQUID, SOLID, (177, 130, 130), 0.49826776, [2.6476, 8.3726]),
        (SOLID, LIQUID, (30, 118, 177), 0.44022588, [3.3455, 10.5795]),
        (SOLID, LIQUID, (30, 118, 118), 0.61214507, [4.6521, 14.7111]),
    ],
)
def test_two_phase_polymer(
    grow: tuple[float, float],
    origin: tuple[float, float],
    celsius: tuple[float, float, float],
    lam: float,
    depths: list[float],
) -> None:
    """Wall, freezing, start: λ, and the front in mm after 1 and 10 min (computed independently)."""
    wall, freezing, start = celsius
    mine = two_phase(
        stefan_number(grow[1], wall - freezing, L),
        stefan_number(grow[1], start - freezing, L),
        origin[0] / grow[0],
        _diffusivity(grow) / _diffusivity(origin),
    )
    assert float(mine) == pytest.approx(lam, abs=2e-8)
    depth = front(mine, _diffusivity(grow), np.array([60.0, 600.0])) * 1e3
    assert depth == pytest.approx(depths, abs=6e-5)


@pytest.mark.parametrize(("start", "lam", "day"), [(0, 0.17549064, 105.59), (10, 0.15701725, 94.48)])
def test_ice(start: float, lam: float, day: float) -> None:
    """Ice under a -10 °C face on water at 0 and 10 °C: mm in a day (computed independently)."""
    ice, water = (2.2, 2100.0), (0.6, 4200.0)
    mine = two_phase(
        stefan_number(2100, 10, 334e3),
        stefan_number(2100, start, 334e3),
        water[0] / ice[0],
        _diffusivity(ice, 1000) / _diffusivity(water, 1000),
    )
    assert float(mine) == pytest.approx(lam, abs=2e-8)
    assert float(front(mine, _diffusivity(ice, 1000), 86_400)) * 1e3 == pytest.approx(day, abs=6e-3)


def test_published_iron_slab() -> None:
    """Iron slab, 100 mm, 1540/28 °C (Ghosh and Mallik, Sample Problem 2.6 p. 73, seen in a companion).

    Printed: ζ 0.98 water-cooled, 0.815 thick copper, 0.011455 h and 0.016563 h with those rounded ζ; so 1 %
    on the times. The face against an independent effusivity balance.
    """
    iron = (83.0, 670.0)
    stefan = stefan_number(670, 1540 - 28, 272e3)
    ratio = np.sqrt(83 * 7850 * 670) / np.sqrt(398 * 8960 * 376)
    assert float(ratio) == pytest.approx(0.57059, abs=5e-6)
    lam = one_phase(stefan, np.array([0.0, ratio]))
    assert lam == pytest.approx([0.98, 0.815], rel=6e-3)
    assert lam == pytest.approx([0.97531, 0.81625], abs=6e-6)
    hours = front_time(lam, _diffusivity(iron, 7850), 0.05) / 3600
    assert hours == pytest.approx([0.011455, 0.016563], rel=0.011)
    face = float(mould_face(lam[1], 1540, 272e3, 670))
    assert face == pytest.approx(680.5, abs=0.1)
    # heat reaching the interface from the solid layer equals what the mould draws: q = k dT/dx on either side
    layer = (1540 - face) / special.erf(lam[1]) * np.sqrt(83 * 7850 * 670)
    mould = (face - 28) * np.sqrt(398 * 8960 * 376)
    assert layer == pytest.approx(mould, rel=1e-9)


@pytest.mark.parametrize(
    ("mould", "phi", "lam", "face", "minute"),
    [((50, 7850, 490), 0.0661, 0.61345, 29.53, 4.662), ((0.12, 550, 1700), 2.7386, 0.19768, 110.71, 1.502)],
)
def test_polymer_freezes_onto_cold_mould(
    mould: tuple[float, float, float], phi: float, lam: float, face: float, minute: float
) -> None:
    """Melt at its freezing point on 20 °C steel and wood (computed independently; front in mm after 60 s)."""
    ratio = np.sqrt(SOLID[0] * RHO * SOLID[1]) / np.sqrt(mould[0] * mould[1] * mould[2])
    mine = one_phase(stefan_number(SOLID[1], 118 - 20, L), ratio)
    assert float(ratio) == pytest.approx(phi, abs=1e-3)
    assert float(mine) == pytest.approx(lam, abs=6e-6)
    assert float(mould_face(mine, 118, L, SOLID[1])) == pytest.approx(face, abs=6e-3)
    assert float(front(mine, _diffusivity(SOLID), 60)) * 1e3 == pytest.approx(minute, abs=6e-4)


@given(st.floats(0.01, 20), st.floats(0, 5), st.floats(0.1, 10), st.floats(0.1, 10))
def test_against_scipy_root(stefan: float, other: float, conduct: float, diffuse: float) -> None:
    """λ of both forms against scipy's bracketed root finder."""
    nu = np.sqrt(diffuse)

    def residual(x: float) -> float:
        fed = other * nu * conduct / special.erfcx(nu * x)
        return float(x * np.sqrt(np.pi) - stefan / (np.exp(x * x) * special.erf(x)) + fed)

    expected = optimize.brentq(residual, 1e-9, 6.0, xtol=1e-14)
    assert float(two_phase(stefan, other, conduct, diffuse)) == pytest.approx(expected, rel=1e-9)


@given(st.floats(0.01, 20), st.floats(0.01, 20), st.floats(0, 3))
def test_more_drive_means_a_faster_front(first: float, second: float, ratio: float) -> None:
    """λ rises with Ste and falls with the mould ratio; the one-phase case is the two-phase one without a
    step.
    """
    low, high = sorted((first, second))
    assert float(one_phase(low, ratio)) <= float(one_phase(high, ratio)) + 1e-12
    assert float(one_phase(low, ratio)) <= float(one_phase(low)) + 1e-12
    assert float(two_phase(low, 0.0, 1.0, 1.0)) == pytest.approx(float(one_phase(low)), rel=1e-9)


def test_front_and_time_are_inverse() -> None:
    """``front_time`` undoes ``front``, member by member."""
    lam = one_phase(np.array([0.2, 1.0]))
    assert front_time(lam, 1e-7, front(lam, 1e-7, 900.0)) == pytest.approx([900.0, 900.0])
