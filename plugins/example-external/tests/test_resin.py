"""meltbook finds the resin, nothing stands against the plugin, and its sheet can be read."""

from __future__ import annotations

from datetime import date

from recipes_core.app import shelf
from recipes_core.plugin_host import load


def test_the_plugin_is_found_and_sound() -> None:
    """It is registered under its id by this distribution, and no plugin has a problem."""
    plugins = load()
    assert plugins.problems == ()
    assert plugins.owners["resin-lldpe"].startswith("plugin resin-lldpe of meltbook-resin-lldpe ")


def test_the_sheet_reads() -> None:
    """The sheet is there where a recipe would look for it, and says what it should."""
    sheet = shelf().library.resins["lldpe"]
    assert sheet.id == "lldpe"
    assert sheet.problems(date.today()) == ()


def test_without_the_plugin_there_is_no_such_resin() -> None:
    """Switched off by its name, it is gone, and nothing else is."""
    plugins = load(frozenset({"resin-lldpe"}))
    assert plugins.problems == ()
    assert "lldpe" not in plugins.resins
    assert "hdpe" in plugins.resins
