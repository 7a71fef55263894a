"""Units are spelt as meltbook prints them, and the quantity stays the same to the last bit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.quantities import Dimension, QuantityError, parse, spelled
from recipes_core.quantities.units import AMBIGUOUS, UNITS

SPELLINGS = [(dimension, spelling) for dimension, table in UNITS.items() for spelling in table]
NUMBERS = st.sampled_from(
    ["0", "7", "177", "2.50", ".5", "1/2", "1 1/2", "½", "3 ¾", "5-7", "5 - 7", "1 to 2", "170–190"]
)
GAPS = st.sampled_from(["", " ", "  ", "\u00a0", "\u2009"])


@pytest.mark.parametrize(
    ("text", "dimension", "spelt"),
    [
        ("177 degC", Dimension.TEMPERATURE, "177 °C"),
        ("177C", Dimension.TEMPERATURE, "177 °C"),
        ("177 c", Dimension.TEMPERATURE, "177 °C"),
        ("170 c - 350 f", Dimension.TEMPERATURE, "170 °C - 350 °F"),
        ("5'6\"", Dimension.LENGTH, "5 ft 6 in"),
        ("5 to 6 inches", Dimension.LENGTH, "5 to 6 in"),
        ("1 hr 30 Mins", Dimension.TIME, "1 h 30 min"),
        ("20 MIN", Dimension.TIME, "20 min"),
        ("4 tonnes", Dimension.FORCE, "4 t"),
        ("1 KN", Dimension.FORCE, "1 kN"),
        ("3 Kg", Dimension.MASS, "3 kg"),
        ("0.2 w/(m k)", Dimension.CONDUCTIVITY, "0.2 W/(m K)"),
        ("90°", Dimension.ANGLE, "90 deg"),
        ("1 MPA", Dimension.PRESSURE, "1 MPa"),
        ("400 mm2", Dimension.AREA, "400 mm²"),
    ],
)
def test_the_spelling_that_is_printed(text: str, dimension: Dimension, spelt: str) -> None:
    """Of each unit in the text."""
    assert spelled(text, dimension) == spelt


@pytest.mark.parametrize("text", ["177 °C", "177°C", "177\u00a0°C", "170-190 °C"])
def test_what_is_spelt_so_stays_as_it_is(text: str) -> None:
    """With the space that the author chose, or none."""
    assert spelled(text, Dimension.TEMPERATURE) == text


def test_a_number_would_stand_beside_a_number() -> None:
    """120 rpm is not made 120 1/min."""
    assert spelled("120 rpm", Dimension.RATE) == "120 rpm"


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("177", Dimension.TEMPERATURE),
        ("hot", Dimension.TEMPERATURE),
        ("177 x", Dimension.TEMPERATURE),
        ("5 Mm", Dimension.LENGTH),  # m is a thousandth, M a million
        ("5 MM", Dimension.LENGTH),
        ("5 M", Dimension.LENGTH),
        ("1 mpa", Dimension.PRESSURE),
        ("1 Mbar", Dimension.PRESSURE),
        ("2 Mg", Dimension.MASS),
        ("4 T", Dimension.FORCE),  # short tons, long tons or tonnes
        ("4 TON", Dimension.FORCE),
        ("2 Fl Oz", Dimension.VOLUME),
        ("20 M", Dimension.TIME),
        ("20 kg", Dimension.TIME),
        ("5 kg KG", Dimension.MASS),
        ("7 c - 5 c", Dimension.TEMPERATURE),
        ("1" * 101 + " c", Dimension.TEMPERATURE),
    ],
)
def test_what_may_mean_something_else_is_left_to_the_author(text: str, dimension: Dimension) -> None:
    """Nothing is guessed."""
    assert spelled(text, dimension) is None


@given(st.sampled_from(SPELLINGS), NUMBERS, GAPS)
def test_the_value_is_the_same_before_and_after(unit: tuple[Dimension, str], number: str, gap: str) -> None:
    """Every spelling of every unit: the same SI value, range, unit and resolution, and nothing left to mend."""
    dimension, spelling = unit
    text = f"{number}{gap}{spelling}"
    try:
        before = parse(text, dimension)
    except QuantityError:  # 1 1/2 beside a unit such as 1/min
        return
    spelt = spelled(text, dimension)
    assert spelt is not None
    after = parse(spelt, dimension)
    assert (after.low, after.high, after.unit, after.step) == (before.low, before.high, before.unit, before.step)
    assert spelled(spelt, dimension) == spelt


@pytest.mark.parametrize(("dimension", "spelling"), SPELLINGS)
def test_capitals_never_lead_to_another_unit(dimension: Dimension, spelling: str) -> None:
    """Whatever is written in capitals, small letters or both is the one unit that is spelt so, or is not touched."""
    for written in {spelling.upper(), spelling.lower(), spelling.title(), spelling.swapcase()}:
        spelt = spelled(f"3 {written}", dimension)
        if spelt is None:
            continue
        alike = {unit.name for word, unit in UNITS[dimension].items() if word.casefold() == written.casefold()}
        exact = UNITS[dimension].get(written)
        assert parse(spelt, dimension).unit == (exact.name if exact else next(iter(alike)))
        assert exact or len(alike) == 1


@pytest.mark.parametrize("prefixed", ["mm", "mg", "ml", "mbar", "MPa", "mm²", "mm/s", "mm³", "mm/min"])
def test_a_thousandth_is_never_made_a_million(prefixed: str) -> None:
    """Nor the other way round."""
    dimension = next(d for d, table in UNITS.items() if any(unit.name == prefixed for unit in table.values()))
    other = prefixed[0].swapcase() + prefixed[1:]
    assert spelled(f"3 {prefixed}", dimension) == f"3 {prefixed}"
    assert spelled(f"3 {other}", dimension) is None


@pytest.mark.parametrize(("dimension", "word"), [(d, word) for d, words in AMBIGUOUS.items() for word in words])
def test_a_word_for_two_units_is_asked_about(dimension: Dimension, word: str) -> None:
    """In small letters and in capitals."""
    assert spelled(f"3 {word}", dimension) is None
    assert spelled(f"3 {word.upper()}", dimension) is None
