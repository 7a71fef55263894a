"""Where a finding's numbers come from, in words: each input with who gave it, and what kind of knowledge it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from recipes_core.facts import Basis, Fact, Given, Source

if TYPE_CHECKING:
    from recipes_core.case import Value

MOST = 6
"""How many origins a finding lists."""

_ORDER = [Basis.PUBLISHED, Basis.DERIVED, Basis.COMMON_PRACTICE, Basis.MEMORY, Basis.JUDGEMENT]
_WORDS = {
    Basis.PUBLISHED: "published",
    Basis.DERIVED: "derived",
    Basis.COMMON_PRACTICE: "common practice",
    Basis.MEMORY: Basis.MEMORY.words,
    Basis.JUDGEMENT: "our judgement",
}


def leaves(values: Mapping[str, Value]) -> Iterator[tuple[str, Given]]:
    """Every given value that the values rest on, once each with the name it went by, the nearest ones first."""
    seen: set[int] = set()
    level = list(values.items())
    while level:
        deeper: list[tuple[str, Value]] = []
        for name, value in level:
            if id(value) in seen:
                continue
            seen.add(id(value))
            if isinstance(value, Given):
                yield name, value
            elif isinstance(value, Fact):
                deeper.extend(value.inputs.items())
        level = deeper


def label(name: str, given: Given) -> str:
    """What to call a given value: the last words of its path, or the name it went by."""
    words = [part for part in given.origin.path if isinstance(part, str)][-2:]
    if given.origin.path[:1] == ("procedure",):
        words = words[-1:]
    return " ".join(words or [name.rpartition(":")[2]]).replace("_", " ").removeprefix("formula ")


def origins(values: Mapping[str, Value]) -> tuple[str, ...]:
    """What the recipe, the shop or a default gave, in words; sheet values are summed up by `basis`."""
    given_by: dict[str, None] = {}
    assumed: dict[str, None] = {}
    for name, given in leaves(values):
        if given.origin.source is Source.SHEET or not given.text:
            continue
        told = f"{label(name, given)} {given.text}"
        if given.origin.source is Source.DEFAULT:
            assumed[f"{told} (default, {given.origin.known})"] = None
        else:
            given_by[f"{told} ({given.origin.source})"] = None
    lines = [*given_by, *assumed]
    if len(lines) > MOST:
        lines = [*lines[:MOST], f"and {len(lines) - MOST} more, which meltbook forecast lists"]
    return tuple(lines)


def basis(values: Mapping[str, Value]) -> str:
    """How the numbers are known: the equation, and for each sheet how many values of which kind it lent."""
    equations = [v.equation for v in values.values() if isinstance(v, Fact) and v.equation]
    sheets: dict[str, Counter[Basis]] = {}
    for _, given in leaves(values):
        if given.origin.source is Source.SHEET and given.origin.basis is not None:
            name = given.origin.where.partition(":")[0]
            sheets.setdefault(name, Counter())[given.origin.basis] += 1
    parts = [f"computed: {equations[0]}"] if equations else []
    for name, counts in sheets.items():
        told = ", ".join(f"{counts[b]} {_WORDS[b]}" for b in _ORDER if counts[b])
        parts.append(f"{name}: {told}")
    return "; ".join(parts)
