"""From cavity to part and back: shrinkage, the charge that fills a part, bow from uneven cooling."""

from __future__ import annotations

from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


def cavity_length(part_length: ArrayLike, shrinkage: ArrayLike) -> Floats:
    """Length to cut the cavity, Lm = Lp/(1 − S), with S = (Lm − Lp)/Lm, a share of the *cavity*.

    Same unit out as in; 0 <= S < 1. Definition: mould-design reference page (published). Some glossaries
    divide by the part instead; their figures must be converted first.
    """
    return floats(part_length) / (1.0 - floats(shrinkage))


def charge_mass(
    part_volume: ArrayLike,
    solid_density: ArrayLike,
    flash_allowance: ArrayLike = 0.0,
    losses: ArrayLike = 0.0,
) -> Floats:
    """Mass to weigh out, m = V ρ (1 + flash) + losses, kg.

    Volume in m³, density of the cold solid in kg/m³, flash as a share of the part, losses (left on tray and
    tools) in kg. A mass balance.
    """
    part = floats(part_volume) * floats(solid_density)
    return part * (1.0 + floats(flash_allowance)) + floats(losses)


def fixed_cavity_deficit(melt_density: ArrayLike, solid_density: ArrayLike) -> Floats:
    """Share of the solid part missing when a cavity that does not follow is filled with melt, 1 − ρm/ρs."""
    return 1.0 - floats(melt_density) / floats(solid_density)


def thickness(mass: ArrayLike, density: ArrayLike, area: ArrayLike) -> Floats:
    """Thickness of a plate that fills its area, s = m/(ρ A), m, from kg, kg/m³ and m²."""
    return floats(mass) / (floats(density) * floats(area))


def bow(expansion: ArrayLike, temperature_difference: ArrayLike, length: ArrayLike, thickness: ArrayLike) -> Floats:
    """Bow of a free plate whose faces set at temperatures ΔT apart, δ = β ΔT L²/(8 s), m.

    β in 1/K, length and thickness in m. A linear profile through the plate bends it to the curvature β ΔT/s;
    holds for δ well below L and no clamping (elementary beam geometry; derived).
    """
    return floats(expansion) * floats(temperature_difference) * floats(length) ** 2 / (8.0 * floats(thickness))
