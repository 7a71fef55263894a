"""The data sheets of the shipped resins."""

from __future__ import annotations

from recipes_core.plugin_api import SheetFile, hookimpl

MELTBOOK_API = (1, 0)

IDS = (
    *("hdpe", "ldpe", "pp", "ps", "hips", "abs"),
    *("pla", "petg", "pmma", "pet", "pc", "pa6", "pa66", "pvc", "pom", "unknown"),
)


@hookimpl
def meltbook_resins() -> list[SheetFile]:
    """One sheet for each id, in the file of that name."""
    return [SheetFile(__name__, f"{id_}.yaml") for id_ in IDS]
