"""Folding: the stack grows with each layer, its skin cools outside the oven and recovers in it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from recipes_core.facts import Open

if TYPE_CHECKING:
    from recipes_core.facts import Fact
    from recipes_core.work import Profile
    from tests.conftest import Shop

ICE = 273.15
FOLD = ("weigh", "melt", "fold")
few = settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])


def fold(shop: Shop, changes: Mapping[str, Any] | None = None) -> Mapping[str, Fact]:
    """The facts of the fold step."""
    return shop.facts(changes, FOLD)["fold"]


def profile(shop: Shop, changes: Mapping[str, Any] | None = None, step: int = -1) -> Profile:
    """The layer as a step leaves it."""
    value = shop.walk(changes, FOLD).after[step].profile
    return value.numbers  # type: ignore[union-attr]


@pytest.mark.parametrize("layers", [1, 2, 3, 4, 6])
def test_layers_stack(shop: Shop, layers: int) -> None:
    """Height and mass for each area are the layer's, times the layers; the heat in it is kept."""
    changes = {"fold.layers": str(layers), "fold.out_of_oven": "0 s", "fold.back_for": "0 s"}
    loading = shop.facts(None, FOLD)["melt"]["loading"].numbers
    height = fold(shop, changes)["stack height"].numbers
    assert height == pytest.approx(layers * loading / 773.7, rel=1e-3)  # kg/m3 at 160 °C, between 780 and 761
    before, after = profile(shop, changes, -2), profile(shop, changes)
    assert after.areal_mass == pytest.approx(layers * before.areal_mass)
    mean_before, mean_after = (p.fractions @ p.temperatures for p in (before, after))
    assert mean_after == pytest.approx(mean_before, abs=0.5)


def test_more_layers_never_lower_the_stack(shop: Shop) -> None:
    """In any shop."""
    heights = [fold(shop, {"fold.layers": str(n)})["stack height"].numbers for n in (1, 2, 3, 4)]
    assert all(np.all(b > a) for a, b in pairwise(heights))


@few
@given(short=st.integers(5, 120), more=st.integers(1, 120))
def test_longer_outside_never_warms_the_skin(shop: Shop, short: int, more: int) -> None:
    """It is cooler when it goes back, and takes no less time to recover."""
    quick, slow = (fold(shop, {"fold.out_of_oven": f"{t} s"}) for t in (short, short + more))
    assert np.all(slow["skin after folding"].numbers <= quick["skin after folding"].numbers + 1e-3)
    assert np.all(slow["return needed"].numbers >= quick["return needed"].numbers - 1e-3)


@few
@given(short=st.integers(0, 10), more=st.integers(1, 20))
def test_longer_back_in_a_hotter_oven_never_cools_the_skin(shop: Shop, short: int, more: int) -> None:
    """The air of the oven is hotter than the skin that was outside."""
    quick, slow = (fold(shop, {"fold.back_for": f"{t} min"}) for t in (short, short + more))
    assert np.all(slow["skin after the return"].numbers >= quick["skin after the return"].numbers - 0.1)


def test_a_couple_of_minutes_restores_the_surface(shop: Shop) -> None:
    """Common practice, no source: folded within a minute, the skin of a molten layer is glossy again by then."""
    facts = fold(shop, {"melt.at_least": "25 min", "fold.out_of_oven": "60 s", "fold.back_for": "2 min"})
    assert facts["skin after folding"].nominal < facts["skin after the return"].nominal
    assert facts["return needed"].worst(highest=True) <= 120.0
    assert np.all(facts["skin after the return"].numbers >= 140.0 + ICE)


def test_folding_finishes_no_core(shop: Shop) -> None:
    """Folded too early, the middle of the stack is still not melted after the return."""
    early = {"melt.at_least": "8 min", "melt.at_most": "8 min"}
    assert fold(shop, early)["coldest at folding"].nominal < 130.0 + ICE
    assert profile(shop, early).temperatures[:, 0].min() < 130.0 + ICE


@pytest.mark.parametrize("gone", ["fold.layers", "fold.out_of_oven", "fold.back_for", "melt.at_least"])
def test_what_is_not_known_is_open(shop: Shop, gone: str) -> None:
    """The skin after the return needs all of it."""
    assert isinstance(fold(shop, {gone: None})["skin after the return"].value, Open)


@pytest.mark.parametrize("layers", ["0", "three", "2.5", "100000"])
def test_a_number_of_layers_that_nobody_folds_is_not_computed(shop: Shop, layers: str) -> None:
    """The schema refuses it; the forecast neither fails nor fills the memory."""
    assert isinstance(fold(shop, {"fold.layers": layers})["stack height"].value, Open)
