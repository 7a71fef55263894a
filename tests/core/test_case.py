"""A step's view of a recipe: names of fields, sheets and facts, and what the step says for itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.case import Case, number, upper
from recipes_core.facts import Fact, Given, Open, Origin, Source

if TYPE_CHECKING:
    from recipes_core.case import Value
    from tests.conftest import Shop


def given(value: Value) -> Given:
    """The value, which must be there."""
    assert isinstance(value, Given), value
    return value


def questions(value: Value) -> list[str]:
    """What an open value asks."""
    assert isinstance(value, Open), value
    return sorted(question for _, question in value.needs)


def test_fields_of_the_step_the_recipe_and_a_lot(shop: Shop) -> None:
    """A name without a root is the step's own; ``lot`` is the case's lot."""
    case = shop.case(step="melt")
    assert given(case.get("at_least")).value == 1200.0
    assert given(case.get("equipment.tray.thickness")).value == 0.0008
    assert given(shop.case(lot=0).get("lot.grade")).value == "bottle"
    assert case.path("oven") == (("procedure", 1, "oven"), "flake-melt")
    assert case.path("equipment.tray.finish") == (("equipment", "tray", "finish"), None)
    assert case.path("lot.grade") == (("formula", "feedstock", 0, "grade"), None)


def test_a_step_overrides_the_site_and_its_tool(shop: Shop) -> None:
    """What one step says for itself holds there, and only there."""
    changes = {"melt.tray": {"finish": "bright"}, "melt.capture": "hood ducted outdoors", "site.capture": "none"}
    melt, press = shop.case(changes, "melt"), shop.case(changes, "press")
    assert given(melt.get("equipment.tray.finish")).value == "bright"
    assert given(melt.get("equipment.tray.finish")).origin.path == ("procedure", 1, "tray", "finish")
    assert given(press.get("equipment.tray.finish")).value == "dark"
    assert given(melt.get("site.capture")).value == "hood ducted outdoors"
    assert given(press.get("site.capture")).value == "none"
    assert given(melt.get("equipment.tray.length")).value == 0.4
    assert given(melt.spread("tray material:emissivity")).value == (0.3, 0.2, 0.4)


def test_a_step_that_does_not_know_is_asked(shop: Shop) -> None:
    """An ``unknown`` of the step is not filled in from the recipe."""
    case = shop.case({"site.capture": "none", "melt.capture": "unknown"}, "melt")
    assert questions(case.get("site.capture"))


def test_a_setting_that_nobody_knows_hides_no_oven(shop: Shop) -> None:
    """A step's ``oven`` is its setting, not the oven as a machine, which stays what equipment says."""
    case = shop.case({"melt.oven": "unknown"}, "melt")
    assert questions(case.get("oven"))
    assert given(case.get("equipment.oven.type")).value == "static"
    assert questions(case.get("equipment.oven.measured.reads"))


def test_a_steps_field_needs_a_step(shop: Shop) -> None:
    """A rule over the whole recipe that reads a step's field is a mistake, and says so."""
    with pytest.raises(LookupError, match="there is no step"):
        shop.case().get("at_least")


def test_a_fact_by_name(shop: Shop) -> None:
    """A fact that nobody computed is a mistake of the caller."""
    fact = Fact("through", "time", [1.0], "")
    case = Case(shop.recipe(), shop.shelf.library, facts={"through": fact})
    assert case.get("fact:through") is fact
    with pytest.raises(KeyError):
        case.get("fact:thru")


def test_a_fact_of_a_forecast_that_did_not_run(shop: Shop) -> None:
    """It is open without a question, so that a rule may still judge by what the recipe itself says."""
    case = Case(shop.recipe(), shop.shelf.library, failed=True)
    assert questions(case.get("fact:measured maximum")) == [""]


def test_one_resin(shop: Shop) -> None:
    """The sheet that the one lot names."""
    assert given(shop.case().get("resin:id")).value == "hdpe"
    assert given(shop.case(step="melt").get("resin:melting peak")).value == pytest.approx(403.15)


@pytest.mark.parametrize(
    ("resins", "asked"),
    [
        (["hdpe", "ldpe"], "?"),
        (["mixed"], "mixed lot cannot be computed"),
        (["unknown"], "?"),
        ([None], "?"),
        (["hdpe", "unknown"], "?"),
        (["zpe"], "No data sheet for zpe is installed"),
        ([], "?"),
    ],
)
def test_a_resin_that_cannot_be_computed_is_asked_about(shop: Shop, resins: list[str | None], asked: str) -> None:
    """Two without shares, a mix, an unknown one and one without a sheet: a question each, and no numbers."""
    lots = [{"grade": "bottle", **({"resin": r} if r else {})} for r in resins]
    case = shop.case({"formula.feedstock": lots})
    assert all(asked in q for q in questions(case.get("resin:melting peak")))
    assert questions(case.get("resin:melting peak")) == questions(case.spread("resin:bed conductivity"))


def test_two_lots_of_one_resin_are_one_resin(shop: Shop) -> None:
    """And each lot, seen alone, names its own."""
    lots = [{"resin": "hdpe", "share": "50 %", "grade": grade} for grade in ("bottle", "injection")]
    assert given(shop.case({"formula.feedstock": lots}).get("resin:id")).value == "hdpe"
    mixed = [{"resin": "hdpe"}, {"resin": "mixed"}]
    assert given(shop.case({"formula.feedstock": mixed}, lot=0).get("resin:id")).value == "hdpe"
    assert questions(shop.case({"formula.feedstock": mixed}, lot=1).get("resin:id"))


def test_a_value_by_grade(shop: Shop) -> None:
    """The grade that the lot names chooses; without one the grade is asked for, and no other is taken."""
    stiff = given(shop.case().get("resin:consistency")).value
    easy = given(shop.case({"formula.feedstock.0.grade": "injection"}).get("resin:consistency")).value
    assert stiff > easy > 0.0
    asked = shop.case({"formula.feedstock.0.grade": None}).get("resin:consistency")
    assert asked == shop.case({"formula.feedstock.0.grade": None}).get("lot.grade")


def test_a_value_by_finish(shop: Shop) -> None:
    """Dark metal takes more heat in than bright; where nobody says, the sheet's usual finish counts."""
    name = "tray material:emissivity"
    dark = given(shop.case().spread(name)).value
    bright = given(shop.case({"equipment.tray.finish": "bright"}).spread(name)).value
    assert dark[1] > bright[2]
    assert given(shop.case({"equipment.tray.finish": None}).spread(name)).value == dark


def test_a_material_without_a_sheet(shop: Shop) -> None:
    """The question names it and points at the field."""
    case = shop.case({"equipment.mould.material": "soapstone"})
    assert questions(case.get("mould material:density")) == [
        "No data sheet for soapstone is installed. "
        "There is aluminium, hardwood, mdf, plywood, softwood, stainless, steel."
    ]


def test_no_liner_is_nothing_to_ask(shop: Shop) -> None:
    """``none`` leaves nothing to judge; unknown leaves a question."""
    assert questions(shop.case({"formula.liner.tray": "none"}).get("liner:refusal line")) == [""]
    assert questions(shop.case({"formula.liner.tray": "unknown"}).get("liner:refusal line")) != [""]


def test_the_strictest_liner_counts(shop: Shop) -> None:
    """Of two liners in the oven the one that stands less heat sets the line."""
    lines = {
        liner: given(shop.case({"formula.liner.tray": liner}).get("liner:refusal line")).value
        for liner in ("parchment", "ptfe-cloth")
    }
    for under, over in (("parchment", "ptfe-cloth"), ("ptfe-cloth", "parchment")):
        both = shop.case({"formula.liner.tray": under, "formula.liner.over": over})
        assert given(both.get("liners:refusal line")).value == min(lines.values())
    assert given(shop.case().get("liners:refusal line")).value == lines["parchment"]


def test_an_unknown_liner_hides_behind_no_known_one(shop: Shop) -> None:
    """One open liner opens the line of both."""
    assert questions(shop.case({"formula.liner.over": "unknown"}).get("liners:refusal line")) != [""]
    none = shop.case({"formula.liner.tray": "none"}).get("liners:refusal line")
    assert questions(none) == [""]


def test_spread_carries_the_sheets_range(shop: Shop) -> None:
    """A number with its ends, in SI and in order, and the sheet as its origin."""
    found = given(shop.case().spread("resin:bed conductivity"))
    assert found.value == pytest.approx((0.09, 0.06, 0.15))
    assert found.origin.source is Source.SHEET


def test_number_and_upper() -> None:
    """The two ends of a range; the one number of a single value; nothing of an open one."""
    single, both = (Given(v, "", Origin(Source.RECIPE)) for v in (3.0, (3.0, 4.0)))
    assert (number(single), upper(single), number(both), upper(both)) == (3.0, 3.0, 3.0, 4.0)
    for read in (number, upper):
        with pytest.raises(LookupError, match="open"):
            read(Open(frozenset()))
