"""The data sheets of the materials of trays, moulds and formers."""

from __future__ import annotations

from recipes_core.plugin_api import SheetFile, hookimpl

MELTBOOK_API = (1, 0)

IDS = ("aluminium", "hardwood", "mdf", "plywood", "softwood", "stainless", "steel")


@hookimpl
def meltbook_materials() -> list[SheetFile]:
    """One sheet for each id, in the file of that name."""
    return [SheetFile(__name__, f"{id_}.yaml") for id_ in IDS]
