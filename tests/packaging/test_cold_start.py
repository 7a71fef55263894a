"""A command that computes nothing imports nothing that computes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import recipes_core
from recipes_core import app
from recipes_core.resources import data_root

HEAVY = {
    "numpy", "scipy", "jsonschema", "referencing", "ruamel", "importlib.metadata", "importlib.resources",
    "hypothesis", "pytest", "_pytest",
}  # fmt: skip

SCRIPT = """
import sys
from recipes_core.cli import main
try:
    main(sys.argv[1:])
except SystemExit:
    pass
print("\\n" + " ".join(sys.modules))
"""


def run_python(script: str, *words: str) -> set[str]:
    """The words in the last line that a script prints, run on its own with the installed meltbook."""
    command = [sys.executable, "-P", "-c", script, *words]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines()[-1].split())


def imported(*words: str) -> set[str]:
    """The modules that one run of meltbook has imported when it ends."""
    return run_python(SCRIPT, *words)


@pytest.mark.parametrize("words", [["--version"], ["--help"], ["plugins"]])
def test_no_plugin_and_no_list_needs_heavy_modules(words: list[str]) -> None:
    """Not numpy, not a validator, not a YAML parser, not the slow search for entry points."""
    modules = imported(*words)
    assert "recipes_core.cli" in modules
    assert modules & HEAVY == set()


def test_explaining_a_rule_needs_no_numbers() -> None:
    """All rules of all processes are imported, and yet neither numpy nor a validator."""
    modules = imported("explain", "melt-cut-short")
    assert "recipes_core.cli.explain" in modules
    assert modules & {"numpy", "scipy", "jsonschema", "referencing"} == set()


@pytest.mark.parametrize("words", [["--help"], ["lint"], ["forecast"], ["explain", "hdpe"]])
def test_only_pictures_need_matplotlib(words: list[str]) -> None:
    """Whoever judges, forecasts or asks does not wait for it, and need not have it."""
    recipe = Path(__file__).parents[2] / "recipes" / "hdpe" / "coat-hook.yaml"
    modules = imported(*words, *([str(recipe)] if words[0] in ("lint", "forecast") else []))
    assert "recipes_core.cli" in modules
    assert {name.partition(".")[0] for name in modules} & {"matplotlib", "PIL"} == set()


ONLY_SARIF = {"recipes_core.report.sarif", "recipes_core.report.sarif_result"}
ONLY_JUNIT = {"recipes_core.report.junit", "xml.etree.ElementTree"}
ONLY_FIX = {"recipes_core.cli.mending", "recipes_core.mend", "recipes_core.report.diff"}
UNUSED = {"difflib", "jinja2", "matplotlib", "weasyprint", "xml", "xml.sax"}
RECIPE = str(data_root("recipes") / "hdpe" / "coat-hook.yaml")


def test_a_text_report_pays_for_no_other(tmp_path: Path) -> None:
    """Neither another format nor mending is imported before it is asked for."""
    others = ONLY_SARIF | ONLY_JUNIT | ONLY_FIX | UNUSED | {"recipes_core.report.data"}
    assert imported("lint", RECIPE) & others == set()
    out = str(tmp_path / "out")
    assert imported("lint", "-o", out, "--format", "sarif", RECIPE) & others == ONLY_SARIF
    assert imported("lint", "-o", out, "--format", "junit", RECIPE) & others == ONLY_JUNIT | {"xml"}
    assert imported("lint", "-o", out, "--fix", RECIPE) & others == ONLY_FIX


def test_the_package_alone_imports_nothing_of_ours() -> None:
    """``from recipes_core import facts`` must not pull in everything that `recipes_core.app` wires together."""
    modules = run_python("import sys; from recipes_core import facts; print(*sys.modules)")
    assert {name for name in modules if name.startswith("recipes_core.")} <= {
        "recipes_core.facts",
        "recipes_core.findings",
    }


def test_the_public_names_come_from_the_app() -> None:
    """They are there without naming the module that holds them; other names are refused."""
    assert recipes_core.lint is app.lint
    with pytest.raises(AttributeError, match="no attribute 'lynt'"):
        recipes_core.lynt  # noqa: B018


def test_the_measure_itself_sees_what_is_imported() -> None:
    """Were numpy imported, this would tell."""
    assert "numpy" in run_python("import sys, numpy; print(*sys.modules)")
