"""Time of the transient forecasts, in milliseconds and as ratios to importing numpy in the same run.

``python tests/benchmarks/bench_physics.py`` prints a table; with ``--check`` the exit status is 1 if a bound is
missed. Each figure is the median of seven runs and includes the tables of matter, the steps and the answer.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from recipes_core.physics.arrays import Floats
from recipes_core.physics.grid import (
    COOL_STEPS,
    MELT_FRACTIONS,
    MELT_STEPS_PER_DURATION,
    METAL_FRACTIONS,
    PART_FRACTIONS,
    WOOD_FRACTIONS,
    even_steps,
    expected_duration,
    growing_steps,
)
from recipes_core.physics.matter import Bed, Matter, constant, peaked_share, polymer
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve

ICE = 273.15
RUNS = 7


def factors(random: np.random.Generator, scenarios: int, spread: float) -> Floats:
    """Factors around one; the first, nominal, is one."""
    drawn = 1.0 + spread * np.clip(random.standard_normal(scenarios), -2.0, 2.0)
    drawn[0] = 1.0
    return drawn


def hdpe(random: np.random.Generator, scenarios: int, melted: tuple[Floats, Floats], loose: bool) -> Matter:
    """HDPE whose latent heat, heat capacity and bed differ in every scenario."""
    bed = Bed(330.0 * factors(random, scenarios, 0.1), 0.09 * factors(random, scenarios, 0.2))
    return polymer(
        solid_heat_capacity=2100.0,
        melt_heat_capacity=2500.0,
        solid_conductivity=0.42,
        melt_conductivity=0.25,
        solid_density=950.0,
        melt_density=760.0,
        melted=melted,
        latent_heat=190e3 * factors(random, scenarios, 0.05),
        heat_capacity_factor=factors(random, scenarios, 0.025),
        bed=bed if loose else None,
    )


def melt(loading: Floats, oven: Floats, random: np.random.Generator) -> Floats:
    """Tray, liner, bed, liner in an oven until every scenario has melted through; times, s."""
    scenarios = len(loading)
    flake = hdpe(random, scenarios, peaked_share(373.15, 403.15, 409.15), loose=True)
    liner = Layer(constant(0.1, 800.0, 1370.0), 0.04)
    convection = 5.0 * factors(random, scenarios, 0.2)
    slab = Slab(
        layers=(Layer(constant(50.0, 7850.0, 490.0), 6.28), liner, Layer(flake, loading, MELT_FRACTIONS), liner),
        contacts=(1.5e-3 * factors(random, scenarios, 0.3), 1.5e-3, 0.0),
        bottom=Face(oven, convection, 0.5),
        top=Face(oven, convection, 0.9),
    )
    start = slab.temperatures(293.15, 293.15, 293.15, 293.15)
    steps = even_steps(2.5 * expected_duration(slab, start, 403.15), round(2.5 * MELT_STEPS_PER_DURATION))
    flakes = slab.cells_of(2)
    history = solve(slab, start, steps, stop=lambda h: bool((h.end[flakes] >= 403.15).all()))
    times = history.crossing(history.coldest(2), 403.15)
    assert np.isfinite(times).all()
    return times


def spread_melt(loading: float) -> Floats:
    """One melt with its spread of 64."""
    random = np.random.default_rng(1)
    oven = 450.15 + 6.0 * (factors(random, 65, 1.0) - 1.0)
    return melt(loading * factors(random, 65, 0.05), oven, random)


def thousand_melts() -> Floats:
    """A thousand different trays."""
    random = np.random.default_rng(2)
    return melt(random.uniform(2.0, 11.0, 1000), random.uniform(435.0, 500.0, 1000), random)


def spread_cooling(wood: bool) -> Floats:
    """One cooling with its spread: 30 s of closing resolved, then two hours; times to a frozen core, s."""
    random = np.random.default_rng(3)
    plate = hdpe(random, 65, peaked_share(363.15, 389.15, 395.15), loose=False)
    matter = constant(0.12, 550.0, 1700.0 * 1.6) if wood else constant(50.0, 7850.0, 490.0 * 1.6)
    mass, cells = (550.0 * 0.018, WOOD_FRACTIONS) if wood else (7850.0 * 0.005, METAL_FRACTIONS)
    air = Face(295.15, 5.0 * factors(random, 65, 0.2), 0.8, 1.6)
    contact = 1e-3 * factors(random, 65, 0.3)
    part = Layer(plate, 11.4 * factors(random, 65, 0.05), PART_FRACTIONS)
    slab = Slab((Layer(matter, mass, cells[::-1]), part, Layer(matter, mass, cells)), (contact, contact), air, air)
    preheat = 293.15 if wood else 393.15
    start = slab.temperatures(preheat, 438.15, preheat)
    history = solve(slab, start, growing_steps(0.5, 7200.0, COOL_STEPS))
    times = history.crossing(history.hottest(1), 363.15, rising=False)
    assert np.isfinite(times).all()
    return times


def milliseconds(work: Callable[[], object]) -> float:
    """Median of seven runs after one to warm up."""
    work()
    taken = []
    for _ in range(RUNS):
        begin = time.perf_counter()
        work()
        taken.append(1e3 * (time.perf_counter() - begin))
    return statistics.median(taken)


def import_numpy() -> None:
    """A fresh interpreter that imports numpy."""
    subprocess.run([sys.executable, "-c", "import numpy"], check=True)


def main() -> int:
    """Print the table; 1 if a bound is missed and ``--check`` was given."""
    floor = milliseconds(import_numpy)
    cases: list[tuple[str, float, Callable[[], object], float]] = [
        (f"melt with spread, {loading:g} kg/m²", 60.0, partial(spread_melt, loading), 1.0)
        for loading in (2.0, 3.3, 7.5, 11.0)
    ]
    cases.append(("cooling with spread, steel", 80.0, partial(spread_cooling, False), 1.0))
    cases.append(("cooling with spread, wood", 80.0, partial(spread_cooling, True), 1.0))
    cases.append(("1,000 different melts, each", 0.2, thousand_melts, 1000.0))
    print(f"python -c 'import numpy' {floor:41.1f} ms")
    missed = False
    for name, bound, work, parts in cases:
        taken = milliseconds(work) / parts
        missed |= taken > bound
        print(f"{name:32}{taken:9.3f} ms   bound {bound:5.1f} ms   {taken / floor:7.4f} of importing numpy")
    return int(missed and "--check" in sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
