"""Findings of every weight, and hostile text, for the tests of reports."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from recipes_core.app import Linted
from recipes_core.findings import Change, Finding, Kind, Level, Span, Way
from recipes_core.rules.verdict import verdict

HOSTILE = "a\x1b[31mb\x9b2Jc\u202ed\u2066e\x07f\x00g\u2028h\nFORGED LINE\ri"
"""Colours and clears a terminal, turns the direction of writing, and starts lines of its own."""

TEXT = "format: recipe/1\nheader:\n  id: a\nprocedure:\n  - id: melt\n    oven: 250 °C\n    at_least: 5 min\n"
OVEN = Span(6, 11, 6, 17)
CLOCK = Span(7, 15, 7, 20)


def finding(level: Level = Level.ERROR, kind: Kind = Kind.FAIL, **more: object) -> Finding:
    """A finding on the oven's line; ``more`` sets any field."""
    base: dict[str, object] = {"path": ("procedure", 0, "oven"), "span": OVEN, "file": "a.yaml"}
    return Finding(**{"rule": "too-hot", "level": level, "kind": kind, "message": "It is too hot.", **base, **more})  # type: ignore[arg-type]


def full() -> Finding:
    """A finding with something in each field."""
    return finding(
        found="250 °C (482 °F)",
        limit="240 °C (464 °F) at most",
        margin="10 K (18 °F) too much",
        why="hot plastic fumes",
        do="set it lower",
        origins=("oven 250 °C (recipe)",),
        basis="hdpe sheet: 1 our judgement",
        sources=("judgement",),
        absolute=True,
        advice=(Way("set the oven to 240 °C", (Change(("procedure", 0, "oven"), "240 °C"),)),),
    )


@pytest.fixture
def linted() -> Callable[..., Linted]:
    """One judged file with these findings."""

    def make(*findings: Finding, file: str = "a.yaml", text: str = TEXT) -> Linted:
        return Linted(file, text, findings, verdict(findings), 7, 2)

    return make


@pytest.fixture
def weights() -> dict[str, Finding]:
    """One finding of each weight by its message, worst first."""
    worst_first = [
        finding(message="an error"),
        finding(kind=Kind.REVIEW, rule="check-did-not-run", message="a check that did not run"),
        finding(kind=Kind.OPEN, rule="question", message="a question that must be answered", absolute=True),
        finding(Level.WARNING, message="a warning"),
        finding(Level.WARNING, Kind.OPEN, rule="question", message="a question"),
        finding(Level.NOTE, message="a note"),
    ]
    return {f.message: f for f in worst_first}


@pytest.fixture
def full_finding() -> Finding:
    """A finding with something in each field."""
    return full()


@pytest.fixture
def hostile_finding() -> Finding:
    """A finding whose every text is hostile."""
    return finding(
        message=HOSTILE,
        found=HOSTILE,
        limit=HOSTILE,
        margin=HOSTILE,
        why=HOSTILE,
        do=HOSTILE,
        origins=(HOSTILE,),
        basis=HOSTILE,
    )
