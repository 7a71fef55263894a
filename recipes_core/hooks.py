"""The five hooks of a plugin. Each one only registers: it returns declarations, and checks nothing itself.

Each is called once, when the command line or a program loads the plugins; never per recipe. Hooks take no
arguments. A plugin that raises, or whose declaration has an id that an earlier plugin has taken, is named in
every report; the other plugins still run. The order of plugins never changes a verdict.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import pluggy

if TYPE_CHECKING:
    from recipes_core.plugin_api import Process, Rule, SheetFile

PROJECT = "recipes_core"
GROUP = "recipes_core.plugins"

hookspec = pluggy.HookspecMarker(PROJECT)


@hookspec
def meltbook_resins() -> Iterable[SheetFile]:  # type: ignore[empty-body]
    """The data sheets of resins.

    Return one SheetFile for each sheet, ``[SheetFile(__name__, "demo.yaml")]``. The files are read when a
    recipe is judged. Since 1.0.
    """


@hookspec
def meltbook_liners() -> Iterable[SheetFile]:  # type: ignore[empty-body]
    """The data sheets of liners: what lies between the plastic and the tray or mould.

    Return one SheetFile for each sheet, as for resins. Since 1.0.
    """


@hookspec
def meltbook_materials() -> Iterable[SheetFile]:  # type: ignore[empty-body]
    """The data sheets of the materials of trays, moulds and formers.

    Return one SheetFile for each sheet, as for resins. Since 1.0.
    """


@hookspec
def meltbook_processes() -> Iterable[Process]:  # type: ignore[empty-body]
    """The processes that a step of a procedure can name.

    Return one Process for each; it names its schema, its forecast and its rules without importing them.
    Since 1.0.
    """


@hookspec
def meltbook_rules() -> Iterable[Rule]:  # type: ignore[empty-body]
    """Rules that belong to no process of the same plugin: for a resin, a liner, the recipe as a whole.

    Return the Rule objects; import the module that holds them inside the hook. Since 1.0.
    """
