"""Preheating: the wall against a lumped body by hand, what melt feels on it, and the power that is there."""

from __future__ import annotations

from collections.abc import Mapping
from math import log
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from recipes_core.facts import Open

if TYPE_CHECKING:
    from recipes_core.facts import Fact
    from tests.conftest import Shop

ICE = 273.15
MINUTE = 60.0
ONLY = ("preheat",)
few = settings(max_examples=10, suppress_health_check=[HealthCheck.function_scoped_fixture])


def preheat(shop: Shop, changes: Mapping[str, Any] | None = None) -> Mapping[str, Fact]:
    """The facts of the preheat step."""
    return shop.facts(changes, ONLY)["preheat"]


def test_a_thin_wall_is_a_lumped_body(shop: Shop) -> None:
    """5 mm of steel from 20 to 110 °C in still air of 177 °C: between the times by hand with the radiation of
    its coolest and of its hottest moment, h = 5 + 0.85 σ (T1² + T2²)(T1 + T2)."""
    ready = preheat(shop)["mould ready after"].nominal
    air = 177.0 + ICE

    def by_hand(wall: float) -> float:
        film = 5.0 + 0.85 * 5.670374e-8 * (air**2 + wall**2) * (air + wall)
        return 0.005 * 7800.0 * 490.0 / film * log((177.0 - 20.0) / (177.0 - 110.0))

    assert by_hand(110.0 + ICE) < ready < by_hand(20.0 + ICE)


@few
@given(cool=st.integers(130, 200), more=st.integers(1, 40))
def test_a_hotter_oven_is_never_later(shop: Shop, cool: int, more: int) -> None:
    """And never leaves the mould cooler."""
    slow, fast = (preheat(shop, {"preheat.oven": f"{t} °C"}) for t in (cool, cool + more))
    assert np.all(fast["mould ready after"].numbers <= slow["mould ready after"].numbers * (1 + 2e-3))
    assert np.all(fast["mould at the end"].numbers >= slow["mould at the end"].numbers - 0.05)
    assert np.all(fast["contact temperature"].numbers >= slow["contact temperature"].numbers - 0.05)


@few
@given(thin=st.integers(2, 12), more=st.integers(1, 8), material=st.sampled_from(["steel", "aluminium", "softwood"]))
def test_a_thicker_wall_is_never_sooner(shop: Shop, thin: int, more: int, material: str) -> None:
    """Of whatever it is made."""
    changes = {"equipment.mould.material": material, "preheat.to": "90 °C"}
    quick, slow = (preheat(shop, {**changes, "equipment.mould.wall": f"{t} mm"}) for t in (thin, thin + more))
    assert np.all(slow["mould ready after"].numbers >= quick["mould ready after"].numbers * (1 - 5e-3))


def test_never_hotter_than_the_oven(shop: Shop) -> None:
    """A mould that is to be hotter than the air is never ready; its wall stays below the air."""
    facts = preheat(shop, {"preheat.to": "200 °C", "preheat.at_least": "3 h"})
    assert facts["mould ready after"].nominal == np.inf
    assert np.all(facts["mould at the end"].numbers <= facts["oven air"].numbers + 1e-6)


def test_contact_temperature_by_hand(shop: Shop) -> None:
    """Steel swallows the heat of melt, wood hardly: (b1 T1 + b2 T2)/(b1 + b2), b = √(k ρ c), melt at 165 °C."""
    melt = (0.26 * 770.5 * 2500.0) ** 0.5
    for material, own in (("steel", (50.0 * 7800.0 * 490.0) ** 0.5), ("softwood", (0.13 * 500.0 * 1600.0) ** 0.5)):
        facts = preheat(shop, {"equipment.mould.material": material})
        wall = facts["mould at the end"].nominal - ICE
        by_hand = (melt * 165.0 + own * wall) / (melt + own)
        assert facts["contact temperature"].nominal - ICE == pytest.approx(by_hand, abs=0.2)


def test_no_heater_beats_its_power(shop: Shop) -> None:
    """Both halves of the mould, 270 × 135 × 22 mm outside, from 20 to 110 °C at 2 kW."""
    steel = (0.27 * 0.135 * 0.022 - 0.26 * 0.125 * 0.012) * 7800.0
    assert preheat(shop)["heater needs"].nominal == pytest.approx(steel * 490.0 * 90.0 / 2000.0)


@pytest.mark.parametrize("by", ["platen", "torch", "heat gun", None])
def test_only_the_oven_is_computed(shop: Shop, by: str | None) -> None:
    """Another heater, or none said, is a question."""
    value = preheat(shop, {"preheat.by": by})["mould ready after"].value
    assert isinstance(value, Open)


@pytest.mark.parametrize("start", ["cold", "unknown"])
def test_only_a_hot_oven_is_computed(shop: Shop, start: str) -> None:
    """Where the step says nothing, it is the oven that the melt is in."""
    assert isinstance(preheat(shop, {"preheat.oven_start": start})["mould ready after"].value, Open)
    hot, unsaid = (preheat(shop, {"preheat.oven_start": s})["mould ready after"].nominal for s in ("hot", None))
    assert hot == unsaid


def test_the_mould_is_handed_on_and_the_work_is_not_changed(shop: Shop) -> None:
    """Temperatures from the inner face outwards, for every shop; the outside is never cooler."""
    walked = shop.walk(only=("weigh", "melt", "preheat"))
    assert walked.after[-1].form == "melt"
    wall = walked.after[-1].mould.numbers  # type: ignore[union-attr]
    assert wall.shape[1] == 65
    assert np.all(np.diff(wall, axis=0) >= -1e-9)
    assert wall[0] == pytest.approx(walked.cases[-1].facts["mould at the end"].numbers)
