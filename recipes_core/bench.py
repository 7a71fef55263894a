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

LONGEST: Mapping[str, int] = {
    "action": 60, "until": 45, "ready": 76, "stop": 44, "bring": 30, "label": 14, "aside": 24, "by": 8,
}  # fmt: skip
"""Characters that fit the printed card (judgement, tried on A4 and US Letter)."""

PAUSES: Mapping[str, str] = {
    "heat": "before heat",
    "press": "before the press",
    "demould": "before the mould is opened",
    "bend": "before the bend",
    "cut": "before the machine runs",
}
"""Natural stops in the work. A rule across the card opens each, and one look before going on.

That look also says what the step's one framed caution leaves out; `explain` and `forecast` have all of them.
"""

_CELL, _CLOCK, _TICKS = ("label", "value"), ("least",), ("every", "over")
_CLOCK_MAY = ("most", "by", "needs", "ends")


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
    """The times of a step: names of the shortest and the longest, and of the time that the forecast ``needs``.

    ``by`` says what must have happened at the longest. ``ends`` names the forecast's time of the shortest end,
    where the forecast counts from an earlier start.
    """

    least: str
    most: str = ""
    by: str = "out by"
    needs: str = ""
    ends: str = ""


@dataclass(frozen=True)
class Ticks:
    """What is done again: names of how often, and of the time over which."""

    every: str
    over: str


@dataclass(frozen=True)
class Bench:
    """The words of one process. ``pause`` is a key of `PAUSES`.

    ``asides`` are numbers and words that nobody sets a machine by: they stand in plain type below the numbers.
    """

    action: str
    until: str
    pause: str = ""
    ready: str = ""
    cells: tuple[Cell, ...] = ()
    asides: tuple[Cell, ...] = ()
    clock: Clock | None = None
    ticks: Ticks | None = None
    stop: tuple[str, ...] = ()
    bring: tuple[str, ...] = ()

    @property
    def sets_dial(self) -> bool:
        """Whether somebody turns the dial of an oven or of platens for this step."""
        return any(cell.value == "setting" for cell in self.cells)


def read_bench(page: Page, data: object, path: Path) -> Bench:
    """The group at ``path``. DataError, with its place, for what is missing, unknown or too long."""
    may = ("pause", "ready", "cells", "asides", "clock", "ticks", "stop", "bring")
    given = page.group(data, path, ("action", "until"), may)
    if "pause" in given:
        page.choice(given, path, "pause", tuple(PAUSES))
    words = {key: _short(page, given, path, key) for key in ("action", "until", "ready") if key in given}
    return Bench(
        words["action"],
        words["until"],
        given.get("pause", ""),
        words.get("ready", ""),
        _cells(page, given, path, "cells", ("says", "sets"), LONGEST["label"]),
        _cells(page, given, path, "asides", ("says",), LONGEST["aside"]),
        Clock(**_named(page, given, path, "clock", _CLOCK, _CLOCK_MAY)) if "clock" in given else None,
        Ticks(**_named(page, given, path, "ticks", _TICKS)) if "ticks" in given else None,
        _lines(page, given, path, "stop"),
        _lines(page, given, path, "bring"),
    )


def _short(page: Page, data: Mapping[str, Any], path: Path, key: str) -> str:
    return _fitting(page, page.text(data, path, key), (*path, key), LONGEST[key])


def _lines(page: Page, data: Mapping[str, Any], path: Path, key: str) -> tuple[str, ...]:
    lines = page.texts(data, path, key) if key in data else ()
    return tuple(_fitting(page, line, (*path, key, at), LONGEST[key]) for at, line in enumerate(lines))


def _fitting(page: Page, text: str, at: Path, longest: int) -> str:
    if len(text) > longest:
        raise page.error(at, f"{len(text)} characters; {longest} fit the card")
    return text


def _cells(
    page: Page, data: Mapping[str, Any], path: Path, key: str, may: tuple[str, ...], longest: int
) -> tuple[Cell, ...]:
    items = page.items(data, path, key) if key in data else []
    return tuple(_cell(page, item, (*path, key, at), may, longest) for at, item in enumerate(items))


def _cell(page: Page, item: object, path: Path, may: tuple[str, ...], longest: int) -> Cell:
    data = page.group(item, path, _CELL, may)
    label = _fitting(page, page.text(data, path, "label"), (*path, "label"), longest)
    says = page.choice(data, path, "says", ("at least", "at most")) if "says" in data else ""
    sets = page.choice(data, path, "sets", ("yes", "no")) == "yes" if "sets" in data else False
    return Cell(label, page.text(data, path, "value"), says, sets)


def _named(
    page: Page, data: Mapping[str, Any], path: Path, key: str, must: tuple[str, ...], may: tuple[str, ...] = ()
) -> dict[str, str]:
    at = (*path, key)
    given = page.group(data[key], at, must, may)
    words = {name: page.text(given, at, name) for name in given}
    return {name: _fitting(page, text, (*at, name), LONGEST.get(name, len(text))) for name, text in words.items()}
