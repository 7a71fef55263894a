"""The shipped recipes hold up to their own linter, and say themselves what still speaks against them."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from recipes_core import app
from recipes_core.document import read_file
from recipes_core.findings import Kind
from recipes_core.shelf import shelf

FOLDER = Path(__file__).parents[2] / "recipes"
TODAY = date(2026, 11, 25)
"""Checks of thermometers lapse; the verdicts below are those of this day."""
NOTHING, CARE = "nothing found against it", "try with care"
VERDICTS = {
    "abs/knob-blank.yaml": CARE,
    "hdpe/bench-stop.yaml": CARE,
    "hdpe/coat-hook.yaml": NOTHING,
    "hdpe/drawer-divider.yaml": NOTHING,
    "hdpe/glue-paddle.yaml": NOTHING,
    "hdpe/label-blank.yaml": NOTHING,
    "hdpe/mixed-coaster.yaml": NOTHING,
    "hdpe/planed-block.yaml": NOTHING,
    "hips/label-sheet.yaml": CARE,
    "ldpe/knee-pad-plate.yaml": NOTHING,
    "pc/guard-plate.yaml": CARE,
    "pc/lamp-skirt.yaml": CARE,
    "petg/cable-cover.yaml": CARE,
    "pla/luggage-tag.yaml": CARE,
    "pla/tag.yaml": CARE,
    "pmma/leaflet-stand.yaml": NOTHING,
    "pp/drawer-pull.yaml": NOTHING,
}
SHELF = shelf()
LINTED = {name: app.lint_file(FOLDER / name, TODAY, SHELF) for name in VERDICTS}


def test_every_shipped_recipe_has_its_verdict_here() -> None:
    """A recipe that is added to the folder must be added to the table."""
    there = {path.relative_to(FOLDER).as_posix() for path in app.recipe_files([FOLDER])}
    assert there == set(VERDICTS)


@pytest.mark.parametrize("name", VERDICTS)
def test_a_shipped_recipe_ends_as_the_table_says(name: str) -> None:
    """No error, and nothing that did not run; what is still asked is a value that nobody has put on record."""
    linted = LINTED[name]
    assert linted.verdict.words == VERDICTS[name]
    assert linted.verdict.exit_status == 0
    others = [f for f in linted.findings if f.kind is not Kind.FAIL]
    assert [f.message for f in others if f.path[:1] != ("resin sheet",)] == []


def test_the_recipes_are_those_of_a_whole_trade() -> None:
    """Fourteen and more, over nine resins, and every process that there is."""
    data = [read_file(FOLDER / name).data for name in VERDICTS]
    resins = {lot["resin"] for recipe in data for lot in recipe["formula"]["feedstock"]}
    processes = {step["process"] for recipe in data for step in recipe["procedure"]}
    assert len(VERDICTS) >= 14
    assert len(resins) >= 9
    assert processes == set(SHELF.kinds)


@pytest.mark.parametrize("name", VERDICTS)
def test_a_recipe_says_itself_what_speaks_against_it(name: str) -> None:
    """Its notes name the rule of each finding, and name no rule that found nothing."""
    notes = str(read_file(FOLDER / name).data["notes"])
    rules = {rule.id for rule in SHELF.rules}
    findings = LINTED[name].findings
    assert {rule for rule in rules if rule in notes} == {f.rule for f in findings if f.kind is Kind.FAIL}
    assert ('Ends in "try with care"' in notes) == bool(findings)


@pytest.mark.parametrize("name", VERDICTS)
def test_an_end_test_fits_the_card(name: str) -> None:
    """At most 45 characters: what somebody with gloves on reads at a glance (judgement)."""
    steps = read_file(FOLDER / name).data["procedure"]
    assert [step["until"] for step in steps if len(step.get("until", "")) > 45] == []


def test_wood_cools_for_more_than_an_hour() -> None:
    """Each recipe with a wooden mould leaves the part in it for longer than an hour, and there are such recipes."""
    tools = {name: read_file(FOLDER / name).data["equipment"] for name in VERDICTS}
    wooden = [name for name, equipment in tools.items() if equipment.get("mould", {}).get("material") == "softwood"]
    assert wooden
    for name in wooden:
        cases = app.forecast(FOLDER / name, TODAY, SHELF)[0].cases
        (opened,) = [c.facts["opened after"].nominal for c in cases if "opened after" in c.facts]
        assert opened > 3600.0
