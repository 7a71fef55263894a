"""Reading a quantity: a number or a range with its unit, or one sentence that says what to write instead."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple, NoReturn

from recipes_core.quantities import ask
from recipes_core.quantities.patterns import (
    DASH,
    GAP,
    MALFORMED,
    NUMBER,
    SIGN,
    SKIP,
    UNIT,
    VULGAR,
)
from recipes_core.quantities.quantity import Quantity, QuantityError
from recipes_core.quantities.units import UNITS, Dimension, Unit, plain

LONGEST = 100  # characters; no quantity is longer
_COMPOUND = {Dimension.TIME, Dimension.LENGTH, Dimension.MASS}  # 1 h 30 min, 5 ft 6 in, 2 lb 3 oz
_SIGNED = {Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE}


class _Part(NamedTuple):
    """One number with its unit, and where both stand."""

    number: float
    step: float
    unit: Unit | None
    start: int
    number_end: int
    end: int


@lru_cache(maxsize=4096)  # a library says the same few hundred things over and over
def parse(text: str, dimension: Dimension) -> Quantity:
    """Read ``text`` as a quantity of ``dimension``; the result is in SI. Raises QuantityError."""
    if len(text) > LONGEST:
        raise QuantityError(f"{len(text)} characters are too many for {dimension.noun}", 0, len(text))
    return _Reader(text, dimension).quantity()


def units_in(text: str, dimension: Dimension) -> tuple[tuple[int, int, Unit], ...]:
    """Where each unit stands in a text that `parse` reads, and which unit it is. Raises QuantityError as `parse`."""
    parse(text, dimension)
    reader = _Reader(text, dimension)
    reader.quantity()
    return tuple(reader.found)


class _Reader:
    """Reads one text from left to right; ``at`` is the next character, ``found`` are the units so far."""

    def __init__(self, text: str, dimension: Dimension) -> None:
        self.text = text
        self.dimension = dimension
        self.units = UNITS[dimension]
        self.at = 0
        self.found: list[tuple[int, int, Unit]] = []

    def quantity(self) -> Quantity:
        self._skip(SKIP)
        low = high = self._side()
        if self._skip(DASH):
            high = self._side()
            if low[-1].unit is None and len(low) == len(high) == 1:  # 5-7 min: the unit is said once
                low = [low[0]._replace(unit=high[0].unit)]
            if DASH.match(self.text, self.at):
                sentence = "a range has one dash: write the low and the high value"
                self._refuse(sentence, self.at, len(self.text.rstrip()))
            if high[-1].unit is None:
                start = low[0].start if low[-1].unit is None else high[-1].start
                self._refuse(ask.no_unit(self.text[start : self.at], self.dimension), start, self.at)
        self._skip(SKIP)
        if self.at < len(self.text):
            self._surplus()
        first, second = self._total(low), self._total(high)
        if first > second:
            self._backwards(low, high)
        unit = low[0].unit
        assert unit is not None  # _total asked for it
        step = min(part.step * part.unit.factor for part in (low[-1], high[-1]) if part.unit)
        return Quantity(first, second, self.text, self.dimension, unit.name, step)

    def _side(self) -> list[_Part]:
        """One end of the range: parts such as 1 h and 30 min."""
        start = self.at
        sign = -1.0 if self._skip(SIGN) else 1.0
        parts = [self._part(sign)._replace(start=start)]
        while True:
            self._skip(SKIP)
            if self.at == len(self.text) or not NUMBER.match(self.text, self.at):
                return parts
            if parts[-1].unit is None:
                start = parts[-1].start
                self._number()
                self._refuse(ask.side_by_side(self.text[start : self.at]), start, self.at)
            parts.append(self._part(1.0))

    def _part(self, sign: float) -> _Part:
        value, step, start = self._number()
        number_end = self.at
        self._skip(SKIP)
        match = UNIT.match(self.text, self.at)
        if match is None:
            self.at = number_end
            return _Part(sign * value, step, None, start, number_end, number_end)
        unit = self.units.get(match[0]) or self.units.get(plain(match[0]))
        if unit is None:
            sentence, wrong = ask.wrong_unit(match[0], self.text[start:number_end], self.dimension)
            self._refuse(sentence, match.end() - len(wrong), match.end())
        self.at = match.end()
        self.found.append((match.start(), self.at, unit))
        return _Part(sign * value, step, unit, start, number_end, self.at)

    def _number(self) -> tuple[float, float, int]:
        """The number here, the step its digits claim, and where it starts."""
        start = self.at
        if malformed := MALFORMED.match(self.text, start):
            self._refuse(ask.malformed(malformed[0]), start, malformed.end())
        match = NUMBER.match(self.text, start)
        if match is None:
            self._not_a_number()
        self.at = match.end()
        if decimal := match["decimal"]:
            return float(decimal), 10.0 ** -len(decimal.partition(".")[2]), start
        top, bottom = VULGAR[match["vulgar"]] if match["vulgar"] else (int(match["top"]), int(match["bottom"]))
        whole = int(match["whole"] or match["count"] or 0)
        if bottom == 0 or (whole and top >= bottom):
            self._refuse(f"{match[0]} is not a number", start, self.at)
        return whole + top / bottom, 1 / bottom, start

    def _total(self, parts: list[_Part]) -> float:
        """The SI value of one side, checked for units that fit together and for a sign that makes sense."""
        value = 0.0
        before: _Part | None = None
        for part in parts:
            if part.unit is None:
                number = self.text[part.start : part.number_end]
                self._refuse(ask.no_unit(number, self.dimension), part.start, part.number_end)
            if before is not None:
                self._follows(before, part)
            value += part.number * part.unit.factor + part.unit.offset
            before = part
        start, end = parts[0].start, parts[-1].end
        if value < 0 and self.dimension not in _SIGNED:
            self._refuse(f"{self.dimension.noun} cannot be negative", 0, end)
        if value < 0 and self.dimension is Dimension.TEMPERATURE:
            self._refuse("this is below absolute zero, -273.15 °C or -459.67 °F", 0 if start < 3 else start, end)
        return value

    def _follows(self, before: _Part, part: _Part) -> None:
        """Refuses a second part that is not a part of the first's unit: 1 h 30 min, not 1 h 90 min."""
        if not self._continues(before, part):
            words = self.text[before.start : part.end]
            self._refuse(f"{words} is two quantities: write one, or a range with a dash", before.start, part.end)

    def _continues(self, before: _Part, part: _Part) -> bool:
        assert before.unit is not None
        assert part.unit is not None
        return (
            self.dimension in _COMPOUND
            and before.unit.inch_pound == part.unit.inch_pound
            and before.number.is_integer()
            and 0 <= part.number * part.unit.factor < before.unit.factor
        )

    def _backwards(self, low: list[_Part], high: list[_Part]) -> NoReturn:
        start, end = low[0].start, high[-1].end
        fraction = "/" in self.text[high[0].start : high[0].number_end]
        if fraction or self._continues(low[-1], high[0]):  # 1-1/2 in and 5'-6", as they are said in workshops
            left = self.text[start : low[-1].end]
            joined = f"{left} {self.text[high[0].start : end]}"
            self._refuse(f"{self.text[start:end]} is unclear: write {joined}, without the dash", start, end)
        self._refuse("the range runs backwards: write the smaller value first", start, end)

    def _not_a_number(self) -> NoReturn:
        rest = self.text[self.at :]
        if not rest.strip():
            self._refuse(ask.no_number(self.text.strip(), self.dimension), 0, len(self.text))
        if any(c.isdecimal() and not c.isascii() for c in rest):
            self._refuse("write numbers with the digits 0 to 9", self.at, len(self.text))
        lead = re.match(r"[^0-9]*", rest)
        word = lead[0].strip() if lead else ""
        if len(word) == len(rest.strip()):
            self._refuse(ask.no_number(word, self.dimension), self.at, self.at + len(rest.rstrip()))
        sentence = f'"{word}" is not a number: write the number alone, or a range from low to high'
        self._refuse(sentence, self.at, self.at + len(word))

    def _surplus(self) -> NoReturn:
        rest = self.text[self.at :].rstrip()
        end = self.at + len(rest)
        if any(c.isdecimal() and not c.isascii() for c in rest):
            self._refuse("write numbers with the digits 0 to 9", self.at, end)
        if rest[0] == "(":
            sentence = "write one value: the other system of units is worked out for you"
            self._refuse(sentence, self.at, end)
        self._refuse(f'"{rest}" does not belong in a quantity', self.at, end)

    def _skip(self, pattern: re.Pattern[str]) -> bool:
        match = pattern.match(self.text, self.at)
        if match is None:
            return False
        self.at = match.end()
        return True

    def _refuse(self, sentence: str, start: int, end: int) -> NoReturn:
        raise QuantityError(sentence, start, end)


def looks_like_split_decimal(key: str) -> bool:
    """Whether a key is what YAML leaves behind a decimal comma: ``5 mm``, of ``{length: 3,5 mm}``."""
    match = re.fullmatch(rf"[0-9]{{1,10}}{GAP}*(.{{0,30}})", key)
    return match is not None and (not match[1] or any(plain(match[1]) in table for table in UNITS.values()))
