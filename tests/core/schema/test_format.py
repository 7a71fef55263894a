"""The first line of a recipe."""

from __future__ import annotations

import pytest

from recipes_core.findings import Kind, Level
from recipes_core.schema.format import judge_format


@pytest.mark.parametrize("text", ["recipe/1", "recipe/1.0"])
def test_our_format_is_not_remarked_on(text: str) -> None:
    """The format that this version reads gives no finding."""
    assert judge_format(text) is None


def test_a_newer_minor_format_is_read_with_a_note() -> None:
    """It only adds, so nothing is refused."""
    found = judge_format("recipe/1.3")
    assert found is not None
    assert (found.rule, found.level, found.kind) == ("format-newer", Level.NOTE, Kind.INFORMATIONAL)


@pytest.mark.parametrize(
    ("text", "rule", "cure"),
    [
        ("recipe/2", "format-too-new", False),
        ("recipe/2.1", "format-too-new", False),
        ("shop/1", "format-of-another-kind", False),
        ("recipe", "format-not-read", True),
        ("recipe/0", "format-not-read", True),
        ("receipt/1", "format-not-read", True),
        ("unknown", "format-not-read", True),
    ],
)
def test_another_format_is_refused(text: str, rule: str, cure: bool) -> None:
    """Each with a sentence of its own; only where a recipe of ours is meant is there a cure."""
    found = judge_format(text)
    assert found is not None
    assert (found.rule, found.level, bool(found.advice)) == (rule, Level.ERROR, cure)
    assert text in found.message or "shop" in found.message
