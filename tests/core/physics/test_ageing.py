"""The ageing clock against the worked budgets."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from recipes_core.physics.ageing import ageing_rate, equivalent_time

ICE, REFERENCE = 273.15, 473.15
ENERGIES = (100e3, 150e3)


def budget(celsius: list[float], below: float = 100e3, above: float = 150e3) -> np.ndarray:
    """Budget relative to 200 °C."""
    return 1 / ageing_rate(np.array(celsius) + ICE, below, above, REFERENCE)


def test_budget_with_150() -> None:
    """180, 190, 210, 220 °C: 5.4, 2.3, 0.45, 0.21 (worked; the energy is memory)."""
    assert budget([180, 190, 210, 220], 150e3) == pytest.approx([5.4, 2.3, 0.45, 0.21], abs=0.05)


def test_budget_with_100() -> None:
    """160 to 220 °C (worked; Achimsky et al. 1997, unstabilised PP, published abstract)."""
    assert budget([160, 170, 180, 190]) == pytest.approx([10.5, 5.6, 3.1, 1.7], abs=0.051)
    assert budget([210, 220], above=100e3) == pytest.approx([0.59, 0.36], abs=0.0051)


def test_minutes_of_the_worst_lot() -> None:
    """9 min at 200 °C become 94, 50, 28, 16 below and 4, 2 above (worked with both energies)."""
    minutes = 9 * budget([160, 170, 180, 190, 210, 220])
    assert minutes == pytest.approx([94, 50, 28, 16, 4.0, 2.0], abs=0.55)


def test_an_hour_at_220_is_refused_by_every_lot() -> None:
    """60 min at 220 °C use up far more than the 39 min of the best lot of recycled bottles (NCHRP report,
    record 14570).
    """
    used = equivalent_time([220 + ICE] * 2, [0, 3600], *ENERGIES, REFERENCE)
    assert float(used) / 60 > 39


def test_published_ldpe_trial_passes_with_the_air_factor() -> None:
    """50 min at 180 °C is over the bare worst-lot budget and within twice of it (IOP Conf. Ser. 498 (2020)
    012064).
    """
    used = float(equivalent_time([180 + ICE] * 2, [0, 3000], *ENERGIES, REFERENCE)) / 60
    assert 9 < used < 2 * 9


def test_history_is_integrated_per_member() -> None:
    """A ramp against scipy's quadrature; a steady member ages at its own rate; coarse steps err on the long
    side.
    """
    times = np.linspace(0, 1200, 241)
    ramp = 440 + times / 1200 * 40
    history = np.column_stack([ramp, np.full_like(times, REFERENCE)])
    aged = equivalent_time(history, times, *ENERGIES, REFERENCE)
    expected, _ = integrate.quad(
        lambda t: float(ageing_rate(440 + t / 1200 * 40, *ENERGIES, REFERENCE)), 0, 1200, points=[994.5]
    )
    assert aged == pytest.approx([expected, 1200.0], rel=1e-3)
    assert equivalent_time(history[::60], times[::60], *ENERGIES, REFERENCE)[0] >= expected


@given(st.floats(400, 520), st.floats(0.01, 20))
def test_hotter_ages_faster(kelvin: float, step: float) -> None:
    """The rate rises with temperature across the change of energy, and is 1 at the reference."""
    assert float(ageing_rate(kelvin + step, *ENERGIES, REFERENCE)) > float(ageing_rate(kelvin, *ENERGIES, REFERENCE))
    assert float(ageing_rate(REFERENCE, *ENERGIES, REFERENCE)) == 1.0


@given(st.floats(420, 500))
def test_two_energies_give_the_shorter_budget(kelvin: float) -> None:
    """100 below and 150 above never ages slower than either energy alone."""
    both = float(ageing_rate(kelvin, *ENERGIES, REFERENCE))
    assert both >= float(ageing_rate(kelvin, 100e3, 100e3, REFERENCE)) - 1e-12
    assert both >= float(ageing_rate(kelvin, 150e3, 150e3, REFERENCE)) - 1e-12
