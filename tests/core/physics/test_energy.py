"""Energy floors against worked illustrations."""

from __future__ import annotations

import numpy as np
import pytest

from recipes_core.physics.energy import charge_heat, sensible_heat, time_floor


def test_charge_on_a_small_heater() -> None:
    """0.7 kg taking 390 kJ at 800 W net: no less than 8 min (worked example)."""
    heat = charge_heat(0.7, 390e3 / 0.7)
    assert float(time_floor(heat, 800)) / 60 == pytest.approx(8, abs=0.2)


def test_a_tray_adds_to_the_charge() -> None:
    """1 kg of PE to 200 °C (700 kJ/kg to size heaters, memory) and a 1.2 kg tray, over 1 and 2 kW."""
    heat = charge_heat(1.0, 700e3) + sensible_heat(1.2, 490, 180)
    assert float(heat) == pytest.approx(805.84e3)
    assert time_floor(heat, np.array([1000, 2000])) == pytest.approx([805.84, 402.92])


def test_heat_of_fusion_per_gram() -> None:
    """kJ/mol over g/mol of PE, PP, POM, PA6 in J/g (published note TN048)."""
    per_gram = np.array([4.11, 8.70, 9.79, 26.0]) / np.array([14.03, 42.08, 30.03, 113.2]) * 1e3
    assert charge_heat(1e-3, per_gram * 1e3) == pytest.approx([293, 207, 326, 230], abs=0.5)
