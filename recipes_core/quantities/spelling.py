"""A quantity with its units as meltbook prints them: the same number, the same unit, only spelt alike."""

from __future__ import annotations

from recipes_core.quantities.parse import LONGEST, units_in
from recipes_core.quantities.quantity import QuantityError
from recipes_core.quantities.units import AMBIGUOUS, UNITS, Dimension, plain

MOST_UNITS = 8
"""A range of two parts at each end has four; a text with more slips than this is left alone."""

_ASKED = frozenset(name for words in AMBIGUOUS.values() for choices in words.values() for name in choices)


def spelled(text: str, dimension: Dimension) -> str | None:
    """``text`` with each unit as meltbook prints it: ``177 degC`` and ``177 c`` are ``177 °C``.

    A unit that is already spelt so keeps the space before it as it is. None for a text that cannot be read, unless
    capitals alone stand in the way and only one unit can have been meant.
    """
    written = text
    for _ in range(MOST_UNITS):
        try:
            found = units_in(written, dimension)
        except QuantityError as error:
            meant = _meant(written[error.start : error.end], dimension)
            if meant is None:
                return None
            written = written[: error.start] + meant + written[error.end :]
            continue
        for start, end, unit in reversed(found):
            written = _put(written, start, end, unit.name)
        return written if len(written) <= LONGEST else text
    return None


def _put(text: str, start: int, end: int, name: str) -> str:
    if text[start:end] == name or name[0].isdigit():  # 120 rpm is easier to read than 120 1/min
        return text
    before = "" if text[start - 1].isspace() else " "
    after = " " if text[end : end + 1].isalnum() else ""  # 5'6" is 5 ft 6 in
    return f"{text[:start]}{before}{name}{after}{text[end:]}"


def _meant(word: str, dimension: Dimension) -> str | None:
    """The spelling that ``word`` is but for its capitals, where they cannot change what it means."""
    written, table = plain(word), UNITS[dimension]
    folded = written.casefold()
    if any(written in words for words in UNITS.values()) or folded in AMBIGUOUS.get(dimension, {}):
        return None
    near = [spelling for spelling in table if spelling.casefold() == folded]
    if len({table[spelling].name for spelling in near}) != 1:
        return None
    meant = near[0]
    if len(meant) == 1 and meant in _ASKED:  # 4 T may be short tons
        return None
    if folded[0] == "m" and written[0] != meant[0] and (len(folded) == 1 or _is_unit(folded[1:], dimension)):
        return None  # m is a thousandth, M a million: nobody but the author knows
    return meant


def _is_unit(folded: str, dimension: Dimension) -> bool:
    return any(spelling.casefold() == folded for spelling in UNITS[dimension])
