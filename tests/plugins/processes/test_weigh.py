"""The charge: what the part needs, how it lies on the tray, what it fills in the mould."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from recipes_core.app import lint_document
from recipes_core.document import read
from recipes_core.facts import Given, Open
from recipes_core.shelf import shelf

if TYPE_CHECKING:
    from tests.conftest import Shop

ONLY = ("weigh",)
COAT_HOOK = Path(__file__).parents[3] / "recipes" / "hdpe" / "coat-hook.yaml"


def test_by_hand(shop: Shop) -> None:
    """260 × 125 × 12 mm at 950 kg/m3 and 5 % flash; 375 g at 330 kg/m3 on 0.1 m2; at 761 kg/m3 melted."""
    facts = shop.facts(only=ONLY)["weigh"]
    assert facts["needed"].nominal == pytest.approx(0.26 * 0.125 * 0.012 * 950.0 * 1.05)
    assert facts["bed depth"].nominal == pytest.approx(0.375 / 330.0 / 0.1)
    assert facts["melt volume"].nominal == pytest.approx(0.375 / 761.0)
    assert facts["cavity volume"].nominal == pytest.approx(0.26 * 0.125 * 0.012)


def test_stock_flash_and_loss_are_weighed_out(shop: Shop) -> None:
    """Pressed 14 mm thick for 12: 432.25 g, 5 % flash, and 6 g that stay on the tray."""
    more = {"formula.machining_stock": "2 mm", "formula.tray_loss": "6 g"}
    facts = shop.facts(more, ONLY)["weigh"]
    assert facts["finished part"].nominal == pytest.approx(0.3705)
    assert facts["pressed piece"].nominal == pytest.approx(0.43225)
    assert facts["needed"].nominal == pytest.approx(0.43225 * 1.05 + 0.006)
    unsure = shop.facts({"formula.machining_stock": "unknown"}, ONLY)["weigh"]["needed"].value
    assert isinstance(unsure, Open)
    assert {path for path, _ in unsure.needs} == {("formula", "machining_stock")}


def test_stock_on_a_custom_part_needs_its_area(shop: Shop) -> None:
    """200 cm³ and 2 mm more on 100 cm²."""
    part = {"shape": "custom", "volume": "200 cm³", "projected_area": "100 cm²"}
    facts = shop.facts({"part": part, "formula.machining_stock": "2 mm"}, ONLY)["weigh"]
    assert facts["pressed piece"].nominal == pytest.approx(220e-6 * 950.0)


def test_the_charge_is_handed_on(shop: Shop) -> None:
    """As it was weighed, not as it was needed."""
    (work,) = shop.walk(only=ONLY).after
    assert work.form == "charge"
    assert isinstance(work.charge, Given)
    assert work.charge.value == 0.375


def test_a_custom_part_says_its_volume(shop: Shop) -> None:
    """Its length, width and thickness are not asked for."""
    custom = {"part": {"shape": "custom", "volume": "200 cm³"}}
    facts = shop.facts(custom, ONLY)["weigh"]
    assert facts["needed"].nominal == pytest.approx(200e-6 * 950.0 * 1.05)
    without = shop.facts({"part": {"shape": "custom"}}, ONLY)["weigh"]["needed"].value
    assert isinstance(without, Open)
    assert {path for path, _ in without.needs} == {("part", "volume")}


@pytest.mark.parametrize(
    ("gone", "opened"),
    [
        ("formula.charge", {"bed depth", "melt volume"}),
        ("part.thickness", {"needed"}),
        ("equipment.tray.width", {"bed depth"}),
        ("equipment.mould.cavity.depth", {"cavity volume"}),
        ("formula.feedstock.0.resin", {"needed", "bed depth", "melt volume"}),
    ],
)
def test_each_fact_needs_only_its_own_inputs(shop: Shop, gone: str, opened: set[str]) -> None:
    """One missing number opens what is computed from it, and nothing else."""
    facts = shop.facts({gone: None}, ONLY)["weigh"]
    own = {"needed", "bed depth", "melt volume", "cavity volume"}
    assert {name for name in own if isinstance(facts[name].value, Open)} == opened


@settings(max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(grams=st.integers(1, 5000), thickness=st.integers(1, 60), more=st.integers(1, 500))
def test_more_is_never_less(shop: Shop, grams: int, thickness: int, more: int) -> None:
    """A heavier charge lies deeper and melts to more; a thicker part needs more."""
    small = {"formula.charge": f"{grams} g", "part.thickness": f"{thickness} mm"}
    big = {"formula.charge": f"{grams + more} g", "part.thickness": f"{thickness + more} mm"}
    one, other = (shop.facts(changes, ONLY)["weigh"] for changes in (small, big))
    assert all(other[name].nominal > one[name].nominal for name in ("needed", "bed depth", "melt volume"))


@pytest.mark.parametrize(
    ("thickness", "charge", "words"),
    [("1 mm", "9 g", "weigh out 9.6 g (0.34 oz)"), ("8 mm", "60 g", "weigh out 77 g (2.7 oz)")],
)
def test_what_is_to_be_weighed_out_is_told_as_finely_as_it_is_shown(thickness: str, charge: str, words: str) -> None:
    """Under 10 g in tenths: a whole gram more would be a tenth of the charge too much."""
    text = COAT_HOOK.read_text("utf-8").replace("thickness: 8 mm", f"thickness: {thickness}")
    judged = lint_document(read(text.replace("charge: 78 g", f"charge: {charge}")), date(2026, 11, 1), shelf())
    assert [way.words for f in judged.findings if f.rule == "charge-short" for way in f.advice] == [words]
