"""Work is done by several processes, and nobody can tell from the answers."""

from __future__ import annotations

import os
import sys

import pytest

from recipes_core.cli.cores import FEW, beside, on_all_cores
from recipes_core.document.problems import START, DocumentError, Problem
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


@several
def test_two_things_go_on_beside_each_other() -> None:
    """The answer comes from another process; what is done meanwhile is done here."""
    here: list[int] = []
    assert beside(os.getpid, lambda: here.append(os.getpid())) != os.getpid()
    assert here == [os.getpid()]


def test_on_one_core_only_the_work_is_done(monkeypatch: pytest.MonkeyPatch) -> None:
    """An import ahead of time would save nothing."""
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    assert beside(os.getpid, lambda: pytest.fail("done all the same")) == os.getpid()


@pytest.mark.parametrize(
    "error", [UsageError("no such file"), DocumentError([Problem("tab", "a tab", START)], "a.yaml")]
)
def test_an_error_of_the_work_beside_arrives_whole(error: MeltbookError) -> None:
    """Its sentence, its place and its file."""

    def work() -> None:
        raise error

    with pytest.raises(type(error)) as raised:
        beside(work, lambda: None)
    assert str(raised.value) == str(error)
    assert vars(raised.value) == vars(error)


@several
def test_work_beside_that_dies_is_told_of() -> None:
    """One sentence."""
    with pytest.raises(MeltbookError, match="broke off"):
        beside(lambda: os._exit(9), lambda: None)
