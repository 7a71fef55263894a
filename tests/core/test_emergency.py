"""The emergency lines fit their box, say what first aid pages say, and come with the work that needs them."""

from __future__ import annotations

import pytest

from recipes_core.emergency import LINES, WHEN, emergencies


@pytest.mark.parametrize("word", LINES)
def test_a_line_fits_its_box(word: str) -> None:
    """Three lines of 12 pt in half of the page at most."""
    assert len(f"{word} {LINES[word]}") <= 105
    assert WHEN[word]


def test_a_burn_is_cooled_for_twenty_minutes_and_plastic_stays_on() -> None:
    """The figure of a burns unit's first-aid page; a first-aid textbook for leaving it on."""
    assert "running water" in LINES["BURN"]
    assert "20 min" in LINES["BURN"]
    assert "not pull" in LINES["BURN"]
    assert "No water on hot plastic" in LINES["FIRE"]


@pytest.mark.parametrize(
    ("marks", "words"),
    [
        ({"heats", "heats plastic"}, ["BURN", "FUME", "FIRE"]),
        ({"heats"}, ["BURN", "FIRE"]),
        ({"cuts", "sands"}, ["CUT"]),
        ({"sorts"}, []),
    ],
)
def test_only_what_can_happen_is_there(marks: set[str], words: list[str]) -> None:
    """A card of planing alone speaks of cuts, one of melting of burns, fume and fire."""
    assert [word for word, _ in emergencies(marks)] == words
