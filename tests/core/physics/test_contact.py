"""Contact temperature against the effusivity table."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.contact import contact_temperature, effusivity

ICE = 273.15
MELT = 689.0  # W s½/(m² K), HDPE melt as used for the table


@pytest.mark.parametrize(
    ("conductivity", "density", "capacity", "expected"),
    [(50, 7850, 490, 13_868), (200, 2700, 900, 22_045), (0.12, 550, 1700, 335), (0.14, 750, 1700, 422)],
)
def test_effusivity(conductivity: float, density: float, capacity: float, expected: float) -> None:
    """√(kρc) of steel, aluminium, softwood and MDF (worked check values, computed independently)."""
    assert effusivity(conductivity, density, capacity) == pytest.approx(expected, abs=0.6)


@pytest.mark.parametrize(
    ("mould", "start", "expected"),
    [
        (13_868, 20, 26.9),
        (22_045, 20, 24.4),
        (13_868, 80, 84.0),
        (13_868, 120, 122.1),
        (335, 20, 117.6),
        (422, 20, 109.9),
    ],
)
def test_hot_melt_on_cold_mould(mould: float, start: float, expected: float) -> None:
    """165 °C melt on steel, aluminium, wood and MDF (worked check values, one decimal)."""
    face = contact_temperature(165 + ICE, MELT, start + ICE, mould) - ICE
    assert face == pytest.approx(expected, abs=0.05)


@given(st.floats(200, 600), st.floats(200, 600), st.floats(1, 1e5), st.floats(1, 1e5))
def test_lies_between_and_leans_to_the_stronger(t1: float, t2: float, b1: float, b2: float) -> None:
    """The face lies between both bodies and nearer to the one with the greater effusivity; order does not
    matter.
    """
    face = float(contact_temperature(t1, b1, t2, b2))
    assert min(t1, t2) - 1e-9 <= face <= max(t1, t2) + 1e-9
    assert face == pytest.approx(float(contact_temperature(t2, b2, t1, b1)))
    if b1 > b2:
        assert abs(face - t1) <= abs(face - t2) + 1e-9


def test_takes_arrays() -> None:
    """One answer per member."""
    faces = contact_temperature(np.array([438.15, 448.15]), MELT, 293.15, np.array([13_868, 335]))
    assert faces.shape == (2,)
    assert faces[0] < faces[1]
