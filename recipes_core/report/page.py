"""What a text report is shown on: a pipe or a file, where it is always the same, or a terminal of some width.

Three weights alone are marked, and never by colour alone: their words stay. Nothing is green, as nothing found against
a recipe is no promise.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from textwrap import wrap
from typing import TextIO

WIDTH = 100
"""Columns where there is no terminal, so that two reports can be compared line by line."""
NARROWEST, WIDEST = 60, 120

BAD, OPEN, BOLD = "31;1", "35;1", "1"
"""An error; what must be answered or was not checked; what is to be minded, or is a title."""


@dataclass(frozen=True)
class Page:
    """How wide a report is, in columns, whether its marks are seen, and whether long lines need folding."""

    width: int = WIDTH
    colour: bool = False
    terminal: bool = False

    def marked(self, text: str, mark: str) -> str:
        """The text in the colour or weight of ``mark``, where there is colour."""
        return f"\x1b[{mark}m{text}\x1b[0m" if self.colour and mark else text

    def folded(self, text: str) -> str:
        """A line of any length, folded between words on a terminal; elsewhere it stays one line."""
        return "\n".join(wrap(text, self.width)) if self.terminal else text


def page_of(stream: TextIO, environment: Mapping[str, str]) -> Page:
    """The page that ``stream`` is; NO_COLOR, when it is not empty, and TERM=dumb take the colour away."""
    if not stream.isatty():
        return Page()
    try:
        columns = os.get_terminal_size(stream.fileno()).columns or WIDTH
    except (OSError, ValueError):  # a terminal that does not know its size
        columns = WIDTH
    colour = not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"
    return Page(min(max(columns, NARROWEST), WIDEST), colour, True)
