"""Strain and lengths of a bend against printed examples.

Values marked [X] were computed independently of this code for the collection of check values.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.bending import bend_allowance, flat_length, outer_strain

RIGHT = math.pi / 2.0


@pytest.mark.parametrize(
    ("ratio", "strain"),
    [
        (1.0, 0.333),
        (2.0, 0.200),
        (3.0, 0.143),
        (5.0, 0.0909),
        (10.0, 0.0476),
        (20.0, 0.0244),
        (100.0, 0.00498),
        (200.0, 0.00249),
    ],
)
def test_strain_of_the_outer_face(ratio: float, strain: float) -> None:
    """By inside radius over thickness, to the digits of the collection [X]."""
    digits = len(f"{strain}".rstrip("0").partition(".")[2])
    assert outer_strain(0.003, ratio * 0.003) == pytest.approx(strain, abs=0.51 * 10.0**-digits)


@pytest.mark.parametrize(("ratio", "percent"), [(180.0, 0.28), (300.0, 0.17), (330.0, 0.15), (240.0, 0.21)])
def test_strain_of_the_published_cold_radii(ratio: float, percent: float) -> None:
    """Suppliers print the radii of acrylic bent cold; the strains beside them were worked out from these [X]."""
    assert 100.0 * float(outer_strain(1.0, ratio)) == pytest.approx(percent, abs=0.006)


@pytest.mark.parametrize(
    ("radius", "thickness", "neutral", "allowance", "flat"),
    [
        (6.0, 3.0, 0.50, 11.7810, 83.7810),
        (6.0, 3.0, 0.33, 10.9799, 82.9799),
        (12.0, 6.0, 0.50, 23.5619, 77.5619),
        (10.0, 5.0, 0.50, 19.6350, 79.6350),
    ],
)
def test_allowance_and_flat_length(
    radius: float, thickness: float, neutral: float, allowance: float, flat: float
) -> None:
    """Legs of 50 and 40 mm, 90 degrees; millimetres, to the last digit [X]."""
    found = bend_allowance(RIGHT, radius, thickness, neutral)
    assert found == pytest.approx(allowance, abs=6e-5)
    assert flat_length(90.0, RIGHT, radius, thickness, found) == pytest.approx(flat, abs=6e-5)


def test_a_printed_sample_problem() -> None:
    """Ghosh and Mallik, Sample Problem 3.9, p. 135 and its companion: two legs of 50 mm, 5 mm thick.

    A fracture strain of 0.2 with the neutral line 0.55 t below the outer face gives the least radius; the stock
    length is printed as 89.175451 mm.
    """
    thickness = 5.0
    radius = (1.0 / math.expm1(0.2) - 0.82) * thickness / 1.82
    assert radius == pytest.approx(10.1556, abs=5e-5)
    allowance = bend_allowance(RIGHT, radius, thickness, 0.45)
    assert flat_length(100.0, RIGHT, radius, thickness, allowance) == pytest.approx(89.175451, abs=1e-6)


def test_a_printed_shop_formula() -> None:
    """A US Navy training page prints BA = (0.0173 R + 0.0078 T) N: K is 0.447, and π/180 is cut after 0.0173.

    That cut alone makes 0.7 % here: R 6, T 3, N 90 print as 11.448 against 11.531 with the whole of π.
    """
    printed = (0.0173 * 6.0 + 0.0078 * 3.0) * 90.0
    neutral = 0.0078 / math.radians(1.0)
    found = float(bend_allowance(RIGHT, 6.0, 3.0, neutral))
    assert printed == pytest.approx(11.448)
    assert neutral == pytest.approx(0.447, abs=5e-4)
    assert found == pytest.approx(11.531, abs=2e-3)
    assert printed / found - 1.0 == pytest.approx(-0.007, abs=5e-4)


@given(angle=st.floats(0.01, 2.8), radius=st.floats(0.1, 100.0), thickness=st.floats(0.1, 20.0))
def test_lengths_hold_together(angle: float, radius: float, thickness: float) -> None:
    """The middle line is as long as its arc, lies between the faces, and the outer face is longer by the strain."""
    inner = float(bend_allowance(angle, radius, thickness, 0.0))
    middle = float(bend_allowance(angle, radius, thickness, 0.5))
    outer = float(bend_allowance(angle, radius, thickness, 1.0))
    assert inner == pytest.approx(angle * radius)
    assert inner < middle < outer
    assert outer / middle - 1.0 == pytest.approx(float(outer_strain(thickness, radius)))
