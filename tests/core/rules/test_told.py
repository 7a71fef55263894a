"""Words that tell somebody to do what no recipe may are found; warnings and everyday work are not."""

from __future__ import annotations

import pytest

from recipes_core.rules.told import DEEDS, LEFT_ALONE

TOLD = (
    "Slip a length of steel pipe over the handle and lean on it.",
    "If it is hard, pump the handle with an impact driver",
    "extend the lever with a tube",
    "Trickle a cup of water into the gap of the mould",
    "pour water onto the melt to be quicker",
    "Splash some water on the hot plastic",
    "rinse the bleach bottles in the same tub as the ammonia bottles",
    "Add bleach to the vinegar",
    "If it smokes and stings the eyes put on a mask and carry on",
    "Food safe.",
    "food-grade, from milk bottles",
    "Sells well as a cheese board",
    "a spatula for the baby's porridge",
    "safe for food",
)
QUIET = (
    "",
    "Pump the handle by hand",
    "Never put a pipe over the handle.",
    "the handle stands in a tube when it is not used; no extension is put on it",
    "Pour water over the closed mould from outside.",
    "Never pour water onto the melt.",
    "Run water over a burn, even where molten plastic sticks to the skin",
    "wipe the mould dry: water in it turns to steam",
    "Rinse the bleach bottles with plain water",
    "bleach never meets ammonia",
    "never mix bleach with acid",
    "If it smokes, stop; never carry on in fumes",
    "carry on until the edge sags",
    "Not food safe.",
    "no food-grade plastic",
    "this is not a cutting board",
)
ALONE = ("Lock up and go and fetch the next bag.", "it can run overnight", "leave the oven running", "Leave the shop.")
STAYED = ("Do not leave the shop", "leave it alone until the edge sags", "never unattended", "stay; nobody goes home")


def _told(text: str) -> list[str]:
    return [clause for deed in DEEDS if (clause := deed.told(text))]


@pytest.mark.parametrize("text", TOLD)
def test_a_deed_is_found(text: str) -> None:
    """Once, and in the author's words."""
    (clause,) = _told(text)
    assert clause in text


@pytest.mark.parametrize("text", QUIET)
def test_a_warning_is_quiet(text: str) -> None:
    """No single word counts, and a negated clause does not."""
    assert _told(text) == []


def test_an_oven_that_is_left() -> None:
    """Leaving the plastic alone is no leaving of the oven."""
    assert all(LEFT_ALONE.told(text) for text in ALONE)
    assert not any(LEFT_ALONE.told(text) for text in STAYED)
