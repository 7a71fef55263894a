"""Temperatures through a layer: read between steps, divided anew, folded; heat is kept."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from recipes_plugins import profiles

from recipes_core.work import Profile

CUT = st.lists(st.floats(0.05, 1.0), min_size=2, max_size=12).map(lambda parts: np.array(parts) / sum(parts))


def test_ends_of_a_value_that_may_be_a_range() -> None:
    """A single value is both."""
    assert (profiles.first(3.0), profiles.last(3.0)) == (3.0, 3.0)
    assert (profiles.first((3.0, 4.0)), profiles.last((3.0, 4.0))) == (3.0, 4.0)


@given(total=st.floats(0.01, 1e5), count=st.integers(1, 40))
def test_growing_steps_add_up(total: float, count: int) -> None:
    """To the total, for one number or each member; every step longer than the last, none zero."""
    steps = profiles.growing(total, count)
    assert steps.sum() == pytest.approx(total)
    assert np.all(np.diff(steps) > 0.0)
    each = profiles.growing(np.array([total, 2 * total]), count)
    assert each.sum(axis=0) == pytest.approx([total, 2 * total])
    assert np.all(profiles.growing(0.0, count) > 0.0)


def test_at_reads_along_straight_lines_and_stays_within_the_record() -> None:
    """Between steps in proportion; before the first and after the last it stands still; each by its own clock."""
    times = np.array([[0.0, 0.0], [10.0, 20.0], [20.0, 40.0]])
    series = np.array([[0.0, 0.0], [100.0, 100.0], [300.0, 300.0]])
    assert profiles.at(times, series, 15.0) == pytest.approx([200.0, 75.0])
    assert profiles.at(times, series, np.array([5.0, 30.0])) == pytest.approx([50.0, 200.0])
    assert profiles.at(times, series, 0.0) == pytest.approx([0.0, 0.0])
    assert profiles.at(times, series, 1e9) == pytest.approx([300.0, 300.0])
    cells = np.stack([series, series + 1.0], axis=1)
    assert profiles.at(times, cells, 15.0) == pytest.approx(np.array([[200.0, 75.0], [201.0, 76.0]]))


@given(old=CUT, new=CUT, data=st.data())
def test_another_division_keeps_the_heat(old: np.ndarray, new: np.ndarray, data: st.DataObject) -> None:
    """The mean over the mass stays, no cell is hotter or colder than all that it is made of."""
    column = data.draw(st.lists(st.floats(250.0, 500.0), min_size=len(old), max_size=len(old)))
    before = np.array(column)[:, None]
    after = profiles.remap(before, old, new)
    assert new @ after == pytest.approx(old @ before, rel=1e-9)
    assert before.min() - 1e-6 <= after.min()
    assert after.max() <= before.max() + 1e-6


def test_the_same_division_changes_nothing() -> None:
    """Cell by cell."""
    cut = np.array([0.1, 0.2, 0.3, 0.4])
    cells = np.array([[300.0, 310.0], [350.0, 360.0], [400.0, 410.0], [450.0, 460.0]])
    assert profiles.remap(cells, cut, cut) == pytest.approx(cells)


@pytest.mark.parametrize("layers", [1, 2, 3, 5])
def test_a_folded_layer_lies_face_to_face(layers: int) -> None:
    """Mass times the layers, the mean kept; bottom as it was; the top is a top for an odd number, else a bottom."""
    fractions = np.full(10, 0.1)
    layer = Profile(np.linspace(400.0, 450.0, 10)[:, None], fractions, np.array([5.0]))
    stack = profiles.stacked(layer, layers)
    assert stack.areal_mass == pytest.approx([5.0 * layers])
    assert stack.fractions.sum() == pytest.approx(1.0)
    assert stack.fractions @ stack.temperatures == pytest.approx(fractions @ layer.temperatures)
    assert stack.temperatures[0, 0] == pytest.approx(400.0, abs=layers * 5.0)
    assert stack.temperatures[-1, 0] == pytest.approx(450.0 if layers % 2 else 400.0, abs=layers * 5.0)


def test_ageing_until_a_time() -> None:
    """At the reference temperature the clock runs as any other; 50 kJ/mol below it, by its own formula, slower."""
    times = np.array([[0.0, 0.0], [60.0, 60.0], [120.0, 120.0]])
    hottest = np.array([[473.15, 453.15]] * 3)
    slower = np.exp(-50e3 / 8.314462618 * (1.0 / 453.15 - 1.0 / 473.15))
    found = profiles.aged_until(times, hottest, 90.0, 50e3, 150e3, 473.15)
    assert found == pytest.approx([90.0, 90.0 * slower])
