"""How fast a hot melt uses up its stabiliser: an Arrhenius clock that reads 1 at a reference."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats

GAS_CONSTANT = 8.314462618  # J/(mol K), exact by the SI of 2019


def ageing_rate(
    temperature: ArrayLike, energy_below: ArrayLike, energy_above: ArrayLike, reference: ArrayLike
) -> Floats:
    """Rate of ageing against that at the reference temperature, exp(−E/R (1/T − 1/T₀)), dimensionless.

    ``energy_below`` (J/mol) applies below the reference, ``energy_above`` from there up; temperatures in K.
    With 100 kJ/mol below and 150 above 200 °C the budget is the shorter of the two readings at every
    temperature (judgement; 100 is published for unstabilised PP in air, Achimsky et al., Polym. Degrad. Stab.
    57 (1997) 231, abstract; 150 is memory). Meant for 150-230 °C; never extrapolate to service life.
    """
    kelvin, base = floats(temperature), floats(reference)
    energy = np.where(kelvin < base, floats(energy_below), floats(energy_above))
    return np.exp(-energy / GAS_CONSTANT * (1.0 / kelvin - 1.0 / base))


def equivalent_time(
    temperature: ArrayLike,
    times: ArrayLike,
    energy_below: ArrayLike,
    energy_above: ArrayLike,
    reference: ArrayLike,
) -> Floats:
    """Time at the reference temperature that ages as much as a history did, ∫ rate dt, s.

    ``temperature`` in K holds one row per instant (shape (K,) or (K, members)), ``times`` (K,) in s,
    ascending. Trapezoids: the curve bends upwards between instants, so the sum errs on the long, careful
    side.
    """
    rate = ageing_rate(temperature, energy_below, energy_above, reference)
    return floats(np.trapezoid(rate, x=floats(times), axis=0))
