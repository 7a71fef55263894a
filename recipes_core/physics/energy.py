"""Energy balance: the heat a job needs, and the time no heater can beat."""

from __future__ import annotations

from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


def sensible_heat(mass: ArrayLike, heat_capacity: ArrayLike, temperature_rise: ArrayLike) -> Floats:
    """Heat that warms a tray or mould, Q = m c ΔT, J, from kg, J/(kg K) and K."""
    return floats(mass) * floats(heat_capacity) * floats(temperature_rise)


def charge_heat(mass: ArrayLike, specific_enthalpy_rise: ArrayLike) -> Floats:
    """Heat that a charge takes up, latent heat included, Q = m Δh, J, from kg and J/kg."""
    return floats(mass) * floats(specific_enthalpy_rise)


def time_floor(heat: ArrayLike, net_power: ArrayLike) -> Floats:
    """Shortest time in which a heater can deliver the heat, t = Q/P, s, from J and W reaching the load.

    A lower bound: conduction into a thick layer takes longer.
    """
    return floats(heat) / floats(net_power)
