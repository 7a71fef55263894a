"""The piece that is cut: where its thickness and its warmth come from, and what a layer of it weighs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from recipes_plugins import piece

from recipes_core.facts import Fact, Given, Open, Origin, Source
from recipes_core.work import Work
from tests.plugins.processes.cut import PLANE, sheet

if TYPE_CHECKING:
    from tests.conftest import Shop


def test_a_thickness_that_a_step_left_comes_first(shop: Shop) -> None:
    """Else the part with its stock; else the part alone; for a shape of its own the thickest place."""
    case = shop.case(sheet(PLANE, **{"formula.machining_stock": "2 mm"}), step="plane")
    left = Work("part", thickness=Fact("thickness left", "length", [0.015], ""))
    assert piece.thickness(case, left).nominal == pytest.approx(0.015)
    assert piece.thickness(case, Work("part")).nominal == pytest.approx(0.020)
    bare = shop.case(sheet(PLANE), step="plane")
    assert piece.thickness(bare, Work("part")).nominal == pytest.approx(0.018)
    custom = shop.case(sheet(PLANE, part={"shape": "custom", "thickest": "25 mm"}), step="plane")
    assert piece.thickness(custom, Work("part")).nominal == pytest.approx(0.025)


def test_how_warm_it_is(shop: Shop) -> None:
    """The step's own word, else what the step before left, member by member; else the step is asked."""
    warm = Work("part", left_warm=Fact("left warm", "temperature", np.linspace(310.0, 330.0, 65), ""))
    said = shop.case(sheet(PLANE), step="plane")
    assert piece.warmth(said, warm).nominal == pytest.approx(293.15)
    silent = shop.case(sheet({k: v for k, v in PLANE.items() if k != "part_at"}), step="plane")
    assert piece.warmth(silent, warm).numbers == pytest.approx(np.linspace(310.0, 330.0, 65))
    value = piece.warmth(silent, Work("part")).value
    assert isinstance(value, Open)
    assert {path for path, _ in value.needs} == {("procedure", 0, "part_at")}


def test_a_millimetre_off_a_face(shop: Shop) -> None:
    """400 × 100 × 1 mm at 950 kg/m³ is 38 g; a shape of its own says its area."""
    off = Given(0.001, "1 mm", Origin(Source.RECIPE))
    plate = shop.case(sheet(PLANE), step="plane")
    assert piece.removed_mass(plate, "chips", off).nominal == pytest.approx(0.038)
    custom = shop.case(sheet(PLANE, part={"shape": "custom", "projected_area": "200 cm²"}), step="plane")
    assert piece.removed_mass(custom, "chips", off).nominal == pytest.approx(0.019)
