"""Trimming: the flash that was allowed for, or weighed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from recipes_plugins.processes.trim.forecast import forecast

from recipes_core.facts import Given, Origin, Source
from recipes_core.work import Work
from tests.plugins.processes.cut import TRIM, sheet

if TYPE_CHECKING:
    from tests.conftest import Shop


def test_the_allowance_is_taken_off(shop: Shop) -> None:
    """5 % of 400 × 100 × 20 mm at 950 kg/m³ is 38 g, 40 cm³; a fact names the density of the sheet."""
    facts = shop.facts(sheet(TRIM))["trim"]
    assert facts["trimmed off"].nominal == pytest.approx(0.038)
    assert facts["volume trimmed off"].nominal == pytest.approx(40e-6)
    assert facts["trimmed off"].inputs["density"].origin.where == "hdpe sheet: density solid"  # type: ignore[union-attr]


def test_what_was_weighed_is_believed(shop: Shop) -> None:
    """19 g of flash, whatever was allowed; 20 cm³ of it."""
    facts = shop.facts(sheet({**TRIM, "flash": "19 g"}))["trim"]
    assert facts["trimmed off"].nominal == pytest.approx(0.019)
    assert facts["volume trimmed off"].nominal == pytest.approx(20e-6)


@pytest.mark.parametrize("form", ["part", "bent part", "sheet"])
def test_the_work_keeps_its_form_and_loses_the_flash(shop: Shop, form: str) -> None:
    """500 g less 38 g, in whatever form it came."""
    case = shop.case(sheet(TRIM), step="trim")
    thick = Given(0.02, "20 mm", Origin(Source.RECIPE))
    work = forecast(case, Work(form, mass=Given(0.5, "500 g", Origin(Source.RECIPE)), thickness=thick)).work
    assert work.form == form
    assert work.mass.nominal == pytest.approx(0.462)  # type: ignore[union-attr]


def test_flash_is_cleaned_off_a_cold_solid_part_only(shop: Shop) -> None:
    """Melt has no edge that a knife could follow: the form does not join (common practice)."""
    flake = sheet(TRIM)
    flake["formula"]["feedstock"][0]["form"] = "flake"
    assert shop.walk(flake).whole["broken joins"].numbers[0][1:] == ("flake", ("part", "bent part", "sheet"))
