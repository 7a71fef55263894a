"""Washing: the finest filter, particles that float or settle, what is left from before, and wet plastic."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.facts import Fact, Given, Open
from tests.plugins.processes.test_sort import BENCH, RESINS, changed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tests.conftest import Shop

WASH = {"id": "wash", "process": "wash", "agents": ["water"], "filter": ["100 µm", "5 µm"]}


def facts(*lots: Mapping[str, Any], bench: Shop = BENCH, **step: Any) -> Mapping[str, Fact]:
    """The facts of one washing step."""
    told = [{"form": "item", **lot} for lot in lots or [{"resin": "hdpe"}]]
    return bench.facts({"procedure": [{**WASH, **step}], "formula.feedstock": told})["wash"]


def test_the_finest_filter() -> None:
    """Whatever the order; without a filter there is none and no question, unsaid it is asked for."""
    assert facts(filter=["5 µm", "100 µm"])["finest filter"].nominal == pytest.approx(5e-6)
    none = facts(filter=["none"])["finest filter"].value
    assert isinstance(none, Open)
    assert not any(question for _, question in none.needs)
    unsaid = facts(filter="unknown")["finest filter"].value
    assert isinstance(unsaid, Open)
    assert [path[-1] for path, _ in unsaid.needs] == ["filter"]


@pytest.mark.parametrize("resin", RESINS)
def test_every_sheet_says_where_its_particles_go(resin: str) -> None:
    """Common practice: polyethylene and polypropylene float, all others settle; without a name they may do either."""
    lot = {"resin": resin}
    expected = {"hdpe": "float", "ldpe": "float", "pp": "float", "unknown": "either"}.get(resin, "settle")
    found = facts(lot)
    assert found["particles float or settle"].numbers == expected
    given = found["heaviest piece over water"].inputs["density 1"]
    assert isinstance(given, Given)
    assert given.origin.where == f"{resin} sheet: density solid"
    other = "990 kg/m³" if expected != "float" else "1010 kg/m³"
    assert facts(lot, bench=changed(resin, other))["particles float or settle"].numbers != expected


def test_the_weight_over_water() -> None:
    """A piece of 1.40 g/cm³ in water of 998 kg/m³: 402 kg/m³ too many at its middle, 302 to 582 over its window."""
    found = facts({"resin": "pvc"})
    assert found["lightest piece over water"].nominal == pytest.approx(302)
    assert found["heaviest piece over water"].nominal == pytest.approx(582)
    both = facts({"resin": "pp"}, {"resin": "pvc"})
    assert both["lightest piece over water"].nominal == pytest.approx(-98)
    assert both["particles float or settle"].numbers == "either"


@pytest.mark.parametrize(
    ("held", "left"),
    [("bleach", "bleach"), ("acid or alkali", "acid"), ("bodily", "ammonia"), ("food", "food"), (None, "unknown")],
)
def test_what_the_scrap_held_is_in_the_first_wash(held: str | None, left: str) -> None:
    """What nobody told may be anything."""
    lot = {"resin": "hdpe"} | ({"past_contents": held} if held else {})
    assert facts(lot)["left from before"].numbers == (left,)


def test_the_second_wash_meets_the_agents_of_the_first() -> None:
    """Splitting a wash in two hides nothing."""
    steps = [{**WASH, "id": "bleach", "agents": ["hypochlorite"]}, {**WASH, "id": "sour", "agents": ["acid"]}]
    found = BENCH.facts({"procedure": steps, "formula.feedstock.0.past_contents": "food"})
    assert found["bleach"]["left from before"].numbers == ("food",)
    assert found["sour"]["left from before"].numbers == ("hypochlorite",)


@pytest.mark.parametrize("form", ["item", "flake"])
def test_it_is_wet_afterwards_and_keeps_its_form(form: str) -> None:
    """Until a step dries it, the melt finds it wet."""
    lot = {"resin": "hdpe", "form": form, "moisture": "dry to touch"}
    after = BENCH.walk({"procedure": [WASH], "formula.feedstock": [lot]}).after[0]
    assert after.form == form
    assert isinstance(after.moisture, Given)
    assert after.moisture.value == "wet"
    dry = {"id": "dry", "process": "dry", "oven": "60 °C", "at_least": "3 h"}
    work = BENCH.walk({"procedure": [WASH, dry], "formula.feedstock": [{**lot, "form": "flake"}]}).after[1]
    assert isinstance(work.moisture, Fact)
    assert work.moisture.value == "dry to touch"
