"""Burn thresholds and glove levels against the tables."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.burns import Surface, burn_threshold, glove_temperature

ICE = 273.15


@pytest.mark.parametrize(
    ("surface", "celsius"),
    [
        (Surface.BARE_METAL, [65, 55, 51, 48, 43]),
        (Surface.COATED_METAL, [68, 56, 51, 48, 43]),
        (Surface.CERAMIC, [75, 60, 56, 48, 43]),
        (Surface.PLASTIC, [85, 70, 60, 48, 43]),
        (Surface.WOOD, [99, 80, 60, 48, 43]),
    ],
)
def test_thresholds(surface: Surface, celsius: list[float]) -> None:
    """1 s, 10 s, 1 min, 10 min, 8 h: the lower ends of the quoted table (memory, usually cited to ISO
    13732-1).
    """
    assert burn_threshold(surface, [1, 10, 60, 600, 28_800]) - ICE == pytest.approx(celsius)


def test_metal_agrees_with_a_second_table() -> None:
    """49 °C over 5 min, 52 °C 1.5-2 min, 55 °C 30 s, 57 °C 10 s, 60 °C under 5 s (public list, secondary
    source).

    That list gives times to injury; the threshold for the same time lies at or below its temperature.
    """
    times, quoted = [300, 105, 30, 10, 5], [49, 52, 55, 57, 60]
    assert np.all(burn_threshold(Surface.BARE_METAL, times) - ICE <= np.array(quoted) + 0.5)


def test_shortest_contact_keeps_the_one_second_value() -> None:
    """No burn under 65 °C for bare metal and up to 0.5 s (published, secondary): the answer does not rise
    past it.
    """
    assert float(burn_threshold(Surface.BARE_METAL, 0.5)) - ICE == pytest.approx(65)
    assert float(burn_threshold(Surface.BARE_METAL, 0.0)) - ICE == pytest.approx(65)


@given(st.sampled_from(Surface), st.floats(0.1, 1e5), st.floats(1.0, 10.0))
def test_longer_contact_burns_at_less(surface: Surface, seconds: float, more: float) -> None:
    """The threshold never rises with time, and no surface burns sooner than bare metal."""
    here = float(burn_threshold(surface, seconds))
    assert float(burn_threshold(surface, seconds * more)) <= here
    assert here >= float(burn_threshold(Surface.BARE_METAL, seconds))


@pytest.mark.parametrize(
    ("contact", "flame", "celsius"),
    [(1, 0, 100), (2, 0, 250), (3, 3, 350), (4, 4, 500), (3, 2, 250), (4, 0, 250)],
)
def test_gloves(contact: int, flame: int, celsius: float) -> None:
    """EN 407 contact levels; 3 and 4 need flame level 3 (test laboratory's page, published, secondary)."""
    assert glove_temperature(contact, flame) - ICE == pytest.approx(celsius)


def test_no_such_level() -> None:
    """A level outside 1-4 is refused."""
    with pytest.raises(ValueError, match="no contact-heat level 5"):
        glove_temperature(5)
