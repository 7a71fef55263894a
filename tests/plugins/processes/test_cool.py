"""Cooling on in the mould: stages in their order, the target that counts, the clock that starts at full force."""

from __future__ import annotations

from collections.abc import Mapping
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
STAGES = ("core set after", "core solid after", "core cool enough after")


def cool(shop: Shop, changes: Mapping[str, Any] | None = None) -> Mapping[str, Fact]:
    """The facts of the cool step after the whole chain."""
    return shop.facts(changes)["cool"]


def test_stages_come_in_their_order(shop: Shop) -> None:
    """In every shop: set at the freezing peak, solid at its end, cool enough at the demould temperature."""
    facts = cool(shop)
    set_, solid, enough = (facts[name].numbers for name in STAGES)
    assert np.all((set_ < solid) & (solid < enough))
    assert np.all(facts["cool to touch after"].numbers > solid)


def test_the_clock_starts_at_full_force(shop: Shop) -> None:
    """The mould is opened at hold and at_least together; cooling starts where the press let go."""
    chain = shop.facts()
    facts = chain["cool"]
    assert facts["opened after"].nominal == 70.0 * MINUTE
    let_go = chain["press"]["core when the force ends"].numbers
    assert facts["core when cooling starts"].numbers == pytest.approx(let_go)
    for name in ("core set after", "core solid after"):
        assert facts[name].numbers == pytest.approx(chain["press"][name].numbers)


def test_what_is_told_at_the_opening_agrees_with_the_times(shop: Shop) -> None:
    """A shop whose core is cool enough before the opening finds it below the target then, and no other shop does."""
    facts = cool(shop, {"cool.at_least": "30 min"})
    early = facts["core cool enough after"].numbers <= facts["opened after"].nominal
    assert np.array_equal(early, facts["core when opened"].numbers <= facts["target"].nominal)
    assert 0.0 < early.mean() < 1.0


@pytest.mark.parametrize(
    ("done", "target"),
    [
        ("core set", 60.0),
        ("core solid", 60.0),
        ("core below 100 °C", 60.0),
        ("core below 60 °C", 60.0),
        ("core below 50 °C", 50.0),
        ("core below 40 °C", 40.0),
        ("cool to touch", 60.0),
    ],
)
def test_the_target_is_never_above_the_demould_temperature(shop: Shop, done: str, target: float) -> None:
    """A recipe may wait longer than the sheet asks for, never shorter; a cool target is reached in its time."""
    facts = cool(shop, {"cool.done": done})
    assert facts["target"].nominal - ICE == pytest.approx(target)
    assert np.all(np.isfinite(facts["core cool enough after"].numbers))


@settings(max_examples=6, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(short=st.integers(0, 120), more=st.integers(1, 600))
def test_longer_is_never_hotter(shop: Shop, short: int, more: int) -> None:
    """Neither the core nor, in a metal mould that stands free, its outside."""
    quick, slow = (cool(shop, {"cool.at_least": f"{t} min"}) for t in (short, short + more))
    for name in ("core when opened", "outside when opened"):
        assert np.all(slow[name].numbers <= quick[name].numbers + 1e-9)


@pytest.mark.parametrize(("where", "asked"), [("air", "not computed yet"), ("water", "not computed yet"), (None, "?")])
def test_only_cooling_in_the_mould_is_computed(shop: Shop, where: str | None, asked: str) -> None:
    """Anything else is a question; when it is opened is known all the same."""
    facts = cool(shop, {"cool.in": where})
    for name in (*STAGES, "core when opened"):
        value = facts[name].value
        assert isinstance(value, Open)
        assert any(asked in question for _, question in value.needs)
    assert facts["opened after"].nominal == 70.0 * MINUTE


def test_a_wooden_mould_is_cool_outside_long_before_the_core(shop: Shop) -> None:
    """Thick wood hides the heat: touch tells nothing about the core."""
    changes = {"equipment.mould.material": "softwood", "equipment.mould.wall": "40 mm", "preheat.to": "60 °C"}
    facts = shop.facts(changes, only=("weigh", "melt", "fold", "press", "cool"))["cool"]
    assert facts["cool to touch after"].nominal < facts["core cool enough after"].nominal


def test_a_plate_bows_where_one_face_cools_sooner(shop: Shop) -> None:
    """A lid that faces the air above boards that do not cool: 260 × 125 × 12 mm of HDPE, by β ΔT L²/(8 s) from the
    difference of its faces when the core sets; on feet in the open both faces are alike.
    """
    boards = cool(shop, {"equipment.mould.stands": "on boards in the press"})
    pressing, set_ = boards["cooling"].numbers, boards["core set after"].numbers
    apart = pressing.uneven(set_)
    assert 1.0 < apart[0] < 20.0
    assert boards["bow"].numbers == pytest.approx(175e-6 * apart * 0.26**2 / (8 * 0.012))
    feet = cool(shop, {"equipment.mould.stands": "on feet in the open"})
    assert feet["bow"].nominal < 0.1 * boards["bow"].nominal


def test_only_a_plate_is_said_to_bow(shop: Shop) -> None:
    """Another shape is stiff in its own way: nothing is computed, and nobody is asked."""
    custom = {"part.shape": "custom", "part.projected_area": "300 cm²", "part.thickest": "12 mm"}
    value = cool(shop, custom)["bow"].value
    assert isinstance(value, Open)
    assert {question for _, question in value.needs} == {""}


def test_a_preheated_mould_ends_colder_and_a_cold_wooden_one_warmer(shop: Shop) -> None:
    """What the next part finds: steel that started above 110 °C has cooled, pine that started cold has warmed up."""
    steel = cool(shop)
    assert np.all(steel["mould when opened"].numbers < steel["mould at the start"].numbers)
    pine = {"equipment.mould.material": "softwood", "equipment.mould.wall": "18 mm"}
    facts = shop.facts(pine, ("weigh", "melt", "fold", "press", "cool"))["cool"]
    assert facts["mould at the start"].nominal == pytest.approx(22.0 + ICE, abs=0.1)
    assert np.all(facts["mould when opened"].numbers > facts["mould at the start"].numbers + 10.0)
