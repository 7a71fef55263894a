"""How far a long command is: one line on a terminal that the next one replaces, and nothing in a pipe."""

from __future__ import annotations

import os
import sys

LONGEST = 78


def progress(line: str) -> None:
    """Show the line on the terminal, if there is one; an empty line wipes it."""
    if sys.stderr.isatty() and os.environ.get("TERM") != "dumb":
        from recipes_core.report.visible import printable

        print(f"\r\x1b[K{printable(line)[:LONGEST]}", end="", file=sys.stderr, flush=True)
