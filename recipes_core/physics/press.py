"""Press mechanics: pressure, the force at which melt squeezes flat, and the energy a loaded frame stores."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


def pressure(force: ArrayLike, projected_area: ArrayLike) -> Floats:
    """Mean pressure on the part p = F/A, Pa, from N and m² (definition)."""
    return floats(force) / floats(projected_area)


def needed_force(pressure: ArrayLike, projected_area: ArrayLike) -> Floats:
    """Force for a mean pressure F = p A, N, from Pa and m² (definition)."""
    return floats(pressure) * floats(projected_area)


def working_force(rating: ArrayLike, share: ArrayLike) -> Floats:
    """Force a jack is worked at, N: its rating times the share used (0.5 to 0.8 is common practice)."""
    return floats(rating) * floats(share)


def stored_energy(force: ArrayLike, deflection: ArrayLike) -> Floats:
    """Elastic energy in a linear frame or a jack train, E = F d/2, J, from N and m (definition)."""
    return 0.5 * floats(force) * floats(deflection)


def disc_radius(area: ArrayLike) -> Floats:
    """Radius of the disc with the same area as a plate, R = √(A/π), m; fair up to a side ratio of about 2."""
    return np.sqrt(floats(area) / math.pi)


def squeeze_force(
    radius: ArrayLike, gap: ArrayLike, speed: ArrayLike, *, consistency: ArrayLike, index: ArrayLike
) -> Floats:
    """Force to squeeze a film of power-law melt between discs, N.

    F = 2πK/(n + 3) ((2n + 1)/n)ⁿ Rⁿ⁺³ vⁿ/h²ⁿ⁺¹ for shear stress K rateⁿ; n = 1 gives the Newtonian 3πη R⁴
    v/(2h³). Radius and gap in m, closing speed in m/s, consistency K in Pa sⁿ, 0 < n <= 1. Holds for h well
    below R, sticking faces, isothermal melt that fills the gap. Source: Stefan 1874, Scott 1931 (memory);
    constants derived anew.
    """
    n = floats(index)
    shape = 2.0 * math.pi * floats(consistency) / (n + 3.0) * ((2.0 * n + 1.0) / n) ** n
    return shape * floats(radius) ** (n + 3.0) * floats(speed) ** n / floats(gap) ** (2.0 * n + 1.0)


def closing_time(
    radius: ArrayLike,
    start_gap: ArrayLike,
    end_gap: ArrayLike,
    force: ArrayLike,
    *,
    consistency: ArrayLike,
    index: ArrayLike,
) -> Floats:
    """Time to close from one gap to a smaller one under a constant force, s.

    The integral of ``squeeze_force`` solved for speed: t = (2πK Rⁿ⁺³/((n + 3) F))^(1/n) (2n + 1)/(n + 1)
    (h₁^−(n+1)/n − h₀^−(n+1)/n). Units, limits and source as there.
    """
    n = floats(index)
    start, end = floats(start_gap), floats(end_gap)
    drive = 2.0 * math.pi * floats(consistency) * floats(radius) ** (n + 3.0) / ((n + 3.0) * floats(force))
    power = -(n + 1.0) / n
    return drive ** (1.0 / n) * (2.0 * n + 1.0) / (n + 1.0) * (end**power - start**power)
