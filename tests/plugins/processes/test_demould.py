"""Taking the part out: its size when cold, and the mould in the hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from recipes_core.facts import Open

if TYPE_CHECKING:
    from tests.conftest import Shop


def test_the_part_shrinks_by_the_sheets_share(shop: Shop) -> None:
    """260 mm of cavity less 2.8 %; every shop within the sheet's range, and none longer than the cavity."""
    size = shop.facts(only=("demould",))["demould"]["cold length"]
    low, high = shop.case().spread("resin:shrinkage").value[1:]  # type: ignore[union-attr]
    assert size.nominal == pytest.approx(0.26 * 0.972)
    numbers = np.array(size.numbers)
    assert np.all((numbers >= 0.26 * (1 - high)) & (numbers <= 0.26 * (1 - low)))
    assert np.all(numbers < 0.26)


def test_the_hand_meets_the_hotter_of_what_the_cool_step_left(shop: Shop) -> None:
    """Core or mould, member by member; without a cool step nobody knows."""
    facts = shop.facts()
    left = np.maximum(facts["cool"]["core when opened"].numbers, facts["cool"]["outside when opened"].numbers)
    assert facts["demould"]["hottest to the hand"].numbers == pytest.approx(left)
    alone = shop.facts(only=("demould",))["demould"]["hottest to the hand"].value
    assert isinstance(alone, Open)
    assert {question for _, question in alone.needs} == {""}


def test_it_leaves_a_part(shop: Shop) -> None:
    """Whatever it started from."""
    assert shop.walk(only=("demould",)).after[-1].form == "part"
