"""The same recipe in other words: other units, spellings, order, layout, and numbers that are shown alike."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from recipes_core.quantities import Dimension, parse, resolution, show
from recipes_core.quantities.units import UNITS, plain
from tests.suites.operators import about_field, places, replaced

if TYPE_CHECKING:
    from recipes_core.findings import Path
    from recipes_core.quantities import Quantity
    from recipes_core.shelf import Shelf
    from tests.suites.judging import Judged

SYNONYMS = {"yes": "true", "no": "false"}
Told = tuple[str, ...]


@dataclass(frozen=True)
class Leaf:
    """One quantity of a recipe: its place, the whole text, and where in it the number with its unit stands."""

    path: Path
    text: str
    start: int
    end: int
    dimension: Dimension

    @property
    def quantity(self) -> Quantity:
        """What it says."""
        return parse(self.text[self.start : self.end], self.dimension)

    def said(self, numbers: list[float], unit: str) -> str:
        """The text with other numbers in another unit; as many digits as a number of the machine holds."""
        inner = f"{' - '.join(f'{number:.15g}' for number in numbers)} {unit}"
        return self.text[: self.start] + inner + self.text[self.end :]


def leaves(data: dict[str, Any], shelf: Shelf) -> Iterator[Leaf]:
    """Every quantity of a recipe."""
    for path, text in places(data):
        about = about_field(data, path, shelf) if isinstance(text, str) else None
        if about is None or about.dimension is None:
            continue
        worded = about.split(text)
        if worded and worded[1] != worded[2]:
            yield Leaf(path, text, worded[1], worded[2], about.dimension)


def in_other_units(data: dict[str, Any], leaves: list[Leaf]) -> dict[str, Any]:
    """Each of these quantities in the next unit that its dimension has, the same number of SI to the last digits."""
    for leaf in leaves:
        units = list(dict.fromkeys(UNITS[leaf.dimension].values()))
        own = UNITS[leaf.dimension][plain(leaf.quantity.unit)]
        unit = units[(units.index(own) + 1) % len(units)]
        ends = dict.fromkeys((leaf.quantity.low, leaf.quantity.high))
        data = replaced(data, leaf.path, leaf.said([(si - unit.offset) / unit.factor for si in ends], unit.name))
    return data


def otherwise_spelt(data: dict[str, Any], leaves: list[Leaf]) -> dict[str, Any]:
    """The same numbers with another word for their unit, where there is one."""
    for leaf in leaves:
        own = leaf.quantity.unit
        words = [w for w, unit in UNITS[leaf.dimension].items() if unit == UNITS[leaf.dimension][plain(own)]]
        inner = leaf.text[leaf.start : leaf.end]
        others = [w for w in words if w != plain(own)]
        if others and inner.endswith(own):
            text = leaf.text[: leaf.start] + inner.removesuffix(own).rstrip() + f" {others[-1]}" + leaf.text[leaf.end :]
            data = replaced(data, leaf.path, text)
    return data


def nudged(data: dict[str, Any], leaves: list[Leaf], share: float) -> dict[str, Any]:
    """Each quantity a share of its displayed step larger; halved until it is displayed as it was, in both systems."""
    for leaf in leaves:
        quantity, dimension = leaf.quantity, leaf.dimension
        unit = UNITS[dimension][plain(quantity.unit)]
        ends = []
        for si in dict.fromkeys((quantity.low, quantity.high)):
            shift = share * resolution(dimension, si) if si else 0.0  # nothing stays nothing
            while show(si + shift, dimension) != show(si, dimension):
                shift *= 0.5
            ends.append((si + shift - unit.offset) / unit.factor)
        data = replaced(data, leaf.path, leaf.said(ends, unit.name))
    return data


def with_synonyms(data: dict[str, Any]) -> dict[str, Any]:
    """``true`` for yes and ``false`` for no."""
    for path, value in places(data):
        if isinstance(value, str) and value in SYNONYMS:
            data = replaced(data, path, SYNONYMS[value])
    return data


def turned_round(data: Any) -> Any:
    """The keys of every group in the opposite order; lists stay as they are."""
    if isinstance(data, dict):
        return {key: turned_round(value) for key, value in reversed(data.items())}
    return [turned_round(item) for item in data] if isinstance(data, list) else data


def in_flow_style(data: dict[str, Any]) -> str:
    """All of it in braces on one line."""
    return json.dumps(data, ensure_ascii=False) + "\n"


def in_block_style(data: dict[str, Any]) -> str:
    """A line for each key and item, with a comment behind each and between them."""
    return "# written by a test\n" + "".join(_block(data, 0))


def _block(data: Any, depth: int) -> Iterator[str]:
    gap = "  " * depth
    items = data.items() if isinstance(data, dict) else ((None, item) for item in data)
    for key, value in items:
        head = f"{gap}-" if key is None else f"{gap}{key}:"
        if isinstance(value, dict | list) and value:
            yield f"{head}  # what follows belongs to it\n"
            yield from _block(value, depth + 1)
            yield f"{gap}# and that was all of it\n\n"
        else:
            yield f"{head} {json.dumps(value, ensure_ascii=False)}  # so it is\n"


def told(judged: Judged, quoted: frozenset[str]) -> list[Told]:
    """What may not change: rule, place, level, kind, and the words of found and limit.

    Only where found or limit quotes what the author wrote (one of ``quoted``, the texts of both wordings) does ``…``
    stand for it; whatever meltbook computes and displays is compared letter for letter.
    """
    texts = re.compile("|".join(map(re.escape, sorted(quoted, key=len, reverse=True))))
    words = [tuple(texts.sub("…", text) for text in (f.found, f.limit)) for f in judged.findings]
    places = [(f.rule, ".".join(map(str, f.path)), str(f.level), str(f.kind)) for f in judged.findings]
    return sorted((*place, *said) for place, said in zip(places, words, strict=True))
