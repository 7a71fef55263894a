"""Heat crossing a surface: free convection in air and radiation, as coefficients in W/(m² K)."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats

STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m² K⁴)
_PRESSURE, _GAS, _GRAVITY, _CP = 101_325.0, 287.05, 9.80665, 1009.0


def air(temperature: ArrayLike) -> tuple[Floats, Floats, Floats]:
    """Conductivity (W/(m K)), kinematic viscosity (m²/s) and Prandtl number of air at 1 atm, 250-550 K.

    Sutherland's law with the constants of White, Viscous Fluid Flow (memory); ideal gas; cp 1009 J/(kg K).
    """
    kelvin = floats(temperature)
    ratio = kelvin / 273.15
    viscosity = 1.716e-5 * ratio**1.5 * (273.15 + 110.4) / (kelvin + 110.4)
    conductivity = 0.0241 * ratio**1.5 * (273.15 + 194.0) / (kelvin + 194.0)
    density = _PRESSURE / (_GAS * kelvin)
    return conductivity, viscosity / density, viscosity * _CP / conductivity


def nusselt_vertical(rayleigh: ArrayLike, prandtl: ArrayLike) -> Floats:
    """Nu of a vertical plate, {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}², any Ra up to 1e12.

    Source: Churchill and Chu 1975 (memory).
    """
    hinder = (1.0 + (0.492 / floats(prandtl)) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    return (0.825 + 0.387 * floats(rayleigh) ** (1.0 / 6.0) / hinder) ** 2


def nusselt_horizontal(rayleigh: ArrayLike, rising: ArrayLike) -> Floats:
    """Nu of a horizontal plate on length area/perimeter, by McAdams 1954 (memory).

    ``rising``: the air is free to leave (hot face up, cold face down): 0.54 Ra^¼ for 1e4 to 1e7, 0.15 Ra^⅓
    above, to 1e11. Otherwise 0.27 Ra^¼, 1e5 to 1e10. Below the ranges the same power is used on.
    """
    ra = floats(rayleigh)
    leaving = np.where(ra <= 1e7, 0.54 * ra**0.25, 0.15 * ra ** (1.0 / 3.0))
    return np.where(np.asarray(rising, dtype=bool), leaving, 0.27 * ra**0.25)


def vertical(surface: ArrayLike, air_temperature: ArrayLike, height: ArrayLike) -> Floats:
    """Free-convection coefficient of a vertical face, W/(m² K), from K, K and its height in m."""
    conductivity, rayleigh, prandtl = _film(surface, air_temperature, height)
    return conductivity / floats(height) * nusselt_vertical(rayleigh, prandtl)


def horizontal(surface: ArrayLike, air_temperature: ArrayLike, length: ArrayLike, facing_up: bool) -> Floats:
    """Free-convection coefficient of a level face, W/(m² K); ``length`` is its area over its perimeter, m."""
    conductivity, rayleigh, _ = _film(surface, air_temperature, length)
    hotter = floats(surface) >= floats(air_temperature)
    return conductivity / floats(length) * nusselt_horizontal(rayleigh, hotter == facing_up)


def radiation(emissivity: ArrayLike, surface: ArrayLike, surroundings: ArrayLike) -> Floats:
    """Radiation coefficient of a grey face among large surroundings, ε σ (T₁² + T₂²)(T₁ + T₂), W/(m² K), from
    K.
    """
    one, two = floats(surface), floats(surroundings)
    return floats(emissivity) * STEFAN_BOLTZMANN * (one**2 + two**2) * (one + two)


def _film(surface: ArrayLike, air_temperature: ArrayLike, length: ArrayLike) -> tuple[Floats, Floats, Floats]:
    """Air conductivity, Rayleigh and Prandtl numbers at the mean of surface and air (β = 1/T of an ideal
    gas).
    """
    face, bulk = floats(surface), floats(air_temperature)
    mean = 0.5 * (face + bulk)
    conductivity, viscosity, prandtl = air(mean)
    grashof = _GRAVITY / mean * np.abs(face - bulk) * floats(length) ** 3 / viscosity**2
    return conductivity, grashof * prandtl, prandtl
