"""Questions asked of a history whose answers are known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.history import History
from recipes_core.physics.matter import constant, peaked_share, polymer
from recipes_core.physics.slab import Layer, Slab

MELTS = polymer(
    solid_heat_capacity=2000.0,
    melt_heat_capacity=2000.0,
    solid_conductivity=0.3,
    melt_conductivity=0.3,
    solid_density=900.0,
    melt_density=900.0,
    melted=peaked_share(390.0, 400.0, 410.0),
    latent_heat=100e3,
)
SLAB = Slab((Layer(constant(1.0, 1.0, 1.0), [1.0, 2.0]), Layer(MELTS, 3.0, (0.25, 0.75))), (0.0,))


def ramp() -> History:
    """Four instants; scenario 1 runs twice as slowly. Cells warm by 10, 20 and 30 K a step from 300, 380, 370 K."""
    history = History.empty(SLAB, 3)
    step = np.arange(4.0)
    history.times[:] = np.outer(step, [10.0, 20.0])
    for cell, (start, rise) in enumerate([(300.0, 10.0), (380.0, 20.0), (370.0, 30.0)]):
        history.temperature[:, cell] = (start + rise * step)[:, None]
    history.surface[:] = 0.0
    return history


def test_extremes_and_means() -> None:
    """Coldest, hottest, topmost and mean by mass of the upper layer."""
    history = ramp()
    assert history.coldest(1)[:, 0].tolist() == [370.0, 400.0, 420.0, 440.0]
    assert history.hottest(1)[:, 0].tolist() == [380.0, 400.0, 430.0, 460.0]
    assert history.top_cell()[:, 0].tolist() == [370.0, 400.0, 430.0, 460.0]
    assert history.top_cell(0)[:, 1].tolist() == [300.0, 310.0, 320.0, 330.0]
    assert history.mean(-1)[0, 0] == pytest.approx(0.25 * 380.0 + 0.75 * 370.0)
    assert history.melted_share(1)[:, 0] == pytest.approx([0.0, 0.5, 1.0, 1.0], abs=1e-9)
    assert history.melted_share(0).max() == 0.0


def test_crossing() -> None:
    """First crossing between instants, each scenario in its own time; inf if never, 0 if from the start."""
    history = ramp()
    coldest = history.coldest(1)
    assert history.crossing(coldest, 385.0) == pytest.approx([5.0, 10.0])
    assert history.crossing(coldest, [385.0, 410.0]) == pytest.approx([5.0, 30.0])
    assert history.crossing(coldest, 500.0).tolist() == [np.inf, np.inf]
    assert history.crossing(coldest, 360.0).tolist() == [0.0, 0.0]
    assert history.crossing(800.0 - coldest, 415.0, rising=False) == pytest.approx([5.0, 10.0])
    assert history.until(0).crossing(history.until(0).coldest(1), 385.0).tolist() == [np.inf, np.inf]


@given(st.lists(st.floats(-10.0, 10.0), min_size=2, max_size=12), st.floats(-9.0, 9.0))
def test_crossing_is_the_first(values: list[float], level: float) -> None:
    """Before the crossing the series stays below the level, at it the series has the level."""
    history = History.empty(SLAB, len(values) - 1)
    history.times[:] = np.arange(len(values))[:, None]
    series = np.repeat(np.array(values)[:, None], 2, axis=1)
    time = history.crossing(series, level)[0]
    if np.isinf(time):
        assert max(values) < level
    else:
        assert all(v < level for t, v in enumerate(values) if t < time)
        reached = np.interp(time, np.arange(len(values)), values)
        assert reached == pytest.approx(level, abs=1e-6) if time > 0 else reached >= level


def test_profile_at_a_time() -> None:
    """Straight lines between instants, each scenario in its own time; times outside are refused."""
    history = ramp()
    assert history.at([5.0, 60.0]).tolist() == [[305.0, 330.0], [390.0, 440.0], [385.0, 460.0]]
    assert history.at(0.0).tolist() == history.temperature[0].tolist()
    assert history.end.tolist() == history.temperature[-1].tolist()
    with pytest.raises(ValueError, match="outside"):
        history.at([31.0, 0.0])
