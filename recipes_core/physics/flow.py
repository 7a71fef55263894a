"""How stiff a melt is: from melt flow rate, from a power law, and from the Cross-WLF model."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.ageing import GAS_CONSTANT
from recipes_core.physics.arrays import Floats, floats

_DIE_RADIUS, _DIE_LENGTH = 2.095e-3 / 2.0, 8.0e-3  # m, melt-flow die of ISO 1133
_PISTON_AREA = math.pi * (9.55e-3 / 2.0) ** 2  # m²
_GRAVITY = 9.80665


def melt_flow_shear(melt_flow: ArrayLike, melt_density: ArrayLike, load: ArrayLike = 2.16) -> tuple[Floats, Floats]:
    """Apparent shear rate (1/s) and viscosity (Pa s) in the die of a melt flow test.

    ``melt_flow`` in kg/s (1 g/10 min is 1/600 000), density of the melt in kg/m³, load in kg. Rate 4Q/(πR³),
    wall stress Δp R/(2L), uncorrected for entry loss and shear thinning. Die bore and load: record of a
    melt-flow reference material (published); die length and piston: memory (usually cited to ISO 1133-1).
    """
    rate = 4.0 * floats(melt_flow) / floats(melt_density) / (math.pi * _DIE_RADIUS**3)
    stress = floats(load) * _GRAVITY / _PISTON_AREA * _DIE_RADIUS / (2.0 * _DIE_LENGTH)
    return rate, stress / rate


def power_law(consistency: ArrayLike, index: ArrayLike, rate: ArrayLike) -> Floats:
    """Viscosity η = K rateⁿ⁻¹, Pa s, from Pa sⁿ and 1/s; for processing shear, not below about 1/s
    (definition).
    """
    return floats(consistency) * floats(rate) ** (floats(index) - 1.0)


def temperature_shift(temperature: ArrayLike, reference: ArrayLike, flow_energy: ArrayLike) -> Floats:
    """Viscosity against that at the reference, exp(E/R (1/T − 1/T₀)), from K and J/mol.

    Arrhenius form for melts well above Tg or Tm (HDPE 150-230 °C: J. Rheol. 40 (1996) 1079, published,
    abstract).
    """
    return np.exp(floats(flow_energy) / GAS_CONSTANT * (1.0 / floats(temperature) - 1.0 / floats(reference)))


@dataclass(frozen=True)
class CrossWlf:
    """η = η₀/(1 + (η₀ rate/τ)¹⁻ⁿ), η₀ = d1 exp(−a1 (T − T*)/(a2 + T − T*)); Pa, Pa s and K.

    Form: Krebelj et al., Polymers 13 (2021) 138 and its open data (published).
    """

    index: float
    tau: float
    d1: float
    t_star: float
    a1: float
    a2: float

    def zero_shear(self, temperature: ArrayLike) -> Floats:
        """Viscosity at rest η₀, Pa s, at K."""
        over = floats(temperature) - self.t_star
        return self.d1 * np.exp(-self.a1 * over / (self.a2 + over))

    def viscosity(self, temperature: ArrayLike, rate: ArrayLike) -> Floats:
        """Viscosity at a shear rate (1/s), Pa s."""
        rest = self.zero_shear(temperature)
        return rest / (1.0 + (rest * floats(rate) / self.tau) ** (1.0 - self.index))

    def tangent(self, temperature: ArrayLike, rate: ArrayLike) -> tuple[Floats, Floats]:
        """Consistency K (Pa sⁿ) and index n of the power law that touches the model at a shear rate (1/s).

        The model's curve is hollow downwards in logarithms, so the tangent lies on or above it at every rate.
        """
        thinning = (self.zero_shear(temperature) * floats(rate) / self.tau) ** (1.0 - self.index)
        index = 1.0 - (1.0 - self.index) * thinning / (1.0 + thinning)
        return floats(self.viscosity(temperature, rate) * floats(rate) ** (1.0 - index)), floats(index)
