"""Laws that hold whatever the numbers: for every resin with a forecast, the nominal shop and every plausible one.

The ranges are those of the trade: layers of 2 to 9 kg/m2, ovens inside and around the melt windows, moulds from shop
air to 130 °C. Times may disagree by what the grid of the solver costs, 0.5 %.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recipes_core.app import lint_document
from recipes_core.document import read
from recipes_core.facts import Given, Open
from recipes_core.shelf import shelf
from tests.conftest import Shop

TODAY = date(2026, 11, 25)
SHOP = Shop(shelf())
GRID = 5e-3
MELTED = ("hdpe", "ldpe", "pp", "ps", "hips", "abs", "pla", "petg")
AGED = ("hdpe", "ldpe", "pp")
FEW = settings(max_examples=4)


def window(resin: str) -> tuple[float, float]:
    """The melt window of a resin in °C."""
    ends = [SHOP.shelf.library.resins[resin].get(f"window {end}") for end in ("low", "high")]
    low, high = (float(end.value) - 273.15 for end in ends if isinstance(end, Given))
    return low, high


def lot(resin: str) -> dict[str, Any]:
    """One lot of a resin, with the fields that a forecast asks for."""
    return {"resin": resin, "share": "100 %", "grade": "injection", "form": "flake"}


def melt(resin: str, celsius: float, charge: float, at_most: float = 40.0) -> dict[str, Any]:
    """The facts of the melt of the trial plate: its tray is a tenth of a square metre."""
    changes = {
        "formula.feedstock": [lot(resin)],
        "formula.charge": f"{charge:.0f} g",
        "melt.oven": f"{celsius:.0f} °C",
        "melt.at_most": f"{at_most:.0f} min",
    }
    return dict(SHOP.facts(changes, ("weigh", "melt"))["melt"])


def numbers(facts: dict[str, Any], name: str) -> Any:
    """The numbers of a fact, which must be known."""
    assert not isinstance(facts[name].value, Open), facts[name].value
    return np.asarray(facts[name].numbers)


def never_less(more: Any, less: Any) -> bool:
    """Whether ``more`` is at least ``less`` for every member; never is more than any time."""
    finite = np.isfinite(less)
    return bool(np.all(more[finite] >= less[finite] * (1.0 - GRID)) and np.all(np.isinf(more[~finite])))


@pytest.mark.parametrize("resin", MELTED)
def test_a_thicker_layer_never_melts_sooner(resin: str) -> None:
    """More charge on the same tray: neither the surface nor the core is melted sooner."""
    low, high = window(resin)

    @FEW
    @given(st.floats(low + 5, high + 10), st.floats(200, 600), st.floats(1.05, 1.5))
    def holds(celsius: float, charge: float, factor: float) -> None:
        thin, thick = melt(resin, celsius, charge), melt(resin, celsius, charge * factor)
        for name in ("melted through after", "heater needs"):
            assert never_less(numbers(thick, name), numbers(thin, name)), name

    holds()


@pytest.mark.parametrize("resin", MELTED)
def test_a_hotter_oven_never_takes_longer(resin: str) -> None:
    """And never leaves the coldest of the plastic colder."""
    low, high = window(resin)

    @FEW
    @given(st.floats(low + 5, high), st.floats(5, 25), st.floats(250, 700))
    def holds(celsius: float, more: float, charge: float) -> None:
        cool, hot = melt(resin, celsius, charge), melt(resin, celsius + more, charge)
        assert never_less(numbers(cool, "melted through after"), numbers(hot, "melted through after"))
        assert never_less(numbers(hot, "coldest at the end"), numbers(cool, "coldest at the end"))

    holds()


@pytest.mark.parametrize("resin", AGED)
def test_a_longer_dwell_never_lowers_ageing(resin: str) -> None:
    """Nor does a hotter one."""
    low, high = window(resin)

    @FEW
    @given(st.floats(low, high), st.floats(10, 60), st.floats(1, 60), st.floats(2, 20))
    def holds(celsius: float, minutes: float, longer: float, hotter: float) -> None:
        short, long = melt(resin, celsius, 375, minutes), melt(resin, celsius, 375, minutes + longer)
        assert never_less(numbers(long, "aged"), numbers(short, "aged"))
        hot = melt(resin, celsius + hotter, 375, minutes)
        assert never_less(numbers(hot, "aged"), numbers(short, "aged"))

    holds()


@pytest.mark.parametrize("resin", MELTED)
def test_a_colder_mould_never_thins_the_skin(resin: str) -> None:
    """Less time in the oven for the same mould; and a thicker part never sets sooner."""
    _, high = window(resin)

    def press(minutes: float, charge: float = 375.0) -> dict[str, Any]:
        changes = {
            "formula.feedstock": [lot(resin)],
            "formula.charge": f"{charge:.0f} g",
            "melt.oven": f"{high:.0f} °C",
            "preheat.at_least": f"{minutes:.1f} min",
        }
        return dict(SHOP.facts(changes, ("weigh", "melt", "preheat", "press"))["press"])

    @FEW
    @given(st.floats(1, 20), st.floats(1, 15), st.floats(1.05, 1.3))
    def holds(minutes: float, more: float, factor: float) -> None:
        cold, warm = press(minutes), press(minutes + more)
        skins = numbers(cold, "skin at full force") - numbers(warm, "skin at full force")
        assert np.all(skins >= -GRID)
        assert never_less(numbers(press(minutes, 375.0 * factor), "core set after"), numbers(cold, "core set after"))

    holds()


@pytest.mark.parametrize("resin", [*MELTED, "pmma", "pet", "pc"])
def test_hotter_never_silences_a_cap(resin: str) -> None:
    """A rule that stops a setting stops every hotter one: caps, liners, the air that must be believed."""
    rules = {"over-resin-cap", "cap-margin", "liner-over-refusal", "liner-over-limit", "specialist-resin-melted"}

    def stopped(celsius: float) -> set[str]:
        changes = {"formula.feedstock": [lot(resin)], "melt.oven": f"{celsius:.0f} °C"}
        linted = lint_document(read(SHOP.text(changes, ("melt",)), "law.yaml"), TODAY, SHOP.shelf)
        return {f.rule for f in linted.findings if f.kind == "fail" and f.level == "error"} & rules

    @settings(max_examples=12)
    @given(st.integers(150, 260), st.integers(1, 30))
    def holds(celsius: float, more: float) -> None:
        cool, hot = stopped(celsius), stopped(celsius + more)
        absolute = {"over-resin-cap", "liner-over-refusal", "specialist-resin-melted"}
        assert cool & absolute <= hot
        if cool:
            assert hot  # a margin gives way only to the refusal above it

    holds()
