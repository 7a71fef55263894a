"""Vapour in rooms and ovens: the air that thins it, how long it stays, its share of what can burn.

Fully mixed rooms at 25 °C and 1 atm. ``mixing`` is the allowance K for rooms that are not mixed: 1 is perfect, 10 is
poor (memory, usually cited to a ventilation handbook). Dilution is a backstop: it does not suit strong irritants,
uneven release or a worker beside the source (lecture on dilution ventilation, published), so capture comes first.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats

GAS = 8.314462618
ATMOSPHERE = 101_325.0
MOLAR_VOLUME = 24.45e-3
"""m³/mol at 25 °C and 1 atm, as exposure limits are converted with."""
COOLER = 0.000784
"""Fall of a flammable limit per kelvin above 25 °C, as a share of it (memory, usually cited to NFPA 86)."""


def concentration(share: ArrayLike, molar_mass: ArrayLike) -> Floats:
    """kg/m³ of a vapour of which the air at 25 °C holds ``share`` by volume (1 ppm is 1e-6); kg/mol.

    mg/m³ = ppm M/24.45 (OSHA and NIOSH convention, published).
    """
    return floats(share) * floats(molar_mass) / MOLAR_VOLUME


def generation(factor: ArrayLike, mass: ArrayLike, time: ArrayLike) -> Floats:
    """Release, kg/s, of ``mass`` kg of plastic that gives off ``factor`` kg/kg evenly over ``time`` s."""
    return floats(factor) * floats(mass) / floats(time)


def dilution_flow(release: ArrayLike, target: ArrayLike, mixing: ArrayLike) -> Floats:
    """Air, m³/s, that keeps a steady ``release`` (kg/s) at ``target`` (kg/m³): Q = K G/C (published)."""
    return floats(mixing) * floats(release) / floats(target)


def build_up_time(volume: ArrayLike, flow: ArrayLike, release: ArrayLike, start: ArrayLike, end: ArrayLike) -> Floats:
    """Seconds from concentration ``start`` to ``end``, kg/m³, in a room of ``volume`` m³ with ``flow`` m³/s of air.

    t = −(V/Q) ln[(G − Q C₂)/(G − Q C₁)], the integral of a mass balance (published, in a garbled copy; derived again).
    Infinity for a concentration that is never reached.
    """
    missing, lacking = (floats(release) - floats(flow) * floats(c) for c in (start, end))
    with np.errstate(divide="ignore", invalid="ignore"):
        time = -floats(volume) / floats(flow) * np.log(lacking / missing)
    return np.where(lacking <= 0.0, np.inf, time)


def decay_time(air_changes: ArrayLike, fall: ArrayLike) -> Floats:
    """Seconds until a room at ``air_changes`` per second holds 1/``fall`` of what it held: t = ln(fall)/ach."""
    return np.log(floats(fall)) / floats(air_changes)


def vapour_share(mass: ArrayLike, molar_mass: ArrayLike, temperature: ArrayLike, volume: ArrayLike) -> Floats:
    """Share by volume of ``mass`` kg of vapour (kg/mol) in ``volume`` m³ of hot air at ``temperature`` K, 1 atm."""
    moles = floats(mass) / floats(molar_mass)
    return moles * GAS * floats(temperature) / (ATMOSPHERE * floats(volume))


def hot_flammable_limit(limit: ArrayLike, temperature: ArrayLike) -> Floats:
    """Lower flammable limit (share by volume at 25 °C) at ``temperature`` K: it falls as the air gets hotter."""
    return floats(limit) * (1.0 - COOLER * (floats(temperature) - 298.15))
