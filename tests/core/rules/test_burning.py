"""An order to burn plastic or waste is found; burns, warnings and what an oven may do are not."""

from __future__ import annotations

import pytest

from recipes_core.rules.burning import burning_told

TOLD = (
    "Burn the offcuts.",
    "Sweep the floor, and then burn the old waste",
    "Take a sliver; burn a small piece, look at the smoke.",
    "1. Cut it\nSet fire to the trimmings",
    "Please burn any left-over plastic",
)
NOT_TOLD = (
    "Never burn plastic.",
    "Do not burn the scraps",
    "Hold a burn under running water",
    "Melt burns skin and a hot oven may burn plastic",
    "Whoever would burn waste poisons the street",
    "Burn marks on pieces: throw them out",
    "Put sludge in the solid waste",
)


@pytest.mark.parametrize("text", TOLD)
def test_an_order_is_found(text: str) -> None:
    """With the clause that gives it."""
    assert "burn" in burning_told(text).lower() or "fire" in burning_told(text)


@pytest.mark.parametrize("text", NOT_TOLD)
def test_other_words_are_not(text: str) -> None:
    """An absolute rule hangs on it, so that it must read as an order."""
    assert burning_told(text) == ""
