"""The air in the oven: wide without a measurement, narrow around a dated reading; the hottest to be believed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from recipes_core.facts import Open
from recipes_core.oven import oven_air

if TYPE_CHECKING:
    from recipes_core.facts import Fact
    from tests.conftest import Shop

ICE = 273.15
few = settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])


def oven(shop: Shop, setting: str = "177 °C", swing: str | None = None, **measured: str) -> dict[str, Fact]:
    """The facts of a melt step with this setting, and with these entries of the measurement."""
    changes: dict[str, Any] = {"melt.oven": setting, "equipment.oven.swing": swing}
    if measured:
        changes["equipment.oven.measured"] = measured
    return oven_air(shop.case(changes, "melt"))


def ends(fact: Fact) -> tuple[float, float, float]:
    """Nominal, lowest and highest member, °C; the members fill the middle 63/64 of the width."""
    values = fact.numbers - ICE
    middle, half = 0.5 * (values[1:].max() + values[1:].min()), 0.5 * (values[1:].max() - values[1:].min()) * 32 / 31
    return float(values[0]), float(middle - half), float(middle + half)


def test_an_oven_that_nobody_measured(shop: Shop) -> None:
    """The air is within 20 K of the setting, 30 K more must be believed, and no maximum was measured."""
    facts = oven(shop)
    assert ends(facts["oven air"]) == pytest.approx((177.0, 157.0, 197.0))
    assert facts["air at worst"].nominal - ICE == pytest.approx(207.0)
    assert isinstance(facts["measured maximum"].value, Open)


def test_a_dated_reading_corrects_and_narrows(shop: Shop) -> None:
    """The centre moves by what the dial was off; 5 K and half the swing remain to each side."""
    facts = oven(shop, swing="8 K", set="180 °C", reads="190 °C", on="2026-05-01")
    assert ends(facts["oven air"]) == pytest.approx((187.0, 178.0, 196.0))
    assert facts["measured maximum"].nominal - ICE == pytest.approx(191.0)
    assert facts["air at worst"].nominal == facts["measured maximum"].nominal


def test_a_swing_that_nobody_measured_is_an_ordinary_one(shop: Shop) -> None:
    """28 K from top to bottom."""
    facts = oven(shop, set="177 °C", reads="177 °C", on="2026-05-01")
    assert ends(facts["oven air"]) == pytest.approx((177.0, 158.0, 196.0))
    assert facts["air at worst"].nominal - ICE == pytest.approx(191.0)


@pytest.mark.parametrize(
    "measured",
    [
        {"set": "180 °C", "reads": "150 °C"},
        {"set": "180 °C", "reads": "150 °C", "on": "last spring"},
        {"set": "180 °C", "reads": "150 °C", "on": "unknown"},
        {"reads": "150 °C", "on": "2026-05-01"},
        {"set": "180 °C", "on": "2026-05-01"},
    ],
)
def test_a_reading_without_a_date_or_without_its_setting_counts_for_nothing(
    shop: Shop, measured: dict[str, str]
) -> None:
    """Nobody can tell whether it still holds, or what it was a reading of."""
    facts = oven(shop, **measured)
    assert ends(facts["oven air"]) == pytest.approx((177.0, 157.0, 197.0))
    assert facts["air at worst"].nominal - ICE == pytest.approx(207.0)


def test_a_setting_given_as_a_range(shop: Shop) -> None:
    """The air is taken around its middle; the hottest to be believed is counted from its upper end."""
    facts = oven(shop, "170 - 190 °C")
    assert facts["oven air"].nominal - ICE == pytest.approx(180.0)
    assert facts["air at worst"].nominal - ICE == pytest.approx(220.0)
    measured = oven(shop, "170 - 190 °C", swing="8 K", set="180 °C", reads="180 °C", on="2026-05-01")
    assert measured["measured maximum"].nominal - ICE == pytest.approx(194.0)


def test_a_swing_given_as_a_range_counts_with_its_upper_end(shop: Shop) -> None:
    """The safe side of what the shop saw."""
    facts = oven(shop, swing="8 - 20 K", set="177 °C", reads="177 °C", on="2026-05-01")
    assert facts["measured maximum"].nominal - ICE == pytest.approx(187.0)


@pytest.mark.parametrize(("at", "reads"), [("18 °C", "180 °C"), ("180 °C", "1800 °C"), ("1800 °C", "180 °C")])
def test_a_reading_that_nobody_believes_is_a_question(shop: Shop, at: str, reads: str) -> None:
    """No air is computed from a slip of the pen; the question shows both numbers."""
    for fact in oven(shop, set=at, reads=reads, on="2026-05-01").values():
        assert isinstance(fact.value, Open)
        ((path, question),) = fact.value.needs
        assert path == ("equipment", "oven", "measured", "reads")
        assert at in question
        assert reads in question


def test_no_setting_no_air(shop: Shop) -> None:
    """An unknown setting opens all three."""
    assert all(isinstance(f.value, Open) for f in oven(shop, "unknown").values())


@few
@given(setting=st.integers(140, 220), swing=st.integers(0, 30))
def test_a_reading_that_agrees_never_widens(shop: Shop, setting: int, swing: int) -> None:
    """With a swing of up to 30 K the measured band lies inside the other, and both hold the nominal air."""
    rough = oven(shop, f"{setting} °C")
    fine = oven(shop, f"{setting} °C", f"{swing} K", set="180 °C", reads="180 °C", on="2026-05-01")
    nominal, low, high = ends(rough["oven air"])
    own, narrow_low, narrow_high = ends(fine["oven air"])
    assert own == pytest.approx(nominal)
    assert low - 1e-6 <= narrow_low <= own <= narrow_high <= high + 1e-6
    assert fine["air at worst"].nominal <= rough["air at worst"].nominal


@few
@given(setting=st.integers(140, 220), swing=st.integers(0, 40), off=st.integers(-40, 40))
def test_the_hottest_to_be_believed_is_hotter_than_the_nominal_air(
    shop: Shop, setting: int, swing: int, off: int
) -> None:
    """Whatever was measured, the limit is never judged by air cooler than what is expected."""
    facts = oven(shop, f"{setting} °C", f"{swing} K", set="180 °C", reads=f"{180 + off} °C", on="2026-05-01")
    assert facts["air at worst"].nominal >= facts["oven air"].nominal - 1e-9
