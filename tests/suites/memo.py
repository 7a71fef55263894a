"""Facts that were computed before are not computed again: the same function of the same numbers gives the same fact.

A recipe with one field changed repeats nearly every solve of the recipe it was made from.
"""

from __future__ import annotations

import sys
from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from importlib import import_module
from itertools import count
from pkgutil import walk_packages
from typing import Any
from unittest.mock import patch

import numpy as np
import recipes_plugins

from recipes_core import facts
from recipes_core.facts import Fact, Open, missing
from recipes_core.physics import solver

UNSOLVED = (("unsolved",), "")
"""What is needed of a fact whose solve was put off. It is no question, so that nobody is asked."""
RECENT = 48
"""How many solved histories are kept besides those of the recipe itself; each takes some megabytes."""


class _NoKeyError(TypeError):
    """A value that cannot be told from another by its content."""


class Memo:
    """What facts came to, by the function that made them and what it was given."""

    def __init__(self) -> None:
        self.light: dict[Any, Any] = {}
        self.pinned: dict[Any, Any] = {}
        self.recent: OrderedDict[Any, Any] = OrderedDict()
        self.serials: dict[int, int] = {}
        self.serial = count()
        self.solvers: set[Any] = set()
        self.counted = 0
        self.solves = 0
        self.lazy = False
        self.pinning = False

    @contextmanager
    def working(self) -> Iterator[None]:
        """Every module of ours that makes facts makes them through this memo."""
        _all_modules()  # one that is imported in here would keep this memo for good
        real, balance = facts.calc, getattr(solver, "Balance")  # noqa: B009

        def calc(name: str, dimension: str, equation: str, fn: Callable[..., Any], **inputs: Any) -> Fact:
            return real(name, dimension, equation, lambda **given: self.come_to(fn, given), **inputs)

        def counted(*given: Any) -> Any:
            self.counted += 1
            return balance(*given)

        ours = [m for n, m in list(sys.modules.items()) if n.partition(".")[0] in ("recipes_core", "recipes_plugins")]
        patches: list[Any] = [patch.object(m, "calc", calc) for m in ours if getattr(m, "calc", None) is real]
        patches.append(patch.object(solver, "Balance", counted))
        for each in patches:
            each.start()
        try:
            yield
        finally:
            for each in patches:
                each.stop()

    def come_to(self, fn: Callable[..., Any], given: dict[str, Any]) -> Any:
        """What ``fn`` makes of ``given``; a solve that is not known is put off while ``lazy``."""
        try:
            key = (
                getattr(fn, "__code__", fn),
                self._parts(fn),
                tuple((name, self._key(value)) for name, value in given.items()),
            )
        except _NoKeyError:
            return fn(**given)
        for kept in (self.light, self.pinned, self.recent):
            if key in kept:
                if kept is self.recent:
                    self.recent.move_to_end(key)
                return kept[key]
        if self.lazy and key[0] in self.solvers:
            return missing(*UNSOLVED)
        before = self.counted
        value = fn(**given)
        if self.counted > before:
            self.solvers.add(key[0])
            self.solves += 1
            self._keep_solved(key, value)
        else:
            self.light[key] = value
            self._number(value)
        return value

    def _keep_solved(self, key: Any, value: Any) -> None:
        self._number(value)
        if self.pinning:
            self.pinned[key] = value
            return
        self.recent[key] = value
        if len(self.recent) > RECENT:
            _, oldest = self.recent.popitem(last=False)
            self.serials.pop(id(oldest), None)

    def _number(self, value: Any) -> None:
        if not isinstance(value, float | int | str | bool | list | tuple | np.ndarray | None):
            self.serials.setdefault(id(value), next(self.serial))  # some hand on what they were given

    def _parts(self, fn: Callable[..., Any]) -> Any:
        cells = [cell.cell_contents for cell in getattr(fn, "__closure__", None) or ()]
        defaults = getattr(fn, "__defaults__", None) or ()
        return tuple(self._key(part) for part in (*cells, *defaults))

    def _key(self, value: Any) -> Any:
        if isinstance(value, np.ndarray):
            return value.shape, value.tobytes()
        serial = self.serials.get(id(value))
        if serial is not None:
            return "made", serial
        if isinstance(value, list | tuple):
            return type(value), tuple(self._key(part) for part in value)
        if isinstance(value, dict):
            return tuple((name, self._key(part)) for name, part in value.items())
        try:
            hash(value)
        except TypeError:
            raise _NoKeyError from None
        return type(value), value


@cache
def _all_modules() -> None:
    for module in walk_packages(recipes_plugins.__path__, "recipes_plugins."):
        import_module(module.name)


def put_off(fact: Any) -> bool:
    """Whether a fact waits for a solve that was put off."""
    return isinstance(fact, Fact) and isinstance(fact.value, Open) and UNSOLVED in fact.value.needs
