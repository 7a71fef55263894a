"""Two bodies brought into contact: the temperature their faces take at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


def effusivity(conductivity: ArrayLike, density: ArrayLike, heat_capacity: ArrayLike) -> Floats:
    """Thermal effusivity b = √(k ρ c), W s½/(m² K), from W/(m K), kg/m³ and J/(kg K)."""
    return np.sqrt(floats(conductivity) * floats(density) * floats(heat_capacity))


def contact_temperature(
    temperature: ArrayLike, effusivity: ArrayLike, other_temperature: ArrayLike, other_effusivity: ArrayLike
) -> Floats:
    """Contact temperature of two semi-infinite bodies, T = (b₁ T₁ + b₂ T₂)/(b₁ + b₂), in K.

    Holds for perfect contact and until either body's far side feels it, t < about s²/(16 α); neither body may
    change phase. Source: Carslaw and Jaeger, Conduction of Heat in Solids, 1959 (memory); stated alike on
    several reference pages (published).
    """
    b1, b2 = floats(effusivity), floats(other_effusivity)
    return (b1 * floats(temperature) + b2 * floats(other_temperature)) / (b1 + b2)
