"""The card as plain text says the same as the printed one, in 80 columns."""

from __future__ import annotations

from recipes_core.report.card.text import WIDTH, render
from tests.core.report.card.conftest import NOT_YET, REFUSED, Make


def test_it_fits_its_width(make: Make) -> None:
    """Every line of the longest card."""
    assert max(map(len, render(make("hdpe/planed-block")).splitlines())) <= WIDTH


def test_the_caution_stands_before_its_step(make: Make) -> None:
    """Caution, action, end test, numbers, times: in this order."""
    told = " ".join(render(make()).split())
    places = [
        told.index(words)
        for words in (
            "oven set to 177 °C gave 174 °C on 2026-05-01",
            "! WARNING: Oven fume",
            "2 Melt the flake on the lined tray",
            "until: no white or grainy core",
            "PLASTIC: 136 °C (277 °F), at least",
            "SET DIAL: 177 °C (351 °F)",
            "oven at first: hot",
            "due +16 min",
            "! WARNING: A hot mould looks cold",
        )
    ]
    assert places == sorted(places)


def test_a_recipe_that_must_not_be_tried_says_so_first(make: Make) -> None:
    """Before the stop box, with the reason or the question."""
    refused, not_yet = render(make("hdpe/coat-hook", REFUSED)), render(make("hdpe/coat-hook", NOT_YET))
    assert refused.index("*** DO NOT TRY THIS RECIPE ***") < refused.index("STOP if")
    assert "SET DIAL" not in refused
    assert "FORCE: not yet" in not_yet
    assert "due +" not in not_yet
    assert "not before +" not in not_yet
    assert "WHAT CAME OUT" not in not_yet
    assert "What load is marked on the jack?" in not_yet
