"""What the card at the bench says of a process: its ``bench`` group in ``process.yaml``.

Only words, names of values and how long they may be; the numbers come from the recipe and its forecast.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from recipes_core.findings import Path

if TYPE_CHECKING:
    from recipes_core.hazards import Page

LONGEST: Mapping[str, int] = {"action": 60, "until": 45, "ready": 60, "stop": 44, "bring": 30, "label": 14}
"""Characters that fit the printed card (judgement, tried on A4 and US Letter)."""

PAUSES: Mapping[str, str] = {
    "heat": "before heat",
    "press": "before the press",
    "demould": "before the mould is opened",
    "bend": "before the bend",
    "cut": "before the machine runs",
}
"""Natural stops in the work. A rule across the card opens each, and one look before going on."""

_CELL, _CLOCK = ("label", "value"), ("least",)


@dataclass(frozen=True)
class Cell:
    """One number of a step. ``value`` names it as rules do; ``says`` is "at least" or "at most".

    ``sets``: somebody sets a machine by it, so that it stays blank while the recipe must not be tried.
    """

    label: str
    value: str
    says: str = ""
    sets: bool = False


@dataclass(frozen=True)
class Clock:
    """The times of a step: names of the shortest and the longest, and of the forecast's own."""

    least: str
    most: str = ""
    needs: str = ""


@dataclass(frozen=True)
class Bench:
    """The words of one process. ``pause`` is a key of `PAUSES`; ``ticks`` names how often something is done again."""

    action: str
    until: str
    pause: str = ""
    ready: str = ""
    cells: tuple[Cell, ...] = ()
    clock: Clock | None = None
    ticks: str = ""
    stop: tuple[str, ...] = ()
    bring: tuple[str, ...] = ()


def read_bench(page: Page, data: object, path: Path) -> Bench:
    """The group at ``path``. DataError, with its place, for what is missing, unknown or too long."""
    may = ("pause", "ready", "cells", "clock", "ticks", "stop", "bring")
    given = page.group(data, path, ("action", "until"), may)
    if "pause" in given:
        page.choice(given, path, "pause", tuple(PAUSES))
    words = {key: _short(page, given, path, key) for key in ("action", "until", "ready") if key in given}
    return Bench(
        words["action"],
        words["until"],
        given.get("pause", ""),
        words.get("ready", ""),
        tuple(_cell(page, c, (*path, "cells", at)) for at, c in enumerate(_items(page, given, path, "cells"))),
        _clock(page, given, path),
        page.text(given, path, "ticks") if "ticks" in given else "",
        _lines(page, given, path, "stop"),
        _lines(page, given, path, "bring"),
    )


def _items(page: Page, data: Mapping[str, Any], path: Path, key: str) -> list[Any]:
    return page.items(data, path, key) if key in data else []


def _short(page: Page, data: Mapping[str, Any], path: Path, key: str) -> str:
    return _fitting(page, page.text(data, path, key), (*path, key), key)


def _lines(page: Page, data: Mapping[str, Any], path: Path, key: str) -> tuple[str, ...]:
    lines = page.texts(data, path, key) if key in data else ()
    return tuple(_fitting(page, line, (*path, key, at), key) for at, line in enumerate(lines))


def _fitting(page: Page, text: str, at: Path, key: str) -> str:
    if len(text) > LONGEST[key]:
        raise page.error(at, f"{len(text)} characters; {LONGEST[key]} fit the card")
    return text


def _cell(page: Page, item: object, path: Path) -> Cell:
    data = page.group(item, path, _CELL, ("says", "sets"))
    says = page.choice(data, path, "says", ("at least", "at most")) if "says" in data else ""
    sets = page.choice(data, path, "sets", ("yes", "no")) == "yes" if "sets" in data else False
    return Cell(_short(page, data, path, "label"), page.text(data, path, "value"), says, sets)


def _clock(page: Page, data: Mapping[str, Any], path: Path) -> Clock | None:
    if "clock" not in data:
        return None
    at = (*path, "clock")
    given = page.group(data["clock"], at, _CLOCK, ("most", "needs"))
    return Clock(**{key: page.text(given, at, key) for key in given})
