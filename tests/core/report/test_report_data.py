"""The JSON report: it parses, it holds every field of every finding, and the same input gives the same bytes."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator

from recipes_core.app import lint_document, lint_file
from recipes_core.document import read
from recipes_core.findings import Change, Finding, Kind, Level, Span, Way
from recipes_core.report.data import FORMAT, render
from recipes_core.resources import data_root
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.shelf import Shelf

    Linter = Callable[..., Linted]

TESTS = Path(__file__).parents[2]
SCHEMA = json.loads((data_root("schemas") / "report-1.schema.json").read_bytes())
VALIDATOR = Draft202012Validator(SCHEMA)


def test_every_field_of_a_finding_is_there(linted: Linter, full_finding: Finding) -> None:
    """By its name; the file stands once, above; so a new field is not forgotten."""
    (recipe,) = json.loads(render([linted(full_finding)]))["recipes"]
    (found,) = recipe["findings"]
    assert {f.name for f in fields(Finding)} - {"file"} == set(found)
    assert recipe["file"] == "a.yaml"
    assert found["path"] == ["procedure", 0, "oven"]
    assert found["span"] == {"line": 6, "column": 11, "end_line": 6, "end_column": 17}
    change = {"path": ["procedure", 0, "oven"], "text": "240 °C", "key": False}
    assert found["advice"] == [{"words": "set the oven to 240 °C", "changes": [change]}]
    assert (found["level"], found["kind"], found["absolute"]) == ("error", "fail", True)


def test_absolute_is_told_even_where_it_is_false(linted: Linter, weights: dict[str, Finding]) -> None:
    """Only what is empty is left out."""
    (recipe,) = json.loads(render([linted(weights["a note"])]))["recipes"]
    assert recipe["findings"][0]["absolute"] is False
    assert "why" not in recipe["findings"][0]


def test_the_whole(linted: Linter, full_finding: Finding) -> None:
    """Format, then each recipe in order with verdict and counts."""
    data = json.loads(render([linted(full_finding), linted(file="b.yaml")]))
    assert data["format"] == FORMAT
    assert [(r["file"], r["verdict"], r["passed"], r["not_applicable"]) for r in data["recipes"]] == [
        ("a.yaml", "do not try", 7, 2),
        ("b.yaml", "nothing found against it", 7, 2),
    ]
    assert json.loads(render([])) == {"format": FORMAT, "recipes": []}


def test_text_survives(linted: Linter, hostile_finding: Finding) -> None:
    """Programs get the text itself; control characters are escaped as JSON has it."""
    shown = render([linted(hostile_finding)])
    assert "\x1b" not in shown
    assert "\x00" not in shown
    assert json.loads(shown)["recipes"][0]["findings"][0]["message"] == hostile_finding.message


def test_the_same_every_time(linted: Linter, full_finding: Finding, weights: dict[str, Finding]) -> None:
    """Byte for byte, with a line end at the end."""
    items = [linted(full_finding, *weights.values())]
    assert render(items) == render(items)
    assert render(items).endswith("}\n")


def wrong(report: str) -> list[str]:
    """What the schema has against a report."""
    return [error.message for error in VALIDATOR.iter_errors(json.loads(report))]


def test_the_schema_is_one() -> None:
    """Of the draft that it names, and every field of it is explained."""
    Draft202012Validator.check_schema(SCHEMA)
    groups = [SCHEMA, *SCHEMA["$defs"].values()]
    described = [(name, inner) for group in groups for name, inner in group["properties"].items()]
    assert [name for name, inner in described if "description" not in inner and "$ref" not in inner] == []


@pytest.mark.parametrize(("group", "kind"), [("finding", Finding), ("span", Span), ("way", Way), ("change", Change)])
def test_the_schema_names_every_field(group: str, kind: type) -> None:
    """Neither more nor fewer than there are."""
    assert set(SCHEMA["$defs"][group]["properties"]) == {f.name for f in fields(kind)}


@pytest.mark.parametrize(("name", "words"), [("level", Level), ("kind", Kind)])
def test_the_schema_names_every_word(name: str, words: type[StrEnum]) -> None:
    """That a level or a kind can be; and every verdict."""
    assert SCHEMA["$defs"]["finding"]["properties"][name]["enum"] == [word.value for word in words]
    assert SCHEMA["$defs"]["recipe"]["properties"]["verdict"]["enum"] == [verdict.words for verdict in Verdict]


def test_every_report_is_valid(
    linted: Linter, full_finding: Finding, hostile_finding: Finding, weights: dict[str, Finding]
) -> None:
    """Full, hostile, of every weight, without a place, and on nothing."""
    bare = Finding("plugin-not-loaded", Level.ERROR, Kind.OPEN, "Not loaded.")
    items = [linted(full_finding, hostile_finding, *weights.values(), bare), linted()]
    assert wrong(render(items)) == []
    assert wrong(render([])) == []


@pytest.mark.parametrize("name", sorted(file.stem for file in (TESTS / "cases").glob("base*.yaml")))
@pytest.mark.parametrize(("old", "new"), [("", ""), ("at_least", "at_lest"), ("°C", "c"), ("hdpe", "pvc")])
def test_a_report_on_a_recipe_is_valid(name: str, old: str, new: str, stock: Shelf) -> None:
    """Sound ones, and ones with slips and a plastic that nobody may heat."""
    text = (TESTS / "cases" / f"{name}.yaml").read_text("utf-8")
    item = lint_document(read(text.replace(old, new, 3) if old else text, "a.yaml"), date(2026, 11, 25), stock)
    assert wrong(render([item])) == []


def test_a_report_on_a_file_that_cannot_be_read_is_valid(stock: Shelf, tmp_path: Path) -> None:
    """Nothing passed, since nothing was checked."""
    (tmp_path / "a.yaml").write_text("a: [\n", "utf-8")
    report = render([lint_file(tmp_path / "a.yaml", date(2026, 11, 25), stock)])
    assert wrong(report) == []
    assert json.loads(report)["recipes"][0]["passed"] is None


@pytest.mark.parametrize("change", [{"level": "bad"}, {"new": 1}, {"span": {"line": 0}}, {"rule": ""}, {"message": 1}])
def test_the_schema_would_tell(linted: Linter, full_finding: Finding, change: dict[str, Any]) -> None:
    """Of a word, a key, a place or a type that is not meant."""
    report = json.loads(render([linted(full_finding)]))
    report["recipes"][0]["findings"][0] |= change
    assert wrong(json.dumps(report))


def test_another_file_is_named(linted: Linter, full_finding: Finding) -> None:
    """Where the place is not in the recipe: a line of library.yaml is no line of it."""
    other = replace(full_finding, file="library.yaml")
    (recipe,) = json.loads(render([linted(full_finding, other)]))["recipes"]
    assert [f.get("file") for f in recipe["findings"]] == [None, "library.yaml"]
