"""Facts: open values spread, nothing open is computed from, and a band is what nine of ten members see."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.facts import Basis, Fact, Given, Open, Origin, Source, assumed, calc, missing

MEMBERS = st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=80)


def value(number: float) -> Given:
    """A value as a recipe gives it."""
    return Given(number, str(number), Origin(Source.RECIPE))


def fact(*numbers: float) -> Fact:
    """A fact with these members, the nominal one first."""
    return Fact("time", "time", np.array(numbers), "")


def test_open_values_merge() -> None:
    """Both questions are kept, a question asked twice once."""
    one, two = missing(("a",), "How much?"), missing(("b",), "How long?")
    assert (one | two).needs == {(("a",), "How much?"), (("b",), "How long?")}
    assert one | one == one


def test_calc_computes_from_what_is_known() -> None:
    """The function sees SI numbers by name, and the fact remembers its inputs and equation."""
    mass, area = value(3.0), Fact("area", "area", 2.0, "length × width")
    made = calc("loading", "areal_mass", "mass ÷ area", lambda mass, area: [mass / area], mass=mass, area=area)
    assert (made.nominal, made.equation, made.dimension) == (1.5, "mass ÷ area", "areal_mass")
    assert made.inputs == {"mass": mass, "area": area}


def test_calc_gathers_every_question_and_computes_nothing() -> None:
    """Open inputs, and facts that are open themselves, add their questions; the function is never called."""
    deeper = Fact("area", "area", missing(("b",), "How wide?"), "")
    made = calc(
        "x", "mass", "", lambda **_: pytest.fail("called"), a=missing(("a",), "How much?"), b=deeper, c=value(1)
    )
    assert made.value == missing(("a",), "How much?") | missing(("b",), "How wide?")
    with pytest.raises(LookupError, match="fact x is open"):
        _ = made.numbers


def test_what_was_rightly_not_said_opens_without_a_question() -> None:
    """Nobody is asked, and nothing is passed."""
    made = calc("x", "mass", "", lambda **_: pytest.fail("called"), a=None, b=value(1))
    assert isinstance(made.value, Open)
    assert [question for _, question in made.value.needs] == [""]


def test_an_assumed_value_says_so() -> None:
    """It comes from nobody, as a judgement unless another basis is named."""
    assert assumed(20.0, "± 20 K").origin == Origin(Source.DEFAULT, basis=Basis.JUDGEMENT)
    assert assumed(7.0, "7", Basis.DERIVED).origin.basis is Basis.DERIVED


@given(MEMBERS)
def test_band_is_the_5_and_95_percent_points(numbers: list[float]) -> None:
    """As ``numpy.percentile`` gives them by its linear method, over the members without the nominal one."""
    low, high = fact(*numbers).band()
    wanted = np.percentile(numbers[1:], [5, 95], method="linear")
    assert [low, high] == pytest.approx(list(wanted), rel=1e-9, abs=1e-6)


@given(MEMBERS)
def test_a_band_stays_among_its_members(numbers: list[float]) -> None:
    """Its ends are in order, and neither is beyond the extremes."""
    low, high = fact(*numbers).band()
    assert min(numbers[1:]) <= low <= high <= max(numbers[1:])


@pytest.mark.parametrize("never", [0, 1, 3, 6, 63, 64])
def test_band_with_members_that_never_get_there(never: int) -> None:
    """Infinity is a time like any other: no end is NaN, and the upper end is never once 5 % never get there."""
    low, high = fact(1.0, *range(64 - never), *[np.inf] * never).band()
    assert not np.isnan([low, high]).any()
    assert (high == np.inf) is (never >= 4)
    assert (low == np.inf) is (never >= 61)


def test_a_fact_with_one_value_is_its_own_band() -> None:
    """A value that no shop changes has no width."""
    assert fact(3.0).band() == (3.0, 3.0)


def test_worst_counts_the_nominal_member_too() -> None:
    """The extreme over all, on the side that is asked for."""
    assert fact(9.0, 1.0, 5.0).worst(highest=True) == 9.0
    assert fact(9.0, 1.0, np.inf).worst(highest=True) == np.inf
    assert fact(0.0, 1.0, 5.0).worst(highest=False) == 0.0


def test_share_leaves_the_nominal_member_out() -> None:
    """It is the share of plausible shops; a value that no shop changes is all or none of them."""
    assert fact(9.0, 1.0, 2.0, 3.0, 9.0).share(lambda v: v > 2.5) == 0.5
    assert fact(9.0).share(lambda v: v > 2.5) == 1.0
