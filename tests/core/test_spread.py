"""The spread of plausible shops: 64 mirrored members beside the nominal one, evenly filled and independent."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.spread import FACTORS, MEMBERS, Band, members, unit


@pytest.mark.parametrize("factor", FACTORS)
def test_each_factor_is_filled_exactly(factor: str) -> None:
    """One member of each half in the middle of every one of 32 equal stretches between 0 and 1."""
    place = unit(factor)
    assert place.shape == (MEMBERS,)
    half = MEMBERS // 2
    for part in (place[:half], place[half:]):
        assert sorted(np.floor(part * half)) == list(range(half))
        assert np.sort(part) == pytest.approx((np.arange(half) + 0.5) / half)


@pytest.mark.parametrize("factor", FACTORS)
def test_the_second_half_mirrors_the_first(factor: str) -> None:
    """For every shop there is its opposite, so that the mean of every factor is exactly its middle."""
    place = unit(factor)
    assert place[MEMBERS // 2 :] == pytest.approx(1.0 - place[: MEMBERS // 2], abs=1e-15)
    assert place.mean() == pytest.approx(0.5, abs=1e-15)


@pytest.mark.parametrize(("one", "other"), list(combinations(FACTORS, 2)))
def test_no_two_factors_go_together(one: str, other: str) -> None:
    """An oven that runs hot says nothing about the bed; no two are correlated by more than 0.2."""
    assert abs(np.corrcoef(unit(one), unit(other))[0, 1]) <= 0.2


@pytest.mark.parametrize(
    ("factor", "first"),
    [
        ("oven air", (13.5, 26.5, 7.5)),
        ("loading", (28.5, 24.5, 20.5)),
        ("bed conductivity", (30.5, 28.5, 26.5)),
        ("closing", (23.5, 14.5, 5.5)),
    ],
)
def test_the_same_numbers_on_every_machine(factor: str, first: tuple[float, ...]) -> None:
    """Nothing is drawn at random: the first three members in 32nds, as they are everywhere."""
    assert tuple(unit(factor)[:3] * 32) == pytest.approx(first, abs=1e-12)


def test_the_ranks_by_hand() -> None:
    """n √24 modulo 1 for n = 1 to 32, ranked without the code that is tested."""
    points = [(n * 24**0.5) % 1.0 for n in range(1, 33)]
    assert list(unit("loading")[:32] * 32) == pytest.approx([sorted(points).index(p) + 0.5 for p in points])


@given(low=st.floats(-100, 100), width=st.floats(0, 50), share=st.floats(0, 1))
def test_members_stay_between_the_ends(low: float, width: float, share: float) -> None:
    """The nominal value first, wherever it lies, then 64 others; none beyond the ends, the mean in the middle."""
    high, nominal = low + width, low + share * width
    drawn = members("oven air", nominal, low, high)
    assert drawn.shape == (MEMBERS + 1,)
    assert drawn[0] == nominal
    assert np.all((drawn[1:] >= low - 1e-9) & (drawn[1:] <= high + 1e-9))
    assert drawn[1:].mean() == pytest.approx(0.5 * (low + high), abs=1e-9)


def test_a_band_repeats_its_members_in_sets() -> None:
    """Several layers in one batch see the same shops in the same order."""
    band = Band("convection", 5.0, 4.0, 6.25)
    once = band.members()
    assert band.members(3).shape == (3 * 65,)
    assert np.array_equal(band.members(3).reshape(3, -1), np.tile(once, (3, 1)))


def test_a_factor_that_nobody_declared_is_a_mistake() -> None:
    """A new factor needs its root, and so its independence, first."""
    with pytest.raises(KeyError):
        unit("weather")
