"""Drying by the sheet: its hours, its limit, what is left of water, and what opens where nothing is on record."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.facts import Fact, Open
from tests.conftest import Shop
from tests.trials import TRIALS, stocked

if TYPE_CHECKING:
    from recipes_core.work import Work

HOUR = 3600.0
DRY = {"id": "dry", "process": "dry", "oven": "60 °C", "at_least": "2 h"}
SHEET = {
    "formula.feedstock.0.resin": "trial-polycarbonate",
    "formula.feedstock.0.form": "sheet",
    "formula.feedstock.0.thickness": "3 mm",
    "dry.oven": "125 °C",
}


def recipe(resin: str, **changes: Any) -> dict[str, Any]:
    """The changes that make the trial plate one drying step of a plastic; a name may say ``dry.oven``."""
    own = {key.replace("__", "."): value for key, value in changes.items()}
    step = {**DRY, **{key.partition(".")[2]: own.pop(key) for key in [*own] if key.startswith("dry.")}}
    return {"procedure": [step], "formula.feedstock.0.resin": resin, "formula.feedstock.0.moisture": "wet", **own}


def facts(shop: Shop, resin: str, **changes: Any) -> Any:
    """The facts of the drying step."""
    return shop.facts(recipe(resin, **changes))["dry"]


def left(shop: Shop, resin: str, **changes: Any) -> Work:
    """The work after the drying step."""
    return shop.walk(recipe(resin, **changes)).after[0]


def water(work: Work) -> object:
    """What is known of its water."""
    return work.moisture.value if not isinstance(work.moisture, Open) and work.moisture else None


def needs(fact: Fact) -> set[object]:
    """The last part of each path that an open fact waits for."""
    assert isinstance(fact.value, Open)
    return {path[-1] for path, question in fact.value.needs if question}


def test_flake_takes_the_hours_of_its_sheet(shop: Shop) -> None:
    """Nominal as the sheet says, over its range between shops."""
    hours = facts(shop, "trial-surface")["hours needed"]
    assert hours.nominal == pytest.approx(1.5 * HOUR)
    assert HOUR < hours.band()[0] < hours.band()[1] < 2 * HOUR
    assert facts(shop, "trial-thirsty")["hours needed"].nominal == pytest.approx(4 * HOUR)


@pytest.mark.parametrize("entry", ["drying low", "drying time", "moisture limit"])
def test_each_value_of_the_sheet_shows(shop: Shop, entry: str) -> None:
    """Another value gives another fact; a value taken away opens a question that names it."""
    names = {"drying low": "hours needed", "drying time": "hours needed", "moisture limit": "water allowed"}
    changed = {"drying low": "61 °C", "drying time": "3 h", "moisture limit": "0.1 %"}
    other = {entry: {"value": changed[entry], "basis": "memory"}}
    thirsty = TRIALS["trial-thirsty"]
    shelf = stocked(shop.shelf, {"other": {**thirsty, **other}, "bare": {**thirsty, entry: None}})
    shops = Shop(shelf)
    fact = facts(shops, "other")[names[entry]]
    before = facts(shop, "trial-thirsty")[names[entry]]
    assert isinstance(fact.value, Open) or fact.nominal != before.nominal
    assert needs(facts(shops, "bare")[names[entry]]) == {entry}


def test_the_water_allowed_as_steam(shop: Shop) -> None:
    """0.2 % of a kilogram is 2 g, which fill 3.4 l at 100 °C (0.17 m³ for 100 g)."""
    found = facts(shop, "trial-thirsty")
    assert found["water allowed"].nominal == pytest.approx(0.002)
    assert found["steam from a kilogram"].nominal == pytest.approx(0.0034, rel=0.01)


def test_hours_that_suffice_leave_the_limit(shop: Shop) -> None:
    """Or dry to touch where water does not go in; hours that do not suffice leave what was there."""
    assert water(left(shop, "trial-thirsty", dry__at_least="4 h")) == pytest.approx(0.002)
    assert water(left(shop, "trial-thirsty", dry__at_least="239 min")) == "wet"
    assert water(left(shop, "trial-surface", dry__at_least="90 min")) == "dry to touch"
    assert water(left(shop, "trial-surface", dry__at_least="89 min")) == "wet"


def test_a_dried_lot_that_waits_too_long_is_wet_again(shop: Shop) -> None:
    """Only where the step says how long it waits, and the sheet how long it stays dry."""
    assert water(left(shop, "trial-thirsty", dry__at_least="4 h", dry__used_within="30 min")) == pytest.approx(0.002)
    assert "left for" in str(water(left(shop, "trial-thirsty", dry__at_least="4 h", dry__used_within="31 min")))
    assert water(left(shop, "trial-surface", dry__at_least="2 h", dry__used_within="9 d")) == "dry to touch"


def test_the_form_stays_as_it_was(shop: Shop) -> None:
    """Flake is flake, a sheet is a sheet, and its thickness goes on."""
    assert left(shop, "trial-surface").form == "flake"
    work = left(shop, **{key.replace(".", "__"): v for key, v in SHEET.items()} | {"resin": "trial-polycarbonate"})
    assert work.form == "sheet"
    assert water(work) == "wet"  # two hours are not seven


def sheet(shop: Shop, **changes: Any) -> Fact:
    """The hours of a sheet."""
    given = {**{key.replace(".", "__"): value for key, value in SHEET.items()}, **changes}
    found: Fact = facts(shop, given.pop("formula__feedstock__0__resin"), **given)["hours needed"]
    return found


def test_a_sheet_takes_the_hours_of_its_table(shop: Shop) -> None:
    """3 mm: 7 h; half way to 4 mm: 9.5 h; 10 mm: 80 h by the square; a colder oven takes longer."""
    assert sheet(shop).nominal == pytest.approx(7 * HOUR)
    assert sheet(shop, formula__feedstock__0__thickness="3.5 mm").nominal == pytest.approx(9.5 * HOUR)
    assert sheet(shop, formula__feedstock__0__thickness="10 mm").nominal == pytest.approx(80 * HOUR)
    assert sheet(shop, dry__oven="82 °C").nominal == pytest.approx(17.5 * HOUR, rel=0.01)
    assert sheet(shop).band()[1] > 7.5 * HOUR  # the oven may be 20 K cooler than it is set


def test_a_dried_sheet_may_be_bent(shop: Shop) -> None:
    """The limit that drying leaves is that for bending, where the sheet states one."""
    given = {key.replace(".", "__"): value for key, value in SHEET.items()}
    work = left(shop, given.pop("formula__feedstock__0__resin"), **given, dry__at_least="7 h")
    assert water(work) == pytest.approx(0.0005)


def bare(shop: Shop, **gone: Any) -> Shop:
    """A shop whose polycarbonate sheet lacks something."""
    return Shop(stocked(shop.shelf, {"trial-polycarbonate": {**TRIALS["trial-polycarbonate"], **gone}}))


@pytest.mark.parametrize(
    ("gone", "changes", "asked"),
    [
        ("sheet drying time", {}, set()),  # the square serves alone
        ("sheet drying energy", {}, set()),  # at the table's own temperature
        ("sheet drying energy", {"dry__oven": "120 °C"}, {"sheet drying energy"}),
        ("sheet drying square", {}, set()),
        ("sheet drying square", {"formula__feedstock__0__thickness": "8.1 mm"}, {"sheet drying square"}),
        ("sheet drying temperature", {}, {"sheet drying temperature"}),
        ("drying low", {}, {"drying low"}),
        ("takes up water", {}, {"takes up water"}),
    ],
)
def test_what_is_not_on_record_is_asked_for(shop: Shop, gone: str, changes: dict[str, str], asked: set[str]) -> None:
    """By the name of the sheet's value, and only where the hours hang on it."""
    found = sheet(bare(shop, **{gone: None}), **changes)
    assert (needs(found) if isinstance(found.value, Open) else set()) == asked


def test_a_sheet_without_table_and_square_opens(shop: Shop) -> None:
    """Its hours are not guessed from flake."""
    nothing = bare(shop, **{"sheet drying time": None, "sheet drying square": None})
    assert needs(sheet(nothing)) == {"sheet drying time"}


def test_colder_than_the_sheet_speaks_of_opens(shop: Shop) -> None:
    """And says how warm it has to be."""
    hours = facts(shop, "trial-surface", dry__oven="49 °C")["hours needed"]
    assert isinstance(hours.value, Open)
    ((path, question),) = hours.value.needs
    assert path[-1] == "oven"
    assert "50 °C" in question
