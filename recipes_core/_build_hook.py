"""Copy the data folders into a real wheel; leave an editable install to read the checkout."""

from __future__ import annotations

from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class DataFolders(BuildHookInterface):
    """Hatchling calls ``initialize`` before it collects the files of a wheel."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Add ``schemas/`` and ``recipes/`` where `recipes_core.resources` looks for them."""
        if version != "editable":
            for folder in ("schemas", "recipes"):
                build_data["force_include"][folder] = f"recipes_core/_data/{folder}"
