"""What the suites share: the bench of the rules' tests, and a judge for each shipped recipe."""

from __future__ import annotations

from pathlib import Path

import pytest

from recipes_core.shelf import Shelf, shelf
from tests.rules.conftest import bench
from tests.suites.judging import Judge, shipped

__all__ = ["bench"]


@pytest.fixture(scope="session")
def having() -> Shelf:
    """One shelf for all recipes."""
    return shelf()


@pytest.fixture(scope="session", params=shipped(), ids=lambda file: file.stem)
def judge(request: pytest.FixtureRequest, having: Shelf) -> Judge:
    """A judge for each shipped recipe that nothing stands against; it goes when the next one comes."""
    file: Path = request.param
    made = Judge(file, having)
    if not made.sound:
        pytest.skip(f"{made.base.verdict.words}: not a sound recipe")
    return made


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What is asked of all mutants together comes when the last of them is made."""
    items.sort(key=lambda item: {"fates", "judge"} & set(getattr(item, "fixturenames", ())) == {"fates"})
