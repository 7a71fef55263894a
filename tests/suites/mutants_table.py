"""The table of all mutants of a run, at its end; what several workers made is added up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

import pytest

from tests.suites.mutation import Fate

if TYPE_CHECKING:
    from tests.suites.mutation import Outcome

Row = tuple[str, str, str, str]
"""Operator, fate, place without indexes, and the rule or the reason."""

ROWS: list[Row] = []
KEY = "mutants"


def rows(outcomes: Iterable[Outcome]) -> list[Row]:
    """What is kept of each mutant."""
    return [(o.mutant.operator, o.fate.value, o.place, o.by) for o in outcomes]


@pytest.fixture(scope="session")
def fates() -> list[Row]:
    """Where the mutation suite writes down what became of its mutants."""
    return ROWS


def pytest_sessionfinish(session: pytest.Session) -> None:
    """A worker hands over what it has."""
    if hasattr(session.config, "workeroutput"):
        session.config.workeroutput[KEY] = ROWS


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: Any) -> None:
    """Take over what a worker had; one that crashed has nothing."""
    ROWS.extend(tuple(row) for row in getattr(node, "workeroutput", {}).get(KEY, ()))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """One table over all recipes, and the places at which mutants survived."""
    if ROWS:
        terminalreporter.section("mutants of the shipped recipes")
        for line in table(ROWS):
            terminalreporter.write_line(line)


def table(told: list[Row]) -> Iterator[str]:
    """Operator by made, caught, harmless and survived; then the survivors, each with its reason."""
    counts = Counter((operator, fate) for operator, fate, _, _ in told)
    operators = [*sorted({operator for operator, *_ in told}), "all"]
    counts.update({("all", fate): sum(counts[o, fate] for o in operators) for fate in Fate})
    yield f"{'operator':<14}{'made':>7}" + "".join(f"{fate:>10}" for fate in Fate)
    for operator in operators:
        row = [counts[operator, fate] for fate in Fate]
        yield f"{operator:<14}{sum(row):>7}" + "".join(f"{count:>10}" for count in row)
    survivors = Counter((place, by) for _, fate, place, by in told if fate == Fate.SURVIVED)
    yield f"survived: {survivors.total() / len(told):.1%}"
    for (place, why), count in sorted(survivors.items(), key=lambda t: (-t[1], t[0])):
        yield f"{count:>5}  {place}: {why}"
