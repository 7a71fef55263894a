"""Sanding: the face under the belt between its two ends, by hand; dust and what is left."""

from __future__ import annotations

from math import pi, sqrt
from typing import TYPE_CHECKING

import numpy as np
import pytest

from recipes_core.facts import Open
from tests.plugins.processes.cut import MACHINES, SAND, sheet

if TYPE_CHECKING:
    from tests.conftest import Shop

COLD = 293.15


def test_the_face_lies_between_the_ends_of_the_power(shop: Shop) -> None:
    """600 W on 200 cm² is 30 kW/m²; k interpolated to 20 °C, ρ 950 and c 1748 make b; 0.3 to 1.0 of it goes in."""
    face = shop.facts(sheet(SAND))["sand"]["surface when sanded"]
    full = 2.0 * 30e3 * sqrt(0.5 / pi) / sqrt(0.44 * 950.0 * 1748.0)
    assert face.nominal == pytest.approx(COLD + 0.65 * full)
    numbers = np.array(face.numbers)
    assert len(numbers) == 65
    assert COLD + 0.3 * full < numbers[1:].min() < COLD + 0.32 * full
    assert COLD + 0.98 * full < numbers[1:].max() < COLD + full


@pytest.mark.parametrize(("time", "factor"), [("2 s", 2.0), ("0.125 s", 0.5)])
def test_it_warms_with_the_root_of_the_time(shop: Shop, time: str, factor: float) -> None:
    """Four times as long is twice as hot."""
    rise = shop.facts(sheet(SAND))["sand"]["surface when sanded"].nominal - COLD
    longer = sheet(SAND, equipment={"sander": {**MACHINES["sander"], "contact_time": time}})
    assert shop.facts(longer)["sand"]["surface when sanded"].nominal - COLD == pytest.approx(factor * rise)


@pytest.mark.parametrize("field", ["power", "contact_area", "contact_time"])
def test_what_nobody_knows_is_open(shop: Shop, field: str) -> None:
    """Power over area is the only bound on the heat: without it there is no number."""
    unsure = sheet(SAND, equipment={"sander": {**MACHINES["sander"], field: "unknown"}})
    value = shop.facts(unsure)["sand"]["surface when sanded"].value
    assert isinstance(value, Open)
    assert {path for path, _ in value.needs} == {("equipment", "sander", field)}


def test_a_hand_has_no_rating_plate(shop: Shop) -> None:
    """No number and no question."""
    value = shop.facts(sheet({**SAND, "by": "hand"}, equipment={}))["sand"]["surface when sanded"].value
    assert isinstance(value, Open)
    assert {question for _, question in value.needs} == {""}


def test_dust_and_what_is_left(shop: Shop) -> None:
    """0.2 mm off 400 × 100 mm at 950 kg/m³ is 7.6 g; 19.8 mm stay, in the same form."""
    facts = shop.facts(sheet(SAND))["sand"]
    assert facts["dust"].nominal == pytest.approx(0.0076)
    (work,) = shop.walk(sheet(SAND)).after
    assert work.form == "sheet"
    assert work.thickness.nominal == pytest.approx(0.0198)  # type: ignore[union-attr]
