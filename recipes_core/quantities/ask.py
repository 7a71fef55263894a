"""The sentences that ask an author what a quantity was meant to be; each offers the choices."""

from __future__ import annotations

import re
from collections.abc import Sequence

from recipes_core.quantities.units import AMBIGUOUS, CHOICES, MISTAKEN, UNITS, Dimension, Unit, plain


def either(items: Sequence[str]) -> str:
    """``a``, ``a or b``, ``a, b or c``."""
    return items[0] if len(items) == 1 else ", ".join(items[:-1]) + " or " + items[-1]


def _offer(number: str, units: Sequence[str]) -> str:
    return either([f"{number} {unit}" for unit in units]) + "?"


def no_unit(number: str, dimension: Dimension) -> str:
    """A number that stands alone: 350 °C or 350 °F?"""
    if dimension is Dimension.SHARE:
        as_share = f"{float(number) * 100:.10g} % or " if re.fullmatch(r"0?\.[0-9]+|[01]", number) else ""
        return f"{number} has no unit: {as_share}{number} %?"
    return f"{number} has no unit: {_offer(number, CHOICES[dimension])}"


def no_number(text: str, dimension: Dimension) -> str:
    """Words where a number is wanted."""
    what = f'"{text}" is not a number with a unit' if text else "nothing is written here"
    return f"{what}: write a number and {either(CHOICES[dimension])}"


def malformed(number: str) -> str:
    """A number with a comma, a colon or an exponent."""
    if ":" in number:
        parts = [str(int(part or 0)) for part in number.split(":")]
        if len(parts) == 2:
            return f"{number} is unclear: {parts[0]} min {parts[1]} s or {parts[0]} h {parts[1]} min?"
        return f"{number} is a time of day: write it with units, such as 1 h 5 min 30 s"
    if "," not in number:
        return f"{number} has an exponent: write the number out in full"
    joined = number.replace(",", "")
    if re.fullmatch(r"[0-9]{1,3},[0-9]{3}", number):
        pointed = f"{float(number.replace(',', '.')):g}"
        return f"{number} is unclear: {joined} (a thousand mark) or {pointed} (a decimal comma)?"
    if re.fullmatch(r"[0-9]+,[0-9]+", number):
        return f"{number} has a decimal comma: write {number.replace(',', '.')}, with a point"
    return f"{number} has a comma: write the number without marks between thousands and with a decimal point"


def side_by_side(numbers: str) -> str:
    """Two numbers with no unit between them."""
    if re.fullmatch(r"[0-9]{1,3}\s[0-9]{3}", numbers):
        return f"{numbers} stands as two numbers: write {''.join(numbers.split())} if it is one"
    return f"{numbers} stands as two numbers: for a range, put a dash between them"


def wrong_unit(spelling: str, number: str, dimension: Dimension) -> tuple[str, str]:
    """What to say of a unit that is ambiguous, foreign, one too many, misspelt or unknown, and its place."""
    word = plain(spelling)
    if choices := AMBIGUOUS.get(dimension, {}).get(word):
        return f"{spelling} is unclear: {_offer(number, choices)}", spelling
    if (known := _unit_anywhere(word)) is not None:
        return _other_dimension(spelling, number, known, dimension), spelling
    head, *tail = spelling.split(maxsplit=1)
    if tail and head in UNITS[dimension]:
        if _unit_anywhere(plain(tail[0])) is not None:
            return f"{number} {spelling} has two units: keep one", tail[0]
        sentence = f'"{tail[0]}" does not belong after {number} {head}: write the quantity alone'
        return sentence, tail[0]
    if near := _nearest(word, UNITS[dimension]):
        return f"{spelling} is not a unit: did you mean {near}?", spelling
    name = dimension.value.replace("_", " ")
    return f"{spelling} is not a unit of {name}: write {either(CHOICES[dimension])}", spelling


def _unit_anywhere(word: str) -> tuple[str, Dimension] | None:
    for dimension, table in UNITS.items():
        if word in table:
            return table[word].name, dimension
    for dimension, words in AMBIGUOUS.items():
        if word in words:
            return word, dimension
    return None


def _other_dimension(spelling: str, number: str, known: tuple[str, Dimension], wanted: Dimension) -> str:
    name, dimension = known
    if wanted is Dimension.TEMPERATURE_DIFFERENCE and dimension is Dimension.TEMPERATURE:
        return f"{number} {name} is a temperature, a difference is wanted: {_difference(number, name)}?"
    choices = MISTAKEN.get((wanted, name))
    offer = f": {_offer(number, choices)}" if choices else ""
    return f"{spelling} is {dimension.noun}, {wanted.noun} is wanted{offer}"


def _difference(number: str, unit: str) -> str:
    """As many degrees, as a difference in both systems: 15 K (27 F°)."""
    try:
        degrees = float(number)
    except ValueError:  # a fraction such as 1 1/2
        return f"{number} K" if unit == "°C" else f"{number} F°"
    kelvin, fahrenheit = (degrees, degrees * 9 / 5) if unit == "°C" else (degrees * 5 / 9, degrees)
    return f"{round(kelvin, 1):g} K ({round(fahrenheit, 1):g} F°)"


def _nearest(word: str, table: dict[str, Unit]) -> str | None:
    from difflib import get_close_matches  # only a mistake pays for this import

    same_letters = [name for name in table if name.casefold() == word.casefold()]
    return next(iter(same_letters or get_close_matches(word, table, n=1, cutoff=0.6)), None)
