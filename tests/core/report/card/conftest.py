"""Cards of shipped recipes, of refused ones, and of one whose every text is hostile."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from recipes_core import app
from recipes_core.report.card.content import Card, Line
from recipes_core.shelf import Shelf, shelf

RECIPES = Path(__file__).parents[4] / "recipes"
TODAY = date(2026, 11, 1)
COAT_HOOK = RECIPES / "hdpe" / "coat-hook.yaml"
REFUSED = ("oven: 177 °C", "oven: 300 °C")
NOT_YET = ("rating: 4 t", "rating: unknown")

Make = Callable[..., Card]


def steps(card: Card) -> list[Line]:
    """All steps of a card."""
    return [step for block in card.blocks for step in block.steps]


@pytest.fixture(scope="session")
def having() -> Shelf:
    """One shelf for all cards."""
    return shelf()


@pytest.fixture(scope="session")
def make(having: Shelf, tmp_path_factory: pytest.TempPathFactory) -> Make:
    """The card of a shipped recipe (its path below recipes/, without the ending), after replacing some text."""
    folder = tmp_path_factory.mktemp("cards")
    made: dict[tuple, Card] = {}

    def card(name: str = "hdpe/coat-hook", *changes: tuple[str, str]) -> Card:
        if (name, changes) not in made:
            text = (RECIPES / f"{name}.yaml").read_text("utf-8")
            for old, new in changes:
                assert old in text, old
                text = text.replace(old, new)
            file = folder / f"{len(made)}.yaml"
            file.write_text(text, encoding="utf-8")
            made[name, changes] = app.card(file, TODAY, having)[0]
        return made[name, changes]

    return card
