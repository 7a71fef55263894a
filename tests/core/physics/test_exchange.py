"""The linearised surface against its exact balance."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.exchange import Exchange
from recipes_core.physics.slab import Face
from recipes_core.physics.surface import STEFAN_BOLTZMANN

kelvin = st.floats(280.0, 550.0)


@given(kelvin, kelvin, st.floats(0.0, 40.0), st.floats(0.0, 1.0), st.floats(0.5, 2.0), st.floats(0.0, 0.1))
def test_repeated_linearisation_meets_the_exact_balance(
    environment: float, cell: float, convection: float, emissivity: float, area: float, resistance: float
) -> None:
    """After a few steps the flow given by the surroundings is the flow through the resistance."""
    exchange = Exchange([Face(environment, convection, emissivity, area)], np.array([[300.0]]))
    for _ in range(8):
        flow, _ = exchange.linearise(np.array([[cell]]), np.array([[resistance]]))
    surface = float(exchange.temperature[0, 0])
    given_off = convection * (environment - surface)
    given_off += emissivity * STEFAN_BOLTZMANN * (environment**4 - surface**4)
    assert flow[0, 0] == pytest.approx(area * given_off, rel=1e-9, abs=1e-7)
    assert surface == pytest.approx(cell + resistance * flow[0, 0], abs=1e-7)


def test_stiffness_is_the_derivative() -> None:
    """Half a kelvin more in the cell takes off the flow what the stiffness says."""
    resistance = np.array([[0.02]])

    def converged(cell: float) -> tuple[float, float]:
        exchange = Exchange([Face(450.0, 5.0, 0.9)], np.array([[400.0]]))
        for _ in range(8):
            flow, stiffness = exchange.linearise(np.array([[cell]]), resistance)
        return float(flow[0, 0]), float(stiffness[0, 0])

    fall = converged(349.75)[0] - converged(350.25)[0]
    assert fall == pytest.approx(0.5 * converged(350.0)[1], rel=1e-5)
