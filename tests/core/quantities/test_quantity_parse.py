"""Reading quantities: what is read, what is asked, and where the wrong part stands."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.quantities import Dimension, QuantityError, looks_like_split_decimal, parse

INCH, POUND, G = 0.0254, 0.45359237, 9.80665

READ = [
    ("350 °F", Dimension.TEMPERATURE, 449.816667, "°F"),
    ("350 F", Dimension.TEMPERATURE, 449.816667, "°F"),
    ("350F", Dimension.TEMPERATURE, 449.816667, "°F"),
    ("350 degF", Dimension.TEMPERATURE, 449.816667, "°F"),
    ("350 ° F", Dimension.TEMPERATURE, 449.816667, "°F"),
    ("177 °C", Dimension.TEMPERATURE, 450.15, "°C"),
    ("177C", Dimension.TEMPERATURE, 450.15, "°C"),
    ("177 º C", Dimension.TEMPERATURE, 450.15, "°C"),
    ("177 degC", Dimension.TEMPERATURE, 450.15, "°C"),
    ("400 K", Dimension.TEMPERATURE, 400.0, "K"),
    ("-5 °C", Dimension.TEMPERATURE, 268.15, "°C"),
    ("\u22125 °C", Dimension.TEMPERATURE, 268.15, "°C"),
    ("15 K", Dimension.TEMPERATURE_DIFFERENCE, 15.0, "K"),
    ("27 F°", Dimension.TEMPERATURE_DIFFERENCE, 15.0, "F°"),
    ("-3 K", Dimension.TEMPERATURE_DIFFERENCE, -3.0, "K"),
    ("12 oz", Dimension.MASS, 12 * POUND / 16, "oz"),
    ("2 t", Dimension.MASS, 2000.0, "t"),
    ("2 metric ton", Dimension.MASS, 2000.0, "t"),
    ("2 US ton", Dimension.MASS, 4000 * POUND, "US ton"),
    ("2 short ton", Dimension.MASS, 4000 * POUND, "US ton"),
    ("2 UK ton", Dimension.MASS, 4480 * POUND, "UK ton"),
    ("2 long ton", Dimension.MASS, 4480 * POUND, "UK ton"),
    ("2 lb 3 oz", Dimension.MASS, 35 * POUND / 16, "lb"),
    ("1.9 t", Dimension.FORCE, 1900 * G, "t"),
    ("1.9 tf", Dimension.FORCE, 1900 * G, "t"),
    ("18.6 kN", Dimension.FORCE, 18600.0, "kN"),
    ("200 N", Dimension.FORCE, 200.0, "N"),
    ("200 lbf", Dimension.FORCE, 200 * POUND * G, "lbf"),
    ("2 US ton", Dimension.FORCE, 4000 * POUND * G, "US ton"),
    ("1 1/2 in", Dimension.LENGTH, 1.5 * INCH, "in"),
    ("3/8 in", Dimension.LENGTH, 0.375 * INCH, "in"),
    ('5/8"', Dimension.LENGTH, 0.625 * INCH, "in"),
    ("½ in", Dimension.LENGTH, 0.5 * INCH, "in"),
    ("1½ in", Dimension.LENGTH, 1.5 * INCH, "in"),
    ("¼ in", Dimension.LENGTH, 0.25 * INCH, "in"),
    ("¾ in", Dimension.LENGTH, 0.75 * INCH, "in"),
    ("⅛ in", Dimension.LENGTH, 0.125 * INCH, "in"),
    (".5 in", Dimension.LENGTH, 0.5 * INCH, "in"),
    ("5 ft 6 in", Dimension.LENGTH, 66 * INCH, "ft"),
    ("5' 6\"", Dimension.LENGTH, 66 * INCH, "ft"),
    ("5′6″", Dimension.LENGTH, 66 * INCH, "ft"),
    ("3\u00a0mm", Dimension.LENGTH, 0.003, "mm"),
    ("1 h 30 min", Dimension.TIME, 5400.0, "h"),
    ("1h30min", Dimension.TIME, 5400.0, "h"),
    ("20 min", Dimension.TIME, 1200.0, "min"),
    ("20 min\n", Dimension.TIME, 1200.0, "min"),
    ("20 min\t", Dimension.TIME, 1200.0, "min"),
    ("  20 min ", Dimension.TIME, 1200.0, "min"),
    ("5 %", Dimension.SHARE, 0.05, "%"),
    ("5%", Dimension.SHARE, 0.05, "%"),
    ("40 m^3", Dimension.VOLUME, 40.0, "m³"),
    ("5 in3", Dimension.VOLUME, 5 * INCH**3, "in³"),
    ("0.26 W/(m·K)", Dimension.CONDUCTIVITY, 0.26, "W/(m K)"),
    ("6 1/h", Dimension.RATE, 6 / 3600, "1/h"),
    ("6 per hour", Dimension.RATE, 6 / 3600, "1/h"),
    ("90 °", Dimension.ANGLE, 1.5707963267948966, "deg"),
]


@pytest.mark.parametrize(("text", "dimension", "si", "unit"), READ)
def test_is_read(text: str, dimension: Dimension, si: float, unit: str) -> None:
    """A quantity with an unmistakable unit is read into SI; the author's text and unit are kept."""
    quantity = parse(text, dimension)
    assert quantity.value == pytest.approx(si, rel=1e-9, abs=1e-6)
    assert (quantity.text, quantity.dimension, quantity.unit) == (text, dimension, unit)


@pytest.mark.parametrize(
    "text",
    ["5-7 min", "5 - 7 min", "5–7 min", "5\u22127 min", "5 to 7 min", "5 min - 7 min", "300 s - 7 min"],
)
def test_range(text: str) -> None:
    """A dash between two numbers, or `to`, makes a range; a range has no single value."""
    quantity = parse(text, Dimension.TIME)
    assert (quantity.low, quantity.high) == (300.0, 420.0)
    with pytest.raises(ValueError, match="is a range"):
        _ = quantity.value


def test_range_below_zero() -> None:
    """Signs and the dash of a range are told apart."""
    quantity = parse("-10 - -5 °C", Dimension.TEMPERATURE)
    assert (quantity.low, quantity.high) == pytest.approx((263.15, 268.15))


@pytest.mark.parametrize(
    ("text", "dimension", "step"),
    [
        ("177 °C", Dimension.TEMPERATURE, 1.0),
        ("350 °F", Dimension.TEMPERATURE, 5 / 9),
        ("1.90 t", Dimension.MASS, 10.0),
        ("3/8 in", Dimension.LENGTH, INCH / 8),
        ("1 h 30 min", Dimension.TIME, 60.0),
        ("2 - 2.5 kg", Dimension.MASS, 0.1),
    ],
)
def test_step(text: str, dimension: Dimension, step: float) -> None:
    """The step is what the last digit (or the denominator) that the author wrote is worth."""
    assert parse(text, dimension).step == pytest.approx(step)


# Each case: text, wanted dimension, the part that is wrong, and what is said about it.
ASKED = [
    ("350", Dimension.TEMPERATURE, "350", "350 has no unit: 350 °C or 350 °F?"),
    ("-5", Dimension.TEMPERATURE, "-5", "-5 has no unit: -5 °C or -5 °F?"),
    ("97", Dimension.MASS, "97", "97 has no unit: 97 g, 97 kg, 97 oz or 97 lb?"),
    ("0.05", Dimension.SHARE, "0.05", "0.05 has no unit: 5 % or 0.05 %?"),
    ("35", Dimension.SHARE, "35", "35 has no unit: 35 %?"),
    ("5 - 7", Dimension.TIME, "5 - 7", "5 - 7 has no unit: 5 - 7 s, 5 - 7 min or 5 - 7 h?"),
    ("5 min - 7", Dimension.TIME, "7", "7 has no unit: 7 s, 7 min or 7 h?"),
    ("5 ft 6", Dimension.LENGTH, "6", "6 has no unit: 6 mm, 6 cm or 6 in?"),
    ("12 fl oz", Dimension.MASS, "fl oz", "fl oz is a volume, a mass is wanted: 12 oz or 12 g?"),
    ("12 oz", Dimension.VOLUME, "oz", "oz is a mass, a volume is wanted: 12 US fl oz or 12 UK fl oz?"),
    ("12 fl oz", Dimension.VOLUME, "fl oz", "fl oz is unclear: 12 US fl oz or 12 UK fl oz?"),
    ("2 ton", Dimension.MASS, "ton", "ton is unclear: 2 t, 2 US ton or 2 UK ton?"),
    ("2 ton", Dimension.FORCE, "ton", "ton is unclear: 2 t, 2 US ton or 2 UK ton?"),
    ("5 mil", Dimension.LENGTH, "mil", "mil is unclear: 5 thou or 5 mm?"),
    ("200 lb", Dimension.FORCE, "lb", "lb is a mass, a force is wanted: 200 lbf?"),
    ("12:30", Dimension.TIME, "12:30", "12:30 is unclear: 12 min 30 s or 12 h 30 min?"),
    (
        "1:05:30",
        Dimension.TIME,
        "1:05:30",
        "1:05:30 is a time of day: write it with units, such as 1 h 5 min 30 s",
    ),
    (
        "about 10 min",
        Dimension.TIME,
        "about",
        '"about" is not a number: write the number alone, or a range from low to high',
    ),
    (
        "~10 min",
        Dimension.TIME,
        "~",
        '"~" is not a number: write the number alone, or a range from low to high',
    ),
    ("3,5 mm", Dimension.LENGTH, "3,5", "3,5 has a decimal comma: write 3.5, with a point"),
    ("1,000 g", Dimension.MASS, "1,000", "1,000 is unclear: 1000 (a thousand mark) or 1 (a decimal comma)?"),
    (
        "1,000.5 g",
        Dimension.MASS,
        "1,000.5",
        "1,000.5 has a comma: write the number without marks between thousands and with a decimal point",
    ),
    ("1 000 g", Dimension.MASS, "1 000", "1 000 stands as two numbers: write 1000 if it is one"),
    ("5 7 min", Dimension.TIME, "5 7", "5 7 stands as two numbers: for a range, put a dash between them"),
    (
        "15 °C",
        Dimension.TEMPERATURE_DIFFERENCE,
        "°C",
        "15 °C is a temperature, a difference is wanted: 15 K (27 F°)?",
    ),
    (
        "27 °F",
        Dimension.TEMPERATURE_DIFFERENCE,
        "°F",
        "27 °F is a temperature, a difference is wanted: 15 K (27 F°)?",
    ),
    (
        "350 F°",
        Dimension.TEMPERATURE,
        "F°",
        "F° is a temperature difference, a temperature is wanted: 350 °F?",
    ),
    ("350 deg", Dimension.TEMPERATURE, "deg", "deg is an angle, a temperature is wanted: 350 °C or 350 °F?"),
    ("hot", Dimension.TEMPERATURE, "hot", '"hot" is not a number with a unit: write a number and °C or °F'),
    (
        "warm",
        Dimension.TEMPERATURE,
        "warm",
        '"warm" is not a number with a unit: write a number and °C or °F',
    ),
    (
        "a while",
        Dimension.TIME,
        "a while",
        '"a while" is not a number with a unit: write a number and s, min or h',
    ),
    (
        "some",
        Dimension.MASS,
        "some",
        '"some" is not a number with a unit: write a number and g, kg, oz or lb',
    ),
    ("thin", Dimension.LENGTH, "thin", '"thin" is not a number with a unit: write a number and mm, cm or in'),
    (
        "medium",
        Dimension.LENGTH,
        "medium",
        '"medium" is not a number with a unit: write a number and mm, cm or in',
    ),
    (
        "handful",
        Dimension.MASS,
        "handful",
        '"handful" is not a number with a unit: write a number and g, kg, oz or lb',
    ),
    (
        "until done",
        Dimension.TIME,
        "until done",
        '"until done" is not a number with a unit: write a number and s, min or h',
    ),
    ("", Dimension.MASS, "", "nothing is written here: write a number and g, kg, oz or lb"),
    (
        "nan mm",
        Dimension.LENGTH,
        "nan mm",
        '"nan mm" is not a number with a unit: write a number and mm, cm or in',
    ),
    ("inf", Dimension.LENGTH, "inf", '"inf" is not a number with a unit: write a number and mm, cm or in'),
    ("1e400 m", Dimension.LENGTH, "1e400", "1e400 has an exponent: write the number out in full"),
    ("٣ mm", Dimension.LENGTH, "٣ mm", "write numbers with the digits 0 to 9"),
    ("5٣ mm", Dimension.LENGTH, "٣ mm", "write numbers with the digits 0 to 9"),
    ("-5 g", Dimension.MASS, "-5 g", "a mass cannot be negative"),
    ("-300 °C", Dimension.TEMPERATURE, "-300 °C", "this is below absolute zero, -273.15 °C or -459.67 °F"),
    ("5 kg", Dimension.TIME, "kg", "kg is a mass, a time is wanted"),
    ("5 m", Dimension.TIME, "m", "m is a length, a time is wanted: 5 min?"),
    ("5 minn", Dimension.TIME, "minn", "minn is not a unit: did you mean min?"),
    ("5 Min", Dimension.TIME, "Min", "Min is not a unit: did you mean min?"),
    ("5 MIN", Dimension.TIME, "MIN", "MIN is not a unit: did you mean min?"),
    ("5 zork", Dimension.TIME, "zork", "zork is not a unit of time: write s, min or h"),
    ("3 mm mm", Dimension.LENGTH, "mm", "3 mm mm has two units: keep one"),
    ("3 mm thick", Dimension.LENGTH, "thick", '"thick" does not belong after 3 mm: write the quantity alone'),
    (
        "1 h 90 min",
        Dimension.TIME,
        "1 h 90 min",
        "1 h 90 min is two quantities: write one, or a range with a dash",
    ),
    (
        "20 °C 5 °F",
        Dimension.TEMPERATURE,
        "20 °C 5 °F",
        "20 °C 5 °F is two quantities: write one, or a range with a dash",
    ),
    ("1-1/2 in", Dimension.LENGTH, "1-1/2 in", "1-1/2 in is unclear: write 1 1/2 in, without the dash"),
    ("5'-6\"", Dimension.LENGTH, "5'-6\"", "5'-6\" is unclear: write 5' 6\", without the dash"),
    ("7-5 min", Dimension.TIME, "7-5 min", "the range runs backwards: write the smaller value first"),
    ("5-6-7 min", Dimension.TIME, "-7 min", "a range has one dash: write the low and the high value"),
    (
        "177 °C (350 °F)",
        Dimension.TEMPERATURE,
        "(350 °F)",
        "write one value: the other system of units is worked out for you",
    ),
    ("5 ± 1 mm", Dimension.LENGTH, "± 1 mm", '"± 1 mm" does not belong in a quantity'),
    ("1/0 in", Dimension.LENGTH, "1/0", "1/0 is not a number"),
    ("9" * 101, Dimension.MASS, "9" * 101, "101 characters are too many for a mass"),
]


@pytest.mark.parametrize(("text", "dimension", "wrong", "sentence"), ASKED)
def test_is_asked(text: str, dimension: Dimension, wrong: str, sentence: str) -> None:
    """A quantity that may be misread is answered with one sentence and the place of the wrong part."""
    with pytest.raises(QuantityError) as caught:
        parse(text, dimension)
    error = caught.value
    assert error.sentence == sentence
    start = text.rindex(wrong)  # the wrong part stands last where it occurs twice
    assert (error.start, error.end) == (start, start + len(wrong))


NEAR = st.text(alphabet="0123456789 .,-/½minftC°F\"'()e:to", max_size=100)


@given(st.text(max_size=120) | NEAR, st.sampled_from(Dimension))
def test_any_text_is_read_or_refused(text: str, dimension: Dimension) -> None:
    """Whatever is written, the answer is a quantity or a QuantityError whose offsets lie in the text."""
    refused: QuantityError | None = None
    try:
        quantity = parse(text, dimension)
    except QuantityError as error:
        refused = error
    if refused is None:
        assert quantity.low <= quantity.high
    else:
        assert refused.sentence
        assert 0 <= refused.start <= refused.end <= len(text)


@pytest.mark.parametrize("text", ["1 " * 50, "m " * 50, "1/" * 50, "1" * 100, " " * 99 + "x", "5 " + "m(" * 49])
def test_time_is_bounded(text: str) -> None:
    """No text of the longest length takes the patterns noticeably long."""
    start = time.perf_counter()
    with pytest.raises(QuantityError):
        parse(text, Dimension.LENGTH)
    assert time.perf_counter() - start < 0.1


@pytest.mark.parametrize(
    ("key", "expected"),
    [("5 mm", True), ("5", True), ("5 °C", True), ("mm", False), ("5 foo", False), ("oven", False)],
)
def test_split_decimal(key: str, expected: bool) -> None:
    """The key that a decimal comma leaves behind in a flow mapping is known by its digits and unit."""
    assert looks_like_split_decimal(key) is expected
