"""Shrinkage, charge and bow against the worked values."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.shrinkage import bow, cavity_length, charge_mass, fixed_cavity_deficit, thickness


@pytest.mark.parametrize(
    ("share", "length"), [(0.015, 101.5228), (0.02, 102.0408), (0.025, 102.5641), (0.03, 103.0928)]
)
def test_cavity_for_100(share: float, length: float) -> None:
    """Cavity for a 100 mm part (computed independently to four decimals)."""
    assert float(cavity_length(100, share)) == pytest.approx(length, abs=5e-5)


def test_textbook_part() -> None:
    """80 mm PE part at S 0.025: 82.05 mm (Groover, Fundamentals of Modern Manufacturing, from memory)."""
    assert float(cavity_length(80, 0.025)) == pytest.approx(82.05, abs=5e-3)


def test_charge_and_deficit_of_a_plate() -> None:
    """150 x 100 x 12 mm, 950 kg/m³, 5 %: 179.6 g; filled once with 760 kg/m³ it lacks 20 % (computed
    independently).
    """
    volume = 0.150 * 0.100 * 0.012
    assert float(charge_mass(volume, 950, 0.05)) == pytest.approx(0.1796, abs=1e-4)
    assert float(charge_mass(volume, 950, 0.05, 0.002)) == pytest.approx(0.1816, abs=1e-4)
    assert float(fixed_cavity_deficit(760, 950)) == pytest.approx(0.20)


def test_published_plate_thickness() -> None:
    """38.58 g of HDPE over 185 x 165 mm: 1.32 mm (Proc. Int. Conf. Digital Manufacturing
    vol. 1).
    """
    assert float(thickness(38.58e-3, 955, 0.185 * 0.165)) * 1e3 == pytest.approx(1.32, rel=0.01)


@pytest.mark.parametrize(("expansion", "millimetres"), [(150e-6, 2.8), (200e-6, 3.8)])
def test_bow_of_a_plate(expansion: float, millimetres: float) -> None:
    """20 K across 12 mm over 300 mm (worked example; 3.75 is printed as 3.8)."""
    assert float(bow(expansion, 20, 0.3, 0.012)) * 1e3 == pytest.approx(millimetres, abs=0.051)


@given(st.floats(0.01, 2.0), st.floats(0.0, 0.06))
def test_part_comes_out_of_its_cavity(part: float, share: float) -> None:
    """The cavity shrunk by S of itself is the part again, and never the smaller of the two."""
    cavity = float(cavity_length(part, share))
    assert cavity * (1 - share) == pytest.approx(part)
    assert cavity >= part


@given(st.floats(1e-6, 1e-2), st.floats(800, 1500), st.floats(0, 0.2), st.floats(1e-3, 1.0))
def test_mass_becomes_thickness_again(volume: float, density: float, flash: float, area: float) -> None:
    """A charge without flash fills its own volume; flash only adds."""
    assert float(thickness(charge_mass(volume, density), density, area)) == pytest.approx(volume / area)
    assert float(charge_mass(volume, density, flash)) >= float(charge_mass(volume, density))
