"""Showing quantities in both systems, and the resolution at which they are compared."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.quantities import Dimension, parse, resolution, rounded, show, show_author
from recipes_core.quantities.steps import STEPS

G = 9.80665
DIMENSIONS = st.sampled_from(Dimension)
SIZES = st.floats(min_value=1e-6, max_value=1e6)


@pytest.mark.parametrize(
    ("si", "dimension", "like", "shown"),
    [
        (449.8167, Dimension.TEMPERATURE, None, "177 °C (350 °F)"),
        (449.8167, Dimension.TEMPERATURE, "°F", "350 °F (177 °C)"),
        (268.15, Dimension.TEMPERATURE, "K", "-5 °C (23 °F)"),
        (15.0, Dimension.TEMPERATURE_DIFFERENCE, None, "15 K (27 F°)"),
        (0.097, Dimension.MASS, None, "97 g (3.4 oz)"),
        (1900.0, Dimension.MASS, None, "1.9 t (4189 lb)"),
        (0.010, Dimension.LENGTH, None, "10 mm (0.39 in)"),
        (0.0615, Dimension.LENGTH, None, "61.5 mm (2.4 in)"),
        (1900 * G, Dimension.FORCE, None, "18.6 kN (4190 lbf)"),
        (1900 * G, Dimension.FORCE, "US ton", "4190 lbf (18.6 kN)"),
        (20.0, Dimension.TIME, None, "20 s"),
        (720.0, Dimension.TIME, None, "12 min"),
        (2100.0, Dimension.TIME, None, "35 min"),
        (5400.0, Dimension.TIME, None, "1 h 30 min"),
        (3600.0, Dimension.TIME, None, "1 h"),
        (30 * 3600.0, Dimension.TIME, None, "1 d 6 h"),
        (math.inf, Dimension.TIME, None, "never"),
        (0.05, Dimension.SHARE, None, "5 %"),
        (0.995, Dimension.SHARE, None, "99.5 %"),
        (5.0, Dimension.AREAL_MASS, None, "5 kg/m² (1 lb/ft²)"),
        (0.26, Dimension.CONDUCTIVITY, None, "0.26 W/(m K)"),
    ],
)
def test_show(si: float, dimension: Dimension, like: str | None, shown: str) -> None:
    """A value is shown in both systems, the author's first, without digits that nobody measured."""
    assert show(si, dimension, like) == shown


@pytest.mark.parametrize(
    ("text", "dimension", "shown"),
    [
        ("350 F", Dimension.TEMPERATURE, "350 F (177 °C)"),
        ("300-350 °F", Dimension.TEMPERATURE, "300-350 °F (149 °C to 177 °C)"),
        ("3/8 in", Dimension.LENGTH, "3/8 in (9.5 mm)"),
        ("1.9 t", Dimension.FORCE, "1.9 t (4190 lbf)"),
        ("65 min", Dimension.TIME, "65 min"),
    ],
)
def test_show_author(text: str, dimension: Dimension, shown: str) -> None:
    """The author's own words stay; the other system stands beside them."""
    assert show_author(parse(text, dimension)) == shown


@pytest.mark.parametrize(
    ("dimension", "si", "step"),
    [
        (Dimension.TEMPERATURE, 450.0, 1.0),
        (Dimension.TIME, 5.0, 0.1),
        (Dimension.TIME, 119.0, 1.0),
        (Dimension.TIME, 120.0, 60.0),
        (Dimension.LENGTH, 0.0615, 0.0001),
        (Dimension.MASS, 0.097, 0.001),
    ],
)
def test_resolution(dimension: Dimension, si: float, step: float) -> None:
    """The step of a value is the one it is displayed with."""
    assert resolution(dimension, si) == pytest.approx(step)


@given(DIMENSIONS, SIZES)
def test_rounding_holds_its_step(dimension: Dimension, si: float) -> None:
    """Rounding moves a value by half a step at most, and rounding again changes nothing."""
    once = rounded(si, dimension)
    assert abs(once - si) <= resolution(dimension, si) * 0.5000001
    assert rounded(once, dimension) == pytest.approx(once, rel=1e-12, abs=1e-15)


@given(DIMENSIONS, SIZES, SIZES)
def test_rounding_keeps_the_order(dimension: Dimension, one: float, other: float) -> None:
    """The larger of two values is never rounded to the smaller one."""
    low, high = sorted((one, other))
    assert rounded(low, dimension) <= rounded(high, dimension) * (1 + 1e-12)


@given(DIMENSIONS, SIZES, st.booleans())
def test_what_is_shown_reads_back(dimension: Dimension, si: float, inch_pound: bool) -> None:
    """The text before the brackets is a quantity again, within the step that is displayed."""
    like = STEPS[dimension][1][0].unit.name if inch_pound and STEPS[dimension][1] else None
    text = show(si, dimension, like).partition(" (")[0]
    if dimension in (Dimension.CONDUCTIVITY, Dimension.HEAT_CAPACITY, Dimension.HEAT_TRANSFER):
        text = show(si, dimension, like)  # these units hold a bracket of their own and have one system
    unit_rows = STEPS[dimension][like is not None]
    back = parse(text, dimension).value
    steps = [row.step * row.unit.factor for row in unit_rows if abs(si) * 1.01 >= row.least]
    assert abs(back - si) <= max(steps) * 0.5000001 + abs(si) * 1e-12


def test_rows_meet_in_whole_steps() -> None:
    """Where one row of the table ends and the next begins, the size is a multiple of both steps."""
    for si_rows, inch_pound_rows in STEPS.values():
        for rows in (si_rows, inch_pound_rows):
            for lower, upper in pairwise(rows):
                assert lower.least < upper.least
                for row in (lower, upper):
                    steps = upper.least / (row.step * row.unit.factor)
                    assert steps == pytest.approx(round(steps), rel=1e-9)


def test_infinity() -> None:
    """A time that is never reached stays infinite when rounded; other infinities are not shown."""
    assert rounded(math.inf, Dimension.TIME) == math.inf
    with pytest.raises(ValueError, match="cannot be shown"):
        show(math.inf, Dimension.MASS)
    with pytest.raises(ValueError, match=r"cannot be shown|NaN"):
        show(math.nan, Dimension.TIME)
