"""Laws that hold for every slab: conservation, order, bounds, and scenarios that do not see each other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.integrate import trapezoid

from recipes_core.physics.arrays import Floats
from recipes_core.physics.grid import even_steps, expected_duration, growing_steps
from recipes_core.physics.history import History
from recipes_core.physics.matter import LOWEST, Bed, constant, peaked_share
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from tests.core.physics.conftest import hdpe

ICE = 273.15
few = settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
loadings, ovens = st.floats(1.0, 12.0), st.floats(145.0, 260.0)
convections, emissivities = st.floats(2.0, 40.0), st.floats(0.1, 0.95)


def melt(slab: Slab, count: int = 48) -> History:
    """From 20 °C for 1.5 expected durations."""
    start = slab.temperatures(20.0 + ICE, 20.0 + ICE)
    return solve(slab, start, even_steps(1.5 * expected_duration(slab, start, 130.0 + ICE), count))


def melt_through(history: History) -> Floats:
    """When all of the bed is above 130 °C, s (S,)."""
    return history.crossing(history.coldest(1), 130.0 + ICE)


@few
@given(loadings, ovens, convections, emissivities)
def test_energy_is_conserved(
    tray: Callable[..., Slab], loading: float, oven: float, convection: float, emissivity: float
) -> None:
    """What the cells gained is what came in through the faces, to 1e-6, at every instant."""
    slab = tray(loading, oven, convection, emissivity)
    history = melt(slab)
    gained = (slab.mass * (history.enthalpy - history.enthalpy[0])).sum(axis=1)
    assert gained == pytest.approx(history.heat, rel=1e-6, abs=1e-6 * float(history.heat[-1, 0]))


def test_heat_is_the_integral_of_the_surface_flux(tray: Callable[..., Slab]) -> None:
    """The heat booked agrees with a trapezoid over the surfaces' own convection and radiation, within 0.5 %."""
    slab = tray(5.0, 177.0, 5.0, 0.85)
    history = melt(slab, 300)
    te, surface = 450.15, history.surface[:, :, 0]
    flux = 5.0 * (te - surface) + 5.670374419e-8 * np.array([0.85, 0.9]) * (te**4 - surface**4)
    integral = trapezoid(flux[1:].sum(axis=1), history.times[1:, 0])
    assert history.heat[-1, 0] - history.heat[1, 0] == pytest.approx(integral, rel=5e-3)


def test_energy_with_rims_contacts_and_isolation() -> None:
    """An isolated slab keeps its heat; one with rims loses what its rims give off."""
    steel, wood = constant(50.0, 7850.0, 490.0), constant(0.12, 550.0, 1700.0)
    layers = (Layer(steel, 40.0, (0.5, 0.5)), Layer(wood, 10.0, (0.3, 0.3, 0.4)))
    closed = Slab(layers, (1e-3,))
    history = solve(closed, closed.temperatures(400.0, 300.0), growing_steps(0.1, 20000.0, 60))
    total = (closed.mass * history.enthalpy).sum(axis=1)
    assert total[-1] == pytest.approx(total[0], rel=1e-12)
    assert np.ptp(history.end) < 0.1
    rim = Face(290.0, 8.0, 0.8, area=0.3)
    open_ = Slab((Layer(steel, 40.0, (0.5, 0.5), rim), layers[1]), (1e-3,))
    history = solve(open_, open_.temperatures(400.0, 300.0), growing_steps(0.1, 20000.0, 60))
    gained = (open_.mass * (history.enthalpy - history.enthalpy[0])).sum(axis=1)
    assert history.heat[-1, 0] < -1e5
    assert gained == pytest.approx(history.heat, rel=1e-6, abs=1e-3)


@few
@given(loadings, ovens, convections, emissivities, st.floats(1.0, 30.0))
def test_a_hotter_oven_never_melts_later(
    tray: Callable[..., Slab], loading: float, oven: float, convection: float, emissivity: float, more: float
) -> None:
    """Two ovens side by side."""
    slab = tray(loading, np.array([oven, oven + more]), convection, emissivity)
    cool, hot = melt_through(melt(slab))
    assert hot <= cool


@few
@given(loadings, ovens, convections, emissivities, st.floats(1.02, 1.5))
def test_a_thicker_bed_never_melts_sooner(
    tray: Callable[..., Slab], loading: float, oven: float, convection: float, emissivity: float, factor: float
) -> None:
    """Two loadings side by side."""
    slab = tray(np.array([loading, loading * factor]), oven, convection, emissivity)
    thin, thick = melt_through(melt(slab))
    assert thick >= thin


@few
@given(loadings, ovens, convections, emissivities)
def test_temperatures_stay_between_start_and_surroundings(
    tray: Callable[..., Slab], loading: float, oven: float, convection: float, emissivity: float
) -> None:
    """Maximum principle, to a hundredth of a kelvin, for cells and surfaces."""
    history = melt(tray(loading, oven, convection, emissivity))
    for series in (history.temperature, history.surface):
        assert series.min() > 20.0 + ICE - 0.01
        assert series.max() < oven + ICE + 0.01


def test_bounds_on_cooling(mould: Callable[..., Slab]) -> None:
    """A hot part in a cold mould overshoots neither way."""
    slab = mould(0.012, 0.005)
    history = solve(slab, slab.temperatures(293.15, 438.15, 293.15), growing_steps(0.5, 5400.0, 60))
    assert history.temperature.min() > 293.15 - 0.01
    assert history.temperature.max() < 438.15 + 0.01


def test_neighbours_do_not_matter(tray: Callable[..., Slab]) -> None:
    """The answer of a scenario is the same alone and beside 64 others, to 1e-9."""
    random = np.random.default_rng(7)
    loading = np.concatenate([[7.5], random.uniform(2.0, 12.0, 64)])
    oven = np.concatenate([[177.0], random.uniform(150.0, 240.0, 64)])
    alone, beside = tray(7.5, 177.0, 5.0, 0.3), tray(loading, oven, 5.0, 0.3)
    one, many = melt(alone), melt(beside)
    assert many.temperature[:, :, 0] == pytest.approx(one.temperature[:, :, 0], rel=1e-9)
    times = [float(melt_through(h)[0]) for h in (one, many)]
    assert times[1] == pytest.approx(times[0], rel=1e-9)


def test_stop_ends_early(tray: Callable[..., Slab]) -> None:
    """The history ends with the first step at which stop says True, and agrees with the full one up to there."""
    slab = tray(np.array([3.0, 5.0]), 177.0, 5.0, 0.85)
    start, steps = slab.temperatures(293.15, 293.15), even_steps(3600.0, 60)
    flakes = slab.cells_of(1)
    short = solve(slab, start, steps, stop=lambda h: bool((h.end[flakes] > 403.15).all()))
    full = solve(slab, start, steps)
    assert 10 < len(short.times) < 60
    assert not (short.temperature[-2, flakes] > 403.15).all()
    assert short.temperature.tolist() == full.temperature[: len(short.times)].tolist()


def test_a_profile_starts_what_comes_next(tray: Callable[..., Slab]) -> None:
    """Cut in two and carried over by temperature, a run ends where the whole one does."""
    slab = tray(5.0, 177.0, 5.0, 0.85)
    start, steps = slab.temperatures(293.15, 293.15), even_steps(1500.0, 100)
    whole = solve(slab, start, steps, tolerance=1.0).end
    half = solve(slab, start, steps[:50], tolerance=1.0).end
    assert solve(slab, half, steps[50:], tolerance=1.0).end == pytest.approx(whole, abs=0.05)


@pytest.mark.parametrize("width", [0.5, 5.0, 18.0])
def test_sharp_melting_settles(width: float, tray: Callable[..., Slab]) -> None:
    """A bed that melts within half a kelvin is still solved, and conserves heat."""
    random = np.random.default_rng(3)
    flake = hdpe(
        melted=peaked_share(409.15 - width, 409.15 - width / 6.0, 409.15),
        latent_heat=random.uniform(150e3, 230e3, 100),
        bed=Bed(330.0, random.uniform(0.06, 0.15, 100)),
    )
    base = tray(random.uniform(1.0, 20.0, 100), random.uniform(145.0, 280.0, 100), random.uniform(1.0, 50.0, 100), 0.5)
    slab = replace(base, layers=(base.layers[0], replace(base.layers[1], matter=flake)))
    history = melt(slab)
    gained = (slab.mass * (history.enthalpy[-1] - history.enthalpy[0])).sum(axis=0)
    assert gained == pytest.approx(history.heat[-1], rel=1e-6)


def test_refusals(tray: Callable[..., Slab]) -> None:
    """Steps that stand still and starts off the tables are refused."""
    slab = tray(5.0, 177.0, 5.0, 0.85)
    with pytest.raises(ValueError, match="above zero"):
        solve(slab, 293.15, [1.0, 0.0])
    with pytest.raises(ValueError, match="between"):
        solve(slab, LOWEST - 1.0, [1.0])
