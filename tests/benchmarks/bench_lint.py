"""Time of whole commands, as ratios to importing what they need, in one run.

Run it with the Python of an environment where meltbook is installed from a wheel, so that bytecode is there:
``python tests/benchmarks/bench_lint.py``. With ``--check`` the exit status is 1 if a bound is missed. The two
commands of a pair take turns, and each figure is the median of three; the whole folder is timed once.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

RUNS = 3
RECIPES = Path(__file__).parents[2] / "recipes"
RECIPE = RECIPES / "hdpe" / "bench-stop.yaml"
IMPORTS = [sys.executable, "-c", "import pluggy, jsonschema, ruamel.yaml, numpy"]
BARE = [sys.executable, "-c", "pass"]
MELTBOOK = [sys.executable, "-P", "-m", "recipes_core"]
PAIRS = (
    (
        "lint of one recipe",
        [*MELTBOOK, "lint", str(RECIPE)],
        "importing pluggy, jsonschema, ruamel.yaml, numpy",
        IMPORTS,
        2.5,
    ),
    ("--help", [*MELTBOOK, "--help"], "python -c pass", BARE, 6.0),
    ("plugins", [*MELTBOOK, "plugins"], "python -c pass", BARE, 12.0),
    ("explain melt-cut-short", [*MELTBOOK, "explain", "melt-cut-short"], "python -c pass", BARE, 16.0),
)


def seconds(command: list[str]) -> float:
    """How long one run takes, as somebody at the bench would count it."""
    begin = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment())
    return time.perf_counter() - begin


def environment() -> dict[str, str]:
    """Without the setting that keeps Python from using bytecode."""
    return {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}


def folder() -> bool:
    """Print what all shipped recipes take at once, and one by one; True if a bound is missed."""
    files = [str(file) for file in sorted(RECIPES.glob("*/*.yaml"))]
    together = seconds([*MELTBOOK, "lint", str(RECIPES)])
    apart = sum(seconds([*MELTBOOK, "lint", file]) for file in files)
    ratio = together / apart
    print(f"lint of all {len(files)} recipes {together:6.2f} s    bound 4 s")
    print(f"{'':24}{ratio:10.2f} × one by one ({apart:.1f} s)   bound 0.6")
    return together > 4.0 or ratio > 0.6


def main() -> int:
    """Print the table; 1 if a bound is missed and ``--check`` was given."""
    missed = False
    for name, command, other_name, other, bound in PAIRS:
        seconds(command), seconds(other)
        pairs = [(seconds(command), seconds(other)) for _ in range(RUNS)]
        ratio = statistics.median(a / b for a, b in pairs)
        ours, theirs = (1e3 * statistics.median(taken) for taken in zip(*pairs, strict=True))
        missed |= ratio > bound
        print(f"{name:24}{ours:7.0f} ms   {ratio:5.2f} × {other_name} ({theirs:.0f} ms)   bound {bound:g}")
    missed |= folder()
    return int(missed and "--check" in sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
