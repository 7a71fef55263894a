"""The description of a slab: cells, scenarios, rims and what is refused."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from recipes_core.physics.matter import constant
from recipes_core.physics.slab import ADIABATIC, Face, Layer, Slab

STEEL = constant(50.0, 7850.0, 490.0)


def test_cells_and_scenarios(tray: Callable[..., Slab]) -> None:
    """Cells run from the tray up; the longest array gives the number of scenarios."""
    slab = tray(np.array([5.0, 6.0, 7.0]), 177.0, 5.0, 0.3)
    assert slab.cells == 17
    assert slab.scenarios == 3
    assert slab.cells_of(0) == slice(0, 1)
    assert slab.cells_of(-1) == slab.cells_of(1) == slice(1, 17)
    assert slab.mass[slab.cells_of(1)].sum(axis=0) == pytest.approx([5.0, 6.0, 7.0])
    assert slab.temperatures(300.0, [301.0, 302.0, 303.0])[[0, 1]].tolist() == [[300.0] * 3, [301.0, 302.0, 303.0]]


def test_rim_is_shared_out_by_mass() -> None:
    """Each cell has its share of the layer's edge; layers without a rim have none."""
    rim = Face(295.0, 5.0, area=0.2)
    slab = Slab((Layer(STEEL, 40.0, (0.25, 0.75), rim), Layer(STEEL, 40.0)), (0.0,))
    shares = [slab.rim_of(cell) for cell in range(3)]
    assert shares[2] is None
    assert [float(np.asarray(share.area)) for share in shares if share] == pytest.approx([0.05, 0.15])


@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: Slab((Layer(STEEL, 1.0, (0.5, 0.5)),), (0.1,)), "one contact"),
        (lambda: Slab((Layer(STEEL, 1.0), Layer(STEEL, 1.0)), (-0.1,)), "not be negative"),
        (lambda: Slab((Layer(STEEL, 1.0),)), "two cells"),
        (lambda: Layer(STEEL, 0.0), "above zero"),
        (lambda: Layer(STEEL, np.array([1.0, np.nan])), "above zero"),
        (lambda: Layer(STEEL, 1.0, (0.5, 0.4)), "add up to 1"),
        (lambda: Face(20.0, 5.0), "between"),
        (lambda: Face(300.0, -5.0), "not be negative"),
    ],
)
def test_refusals(build: Callable[[], object], words: str) -> None:
    """A slab that makes no sense is refused where it is described, celsius in place of kelvin included."""
    with pytest.raises(ValueError, match=words):
        build()


def test_adiabatic_face_exchanges_nothing() -> None:
    """It is the default of a slab's faces."""
    assert Slab((Layer(STEEL, 1.0, (0.5, 0.5)),)).top is ADIABATIC
    assert ADIABATIC.convection == ADIABATIC.emissivity == 0.0
