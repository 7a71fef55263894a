"""How far blades must lie behind an opening that a hand can go into: ISO 13857:2019, Table 4.

The values are those an engineering consultant's page reproduces; they hold for persons of 14 years and over.
"""

from __future__ import annotations

from math import inf

from recipes_core.plugin_api import Dimension, above

MM = 0.001
TABLE: tuple[tuple[float, float, float, float], ...] = (
    (4, 2, 2, 2),
    (6, 10, 5, 5),
    (8, 20, 15, 5),
    (10, 80, 25, 20),
    (12, 100, 80, 80),
    (20, 120, 120, 120),
    (30, 850, 120, 120),
    (40, 850, 200, 120),
    (120, 850, 850, 850),
)
"""Opening up to (mm) → least distance (mm) behind a slot, a square, a round opening."""
COLUMNS = {"slot": 1, "square": 2, "round": 3}
SHORT_SLOT = 65 * MM
"""A slot up to 30 mm wide and no longer than this lets the thumb stop the hand: 200 mm are enough (Table 4, note)."""
WIDEST = TABLE[-1][0] * MM


def distance(shape: str, size: float, length: float | None = None) -> float:
    """The least distance (m) behind an opening of this size (m); infinite over 120 mm, where the table ends.

    ``size`` is the width of a slot, the side of a square, a diameter. A slot of unknown ``length`` counts as long.
    """
    for row in TABLE:
        if above(size, row[0] * MM, Dimension.LENGTH):
            continue
        short = shape == "slot" and length is not None and not above(length, SHORT_SLOT, Dimension.LENGTH)
        return 200 * MM if short and row[0] == 30 else row[COLUMNS[shape]] * MM
    return inf
