"""The operators of the mutation suite: each makes copies of a recipe that differ from it in one place.

Which places there are, and what may stand in them, is found through the document and the schemas.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from recipes_core.quantities import QuantityError, parse
from recipes_core.quantities.units import UNITS, plain
from recipes_core.schema.fields import SAME_WORDS, Field, field

if TYPE_CHECKING:
    from recipes_core.findings import Path
    from recipes_core.shelf import Shelf

FACTORS = (0.1, 0.5, 2.0, 10.0)
_COUNT = re.compile(r"0|[1-9][0-9]*")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_LEADING = re.compile(r"([0-9]+(?:\.[0-9]+)?)( .+)")


@dataclass(frozen=True)
class Mutant:
    """One copy: which operator made it, at which place, and what stands there now (empty: nothing)."""

    operator: str
    path: Path
    value: str
    data: dict[str, Any]


def places(data: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every key and item of a document with its value, groups before what is in them; ``x-`` keys are nobody's."""
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for name, value in inner:
        if not str(name).startswith("x-"):
            yield (*path, name), value
            yield from places(value, (*path, name))


def deleted(data: dict[str, Any], path: Path) -> dict[str, Any]:
    """A copy without the key or item at ``path``."""
    fresh, group = _opened(data, path)
    del group[path[-1]]
    return fresh


def replaced(data: dict[str, Any], path: Path, value: Any) -> dict[str, Any]:
    """A copy with another value at ``path``."""
    fresh, group = _opened(data, path)
    group[path[-1]] = value
    return fresh


def _opened(data: dict[str, Any], path: Path) -> tuple[dict[str, Any], Any]:
    """A copy along ``path`` alone; the rest is shared, as nobody writes into it. And the group that holds the end."""
    fresh: Any = copy.copy(data)
    group = fresh
    for part in path[:-1]:
        group[part] = copy.copy(group[part])
        group = group[part]
    return fresh, group


def mutants(data: dict[str, Any], shelf: Shelf) -> Iterator[Mutant]:
    """All copies that the operators make."""
    for path, value in places(data):
        yield Mutant("delete", path, "", deleted(data, path))
        if value != "unknown" and not isinstance(value, dict):
            yield Mutant("unknown", path, "unknown", replaced(data, path, "unknown"))
        for operator, text in _altered(path, value, data, shelf):
            if text == value:  # ten times nothing is nothing
                continue
            yield Mutant(operator, path, text, replaced(data, path, text))
    steps = data["procedure"]
    for index in range(len(steps) - 1):
        swapped = [*steps[:index], steps[index + 1], steps[index], *steps[index + 2 :]]
        yield Mutant("swap steps", ("procedure", index), "", {**data, "procedure": swapped})


def _altered(path: Path, value: Any, data: dict[str, Any], shelf: Shelf) -> Iterator[tuple[str, str]]:
    """Other texts for one text, each with the operator that makes it."""
    if not isinstance(value, str):
        return
    about = about_field(data, path, shelf)
    if about is None:
        return
    words = neighbours(value, _words(path, about, data, shelf), _beside(data, path))
    yield from (("neighbour", word) for word in words)
    if words:
        return
    worded = about.split(value) if about.dimension else None
    if worded and worded[1] != worded[2]:
        _, start, end = worded
        for operator, text in _measures(value[start:end], about):
            yield operator, value[:start] + text + value[end:]
    elif _COUNT.fullmatch(value) and about.pattern:
        yield from (("neighbour", str(n)) for n in (int(value) - 1, int(value) + 1) if n >= 0)
        scaled = {str(round(int(value) * factor)): factor for factor in FACTORS}
        yield from ((f"× {f:g}", text) for text, f in scaled.items() if text != value)
    elif _DATE.fullmatch(value):
        day = date.fromisoformat(value)
        yield from (("neighbour", str(day.replace(year=day.year + years))) for years in (-1, 1))
    elif about.pattern and (leading := _LEADING.fullmatch(value)):
        yield from ((f"× {f:g}", f"{float(leading[1]) * f:.6g}{leading[2]}") for f in FACTORS)


def _measures(text: str, about: Field) -> Iterator[tuple[str, str]]:
    """A quantity in wrong units and wrong sizes. Its number is what its author wrote."""
    assert about.dimension is not None
    try:
        quantity = parse(text, about.dimension)
    except QuantityError:
        return
    unit = UNITS[about.dimension][plain(quantity.unit)]
    ends = [(si - unit.offset) / unit.factor for si in dict.fromkeys((quantity.low, quantity.high))]

    def said(factor: float, name: str) -> str:
        return f"{' - '.join(f'{end * factor:.9g}' for end in ends)} {name}".strip()

    yield "unit slip", said(1.0, "")
    names = list(dict.fromkeys(u.name for u in UNITS[about.dimension].values()))
    at = names.index(unit.name)
    yield from (("unit slip", said(1.0, names[n])) for n in (at - 1, at + 1) if 0 <= n < len(names))
    yield from ((f"× {factor:g}", said(factor, unit.name)) for factor in FACTORS)


def neighbours(value: str, words: tuple[str, ...], taken: tuple[str, ...]) -> tuple[str, ...]:
    """The choices before and after this one. What stands in the same list already is passed over."""
    value = SAME_WORDS.get(value, value)
    if value not in words:
        return ()
    at, free = words.index(value), [w for w in words if w not in taken]
    before, after = [w for w in words[:at] if w in free], [w for w in words[at + 1 :] if w in free]
    return tuple(before[-1:] + after[:1])


def about_field(data: dict[str, Any], path: Path, shelf: Shelf) -> Field | None:
    """What the schemas say of a place, if they know it."""
    process = None
    if path[:1] == ("procedure",) and len(path) > 1:
        process = data["procedure"][path[1]].get("process")
    try:
        return field(path, process, shelf.schemas)
    except LookupError:
        return None


def _words(path: Path, about: Field, data: dict[str, Any], shelf: Shelf) -> tuple[str, ...]:
    """The choices of a field: those of its schema, or the names that it may refer to."""
    name, library = path[-1], shelf.library
    if about.choices:
        return about.choices
    if name == "resin":
        return tuple(sorted(library.resins))
    if name == "material":
        return tuple(sorted(library.materials))
    if path[:2] == ("formula", "liner") and not about.pattern:
        return ("none", *sorted(library.liners))
    if name == "process":
        return tuple(shelf.kinds)
    if name == "alongside":
        return tuple(str(step.get("id")) for step in data["procedure"])
    if name == "tool":
        return tuple(data.get("equipment", {}))
    return ()


def _beside(data: Any, path: Path) -> tuple[str, ...]:
    """The other items of the list that a place is in."""
    if not isinstance(path[-1], int):
        return ()
    for part in path[:-1]:
        data = data[part]
    return tuple(item for item in data if isinstance(item, str))
