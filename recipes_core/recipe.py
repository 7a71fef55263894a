"""A recipe as typed values that remember their place: what is given, what is open, what need not be said."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from recipes_core.facts import Given, Open, Origin, Source, missing
from recipes_core.quantities import QuantityError
from recipes_core.schema.fields import Field, field, measured

if TYPE_CHECKING:
    from recipes_core.document import Document
    from recipes_core.findings import Path
    from recipes_core.schema.compose import Schemas

UNKNOWN = "unknown"
_NAMES = frozenset({"resin", "material"})
_SAME = {"true": "yes", "false": "no"}


@dataclass(frozen=True)
class Step:
    """One step of the procedure: its own name, the process it runs, and where it stands."""

    id: str
    process: str
    index: int

    @property
    def path(self) -> Path:
        """The path of the step in the recipe."""
        return ("procedure", self.index)


@dataclass(frozen=True)
class Recipe:
    """A read-only view of a recipe document. Values that the schema refused read as open, without a question."""

    document: Document
    schemas: Schemas

    @property
    def id(self) -> str:
        """The recipe's own id, or empty."""
        value = self.raw(("header", "id"))
        return value if isinstance(value, str) else ""

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The steps that say which process they run, in order."""
        steps = self.raw(("procedure",))
        found = []
        for index, step in enumerate(steps if isinstance(steps, list) else []):
            if isinstance(step, dict) and isinstance(step.get("process"), str):
                name = step.get("id")
                found.append(Step(name if isinstance(name, str) else f"step {index + 1}", step["process"], index))
        return tuple(found)

    @cached_property
    def lots(self) -> tuple[int, ...]:
        """The indexes of the feedstock lots."""
        lots = self.raw(("formula", "feedstock"))
        return tuple(range(len(lots))) if isinstance(lots, list) else ()

    def raw(self, path: Path) -> Any:
        """The text, list or mapping at ``path``; ``unknown`` above it reads as unknown; None where absent."""
        node: Any = self.document.data
        for part in path:
            if node == UNKNOWN:
                return UNKNOWN
            if isinstance(node, dict) and isinstance(part, str):
                node = node.get(part)
            elif isinstance(node, list) and isinstance(part, int) and part < len(node):
                node = node[part]
            else:
                return None
        return node

    def get(self, path: Path, process: str | None = None) -> Given | Open | None:
        """The value at ``path`` in SI; open where absent or unknown; None where saying nothing means no."""
        key = path, process
        if key not in self._values:  # every value is asked for by several rules
            self._values[key] = self._get(path, process)
        return self._values[key]

    @cached_property
    def _values(self) -> dict[tuple[Path, str | None], Given | Open | None]:
        return {}

    def _get(self, path: Path, process: str | None) -> Given | Open | None:
        about = field(path, process, self.schemas)
        raw = self.raw(path)
        if raw is None or raw == []:  # a list answers with its items, or with none
            return None if about.absent == "unsaid" else missing(path, about.ask)
        if raw == UNKNOWN or (isinstance(raw, list) and UNKNOWN in raw):
            return missing(path, about.ask)
        origin = Origin(Source.RECIPE, path=path, span=self.document.span(path))
        if isinstance(raw, list) and about.dimension is not None:
            items = [_scalar(str(item), about, origin, path) for item in raw]
            values = tuple(item.value for item in items if isinstance(item, Given))
            return Given(values, ", ".join(map(str, raw)), origin) if len(values) == len(raw) else missing(path, "")
        if isinstance(raw, list):
            return Given(tuple(_SAME.get(str(r), str(r)) for r in raw), ", ".join(map(str, raw)), origin)
        if not isinstance(raw, str):
            return Given(raw, "", origin)
        return _scalar(raw, about, origin, path)


def _scalar(raw: str, about: Field, origin: Origin, path: Path) -> Given | Open:
    refused = missing(path, "")  # the schema check has said what is wrong with it
    if about.dimension is None:
        value = _SAME.get(raw, raw) if about.choices else raw
        if (about.choices and value not in about.choices) or not re.search(about.pattern, raw):
            return refused
        if about.path[-1] in _NAMES or (about.path[:2] == ("formula", "liner") and not about.choices):
            value = re.sub(r"[ _]+", "-", value.strip().lower())  # as data sheets are named
        return Given((value,) if about.is_list else value, raw, origin)
    worded = about.split(raw)
    if worded is None:
        return refused
    form, start, end = worded
    if start == end:
        return Given(form, raw, origin)
    try:
        quantity = measured(raw[start:end], about.dimension, about.zero)
    except QuantityError:
        return refused
    return Given(quantity.low if quantity.low == quantity.high else (quantity.low, quantity.high), raw, origin)
