"""What stands on a card, in the order in which it is read; every value is text, ready for print."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Number:
    """A number of a step: its label, the number in both systems (the second may be empty), and a remark.

    ``first`` is empty where the place stays blank.
    """

    label: str
    first: str
    second: str = ""
    remark: str = ""


@dataclass(frozen=True)
class Times:
    """The times of a step: at least and at most as text, what the forecast says beside them, ticks in between."""

    least: str
    most: str = ""
    beside: str = ""
    ticks: int = 0
    every: str = ""


@dataclass(frozen=True)
class Line:
    """One step. ``signal`` and ``caution`` come before it; ``own`` holds hazards that the recipe adds."""

    number: int
    id: str
    signal: str
    caution: str
    own: tuple[str, ...]
    action: str
    until: str
    numbers: tuple[Number, ...]
    times: Times | None


@dataclass(frozen=True)
class Block:
    """Steps up to the next natural stop; ``pause`` names the stop that opens it, ``ready`` the look before going on."""

    pause: str
    ready: str
    steps: tuple[Line, ...]


@dataclass(frozen=True)
class Card:
    """A whole card. ``banner`` is empty where the recipe may be tried; ``care`` is what to mind then.

    ``charge`` is None where nothing is weighed.
    """

    title: str
    revision: str
    id: str
    file: str
    digest: str
    size: str
    mark: str
    lots: tuple[str, ...]
    charge: Number | None
    banner: str
    why: tuple[str, ...]
    care: tuple[str, ...]
    stop: tuple[str, ...]
    emergency: tuple[tuple[str, str], ...]
    bring: tuple[str, ...]
    blocks: tuple[Block, ...]
    record: tuple[str, ...]
    evidence: str
    checked: str
    closing: str
