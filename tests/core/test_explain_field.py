"""A field of a recipe is explained by its path: what it is, the words it takes, the rules that read it."""

from __future__ import annotations

import pytest

from recipes_core.explain import explain
from recipes_core.schema.fields import Field, fields
from recipes_core.shelf import shelf

HAVING = shelf()


@pytest.mark.parametrize("field", list(fields(HAVING.schemas)), ids=lambda f: f"{f.process or ''}:{'.'.join(f.path)}")
def test_every_field(field: Field) -> None:
    """By its whole path, in words and choices."""
    shown = " ".join(explain(HAVING, ".".join(field.path)).split())
    for text in (field.means, field.ask, *field.choices):
        assert " ".join(text.split()) in shown


@pytest.mark.parametrize(
    ("name", "rule"),
    [
        ("equipment.oven.cord", "extension-lead"),
        ("cord", "extension-lead"),
        ("equipment.sander.dust", "sanded-dry"),
        ("formula.feedstock.colour", "electronics-or-black-styrenic"),
        ("plane.cut", "cut-too-deep"),
    ],
)
def test_the_rules_that_read_it(name: str, rule: str) -> None:
    """By a path as findings print it, or by the last word of it."""
    assert rule in explain(HAVING, name)


def test_a_field_of_another_process_is_not_mixed_in() -> None:
    """Where one process has a word for itself, only its own rules are named."""
    assert "bend-" not in explain(HAVING, "plane.cut")
    assert "cut-too-deep" not in explain(HAVING, "equipment.oven.cord")


def test_units_and_forms() -> None:
    """What is measured says what it takes besides the words."""
    shown = explain(HAVING, "equipment.mould.dry")
    assert "a share, a number with its unit" in shown
    assert "yes | no" in shown
