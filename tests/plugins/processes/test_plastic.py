"""The plastic of the sheet as heat sees it: energies by hand, members that differ, loose flake or solid."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from recipes_plugins import plastic

from recipes_core.facts import Given

if TYPE_CHECKING:
    from recipes_core.case import Value
    from tests.conftest import Shop

ICE = 273.15


def values(inputs: dict[str, Value]) -> dict[str, Any]:
    """The numbers, as `calc` hands them over."""
    return {name: value.value for name, value in inputs.items() if isinstance(value, Given)}


def test_everything_comes_from_the_sheet(shop: Shop) -> None:
    """Each input is given, and named after the parameter it becomes."""
    inputs = plastic.inputs(shop.case(), "melting curve")
    spreads = {"latent_heat_spread", "heat_capacity_spread"}
    assert set(values(inputs)) == {*plastic.ENTRIES, "curve", "latent_heat", *spreads}
    assert set(values(plastic.bed_inputs(shop.case()))) == {"bulk_density", "bed_conductivity"}


def test_heat_to_the_end_of_melting(shop: Shop) -> None:
    """About 440 kJ/kg from 20 to 136 °C (derived by the trial computation of the melt: 439), the nominal shop."""
    matter = plastic.matter(values(plastic.inputs(shop.case(), "melting curve")))
    heat = matter.enthalpy(np.full((1, 65), 136.0 + ICE)) - matter.enthalpy(np.full((1, 65), 20.0 + ICE))
    assert heat[0, 0] == pytest.approx(439e3, rel=0.05)
    assert heat[0, 1:].min() < heat[0, 0] < heat[0, 1:].max()
    assert heat[0, 1:].mean() == pytest.approx(heat[0, 0], rel=0.01)


def test_melting_is_not_freezing(shop: Shop) -> None:
    """At 115 °C flake on its way up is mostly solid, melt on its way down mostly not."""
    at = np.full((1, 65), 115.0 + ICE)
    up, down = (
        plastic.matter(values(plastic.inputs(shop.case(), f"{way} curve"))).melted_share(at)[0, 0]
        for way in ("melting", "freezing")
    )
    assert up < 0.3
    assert down > 0.9


def test_members_come_in_whole_sets(shop: Shop) -> None:
    """Three layers in one batch are 195 columns; each set sees the same shops."""
    matter = plastic.matter(values(plastic.inputs(shop.case(), "melting curve")), sets=3)
    assert matter.scenarios == 195
    heat = matter.enthalpy(np.full((1, 195), 430.0))
    assert np.array_equal(heat[:, :65], heat[:, 130:])
