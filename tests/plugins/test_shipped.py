"""What ships with meltbook is registered whole, and by the same way that any plugin takes."""

from __future__ import annotations

from importlib.resources import files

import pytest

from recipes_core.document import read
from recipes_core.plugin_host import load
from recipes_core.sheets import load_sheet

PLUGINS = load()


def test_every_shipped_plugin_loads() -> None:
    """Nothing of meltbook's own is broken, and nothing is empty."""
    ours = [plugin for plugin in PLUGINS.described if plugin.entry.distribution == "meltbook"]
    assert [plugin.entry.name for plugin in ours] == ["liners", "materials", "processes", "resins"]
    assert all(plugin.uses for plugin in ours)
    assert [p.message for p in PLUGINS.problems] == []


@pytest.mark.parametrize(("kind", "folder"), [("resin", "resins"), ("liner", "liners"), ("material", "materials")])
def test_every_sheet_in_the_folder_is_registered(kind: str, folder: str) -> None:
    """A sheet that is there but not listed would never be used; one that is listed must be there."""
    package = f"recipes_plugins.{folder}"
    there = {file.name for file in files(package).iterdir() if file.name.endswith(".yaml")}
    listed = {sheet.name for sheet in PLUGINS.of_kind(kind).values() if sheet.package == package}
    assert listed == there


@pytest.mark.parametrize("kind", ["resin", "liner", "material"])
def test_every_sheet_states_the_id_it_is_registered_by(kind: str) -> None:
    """A sheet is found by the name of its file, before anybody has read it."""
    for id_, file in PLUGINS.of_kind(kind).items():
        sheet = load_sheet(read(file.read(), file.name))
        assert (sheet.id, sheet.document.data["format"]) == (id_, f"{kind}/1")


def test_every_process_in_the_folder_is_registered() -> None:
    """A process is a folder with the schema of its step."""
    packages = files("recipes_plugins.processes").iterdir()
    there = {package.name for package in packages if package.joinpath("step.schema.json").is_file()}
    assert {process.package.rpartition(".")[2] for process in PLUGINS.processes.values()} == there
