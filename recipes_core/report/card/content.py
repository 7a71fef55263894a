"""What stands on a card, in the order in which it is read; every value is text, ready for print."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Number:
    """A number of a step: its label, both systems (the second may be empty), and what it ``says``: at least, at most.

    ``first`` is empty where nobody may set anything by it yet.
    """

    label: str
    first: str
    second: str = ""
    says: str = ""


@dataclass(frozen=True)
class Times:
    """The times of a step: at least and at most as text, what the forecast says beside them, ticks in between.

    ``by`` says what must have happened at most.
    """

    least: str
    most: str = ""
    by: str = ""
    beside: str = ""
    ticks: int = 0
    every: str = ""


@dataclass(frozen=True)
class Line:
    """One step. ``signal`` and ``caution`` come before it; ``own`` holds its other dangers, and what the recipe adds.

    Below the numbers stand the ``limits``, such as how soon it must be shut, and then the ``asides``.
    """

    number: int
    id: str
    signal: str
    caution: str
    own: tuple[str, ...]
    action: str
    until: str
    numbers: tuple[Number, ...] = ()
    limits: tuple[str, ...] = ()
    asides: tuple[str, ...] = ()
    times: Times | None = None


@dataclass(frozen=True)
class Block:
    """Steps up to the next natural stop; ``pause`` names the stop that opens it, ``ready`` the look before going on."""

    pause: str
    ready: str
    steps: tuple[Line, ...]


@dataclass(frozen=True)
class Card:
    """A whole card. ``banner`` is empty where the recipe may be tried; ``care`` is what to mind then.

    ``charge`` is None where nothing is weighed, or nobody should; ``readings`` is what the dials are worth.
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
    readings: tuple[str, ...]
    blocks: tuple[Block, ...]
    notes: str
    record: tuple[str, ...]
    evidence: str
    checked: str
    closing: str
