"""Linear low-density polyethylene for meltbook: one data sheet, registered by one hook."""

from __future__ import annotations

from recipes_core.plugin_api import SheetFile, hookimpl

MELTBOOK_API = (1, 0)


@hookimpl
def meltbook_resins() -> list[SheetFile]:
    """The sheet that lies beside this module."""
    return [SheetFile(__name__, "lldpe.yaml")]
