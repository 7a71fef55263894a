"""Surroundings: the film of the oven, the air of the shop, the liners that are there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from recipes_plugins import surroundings

from recipes_core.facts import Basis, Given, Open, Source

if TYPE_CHECKING:
    from recipes_core.case import Value
    from tests.conftest import Shop


def given(value: Value) -> Given:
    """The value, which must be there."""
    assert isinstance(value, Given)
    return value


def test_a_fan_moves_more_heat_than_still_air(shop: Shop) -> None:
    """Even the weakest fan of the spread more than the best still oven; an unknown oven is a question."""
    still = given(surroundings.film(shop.case())).value
    fan = given(surroundings.film(shop.case({"equipment.oven.type": "fan"}))).value
    assert still.low < still.nominal < still.high < fan.low < fan.nominal < fan.high
    assert isinstance(surroundings.film(shop.case({"equipment.oven.type": "unknown"})), Open)


def test_what_nobody_was_asked_says_how_it_is_known() -> None:
    """Assumed films and emissivities are never somebody's word."""
    for value in (surroundings.PLASTIC_SHINE, surroundings.STILL_AIR):
        assert value.origin.source is Source.DEFAULT
        assert value.origin.basis is not Basis.PUBLISHED


@pytest.mark.parametrize(
    ("said", "nominal", "low", "high"),
    [("18 - 26 °C", 22.0, 18.0, 26.0), ("22 °C", 22.0, 22.0, 22.0), (None, 20.0, 15.0, 30.0)],
)
def test_shop_air(shop: Shop, said: str | None, nominal: float, low: float, high: float) -> None:
    """The recipe's own, around the middle of its range; 15 to 30 °C where it says nothing."""
    air = given(surroundings.shop_air(shop.case({"site.shop_air": said})))
    band = air.value
    assert [band.nominal - 273.15, band.low - 273.15, band.high - 273.15] == pytest.approx([nominal, low, high])
    assert air.origin.source is (Source.RECIPE if said else Source.DEFAULT)


def test_liners(shop: Shop) -> None:
    """A sheet of the liner with all its numbers; nothing for none or bare metal; open for an unknown one."""
    inputs = surroundings.liner_inputs(shop.case(), "liner")
    numbers = {name: given(value).value for name, value in inputs.items()}
    assert surroundings.liner_sheet(numbers, "liner") == pytest.approx((0.08, 800.0, 1370.0, 0.04, 330.0))
    assert surroundings.liner_sheet(numbers, "liner over") == ()
    for none in ("none", "bare-metal"):
        assert surroundings.liner_inputs(shop.case({"formula.liner.tray": none}), "liner") == {}
    unknown = surroundings.liner_inputs(shop.case({"formula.liner.tray": "unknown"}), "liner")
    assert unknown
    assert all(isinstance(value, Open) for value in unknown.values())


def test_a_heater_that_is_no_oven_has_no_film(shop: Shop) -> None:
    """It is asked about by its name, never taken for still air."""
    film = surroundings.film(shop.case({"equipment.oven.type": "heat gun"}))
    assert isinstance(film, Open)
    assert ["Heating by heat gun is not computed yet" in question for _, question in film.needs] == [True]
