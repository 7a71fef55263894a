"""Work on every core that the machine has: many files at once, or two things beside each other."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, TypeVar

from recipes_core.errors import MeltbookError

if TYPE_CHECKING:
    from concurrent.futures import ProcessPoolExecutor

Item = TypeVar("Item")
Answer = TypeVar("Answer")

FEW = 4
"""Up to so many files a second process takes longer to start than it saves."""

_given: list[Callable[[Any], Any]] = []
"""The work of a forked process."""


def on_all_cores(work: Callable[[Item], Answer], items: Iterable[Item]) -> Iterator[Answer]:
    """As ``map``: the answers in the order of ``items``, which may be worked on by forked processes meanwhile.

    Answers and exceptions must survive pickling; ``work`` need not. Where the system does not fork safely, and
    for a few items, everything is done here. MeltbookError if a process dies.
    """
    items = list(items)
    if len(items) <= FEW or not _several():
        yield from map(work, items)
        return
    with _forked(work, len(items), "; name the files one by one") as pool:
        yield from pool.map(_do, items)


def beside(work: Callable[[], Answer], meanwhile: Callable[[], None]) -> Answer:
    """The answer of ``work``, done in a forked process while ``meanwhile`` runs here, such as a slow import.

    Answer and exceptions must survive pickling. Where the system does not fork safely, only ``work`` is done, here.
    MeltbookError if the process dies.
    """
    if not _several():
        return work()
    with _forked(lambda _: work(), 1) as pool:
        answer = pool.submit(_do, None)
        meanwhile()
        found: Answer = answer.result()
    return found


def _several() -> bool:
    return (os.cpu_count() or 1) >= 2 and sys.platform == "linux"


@contextmanager
def _forked(work: Callable[[Any], Any], most: int, way_out: str = "") -> Iterator[ProcessPoolExecutor]:
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    try:
        with ProcessPoolExecutor(min(os.cpu_count() or 1, most), get_context("fork"), _begin, (work,)) as pool:
            yield pool
    except BrokenProcessPool as error:
        raise MeltbookError(f"the work broke off, perhaps for want of memory{way_out}") from error


def _begin(work: Callable[[Any], Any]) -> None:
    _given[:] = [work]
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the process that was called


def _do(item: Any) -> Any:
    return _given[0](item)
