"""The data sheets of the shipped liners."""

from __future__ import annotations

from recipes_core.plugin_api import SheetFile, hookimpl

MELTBOOK_API = (1, 0)

IDS = ("parchment", "bare-metal", "foil", "ptfe-cloth", "silicone", "waxed-paper")


@hookimpl
def meltbook_liners() -> list[SheetFile]:
    """One sheet for each id, in the file of that name."""
    return [SheetFile(__name__, f"{id_}.yaml") for id_ in IDS]
