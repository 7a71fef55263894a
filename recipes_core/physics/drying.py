"""Water in plastic: how long a sheet takes to give it up, and the room that it takes as steam."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.ageing import GAS_CONSTANT
from recipes_core.physics.arrays import Floats, floats

WATER = 0.01801528
"""Molar mass of water, kg/mol (memory: IUPAC weights of H and O)."""
ATMOSPHERE = 101_325.0


def steam_volume(water: ArrayLike, temperature: ArrayLike, pressure: ArrayLike = ATMOSPHERE) -> Floats:
    """Volume of ``water`` (kg) as steam, V = m R T / (M p), m³, from K and Pa.

    Ideal gas; real steam at 1 atm and 100 °C is 1.7 % smaller. Meant for 100 to 300 °C near 1 atm.
    """
    return floats(water) * GAS_CONSTANT * floats(temperature) / (WATER * floats(pressure))


def sheet_time(
    thickness: ArrayLike, thicknesses: ArrayLike = (), times: ArrayLike = (), square: float | None = None
) -> Floats:
    """Time to dry a sheet at the temperature of the table, s, from its thickness in m.

    Within the table a straight line between neighbours, which errs on the long side as the time goes with the
    square of the thickness; thinner than its first line as the first line. Beyond it ``square`` × thickness²
    (s/m²), never less than the last line; infinite where no square is given, since nothing is known there.
    The square is what diffusion through a plane sheet demands (Crank, memory); published tables of
    polycarbonate follow it from 3 mm up.
    """
    thick, at = floats(thickness), floats(thicknesses)
    beyond = np.full_like(thick, np.inf) if square is None else square * thick**2
    if not at.size:
        return beyond
    listed = np.interp(thick, at, floats(times))
    return np.where(thick <= at[-1], listed, np.maximum(listed, beyond))


def slower(temperature: ArrayLike, reference: ArrayLike, energy: ArrayLike) -> Floats:
    """How many times longer drying takes than at the reference, exp(E/R (1/T − 1/T₀)), from K and J/mol.

    Arrhenius, for water moving in a solid plastic; hold it to the range that the energy was found in.
    """
    return np.exp(floats(energy) / GAS_CONSTANT * (1.0 / floats(temperature) - 1.0 / floats(reference)))
