"""Curves as data: the band is that of facts, and what cannot be drawn is refused when it is made."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from recipes_core.curves import Curves, Line, Mark, Series
from recipes_core.facts import Fact

MEMBERS = 65
X = np.array([0.0, 10.0, 40.0])


def test_a_series_is_read_member_by_member() -> None:
    """Each member has times of its own; the nominal is the first, and the band is that of a fact with these numbers."""
    times = np.outer([0.0, 1.0, 2.0], np.linspace(20.0, 40.0, MEMBERS))
    values = 300.0 + np.outer([0.0, 1.0, 4.0], np.linspace(1.0, 9.0, MEMBERS))
    series = Series.over("core", X, times, values)
    assert series.band is not None
    for place, x in enumerate(X):
        numbers = [np.interp(x, times[:, m], values[:, m]) for m in range(MEMBERS)]
        fact = Fact("core", "temperature", np.array(numbers), "")
        assert series.nominal[place] == pytest.approx(fact.nominal)
        assert (series.band[0][place], series.band[1][place]) == pytest.approx(fact.band())
    assert np.all(series.band[0][1:] < series.band[1][1:])


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"series": ()}, "one number for each of x"),
        ({"series": (Series("a", X[:2]),)}, "one number for each of x"),
        ({"series": (Series("a", X, (X, X[:1])),)}, "one number for each of x"),
        ({"series": (Series("a", np.array([1.0, np.nan, 2.0])),)}, "finite"),
        ({"series": (Series("a", X, (X, np.full(3, np.inf))),)}, "finite"),
        ({"lines": (Line("limit", np.inf),)}, "finite"),
        ({"marks": (Mark("never", np.inf),)}, "finite"),
        ({"x": np.array([0.0, 5.0, 5.0])}, "x must rise"),
    ],
)
def test_what_cannot_be_drawn_is_refused(changes: dict[str, Any], sentence: str) -> None:
    """By its title: a plugin that makes it is told so, and no picture is drawn of it."""
    whole: dict[str, Any] = {"title": "core", "x": X, "across": "since noon", "series": (Series("a", X),)}
    assert Curves(**whole).title == "core"
    with pytest.raises(ValueError, match=f"core: .*{sentence}"):
        Curves(**{**whole, **changes})
