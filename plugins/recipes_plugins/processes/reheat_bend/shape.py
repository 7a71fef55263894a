"""The shape of a bend: how far its outer face is stretched, and how long the piece must be before it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.bending import bend_allowance, flat_length, outer_strain
from recipes_core.plugin_api import Basis, Fact, Given, assumed, calc, missing

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value

ONE_SIDE = ("strip heater", "heat gun", "torch", "hot plate")
SOAKED = assumed((0.5, 0.5), "0.5 of the thickness: soft throughout", Basis.COMMON_PRACTICE)
ONE_SIDED = assumed((0.35, 0.45), "0.35 to 0.45 of the thickness: heated from one side", Basis.COMMON_PRACTICE)
FLAT_BACK = 2.9
"""Turned further than 166 degrees (2.9 rad) the outer faces meet so far off that legs are not measured to there."""


def strain(case: Case, thickness: Value) -> Fact:
    """The strain of the outer face."""

    def stretched(thickness: Any, radius: float) -> Any:
        return np.atleast_1d(outer_strain(thickness, radius))

    equation = "thickness ÷ (2 × radius + thickness)"
    radius = case.middle("radius")
    return calc("outer-fibre strain", "share", equation, stretched, thickness=thickness, radius=radius)


def lengths(case: Case, thickness: Value) -> tuple[Fact, Fact]:
    """What goes into the bend, and how long the piece must be before it."""
    kind, turned, radius = case.get("equipment.oven.type"), case.middle("turned"), case.middle("radius")
    neutral = kind
    if isinstance(kind, Given):
        neutral = ONE_SIDED if kind.value in ONE_SIDE else SOAKED
    bend = {"turned": turned, "radius": radius, "thickness": thickness}
    allowance = calc(
        "bend allowance",
        "length",
        "angle × (radius + K × thickness), K where the length stays the same",
        _allowance,
        neutral=neutral,
        **bend,
    )
    if isinstance(turned, Given) and turned.value >= FLAT_BACK:
        turned = missing(
            turned.origin.path, f"Is it turned by less than 166 deg? Legs of {turned.text} are not computed yet."
        )
    flat = calc(
        "flat length",
        "length",
        "both legs - 2 × (radius + thickness) × tan(angle ÷ 2) + bend allowance",
        lambda first, second, turned, radius, thickness, allowance: flat_length(
            first + second, turned, radius, thickness, allowance
        ),
        first=case.middle("legs.first"),
        second=case.middle("legs.second"),
        allowance=allowance,
        **{**bend, "turned": turned},
    )
    return allowance, flat


def _allowance(turned: float, radius: float, thickness: Any, neutral: tuple[float, float]) -> Any:
    low, high = neutral
    shares = np.concatenate([[0.5 * (low + high)], np.linspace(low, high, 64)])
    return bend_allowance(turned, radius, thickness, shares)
