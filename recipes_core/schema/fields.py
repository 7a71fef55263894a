"""What a field is: looked up in the composed schemas by its path, without a validator.

Three kinds of absence: a field that *must be answered* (absent reads as ``unknown``), one that *must not be
said* (absent means that it is not so), and all others, whose absence is an open question.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cache, lru_cache
from typing import Any

from recipes_core.findings import Path
from recipes_core.quantities import Dimension, Quantity, QuantityError, parse
from recipes_core.schema.compose import Schema, Schemas, compose

SAME_WORDS = {"true": "yes", "false": "no"}


class Absent(StrEnum):
    """What the absence of a field means."""

    ASK = "ask"
    ANSWER = "answer"
    UNSAID = "unsaid"


@dataclass(frozen=True)
class Field:
    """One field. ``path`` has no list indexes; ``process`` is set for what a step of that process says.

    ``choices`` are the plain words that a value, or each item of a list, may be; ``forms`` the ways a
    quantity may be worded, ``{}`` standing for it; ``pattern`` what a plain text must match. A group has
    neither choices nor a dimension.
    """

    path: tuple[str, ...]
    process: str | None = None
    dimension: Dimension | None = None
    choices: tuple[str, ...] = ()
    forms: tuple[str, ...] = ("{}",)
    pattern: str = ""
    absent: Absent = Absent.ASK
    ask: str = ""
    means: str = ""
    default: str = ""
    is_list: bool = False
    is_group: bool = False
    zero: bool = False

    def split(self, text: str) -> tuple[str, int, int] | None:
        """The form that ``text`` is worded in, and where in it the quantity starts and ends (see `split`)."""
        return split(text, self.forms)


_SIZES = frozenset(
    {Dimension.LENGTH, Dimension.AREA, Dimension.VOLUME, Dimension.MASS, Dimension.POWER, Dimension.FORCE}
)


def measured(text: str, dimension: Dimension, zero: bool = False) -> Quantity:
    """The quantity of a recipe's field. Raises QuantityError, also for a size of nothing unless ``zero`` is one."""
    quantity = parse(text, dimension)
    if dimension in _SIZES and quantity.low <= 0.0 and not zero:
        raise QuantityError(f"{text} is nothing; write {dimension.noun} above zero, or unknown.", 0, len(text))
    return quantity


def split(text: str, forms: tuple[str, ...]) -> tuple[str, int, int] | None:
    """The one of ``forms`` that fits ``text``, and where its quantity starts and ends; None if none fits.

    ``split("60 mm air gap", ("none", "{} air gap"))`` is ``("{} air gap", 0, 5)``. Start and end are equal
    for plain words; ``true`` and ``false`` read as ``yes`` and ``no``. A bare ``{}`` is tried last.
    """
    word = SAME_WORDS.get(text.lower(), text)
    for form in sorted(forms, key=lambda form: form == "{}"):
        head, gap, tail = form.partition("{}")
        if not gap:
            if word == form:
                return form, len(text), len(text)
        elif len(text) > len(head) + len(tail) and text.startswith(head) and text.endswith(tail):
            return form, len(head), len(text) - len(tail)
    return None


def field(path: Path, process: str | None = None, schemas: Schemas | None = None) -> Field:
    """The field, group or list at ``path``; list indexes may be there or left out.

    A path below ``procedure`` is looked up in the schema of ``process``, else among the keys that all steps
    share. Without ``schemas`` only the envelope and those keys are known. LookupError for any other path.
    """
    names = tuple(part for part in path if isinstance(part, str))
    return _field(names, process if names[:1] == ("procedure",) else None, schemas or _without_processes())


def fields(schemas: Schemas) -> Iterator[Field]:
    """Every field, groups left out: of the envelope, of all steps, then what each process has of its own.

    The keys of ``site``, which any step may repeat for itself, are listed once, under ``site``.
    """
    envelope = {name: inner for name, inner in schemas.envelope["properties"].items() if name != "procedure"}
    yield from _leaves((), None, envelope)
    yield from _leaves(("procedure",), None, schemas.step["properties"])
    of_all = {**schemas.step["properties"], **envelope["site"]["properties"]}
    for process, schema in schemas.steps.items():
        own = {name: inner for name, inner in schema["properties"].items() if inner != of_all.get(name)}
        yield from _leaves(("procedure",), process, own)


@cache
def _without_processes() -> Schemas:
    return compose({})


@lru_cache(maxsize=4096)
def _field(names: tuple[str, ...], process: str | None, schemas: Schemas) -> Field:
    schema, rest = schemas.envelope, names
    if names[:1] == ("procedure",) and len(names) > 1:
        schema, rest = schemas.steps.get(process or "", schemas.step), names[1:]
    for name in rest:
        inner = _items(schema).get("properties", {}).get(name)
        if inner is None:
            raise LookupError(f"{'.'.join(names)} is no field" + (f" of {process}" if process else ""))
        schema = inner
    return _made(names, process, schema)


def _leaves(path: tuple[str, ...], process: str | None, properties: Schema) -> Iterator[Field]:
    for name, inner in properties.items():
        if "properties" in _items(inner):
            yield from _leaves((*path, name), process, _items(inner)["properties"])
        elif "mb:refused" not in inner:
            yield _made((*path, name), process, inner)


def _items(schema: Schema) -> Schema:
    items: Schema = schema.get("items", schema)
    return items


def _made(path: tuple[str, ...], process: str | None, schema: Schema) -> Field:
    item: dict[str, Any] = dict(_items(schema))
    forms = tuple(item.get("mb:forms", ("{}",)))
    return Field(
        path=path,
        process=process,
        dimension=Dimension(item["mb:quantity"]) if "mb:quantity" in item else None,
        choices=tuple(item.get("enum", ())) or tuple(form for form in forms if "{}" not in form),
        forms=forms,
        pattern=item.get("pattern", ""),
        absent=Absent(schema.get("mb:absent", "ask")),
        ask=schema.get("mb:ask", ""),
        means=schema.get("mb:means", ""),
        default=schema.get("mb:default", ""),
        is_list=schema.get("type") == "array",
        is_group="properties" in item,
        zero=item.get("mb:zero", False),
    )
