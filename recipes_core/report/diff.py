"""What mending changes, as a unified diff; an edit adds no line and takes none away, so line stands against line."""

from __future__ import annotations

from collections.abc import Iterator

from recipes_core.document import LINE_BREAK
from recipes_core.report.visible import printable

AROUND = 3
"""Lines that are shown before and after a change."""


def diff(before: str, after: str, name: str) -> str:
    """The lines of ``name`` that differ, with what stands around them; nothing where none does.

    ValueError if the texts have not the same number of lines.
    """
    old, new = LINE_BREAK.split(before), LINE_BREAK.split(after)
    pairs = list(zip(old, new, strict=True))
    changed = [at for at, (one, other) in enumerate(pairs) if one != other]
    if not changed:
        return ""
    lines = [f"--- {printable(name)}", f"+++ {printable(name)}"]
    for start, end in _hunks(changed, len(pairs)):
        lines += [f"@@ -{start + 1},{end - start} +{start + 1},{end - start} @@", *_hunk(pairs[start:end])]
    return "\n".join(lines) + "\n"


def _hunks(changed: list[int], count: int) -> Iterator[tuple[int, int]]:
    """From which line up to which, counted from 0, for changes that stand near one another."""
    start = last = changed[0]
    for at in changed[1:]:
        if at - last - 1 > 2 * AROUND:
            yield max(start - AROUND, 0), last + AROUND + 1
            start = at
        last = at
    yield max(start - AROUND, 0), min(last + AROUND + 1, count)


def _hunk(pairs: list[tuple[str, str]]) -> Iterator[str]:
    added: list[str] = []
    for old, new in pairs:
        if old == new:
            yield from added
            added = []
            yield f" {printable(old)}"
        else:
            yield f"-{printable(old)}"
            added.append(f"+{printable(new)}")
    yield from added
