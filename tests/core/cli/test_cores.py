"""Many items are worked on by several processes, and nobody can tell from the answers."""

from __future__ import annotations

import os
import sys

import pytest

from recipes_core.cli.cores import FEW, on_all_cores
from recipes_core.errors import MeltbookError, UsageError

several = pytest.mark.skipif(
    sys.platform != "linux" or (os.cpu_count() or 1) < 2, reason="everything is done in one process here"
)
MANY = range(4 * FEW)


def test_answers_stand_in_the_order_of_the_items() -> None:
    """Whichever process was the first to answer, and with work that cannot be pickled."""
    factor = 3
    assert list(on_all_cores(lambda n: factor * n, MANY)) == [3 * n for n in MANY]


def test_a_few_are_done_here() -> None:
    """A second process would take longer to start."""
    assert set(on_all_cores(lambda _: os.getpid(), range(FEW))) == {os.getpid()}


@several
def test_many_are_done_elsewhere() -> None:
    """So that a folder takes half the time on two cores."""
    """A second process would take longer to start."""
    assert os.getpid() not in set(on_all_cores(lambda _: os.getpid(), MANY))


@pytest.mark.parametrize("items", [range(1), MANY])
def test_an_error_arrives_as_it_was_raised(items: range) -> None:
    """The same sentence as if it had happened here."""

    def work(n: int) -> int:
        raise UsageError(f"there is no file {n}")

    with pytest.raises(UsageError, match="there is no file 0"):
        list(on_all_cores(work, items))


@several
def test_a_process_that_dies_is_told_of() -> None:
    """One sentence, and no trace of the program."""
    with pytest.raises(MeltbookError, match="one by one"):
        list(on_all_cores(lambda _: os._exit(9), MANY))
