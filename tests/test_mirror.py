"""Every module has its tests: in the module that mirrors it, or in the one that is named here with the reason."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
TESTS = ROOT / "tests"

PROCESSES = [file.parent.name for file in sorted((ROOT / "plugins/recipes_plugins/processes").glob("*/process.yaml"))]
RULES = [
    *(
        file.stem
        for file in sorted((ROOT / "recipes_core/rules").glob("*.py"))
        if "RULES = (" in file.read_text("utf-8")
    ),
    "rule",
]

ELSEWHERE = {
    # the core
    "recipes_core": ("core/cli/test_cli_lint.py", "the version, and the package that all tests import"),
    "recipes_core.__main__": ("core/test_cli.py", "run as a module there"),
    "recipes_core._build_hook": ("packaging/test_cold_start.py", "runs while the wheel is built, never in one"),
    "recipes_core.errors": ("core/test_cli.py", "each error becomes its sentence and status there"),
    "recipes_core.findings": ("core/report/test_report_data.py", "values without behaviour; every field is reported"),
    "recipes_core.forecast": ("core/test_forecast_walk.py", "named after the walk, as the command is the forecast"),
    "recipes_core.hooks": ("plugins/test_host.py", "declarations without behaviour, answered by test plugins"),
    "recipes_core.plugin_api": ("plugins/test_shipped.py", "names for plugins, and the records that they declare"),
    "recipes_core.plugin_host": ("plugins/test_host.py", "beside the other tests of plugins"),
    "recipes_core.provenance": ("plugins/test_provenance.py", "tested on every shipped number"),
    "recipes_core.shelf": (
        "core/test_app.py",
        "what judging needs, tested by judging; broken parts of it in plugins/test_contained.py",
    ),
    "recipes_core.cli": ("core/test_cli.py", "the command line as a whole"),
    "recipes_core.cli.plugins": ("core/test_cli.py", "called there as the one command that reads no file"),
    "recipes_core.document": ("core/document/test_document_read.py", "gathers the names of the package"),
    "recipes_core.document.builder": ("core/document/test_document_read.py", "builds what is read there"),
    "recipes_core.document.events": ("core/document/test_document_read.py", "a step of reading"),
    "recipes_core.document.model": ("core/document/test_document_read.py", "the document that is read there"),
    "recipes_core.document.problems": ("core/document/test_document_refusals.py", "what refusals are made of"),
    "recipes_core.document.source": ("core/document/test_document_refusals.py", "refuses before parsing"),
    "recipes_core.document.tabs": ("core/document/test_document_refusals.py", "refuses tabs"),
    "recipes_core.physics": ("test_layers.py", "an empty package that imports nothing of ours"),
    "recipes_core.physics.balance": ("core/physics/test_solver_analytic.py", "the equations that the solver solves"),
    "recipes_core.physics.lookup": ("core/physics/test_matter.py", "the tables of matter"),
    "recipes_core.physics.solver": ("core/physics/test_solver_oracle.py", "by several test modules, one an oracle"),
    "recipes_core.quantities": ("core/quantities/test_quantity_parse.py", "gathers the names of the package"),
    "recipes_core.quantities.ask": ("core/quantities/test_quantity_parse.py", "the sentences of refusals"),
    "recipes_core.quantities.patterns": ("core/quantities/test_quantity_parse.py", "how numbers are written"),
    "recipes_core.quantities.quantity": ("core/quantities/test_quantity_parse.py", "what parsing yields"),
    "recipes_core.quantities.steps": ("core/quantities/test_quantity_show.py", "the steps that are shown"),
    "recipes_core.report": ("core/report/test_report_text.py", "an empty package"),
    "recipes_core.report.card": ("core/report/card/test_card_text.py", "an empty package"),
    "recipes_core.report.card.content": ("core/report/card/test_card_gather.py", "values without behaviour"),
    "recipes_core.report.card.values": ("core/report/card/test_card_gather.py", "the numbers of a card"),
    "recipes_core.rules": ("test_layers.py", "an empty package"),
    "recipes_core.rules.engine": ("rules/test_cases.py", "runs every rule of every case"),
    "recipes_core.schema": ("core/schema/test_check.py", "gathers the names of the package"),
    "recipes_core.schema.keywords": ("core/schema/test_compose.py", "what schemas of steps may use"),
    "recipes_core.schema.validator": ("core/schema/test_check.py", "runs the check"),
    "recipes_core.schema.wording": ("core/schema/test_check.py", "the sentences of the check"),
    "recipes_core.sheets": ("core/test_sheets.py", "one test module for the small package"),
    "recipes_core.sheets.grip": ("core/test_grip.py", "asked of a case, as rules do"),
    "recipes_core.sheets.check": ("core/test_sheets.py", "one test module for the small package"),
    "recipes_core.sheets.measures": ("core/test_sheets.py", "one test module for the small package"),
    "recipes_core.sheets.properties": ("core/test_sheets.py", "one test module for the small package"),
    "recipes_core.sheets.blend": ("core/test_blend.py", "beside the other tests of sheets"),
    "recipes_core.sheets.tighten": ("core/test_tighten.py", "beside the other tests of sheets"),
    "recipes_core.whole": ("core/test_forecast_walk.py", "its facts are seen on the walk"),
    "recipes_core.sheets.states": ("core/test_states.py", "beside the other tests of sheets"),
    "recipes_core.sheets.sheet": ("core/test_sheets.py", "one test module for the small package"),
    **{f"recipes_core.rules.{name}": ("rules/test_cases.py", "its rules have their cases there") for name in RULES},
    # the shipped plugins
    "recipes_plugins": ("plugins/test_shipped.py", "an empty package"),
    "recipes_plugins.liners": ("plugins/test_shipped.py", "a list of sheets"),
    "recipes_plugins.materials": ("plugins/test_shipped.py", "a list of sheets"),
    "recipes_plugins.resins": ("plugins/test_shipped.py", "a list of sheets"),
    "recipes_plugins.processes": ("plugins/test_shipped.py", "a list of processes"),
    "recipes_plugins.plastic": ("plugins/processes/test_plastic.py", "lent to processes"),
    "recipes_plugins.water": ("plugins/processes/test_water.py", "lent to processes"),
    "recipes_plugins.processes.shred.reach": ("plugins/processes/test_shred.py", "the table of reach"),
    "recipes_plugins.profiles": ("plugins/processes/test_profiles.py", "lent to processes"),
    "recipes_plugins.melted": ("plugins/processes/test_flake_melt.py", "what is asked of a layer that melts"),
    "recipes_plugins.pressed": ("plugins/processes/test_mould_press.py", "what is asked of a pressed part"),
    "recipes_plugins.pressure": ("plugins/processes/test_mould_press.py", "what all press steps forecast alike"),
    "recipes_plugins.surroundings": ("plugins/processes/test_surroundings.py", "lent to processes"),
    "recipes_plugins.pictures": ("plugins/processes/test_pictures.py", "lent to processes"),
    "recipes_plugins.processes.reheat_bend.curves": ("plugins/processes/test_pictures.py", "with all other curves"),
    "recipes_plugins.piece": ("plugins/processes/test_piece.py", "lent to processes"),
    "recipes_plugins.processes.flake_melt.melting": ("plugins/processes/test_flake_melt.py", "the record of the melt"),
    "recipes_plugins.processes.flake_melt.vapour": ("plugins/processes/test_vapour.py", "beside the other tests"),
    "recipes_plugins.processes.flake_melt.thinner": ("rules/test_advice.py", "finds the layer that a rule advises"),
    "recipes_plugins.processes.sheet_press.heating": ("plugins/processes/test_sheet_press.py", "the record of melting"),
    "recipes_plugins.processes.sheet_press.platens": ("plugins/processes/test_sheet_press.py", "the record of cooling"),
    "recipes_plugins.processes.mould_press.pressing": ("plugins/processes/test_mould_press.py", "the record of it"),
    "recipes_plugins.processes.mould_press.press_rules": ("rules/test_cases.py", "its rules have their cases there"),
    "recipes_plugins.processes.reheat_bend.inputs": (
        "plugins/processes/test_reheat_bend.py",
        "what the records rest on",
    ),
    "recipes_plugins.processes.reheat_bend.soaking": (
        "plugins/processes/test_reheat_bend.py",
        "the record of the soak",
    ),
    "recipes_plugins.processes.reheat_bend.holding": (
        "plugins/processes/test_reheat_bend.py",
        "the record of the hold",
    ),
    "recipes_plugins.processes.reheat_bend.shape": ("plugins/processes/test_reheat_bend.py", "strain and lengths"),
    "recipes_plugins.processes.reheat_bend.refusals": ("rules/test_cases.py", "its rules have their cases there"),
    **{f"recipes_plugins.processes.{p}": ("plugins/test_shipped.py", "an empty package") for p in PROCESSES},
    **{
        f"recipes_plugins.processes.{p}.forecast": (f"plugins/processes/test_{p}.py", "the forecast of the process")
        for p in PROCESSES
    },
    **{
        f"recipes_plugins.processes.{p}.rules": ("rules/test_cases.py", "its rules have their cases there")
        for p in PROCESSES
    },
}
"""Module → the test module that answers for it, and why it is not the one of the same name."""


def modules(folder: Path) -> list[str]:
    """The dotted names of all modules below a package."""
    found = []
    for file in sorted(folder.rglob("*.py")):
        parts = file.relative_to(folder.parent).with_suffix("").parts
        found.append(".".join(parts[:-1] if parts[-1] == "__init__" else parts))
    return found


MODULES = [*modules(ROOT / "recipes_core"), *modules(ROOT / "plugins" / "recipes_plugins")]


def mirrors(module: str) -> list[Path]:
    """Where the mirror of a module of the core may be: some packages put their own name before the module's."""
    _, *packages, name = module.split(".")
    if not packages:
        return [TESTS / "core" / f"test_{name}.py"]
    word = "quantity" if packages[-1] == "quantities" else packages[-1]
    folders = [TESTS / "core" / Path(*packages), TESTS / Path(*packages)]
    return [folder / f"test_{prefix}{name}.py" for folder in folders for prefix in ("", f"{word}_")]


@pytest.mark.parametrize("module", MODULES)
def test_every_module_has_its_tests(module: str) -> None:
    """A module without any is a mistake, until it has some or is listed with its reason."""
    if module in ELSEWHERE:
        path, why = ELSEWHERE[module]
        assert (TESTS / path).is_file(), f"{module} is said to be tested in {path}, which is not there"
        assert why
    else:
        assert any(path.is_file() for path in mirrors(module)), f"{module} has no tests in {mirrors(module)}"


def test_the_list_names_no_module_that_is_gone() -> None:
    """It is kept up to date."""
    assert set(ELSEWHERE) - set(MODULES) == set()


def test_a_module_without_tests_would_be_found() -> None:
    """The search itself: a made-up name has no mirror, known ones have theirs."""
    assert not any(path.is_file() for path in mirrors("recipes_core.physics.alchemy"))
    for module in ("recipes_core.facts", "recipes_core.physics.ageing", "recipes_core.quantities.parse"):
        assert any(path.is_file() for path in mirrors(module))
