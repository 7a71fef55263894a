"""Where the answer of a command goes: into the file that was named, or onto the screen."""

from __future__ import annotations

import sys
from pathlib import Path


def give(answer: str | bytes, output: str | None) -> None:
    """Write the answer whole to the file, or show it where none was named."""
    if output:
        from recipes_core.write import write_whole  # whoever only looks does not wait for it

        write_whole(output, answer)
    else:
        sys.stdout.write(str(answer))


def same_file(one: str | Path, other: str | Path) -> bool:
    """Whether both name one file, links followed."""
    return Path(one).resolve() == Path(other).resolve()
