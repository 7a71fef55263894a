"""The composed schemas of the shipped processes, and the recipe that the format's description prints."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from recipes_core.schema.compose import Schemas, compose

ROOT = Path(__file__).parents[3]
PROCESSES = ("weigh", "flake-melt", "fold", "mould-preheat", "mould-press", "cool", "demould")


def step_schema(process: str) -> Any:
    """The step schema of a shipped process as it stands in its file."""
    folder = ROOT / "plugins" / "recipes_plugins" / "processes" / process.replace("-", "_")
    return json.loads((folder / "step.schema.json").read_bytes())


@pytest.fixture(scope="session")
def step_schemas() -> dict[str, Any]:
    """All shipped step schemas, by process."""
    return {process: step_schema(process) for process in PROCESSES}


@pytest.fixture(scope="session")
def schemas(step_schemas: dict[str, Any]) -> Schemas:
    """The shipped schemas, composed."""
    return compose(step_schemas)


@pytest.fixture(scope="session")
def coat_hook() -> str:
    """The text of the recipe."""
    return (ROOT / "tests" / "recipes" / "coat-hook.yaml").read_text(encoding="utf-8")
