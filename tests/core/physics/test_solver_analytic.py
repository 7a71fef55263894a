"""The slab against closed solutions of conduction without phase change.

Printed values marked [X] were computed independently of this code for the collection of check values.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.special import erfcx

from recipes_core.physics.arrays import Floats, floats
from recipes_core.physics.grid import PART_FRACTIONS, even_steps, graded, growing, growing_steps
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve

HELD = 1e7  # W/(m² K): holds a surface at the temperature of its surroundings


def plane_wall(biot: float, fourier: float, place: Floats, terms: int = 200) -> Floats:
    """Full series of a plane wall with convection on both faces; place from -1 to 1 (memory: Carslaw and Jaeger)."""
    total = np.zeros_like(place)
    for n in range(terms):
        low, high = n * math.pi, (n + 0.5) * math.pi - 1e-9
        z = brentq(lambda z: z * math.tan(z) - biot, low + 1e-9, high)
        c = 4.0 * math.sin(z) / (2.0 * z + math.sin(2.0 * z))
        total += c * math.exp(-z * z * fourier) * np.cos(z * place)
    return total


@pytest.mark.parametrize(
    ("fourier", "centre", "surface"),
    [
        (0.05, 0.999751, 0.790377),
        (0.1, 0.993108, 0.723577),
        (0.2, 0.950642, 0.643391),
        (0.5, 0.772526, 0.504522),
        (1.0, 0.533859, 0.348177),
    ],
)
def test_series_of_the_plane_wall(fourier: float, centre: float, surface: float) -> None:
    """The oracle itself gives the tabulated values at Bi = 1 [X]."""
    assert plane_wall(1.0, fourier, np.array([0.0, 1.0])) == pytest.approx([centre, surface], abs=2e-6)


def middles(fractions: Floats) -> Floats:
    """Cell centres from -1 to 1."""
    ends = np.concatenate([[0.0], np.cumsum(fractions)])
    return floats(ends[1:] + ends[:-1] - 1.0)


def test_plane_wall_with_convection() -> None:
    """10 mm, Bi 1, Fo 0.5, a step of 157 K: every cell of the default grid within 0.2 K of the full series."""
    k, rho, cp, half = 0.25, 950.0, 2300.0, 0.005
    convection, alpha = k / half, k / (rho * cp)
    face = Face(450.15, convection)
    slab = Slab((Layer(constant(k, rho, cp), 2.0 * half * rho, PART_FRACTIONS),), (), face, face)
    time = 0.5 * half**2 / alpha
    history = solve(slab, slab.temperatures(293.15), even_steps(time, 20))
    exact = 450.15 - 157.0 * plane_wall(1.0, 0.5, middles(PART_FRACTIONS))
    assert np.abs(history.end[:, 0] - exact).max() < 0.2
    edge = 450.15 - 157.0 * 0.504522
    assert history.surface[-1, :, 0] == pytest.approx([edge, edge], abs=0.2)


def test_second_order_in_time() -> None:
    """Half the step leaves a quarter of the error (against the same cells with 32 times the steps)."""
    face = Face(450.15, 50.0)
    slab = Slab((Layer(constant(0.25, 950.0, 2300.0), 9.5, graded(20, 1.0)),), (), face, face)
    start = slab.temperatures(293.15)
    fine = solve(slab, start, even_steps(200.0, 640), tolerance=1e-6).end
    errors = [np.abs(solve(slab, start, even_steps(200.0, n), tolerance=1e-6).end - fine).max() for n in (20, 40)]
    assert 3.4 < errors[0] / errors[1] < 4.6


def deep(k: float, rho: float, cp: float, depth: float, cells: int = 120) -> Layer:
    """A layer thick enough to be endless upwards, fine at its lower end."""
    return Layer(constant(k, rho, cp), depth * rho, growing(cells, 1.04))


def test_semi_infinite_step() -> None:
    """Wrought iron from 550 °C, surface at 50 °C: 80 mm down 255 °C after 11.48 min [X].

    (Problem: S. K. Som, Introduction to Heat Transfer, ch. 4 ex. 11, seen in a companion, which reads 11.5 min off
    a chart.)
    """
    alpha = 1.6e-5
    slab = Slab((deep(60.0, 1000.0, 60.0 / (1000.0 * alpha), 1.2),), (), Face(323.15, HELD))
    history = solve(slab, slab.temperatures(550 + 273.15 - 240.0), growing_steps(0.1, 1000.0, 120))
    # The tables end at 347 °C, so all temperatures are 240 K lower and the step is scaled to match.
    step = 550.0 - 240.0 - 50.0
    level = 323.15 + step * (255.0 - 50.0) / 500.0
    centres = (middles(growing(120, 1.04)) + 1.0) * 0.6
    series = np.array([[np.interp(0.08, centres, row)] for row in history.temperature[:, :, 0]])
    assert history.crossing(series, level, rising=False)[0] / 60.0 == pytest.approx(11.48, rel=5e-3)


@pytest.mark.parametrize(("h_number", "share"), [(0.1, 0.103543), (0.5, 0.384310), (1.0, 0.572416), (2.0, 0.744605)])
def test_semi_infinite_convection(h_number: float, share: float) -> None:
    """Surface of an endless body under convection: 1 - exp(H²) erfc(H), H = h √(αt)/k [X], within 0.2 %."""
    assert 1.0 - erfcx(h_number) == pytest.approx(share, abs=1e-6)
    k, rho, cp, h = 0.4, 950.0, 2200.0, 20.0
    time = (h_number * k / h) ** 2 / (k / (rho * cp))
    slab = Slab((deep(k, rho, cp, 10.0 * math.sqrt(k / (rho * cp) * time)),), (), Face(450.0, h))
    history = solve(slab, slab.temperatures(300.0), growing_steps(time / 3000.0, time, 60))
    assert (history.surface[-1, 0, 0] - 300.0) / 150.0 == pytest.approx(share, rel=2e-3)


@pytest.mark.parametrize(
    ("cold", "matter", "contact"),
    [
        (20.0, (50.0, 7850.0, 490.0), 26.9),
        (80.0, (50.0, 7850.0, 490.0), 84.0),
        (120.0, (50.0, 7850.0, 490.0), 122.1),
        (20.0, (200.0, 2700.0, 900.0), 24.4),
        (20.0, (0.12, 550.0, 1700.0), 117.6),
        (20.0, (0.14, 750.0, 1700.0), 109.9),
    ],
)
def test_contact_temperature_of_two_bodies(cold: float, matter: tuple[float, float, float], contact: float) -> None:
    """165 °C melt (effusivity 689) on cold steel, aluminium, softwood and MDF: b-weighted mean [X], within 0.5 K.

    The interface lies between the last cell below and the first above, each half a cell away.
    """
    k, rho, cp = 0.25, 760.0, 689.0**2 / (0.25 * 760.0)
    time, cells = 20.0, 120
    alphas = [matter[0] / (matter[1] * matter[2]), k / (rho * cp)]
    below, above = (
        deep(*m, 8.0 * math.sqrt(a * time), cells) for m, a in zip((matter, (k, rho, cp)), alphas, strict=True)
    )
    slab = Slab((Layer(below.matter, below.areal_mass, below.fractions[::-1]), above), (0.0,))
    history = solve(slab, slab.temperatures(cold + 273.15, 165.0 + 273.15), growing_steps(time / 5000.0, time, 80))
    low, high = history.end[cells - 1, 0], history.end[cells, 0]
    r_low, r_high = (
        float(slab.mass[c, 0] * slab.layers[i].matter.resistances[0, 0]) for i, c in enumerate((cells - 1, cells))
    )
    assert (low * r_high + high * r_low) / (r_low + r_high) - 273.15 == pytest.approx(contact, abs=0.5)


def test_multilayer_steady_wall() -> None:
    """177 °C | h 10 | steel 5 | 1e-3 | PE 10 | 2e-3 | wood 18 | h 15 | 20 °C: resistance, flux and mid-plane [X]."""
    layers = (
        Layer(constant(0.12, 550.0, 1700.0), 0.018 * 550.0, graded(4, 1.0)),
        Layer(constant(0.4, 950.0, 2100.0), 0.010 * 950.0, graded(5, 1.0)),
        Layer(constant(50.0, 7850.0, 490.0), 0.005 * 7850.0),
    )
    slab = Slab(layers, (2e-3, 1e-3), bottom=Face(293.15, 15.0), top=Face(450.15, 10.0))
    history = solve(slab, slab.temperatures(300.0, 300.0, 300.0), even_steps(1e6, 200), tolerance=1e-6)
    through = 10.0 * (450.15 - history.surface[-1, 1, 0])
    assert through == pytest.approx(455.380, abs=1e-3)
    assert 157.0 / through == pytest.approx(0.34477, abs=1e-5)
    assert history.end[slab.cells_of(1)][2, 0] - 273.15 == pytest.approx(125.269, abs=1e-3)


def test_lumped_limit() -> None:
    """5 mm steel, h 18 on both faces: time constant 534 s; 20 to 150 °C in a 177 °C oven takes 15.7 min [X]."""
    face = Face(450.15, 18.0)
    slab = Slab((Layer(constant(50.0, 7850.0, 490.0), 0.005 * 7850.0, (0.5, 0.5)),), (), face, face)
    history = solve(slab, slab.temperatures(293.15), even_steps(1500.0, 100), tolerance=1e-3)
    assert history.crossing(history.mean(0), 423.15)[0] / 60.0 == pytest.approx(15.7, abs=0.05)
    left = (450.15 - history.mean(0)[:, 0]) / 157.0
    assert left == pytest.approx(np.exp(-history.times[:, 0] / 534.0), abs=2e-3)


def test_emptied_by_radiation_alone() -> None:
    """A lump that only radiates follows the exact integral of dT/(Te⁴ - T⁴)."""
    face = Face(293.15, 0.0, 0.8)
    slab = Slab((Layer(constant(50.0, 7850.0, 490.0), 40.0, (0.5, 0.5)),), (), face, face)
    history = solve(slab, slab.temperatures(450.0), even_steps(6000.0, 200), tolerance=1e-3)

    def integral(kelvin: float) -> float:
        te = 293.15
        return (math.log((kelvin + te) / (kelvin - te)) + 2.0 * math.atan(kelvin / te)) / (4.0 * te**3)

    gained = integral(float(history.mean(0)[-1, 0])) - integral(450.0)
    assert gained == pytest.approx(2.0 * 0.8 * 5.670374419e-8 * 6000.0 / (40.0 * 490.0), rel=2e-3)


@pytest.mark.parametrize(
    ("thickness", "centre", "mean"),
    [(2.0, 5.18, 3.51), (3.0, 11.64, 7.90), (5.0, 32.35, 21.95), (8.0, 82.81, 56.19), (12.0, 186.32, 126.42)],
)
def test_mould_cooling_formula(thickness: float, centre: float, mean: float) -> None:
    """α 1.1e-7, 200 °C to 90 °C between walls at 40 °C, centre and mean [X]: 1 % on the default grid.

    On 80 cells 0.15 %. The formula t = s²/(π²α) ln[(4/π)(Tm-Tw)/(Te-Tw)], and its mean form with 8/π², was seen
    on a trainer's page.
    """
    s = thickness * 1e-3
    formula = s**2 / (math.pi**2 * 1.1e-7) * math.log(4.0 / math.pi * 160.0 / 50.0)
    assert formula == pytest.approx(centre, abs=6e-3)
    wall = Face(313.15, HELD)
    matter = constant(0.25, 950.0, 0.25 / (950.0 * 1.1e-7))
    for fractions, steps, tolerance in ((PART_FRACTIONS, 60, 1e-2), (graded(80, 1.0), 400, 1.5e-3)):
        slab = Slab((Layer(matter, 950.0 * s, fractions),), (), wall, wall)
        times = growing_steps(0.0005 * centre, 1.5 * centre, steps)
        history = solve(slab, slab.temperatures(473.15), times, tolerance=1.0)
        core = history.crossing(history.hottest(0), 363.15, rising=False)[0]
        whole = history.crossing(history.mean(0), 363.15, rising=False)[0]
        assert [core, whole] == pytest.approx([centre, mean], rel=tolerance)


def test_rim_cools_like_a_face() -> None:
    """A metal lump that loses heat by its edge only follows the lumped law with the edge's area."""
    rim = Face(293.15, 10.0, area=0.4)
    slab = Slab((Layer(constant(50.0, 7850.0, 490.0), 40.0, (0.3, 0.7), rim),))
    history = solve(slab, slab.temperatures(393.15), even_steps(5000.0, 100), tolerance=1e-3)
    exact = 293.15 + 100.0 * math.exp(-10.0 * 0.4 * 5000.0 / (40.0 * 490.0))
    assert history.mean(0)[-1, 0] == pytest.approx(exact, abs=0.02)
    assert np.ptp(history.end[:, 0]) < 1e-6


def test_heat_through_of_a_sheet() -> None:
    """6 mm of a glassy plastic from 20 °C in air at 170 °C, 30 W/(m² K): the core at 149 °C within 0.5 % of the series.

    The series is solved for the time at which its centre has come 86 % of the way.
    """
    k, rho, cp, half, convection = 0.19, 1190.0, 1470.0, 0.003, 30.0
    alpha, biot = k / (rho * cp), convection * half / k
    left = (170.0 - 149.0) / (170.0 - 20.0)
    fourier = brentq(lambda fo: float(plane_wall(biot, fo, np.zeros(1))[0]) - left, 0.05, 50.0)
    exact = fourier * half**2 / alpha
    face = Face(443.15, convection)
    slab = Slab((Layer(constant(k, rho, cp), 2.0 * half * rho, PART_FRACTIONS),), (), face, face)
    history = solve(slab, slab.temperatures(293.15), even_steps(1.5 * exact, 48))
    assert history.crossing(history.coldest(0), 422.15) == pytest.approx(exact, rel=0.005)


def test_a_printed_plate() -> None:
    """Heating of brass plates, an example of Cengel's textbook (4.4 in the numbering of its Scilab companion).

    40 mm from 20 °C, 7 min at 500 °C and 120 W/(m² K). The book reads 282 °C off its charts, which are good to 3 K; the
    full series with its 33.9e-6 m²/s gives 279.58 °C at the surface and 277.18 °C in the middle [X]. Nothing radiates,
    so half the drive, which keeps within our tables, gives half the rise.
    """
    face = Face(293.15 + 0.5 * 480.0, 120.0)
    brass = constant(110.0, 8530.0, 110.0 / (8530.0 * 33.9e-6))
    slab = Slab((Layer(brass, 0.04 * 8530.0, PART_FRACTIONS),), (), face, face)
    history = solve(slab, slab.temperatures(293.15), even_steps(420.0, 40))
    surface = 20.0 + 2.0 * (history.surface[-1, 1, 0] - 293.15)
    assert surface == pytest.approx(282.0, abs=3.0)
    assert surface == pytest.approx(279.58, abs=0.1)
    assert 20.0 + 2.0 * (history.coldest(0)[-1] - 293.15) == pytest.approx(277.18, abs=0.1)
