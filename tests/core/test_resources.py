"""Schemas and recipes are found in a wheel's own data folder first, else beside the package."""

from __future__ import annotations

from pathlib import Path

import pytest

from recipes_core import resources
from recipes_core.errors import DataError
from recipes_core.resources import data_root


def test_the_folders_are_found_here() -> None:
    """Wherever the tests run, the schema of a recipe and at least one recipe are there."""
    assert list(data_root("schemas").glob("recipe-*.schema.json"))
    assert list(data_root("recipes").rglob("*.yaml"))


def test_a_wheel_reads_its_own_copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that happens to be called "recipes" beside an installed package is not ours."""
    package = tmp_path / "site" / "recipes_core"
    beside = tmp_path / "site" / "recipes"
    beside.mkdir(parents=True)
    package.mkdir()
    monkeypatch.setattr(resources, "__file__", str(package / "resources.py"))
    assert data_root("recipes") == beside
    copied = package / "_data" / "recipes"
    copied.mkdir(parents=True)
    assert data_root("recipes") == copied


def test_a_lost_folder_is_an_error_with_a_cure(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The sentence names the folder and says what to do."""
    monkeypatch.setattr(resources, "__file__", str(tmp_path / "recipes_core" / "resources.py"))
    with pytest.raises(DataError, match=r"'schemas'.*install meltbook again"):
        data_root("schemas")
