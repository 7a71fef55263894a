"""Parts in moulds set by hand, for what a recipe cannot say: the wall's temperature, the contact, the film."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np
import pytest
from recipes_plugins import plastic
from recipes_plugins.processes.mould_press.pressing import Mould, Pressing

from recipes_core.facts import Given
from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.spread import Band

if TYPE_CHECKING:
    from tests.conftest import Shop

ICE = 273.15
MEMBERS = 65
Press = Callable[..., Pressing]


def always(value: float) -> Band:
    """A number that is the same in every shop."""
    return Band("shop air", value, value, value)


@pytest.fixture(scope="session")
def press(shop: Shop) -> Press:
    """A plate of HDPE in a mould on feet: lengths in m, temperatures in °C, closing time in s.

    The cavity of 150 × 100 mm has, with walls of 5 mm, 1.57 m² of outside for each m² of the part's face.
    """
    inputs = plastic.inputs(shop.case(step="press"), "freezing curve")
    matter = plastic.matter({name: value.value for name, value in inputs.items() if isinstance(value, Given)})

    def build(
        part: float = 0.012,
        wall: float = 0.005,
        preheated: float = 120.0,
        closing: float = 2.0,
        *,
        melt: float = 165.0,
        wood: bool = False,
        stands: str = "on feet in the open",
        contact: float = 1000.0,
        film: float = 5.0,
        air: float = 22.0,
        outside: float = 1.0,
    ) -> Pressing:
        shine = 0.9 if wood else 0.8
        mould = Mould(
            conductivity=0.13 if wood else 50.0,
            density=500.0 if wood else 7800.0,
            heat_capacity=1600.0 if wood else 490.0,
            emissivity=(shine, shine, shine),
            wall=wall,
            length=0.15,
            width=0.1,
            depth=part,
            stands=stands,
            liner=(),
            contact=contact,
            stand_contact=300.0,
            air=always(air + ICE),
            film=film,
            outside=always(outside),
            board_shine=always(0.9),
        )
        return Pressing(
            start=np.full((len(PART_FRACTIONS), MEMBERS), melt + ICE),
            fractions=PART_FRACTIONS,
            areal_mass=np.full(MEMBERS, 950.0 * part),
            matter=matter,
            mould=mould,
            wall=np.full((6, MEMBERS), preheated + ICE),
            closing=np.full(MEMBERS, closing),
            entry_skin=np.full(MEMBERS, melt + ICE),
        )

    return build
