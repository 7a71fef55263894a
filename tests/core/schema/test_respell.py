"""The value of a field keeps its words; its quantity is spelt as meltbook prints it."""

from __future__ import annotations

import pytest

from recipes_core.quantities import Dimension
from recipes_core.schema.respell import respelled

CORE = ("core below {}", "core set", "{}")


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ("core below 60 degC", "core below 60 °C"),
        ("core below 60 c", "core below 60 °C"),
        ("60 C", "60 °C"),
        ("core below 60 °C", "core below 60 °C"),
        ("core set", None),
        ("core below warm", None),
        ("unknown", None),
    ],
)
def test_the_quantity_within_the_words(value: str, told: str | None) -> None:
    """None where no quantity stands, or none that is certain."""
    assert respelled(value, Dimension.TEMPERATURE, CORE) == told


def test_a_size_of_nothing_is_not_touched() -> None:
    """It is refused anyway; where nothing is a size it is spelt as any other."""
    assert respelled("0 millimetres", Dimension.LENGTH) is None
    assert respelled("0 millimetres", Dimension.LENGTH, zero=True) == "0 mm"
