"""When a touched surface burns skin, and what a heat glove is tested for.

The thresholds are from memory, of the kind usually cited to ISO 13732-1, whose tables were not seen: show
them as "commonly quoted; check the standard", never as the standard's word.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


class Surface(StrEnum):
    """What the skin touches."""

    BARE_METAL = "bare metal"
    COATED_METAL = "coated metal"
    CERAMIC = "ceramic, glass, stone"
    PLASTIC = "plastic"
    WOOD = "wood"


_LOG_TIMES = np.log([1.0, 10.0, 60.0, 600.0, 28_800.0])  # s
_THRESHOLDS: Mapping[Surface, tuple[float, ...]] = MappingProxyType(
    {  # °C at those times; the lower end where a span is quoted. Basis: memory
        Surface.BARE_METAL: (65.0, 55.0, 51.0, 48.0, 43.0),
        Surface.COATED_METAL: (68.0, 56.0, 51.0, 48.0, 43.0),
        Surface.CERAMIC: (75.0, 60.0, 56.0, 48.0, 43.0),
        Surface.PLASTIC: (85.0, 70.0, 60.0, 48.0, 43.0),
        Surface.WOOD: (99.0, 80.0, 60.0, 48.0, 43.0),
    }
)
_GLOVE = MappingProxyType({1: 373.15, 2: 523.15, 3: 623.15, 4: 773.15})  # K, EN 407 contact heat


def burn_threshold(surface: Surface, contact_time: ArrayLike) -> Floats:
    """Surface temperature, K, at which contact of that length (s) begins to burn healthy skin.

    Linear in the logarithm of time between 1 s and 8 h; the end values hold outside, so below 1 s the answer
    is on the careful side. Basis: memory (usually cited to ISO 13732-1); one point agrees with text seen: no
    burn under 65 °C for bare metal and up to 0.5 s.
    """
    seconds = np.maximum(floats(contact_time), 1e-3)
    return floats(np.interp(np.log(seconds), _LOG_TIMES, _THRESHOLDS[surface])) + 273.15


def glove_temperature(contact_level: int, flame_level: int = 0) -> float:
    """Contact temperature, K, at which a glove of an EN 407 contact-heat level (1-4) was tested.

    Levels 3 and 4 count only with a flame level of 3 or more, else as level 2. The test allows a rise of 10 K
    inside after 15 s: a test time, not a working allowance. Source: test laboratory's page on EN 407
    (published, secondary). Raises ValueError for a level that does not exist.
    """
    if contact_level not in _GLOVE:
        raise ValueError(f"EN 407 has no contact-heat level {contact_level}")
    return _GLOVE[contact_level if flame_level >= 3 else min(contact_level, 2)]
