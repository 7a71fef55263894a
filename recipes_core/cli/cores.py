"""Work on many files at once, on every core that the machine has."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterable, Iterator
from typing import Any, TypeVar

from recipes_core.errors import MeltbookError

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
    items, cores = list(items), os.cpu_count() or 1
    if len(items) <= FEW or cores < 2 or sys.platform != "linux":
        yield from map(work, items)
        return
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    try:
        with ProcessPoolExecutor(min(cores, len(items)), get_context("fork"), _begin, (work,)) as pool:
            yield from pool.map(_do, items)
    except BrokenProcessPool as error:
        sentence = "the work broke off, perhaps for want of memory; name the files one by one"
        raise MeltbookError(sentence) from error


def _begin(work: Callable[[Any], Any]) -> None:
    _given[:] = [work]
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the process that was called


def _do(item: Any) -> Any:
    return _given[0](item)
