"""The spread: one nominal shop and 64 plausible ones, the same on every machine.

A member keeps its index through the whole recipe, so that its oven is off by the same amount in every step.
The 64 members are 32 points of an additive recurrence (multiples of square roots, modulo one), each column
replaced by its ranks so that every factor is stratified exactly, and the 32 mirror images. The numbers under
the roots were picked so that no two factors are correlated by more than 0.2. The widths of the factors are
judgement and say so where they are used.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

FACTORS = {
    "oven air": 2,
    "loading": 24,
    "convection": 40,
    "emissivity of the plastic": 33,
    "emissivity of the metal": 165,
    "bed conductivity": 120,
    "latent heat": 48,
    "heat capacity": 174,
    "outside of the mould": 17,
    "shop air": 91,
    "transfer": 124,
    "closing": 115,
    "shrinkage": 42,
}
MEMBERS = 64


@cache
def unit(factor: str) -> Array:
    """The place of each plausible member between 0 and 1 for one factor; shape (64,), mirrored in halves."""
    import numpy as np  # here, so that listing and explaining stay light

    index = np.arange(1, MEMBERS // 2 + 1)
    point = np.mod(index * np.sqrt(FACTORS[factor]), 1.0)
    ranked = (np.argsort(np.argsort(point)) + 0.5) / len(index)
    return np.concatenate([ranked, 1.0 - ranked])


def members(factor: str, nominal: float, low: float, high: float) -> Array:
    """One value per member, shape (65,): the nominal one first, the others uniform between low and high."""
    import numpy as np

    return np.concatenate([[nominal], low + (high - low) * unit(factor)])


@dataclass(frozen=True)
class Band:
    """A number that differs between plausible shops: its nominal value, and the ends it is uniform between."""

    factor: str
    nominal: float
    low: float
    high: float

    def members(self, sets: int = 1) -> Array:
        """One value per member, ``sets`` times over; shape (65 × sets,)."""
        import numpy as np

        return np.tile(members(self.factor, self.nominal, self.low, self.high), sets)
