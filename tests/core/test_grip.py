"""What a liner's sheet says of the plastics of a charge, and what its silence means."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.facts import Given, Open

if TYPE_CHECKING:
    from tests.conftest import Shop

MELTED = ("hdpe", "ldpe", "pp", "ps", "hips", "abs", "pla", "petg")


def lots(*resins: str) -> dict[str, object]:
    """A charge of these plastics in equal shares."""
    return {"formula.feedstock": [{"resin": r, "share": f"{100 / len(resins)} %", "form": "flake"} for r in resins]}


@pytest.mark.parametrize("resin", MELTED)
@pytest.mark.parametrize(
    ("liner", "told"),
    [
        ("parchment", "lets go"), ("ptfe-cloth", "lets go"), ("silicone", "lets go"),
        ("waxed-paper", "sticks"), ("foil", "sticks"), ("bare-metal", "sticks"),
    ],
)  # fmt: skip
def test_every_liner_says_of_every_plastic_that_is_melted(shop: Shop, resin: str, liner: str, told: str) -> None:
    """One word for each pair, from the sheet of the liner."""
    grip = shop.case({**lots(resin), "formula.liner.tray": liner}).get("liner:grip")
    assert isinstance(grip, Given)
    assert grip.value == told
    assert liner in grip.origin.where


def test_silence_is_a_question(shop: Shop) -> None:
    """Nobody has tried it: the liner is named, and the plastic."""
    grip = shop.case({**lots("hdpe", "pa6"), "formula.liner.tray": "parchment"}).get("liner:grip")
    assert isinstance(grip, Open)
    assert [text for _, text in grip.needs] == ["the data sheet of parchment does not say whether pa6 comes off it"]


def test_one_that_sticks_is_enough(shop: Shop) -> None:
    """A mix comes off only what all of it comes off; a plastic without a name is asked for."""
    grip = shop.case({**lots("pa6", "hdpe"), "formula.liner.tray": "foil"}).get("liner:grip")
    assert isinstance(grip, Open)
    grip = shop.case({**lots("hdpe", "pp"), "formula.liner.tray": "foil"}).get("liner:grip")
    assert isinstance(grip, Given)
    assert grip.value == "sticks"
    assert isinstance(shop.case({**lots("unknown"), "formula.liner.tray": "foil"}).get("liner:grip"), Open)


def test_families_of_all_lots(shop: Shop) -> None:
    """Each word once; open where any lot has no sheet."""
    found = shop.case(lots("hdpe", "hdpe")).get("resins:family")
    assert isinstance(found, Given)
    assert found.value == ("polyolefin",)
    assert isinstance(shop.case(lots("hdpe", "gold")).get("resins:family"), Open)
