"""One line on a terminal, each in the place of the last, and not a character anywhere else."""

from __future__ import annotations

import sys
from io import StringIO

import pytest

from recipes_core.cli.progress import LONGEST, progress


class Terminal(StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """It is one."""
        return True


@pytest.mark.parametrize(
    ("stream", "term", "shown"),
    [(Terminal(), "xterm", True), (Terminal(), "dumb", False), (StringIO(), "xterm", False)],
    ids=["terminal", "dumb terminal", "pipe"],
)
def test_only_a_terminal_is_told(monkeypatch: pytest.MonkeyPatch, stream: StringIO, term: str, shown: bool) -> None:
    """A line, in the place of the one before."""
    monkeypatch.setattr(sys, "stderr", stream)
    monkeypatch.setenv("TERM", term)
    progress("judged 1 of 2: a.yaml")
    assert stream.getvalue() == ("\r\x1b[Kjudged 1 of 2: a.yaml" if shown else "")


def test_a_long_or_hostile_line_stays_one_line(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cut to the width that any terminal has, with nothing in it that a terminal obeys."""
    stream = Terminal()
    monkeypatch.setattr(sys, "stderr", stream)
    monkeypatch.setenv("TERM", "xterm")
    progress("\x1b[2J\n" + "x" * 200)
    (line,) = stream.getvalue().removeprefix("\r\x1b[K").splitlines()
    assert line.isprintable()
    assert len(line) == LONGEST
