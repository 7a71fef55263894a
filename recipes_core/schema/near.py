"""The nearest known name for one that nobody knows."""

from __future__ import annotations

from collections.abc import Iterable


def near(word: str, names: Iterable[str]) -> str | None:
    """The name that ``word`` most likely misspells, if one is near enough to be worth a question."""
    ranked = sorted((distance(_plain(word), _plain(name)), name) for name in names)
    if ranked and ranked[0][0] <= _bearable(ranked[0][1]):
        return ranked[0][1]
    return None


def certain(word: str, name: str, names: Iterable[str] = ()) -> bool:
    """Whether ``word`` can only be a slip for ``name``: one letter, or capitals, hyphens and spaces.

    None of the other ``names`` may be as near: ``fom`` is a slip for ``form``, and for ``from``.
    """
    slips = distance(_plain(word), _plain(name))
    small = slips == 0 or (slips == 1 and len(name) >= 4)
    return small and not any(distance(_plain(word), _plain(other)) <= slips for other in names if other != name)


def distance(a: str, b: str) -> int:
    """How many letters are added, dropped, changed or swapped with a neighbour (restricted edit distance)."""
    if abs(len(a) - len(b)) > 3:  # too far to matter here; spares the table for long texts
        return abs(len(a) - len(b))
    before: list[int] = []
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, 1):
        before, last, row = row, before, [i]
        for j, other in enumerate(b, 1):
            best = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and a[i - 2] == other:
                best = min(best, last[j - 2] + 1)
            row.append(best)
    return row[-1]


def _plain(word: str) -> str:
    return word.casefold().replace("_", " ").replace("-", " ")


def _bearable(name: str) -> int:
    """The slips that still leave a name recognisable; a single letter is never taken for another."""
    return 0 if len(name) < 2 else 1 if len(name) < 5 else 2 if len(name) < 9 else 3
