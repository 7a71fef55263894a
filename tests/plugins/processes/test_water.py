"""Steam against the gaps of a layer of flake: only measured water is computed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.facts import Fact, Open

if TYPE_CHECKING:
    from tests.conftest import Shop

ONLY = ("weigh", "melt")


def layer(shop: Shop, moisture: str | None, resin: str = "trial-surface") -> tuple[Fact, Fact]:
    """The facts ``steam`` and ``void`` of the trial plate's layer."""
    changes = {"formula.feedstock.0.moisture": moisture, "formula.feedstock.0.resin": resin}
    facts = shop.facts(changes, ONLY)["melt"]
    return facts["steam"], facts["void"]


def test_by_hand(shop: Shop) -> None:
    """375 g with 0.1 % water: 0.375 g of steam at 130 °C; gaps of 375 g × (1/330 − 1/950)."""
    steam, void = layer(shop, "0.1 %")
    assert steam.nominal == pytest.approx(0.375e-3 * 8.314462618 * 403.15 / (0.01801528 * 101_325.0))
    assert void.nominal == pytest.approx(0.375 * (1 / 330 - 1 / 950))


def test_of_a_range_the_wetter_end_counts(shop: Shop) -> None:
    """What may be there has to find room."""
    assert layer(shop, "0.05 - 0.1 %")[0].nominal == pytest.approx(layer(shop, "0.1 %")[0].nominal)


@pytest.mark.parametrize("words", ["dry to touch", "wet"])
def test_words_are_no_number(shop: Shop, words: str) -> None:
    """Nothing is computed from them, and nobody is asked: another rule judges them."""
    steam, void = layer(shop, words)
    assert isinstance(steam.value, Open)
    assert not any(question for _, question in steam.value.needs)
    assert not isinstance(void.value, Open)


def test_after_drying_no_number_is_made_up(shop: Shop) -> None:
    """Less is left than the sheet allows; how much less nobody measured."""
    step = {"id": "dry", "process": "dry", "oven": "60 °C", "at_least": "8 h"}
    melt = {"id": "melt", "process": "flake-melt", "oven": "177 °C", "at_least": "20 min"}
    changes = {"procedure": [step, melt], "formula.feedstock.0.resin": "trial-thirsty"}
    facts = shop.facts({**changes, "formula.feedstock.0.moisture": "1 %"})["melt"]
    assert isinstance(facts["steam"].value, Open)
