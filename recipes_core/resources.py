"""Where the schemas and the shipped recipes are: inside a wheel, or beside the package in a checkout."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from recipes_core.errors import DataError

Kind = Literal["schemas", "recipes"]


def data_root(kind: Kind) -> Path:
    """The folder that holds all schemas or all shipped recipes.

    The build hook copies both folders into a wheel; nothing is copied for an editable install, which
    therefore always reads the checkout. Raises DataError when the installation has lost them.
    """
    package = Path(__file__).resolve().parent
    for folder in (package / "_data" / kind, package.parent / kind):
        if folder.is_dir():
            return folder
    raise DataError(f"The folder {kind!r} that belongs to meltbook is missing; install meltbook again.")
