"""Pressure-volume-temperature laws of polymers: Tait's equation for the melt, and for melt and solid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats

ATMOSPHERE = 101_325.0  # Pa
_C = 0.0894  # Tait's universal constant
_ICE = 273.15


@dataclass(frozen=True)
class Tait:
    """One-domain Tait equation of a melt: v = v₀ (1 − C ln(1 + p/B)).

    v₀ = a0 + a1 t + a2 t², B = b0 exp(−b1 t), t in °C; a in m³/kg, b0 in Pa. Good to 0.001-0.002 cm³/g inside
    the temperature range of its constants. Form: Danner and High, Handbook of Polymer Solution
    Thermodynamics, Table 3B-1, p. 41 (published; read in a copy, not in print).
    """

    a0: float
    a1: float
    a2: float
    b0: float
    b1: float

    def volume(self, temperature: ArrayLike, pressure: ArrayLike = ATMOSPHERE) -> Floats:
        """Specific volume, m³/kg, at K and Pa."""
        t = floats(temperature) - _ICE
        v0 = self.a0 + self.a1 * t + self.a2 * t**2
        return v0 * (1.0 - _C * np.log1p(floats(pressure) / (self.b0 * np.exp(-self.b1 * t))))

    def density(self, temperature: ArrayLike, pressure: ArrayLike = ATMOSPHERE) -> Floats:
        """Density, kg/m³, at K and Pa."""
        return 1.0 / self.volume(temperature, pressure)


@dataclass(frozen=True)
class TwoDomainTait:
    """Two-domain Tait equation: the melt's law above the transition Tt = b5 + b6 p, the solid's below.

    v = v₀ (1 − C ln(1 + p/B)) + vt; v₀ = b1 + b2 (T − b5), B = b3 exp(−b4 (T − b5)) with the constants of the
    phase; below the transition vt = b7 exp(b8 (T − b5) − b9 p). SI and K throughout. Form and the constants
    it is used with: Krebelj, Krebelj, Halilovič and Mole, Polymers 13 (2021) 138 and its open data
    (published).
    """

    b1m: float
    b2m: float
    b3m: float
    b4m: float
    b1s: float
    b2s: float
    b3s: float
    b4s: float
    b5: float
    b6: float
    b7: float
    b8: float
    b9: float

    def volume(self, temperature: ArrayLike, pressure: ArrayLike = ATMOSPHERE) -> Floats:
        """Specific volume, m³/kg, at K and Pa."""
        kelvin, p = floats(temperature), floats(pressure)
        over = kelvin - self.b5
        melt = _branch(over, p, (self.b1m, self.b2m, self.b3m, self.b4m))
        solid = _branch(over, p, (self.b1s, self.b2s, self.b3s, self.b4s))
        # the transition term grows without bound above b5, where it is not used
        extra = self.b7 * np.exp(self.b8 * np.minimum(over, self.b6 * p) - self.b9 * p)
        return np.where(over > self.b6 * p, melt, solid + extra)

    def density(self, temperature: ArrayLike, pressure: ArrayLike = ATMOSPHERE) -> Floats:
        """Density, kg/m³, at K and Pa."""
        return 1.0 / self.volume(temperature, pressure)


def _branch(over: Floats, pressure: Floats, constants: tuple[float, float, float, float]) -> Floats:
    b1, b2, b3, b4 = constants
    return (b1 + b2 * over) * (1.0 - _C * np.log1p(pressure / (b3 * np.exp(-b4 * over))))
