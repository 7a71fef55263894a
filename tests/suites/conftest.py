"""What the suites share: the bench of the rules' tests, a judge for each shipped recipe, and the table of mutants."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from recipes_core.shelf import Shelf, shelf
from tests.rules.conftest import bench
from tests.suites.judging import Judge, shipped
from tests.suites.mutation import Fate, Outcome

__all__ = ["bench"]
FATES: list[Outcome] = []
"""What became of every mutant of this run."""


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


@pytest.fixture(scope="session")
def fates() -> list[Outcome]:
    """Where the mutation suite writes down what became of its mutants."""
    return FATES


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What is asked of all mutants together comes when the last of them is made."""
    items.sort(key=lambda item: {"fates", "judge"} & set(getattr(item, "fixturenames", ())) == {"fates"})


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """One table over all recipes, and each mutant that survived."""
    if not FATES:
        return
    terminalreporter.section("mutants of the shipped recipes")
    for line in table(FATES):
        terminalreporter.write_line(line)


def table(fates: list[Outcome]) -> Iterator[str]:
    """Operator by made, caught, harmless and survived; then the survivors, each with its reason."""
    counts: Counter[tuple[str, Fate]] = Counter((f.mutant.operator, f.fate) for f in fates)
    operators = [*dict.fromkeys(f.mutant.operator for f in fates), "all"]
    counts.update({("all", fate): sum(counts[o, fate] for o in operators) for fate in Fate})
    yield f"{'operator':<14}{'made':>7}" + "".join(f"{fate:>10}" for fate in Fate)
    for operator in operators:
        row = [counts[operator, fate] for fate in Fate]
        yield f"{operator:<14}{sum(row):>7}" + "".join(f"{count:>10}" for count in row)
    survivors = [f for f in fates if f.fate is Fate.SURVIVED]
    yield f"survived: {len(survivors) / len(fates):.1%}"
    told = Counter((f.place, f.by) for f in survivors)
    for (where, why), count in sorted(told.items(), key=lambda t: -t[1]):
        yield f"{count:>5}  {where}: {why}"
