"""Comparisons at displayed resolution, in words; a band of plausible shops in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.facts import Fact, Given, Origin, Source
from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, below, over, says, show_band, too_short, under

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

T = Dimension.TEMPERATURE
ICE = 273.15
SIZES = {
    Dimension.TEMPERATURE: (250.0, 600.0),
    Dimension.TIME: (1.0, 1e5),
    Dimension.MASS: (0.001, 100.0),
    Dimension.LENGTH: (0.001, 5.0),
    Dimension.FORCE: (10.0, 1e6),
}


@pytest.mark.parametrize("dimension", SIZES)
@given(data=st.data())
def test_what_reads_the_same_is_the_same(dimension: Dimension, data: st.DataObject) -> None:
    """No finding says that 177 °C is above 177 °C; otherwise the larger number is above."""
    one, other = (data.draw(st.floats(*SIZES[dimension])) for _ in range(2))
    if show(one, dimension) == show(other, dimension):
        assert not above(one, other, dimension)
        assert not below(one, other, dimension)
    assert not (above(one, other, dimension) and below(one, other, dimension))
    assert above(one, other, dimension) == below(other, one, dimension)
    if above(one, other, dimension):
        assert one > other


def test_over_says_what_was_found_the_limit_and_the_gap() -> None:
    """In both unit systems; the gap of two temperatures is a difference."""
    (hit,) = over("oven", 200.0 + ICE, 177.0 + ICE, T)
    assert (hit.at, hit.found) == ("oven", "200 °C (392 °F)")
    assert hit.limit.startswith("177 °C")
    assert hit.limit.endswith("at most")
    assert hit.margin.startswith("23 K")
    assert hit.margin.endswith("too much")
    assert list(over("oven", 177.3 + ICE, 177.0 + ICE, T)) == []
    assert list(over("oven", 170.0 + ICE, 177.0 + ICE, T)) == []


def test_under_says_how_much_is_short() -> None:
    """And nothing where there is enough."""
    (hit,) = under("at_least", 600.0, 1200.0, Dimension.TIME)
    assert (hit.found, hit.limit, hit.margin) == ("10 min", "20 min at least", "10 min short")
    assert list(under("at_least", 1200.0, 1200.0, Dimension.TIME)) == []


class Words:
    """A reading of one list of words."""

    def __init__(self, *words: str) -> None:
        self.given = words

    def words(self, _: str) -> tuple[str, ...]:
        return self.given


def test_says_names_every_wrong_word() -> None:
    """In the author's order, and only the wrong ones."""
    reading: Reading = Words("shelf", "seat", "toy")  # type: ignore[assignment]
    (hit,) = says(reading, "part.use", ["toy", "seat"], "no such use")
    assert (hit.at, hit.found, hit.limit) == ("part.use", "seat, toy", "no such use")
    assert list(says(reading, "part.use", ["ladder"], "none")) == []


def band(*minutes: float) -> str:
    """The words for these members, the nominal one first."""
    return show_band(Fact("t", "time", np.array(minutes) * 60.0, ""), Dimension.TIME)


def test_a_band_in_words() -> None:
    """The nominal value, then nine of ten shops."""
    assert band(17.0, *np.linspace(13.0, 26.0, 64)) == "17 min (14 min to 25 min in nine of ten plausible shops)"


def test_a_band_that_some_never_reach() -> None:
    """What an oven cannot do is said as such; the coolest ovens, or all but the hottest."""
    inf = np.inf
    assert band(17.0, *[15.0] * 60, *[inf] * 4) == "17 min, from 15 min; not in the coolest of plausible ovens"
    assert band(inf, *[40.0] * 10, *[inf] * 54) == "not in this oven; 40 min in the hottest plausible one"
    assert band(inf, *[inf] * 64) == "not in this oven"


def test_a_given_value_is_no_fact() -> None:
    """Only what was computed has a band."""
    with pytest.raises(AttributeError):
        show_band(Given(1.0, "1 s", Origin(Source.RECIPE)), Dimension.TIME)  # type: ignore[arg-type]


def test_a_time_that_is_too_short() -> None:
    """An error below the nominal need, a warning below that of the slowest shops, nothing from there on."""
    need = Fact("t", "time", np.array([17.0, *np.linspace(13.0, 26.0, 64)]) * 60.0, "")
    (error,) = too_short("at_least", 600.0, need)
    assert (error.level, error.found, error.margin) == (Level.ERROR, "10 min", "7 min short")
    assert error.limit == show_band(need, Dimension.TIME)
    (warning,) = too_short("at_least", 1200.0, need)
    assert (warning.level, warning.found, warning.margin) == (Level.WARNING, "20 min", "5 min short")
    assert warning.limit.startswith("25 min")
    assert "nineteen of twenty plausible shops" in warning.limit
    assert list(too_short("at_least", 1500.0, need)) == []


def test_a_time_for_what_is_never_reached() -> None:
    """No time is enough; nothing is said of how much is short."""
    never = Fact("t", "time", np.array([np.inf] * 65), "")
    (error,) = too_short("at_least", 1e6, never)
    assert (error.level, error.limit, error.margin) == (Level.ERROR, "not in this oven", "")
    some = Fact("t", "time", np.array([600.0] * 33 + [np.inf] * 32), "")
    (warning,) = too_short("at_least", 1e6, some)
    assert (warning.level, warning.margin) == (Level.WARNING, "")
