"""Through the command: a plugin that fails is named, the others still judge, and the exit status is 3."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

RECIPE = Path(__file__).parents[1] / "cases" / "base.yaml"

RULE = """
from recipes_core.plugin_api import Level, Rule, Scope, hookimpl
MELTBOOK_API = (1, 0)


def _test(r):
    raise ValueError("no such value")


@hookimpl
def meltbook_rules():
    return [Rule("odd-one", Level.WARNING, Scope.RECIPE, message="Odd.", checks="nothing", why="none", do="none",
                 sources=("judgement",), reads=(), test=_test)]
"""

FORECAST = """
from recipes_core.plugin_api import Process, hookimpl
MELTBOOK_API = (1, 0)
RULES = ()


def forecast(case, work):
    raise ArithmeticError("lost")


@hookimpl
def meltbook_processes():
    return [Process("hum", "Hum a tune", (), "", "humming", "step.json", "humming:forecast", "humming:RULES")]
"""


def lint(folder: Path, recipe: Path = RECIPE) -> subprocess.CompletedProcess[str]:
    """Lint with whatever is installed, and the plugins in ``folder`` beside it."""
    command = [sys.executable, "-m", "recipes_core", "lint", str(recipe)]
    env = {**os.environ, "PYTHONPATH": str(folder)}
    return subprocess.run(command, capture_output=True, text=True, env=env, check=False, cwd=folder, encoding="utf-8")


def install(folder: Path, name: str, source: str) -> None:
    """A made-up distribution of one module."""
    (folder / f"{name}.py").write_text(source, "utf-8")
    info = folder / f"{name}-3.2.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 3.2\n", "utf-8")
    (info / "entry_points.txt").write_text(f"[recipes_core.plugins]\n{name} = {name}\n", "utf-8")


def test_the_recipe_has_nothing_against_it(tmp_path: Path) -> None:
    """Without any other plugin it passes, so what follows is the plugins' doing."""
    ran = lint(tmp_path)
    assert (ran.returncode, ran.stderr) == (0, "")


@pytest.mark.parametrize(
    ("source", "says"),
    [
        pytest.param("raise OSError('no disk')\n", "OSError: no disk", id="raises on import"),
        pytest.param("MELTBOOK_API = (2, 0)\n", "it is for plugin interface 2.0", id="newer major interface"),
        pytest.param(RULE, "The check odd-one did not run: ValueError: no such value", id="raises in a rule"),
    ],
)
def test_a_failing_plugin_is_named_and_contained(tmp_path: Path, source: str, says: str) -> None:
    """The recipe was not fully checked: not a pass, and no crash either."""
    install(tmp_path, "oddments", source)
    ran = lint(tmp_path)
    assert ran.returncode == 3
    assert says in " ".join(ran.stdout.split())
    assert "oddments 3.2" in ran.stdout or "odd-one" in ran.stdout
    assert "do not try yet" in ran.stdout
    assert "checks passed" in ran.stdout
    assert "Traceback" not in ran.stdout + ran.stderr


def test_a_forecast_that_raises_is_named_and_contained(tmp_path: Path) -> None:
    """What its step does is not known; the other steps are judged as before."""
    install(tmp_path, "humming", FORECAST)
    package = tmp_path / "humming"
    package.mkdir()
    (tmp_path / "humming.py").rename(package / "__init__.py")
    keys = '"properties": {"id": {"type": "string"}, "process": {"type": "string"}}'
    (package / "step.json").write_text(f'{{"type": "object", {keys}, "additionalProperties": false}}', "utf-8")
    recipe = tmp_path / "recipe.yaml"
    text = RECIPE.read_text("utf-8")
    assert text.count("\nnotes:") == 1
    recipe.write_text(text.replace("\nnotes:", "\n  - {id: tune, process: hum}\n\nnotes:"), "utf-8")
    ran = lint(tmp_path, recipe)
    assert ran.returncode == 3
    assert "The forecast of step tune (hum) did not run: ArithmeticError: lost." in " ".join(ran.stdout.split())
    assert "Traceback" not in ran.stdout + ran.stderr
