"""The JSON report: it parses, it holds every field of every finding, and the same input gives the same bytes."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields
from typing import TYPE_CHECKING

from recipes_core.findings import Finding
from recipes_core.report.data import FORMAT, render

if TYPE_CHECKING:
    from recipes_core.app import Linted

    Linter = Callable[..., Linted]


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
