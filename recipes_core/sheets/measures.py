"""How the words of a data sheet become numbers: a dimension with its units, a plain number, or text."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from recipes_core.quantities import Dimension, QuantityError, parse


@dataclass(frozen=True)
class Plain:
    """A number with one fixed unit (or none), for what a bench never measures; SI = number x factor."""

    unit: str = ""
    factor: float = 1.0


@dataclass(frozen=True)
class Words:
    """A text, or with ``many`` a list of texts."""

    many: bool = False


Measure = Dimension | Plain | Words
Number = float | tuple[float, float]
Table = tuple[tuple[float, ...], tuple[float, ...]]

_NUMBER = re.compile(r"(-?[0-9]+(?:\.[0-9]+)?)(?: - (-?[0-9]+(?:\.[0-9]+)?))?(?: (.*))?")


class MeasureError(ValueError):
    """Words that cannot be read as what they should measure; the text is a sentence for a person."""


def read_number(words: str | tuple[str, ...], measure: Dimension | Plain) -> Number:
    """The number, or the (low, high) range, in SI. Raises MeasureError."""
    if not isinstance(words, str):
        raise MeasureError("one value belongs here, not a list")
    if isinstance(measure, Plain):
        return _plain(words, measure)
    try:
        quantity = parse(words, measure)
    except QuantityError as error:
        raise MeasureError(error.sentence) from None
    return quantity.low if quantity.low == quantity.high else (quantity.low, quantity.high)


def read(words: str | tuple[str, ...], measure: Measure) -> Number | str | tuple[str, ...]:
    """The value in SI, or the text or list of texts. Raises MeasureError."""
    if not isinstance(measure, Words):
        return read_number(words, measure)
    if measure.many != isinstance(words, tuple):
        raise MeasureError("write a list: [hdpe, ldpe]" if measure.many else "write one text, not a list")
    return words


def read_table(lines: Mapping[str, str], measure: Measure, over: Dimension = Dimension.TEMPERATURE) -> Table:
    """The pair (points, values), both in SI, of a curve over ``over``. Raises MeasureError."""
    if isinstance(measure, Words):
        raise MeasureError("a text has no table")
    at: list[float] = []
    values: list[float] = []
    for key, words in lines.items():
        point, value = read_number(key, over), read_number(words, measure)
        if isinstance(point, tuple) or isinstance(value, tuple):
            raise MeasureError("a table holds single values, no ranges")
        if at and point <= at[-1]:
            raise MeasureError(f"the {over.noun.split()[-1]}s of a table must rise from line to line")
        at.append(point)
        values.append(value)
    return tuple(at), tuple(values)


def ends(value: Number) -> tuple[float, float]:
    """The lower and upper end; both are the value itself where it is no range."""
    return value if isinstance(value, tuple) else (value, value)


def _plain(words: str, measure: Plain) -> Number:
    match = _NUMBER.fullmatch(words)
    if match is None or (match[3] or "") != measure.unit:
        raise MeasureError(f'"{words}" cannot be read here: write a number such as {f"5 {measure.unit}".strip()}')
    low = float(match[1]) * measure.factor
    if match[2] is None:
        return low
    high = float(match[2]) * measure.factor
    if low > high:
        raise MeasureError("the range runs backwards: write the smaller value first")
    return low, high
