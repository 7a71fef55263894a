"""A strip bent round a former: how far its outer face is stretched, and how long it must be before the bend."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


def outer_strain(thickness: ArrayLike, radius: ArrayLike) -> Floats:
    """Strain of the outer face, ε = t/(2R + t), of thickness t bent to the inside radius R, both in m.

    Geometry: the middle of the thickness keeps its length. Holds for pure bending; a strip that is pulled round its
    former is stretched more.
    """
    t = floats(thickness)
    return floats(t / (2.0 * floats(radius) + t))


def bend_allowance(angle: ArrayLike, radius: ArrayLike, thickness: ArrayLike, neutral: ArrayLike) -> Floats:
    """Length of the strip that goes into the bend, BA = θ (R + K t), m, θ being the angle turned through, rad.

    ``neutral`` is K, how far from the inner face, as a share of t, the length stays the same: 0.5 in a sheet that is
    soft throughout, 0.35 to 0.45 where it was heated from one side (common practice). Sheet-metal tables print the
    same formula with K near 0.45.
    """
    return floats(floats(angle) * (floats(radius) + floats(neutral) * floats(thickness)))


def flat_length(
    legs: ArrayLike, angle: ArrayLike, radius: ArrayLike, thickness: ArrayLike, allowance: ArrayLike
) -> Floats:
    """Length before the bend, m: ``legs`` (both together) less two setbacks, (R + t) tan(θ/2) each, plus allowance.

    Legs run from their ends to the corner where their outer faces would meet, so θ must stay below π.
    """
    setback = (floats(radius) + floats(thickness)) * np.tan(0.5 * floats(angle))
    return floats(floats(legs) - 2.0 * setback + floats(allowance))
