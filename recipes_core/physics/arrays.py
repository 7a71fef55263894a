"""What numpy lacks for our closed forms: the error function on arrays, and one bracketed root finder."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

_ERF = np.frompyfunc(math.erf, 1, 1)
_ERFC = np.frompyfunc(math.erfc, 1, 1)


def floats(values: ArrayLike) -> Floats:
    """The values as an array of floats; a scalar becomes an array without axes."""
    return np.asarray(values, dtype=np.float64)


def erf(x: ArrayLike) -> Floats:
    """Error function, to double precision (the C library's, element by element)."""
    return floats(_ERF(floats(x)))


def erfcx(x: ArrayLike) -> Floats:
    """Scaled complementary error function exp(x²) erfc(x) for x >= 0, without overflow at large x."""
    x = floats(x)
    near = np.minimum(x, 25.0)
    far = np.maximum(x, 25.0)
    i = 1.0 / (2.0 * far**2)
    series = (1.0 - i * (1.0 - i * (3.0 - i * (15.0 - i * 105.0)))) / (far * math.sqrt(math.pi))
    return np.where(x <= 25.0, np.exp(near**2) * floats(_ERFC(near)), series)


def bisect(rising: Callable[[Floats], Floats], low: float, high: float, shape: tuple[int, ...]) -> Floats:
    """Roots of an increasing function, one per element, between ``low`` and ``high``, by 60 halvings.

    Where the function has no sign change the nearer end is returned.
    """
    lows, highs = np.full(shape, low), np.full(shape, high)
    for _ in range(60):
        middle = 0.5 * (lows + highs)
        above = rising(middle) > 0.0
        lows, highs = np.where(above, lows, middle), np.where(above, middle, highs)
    return floats(0.5 * (lows + highs))
