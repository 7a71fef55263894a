"""The validator: JSON Schema 2020-12, with a few keywords read the way a recipe is written.

Every leaf of a document is text. The text ``unknown`` is a legal answer for anything but what a recipe cannot
be without, ``none`` for any list that has it among its items; ``true`` and ``false`` read as ``yes``, ``no``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Any

from recipes_core.quantities import Dimension, QuantityError
from recipes_core.schema.compose import Schema
from recipes_core.schema.fields import SAME_WORDS, measured, split

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError
    from jsonschema.protocols import Validator

UNKNOWN = "unknown"
_CONTAINERS: dict[str, type] = {"object": dict, "array": list}


def errors(schema: Schema, data: Any) -> Iterator[ValidationError]:
    """Every place of ``data`` that does not fit the composed ``schema``; one error a keyword and place."""
    found: Iterator[ValidationError] = _validator()(schema, **_offline()).iter_errors(data)
    return found


@cache
def _offline() -> dict[str, Any]:
    """An empty store of schemas: the library never fetches a reference over the network."""
    from referencing import Registry

    return {"registry": Registry()}


@cache
def _validator() -> Any:
    from jsonschema import Draft202012Validator, validators

    own = {
        "type": _type,
        "enum": _enum,
        "pattern": _pattern,
        "mb:quantity": _quantity,
        "mb:refused": _refused,
    }
    extend: Any = validators.extend
    return extend(Draft202012Validator, own)


def _type(validator: Validator, kind: str, value: Any, schema: Schema) -> Iterator[ValidationError]:
    if kind == "string":
        fits = isinstance(value, str) and value != ""
    elif isinstance(value, str):
        fits = value in _answers(schema)
    else:
        fits = isinstance(value, _CONTAINERS[kind])
    if not fits:
        yield _error(f"not of type {kind}")


def _answers(schema: Schema) -> tuple[str, ...]:
    """The plain texts that may stand in place of a group or a list."""
    if schema.get("required") or schema.get("minItems"):
        return ()
    return (UNKNOWN, "none") if "none" in schema.get("items", {}).get("enum", ()) else (UNKNOWN,)


def _enum(validator: Validator, choices: list[str], value: Any, schema: Schema) -> Iterator[ValidationError]:
    if _readable(value) and value not in choices and SAME_WORDS.get(value.lower()) not in choices:
        yield _error("not a choice")


def _pattern(validator: Validator, pattern: str, value: Any, schema: Schema) -> Iterator[ValidationError]:
    if _readable(value) and not re.fullmatch(pattern, value):
        yield _error("does not fit the pattern")


def _quantity(validator: Validator, dimension: str, value: Any, schema: Schema) -> Iterator[ValidationError]:
    if not _readable(value):
        return
    forms = tuple(schema.get("mb:forms", ("{}",)))
    worded = split(value, forms)
    if worded is None or (worded[0] == "{}" and len(forms) > 1 and not any(c.isdigit() for c in value)):
        yield _error("not a form")
        return
    form, start, end = worded
    if "{}" not in form:
        return
    try:
        measured(value[start:end], Dimension(dimension), schema.get("mb:zero", False))
    except QuantityError as error:
        yield _error("not a quantity", QuantityError(str(error), start + error.start, start + error.end))


def _refused(validator: Validator, reason: str, value: Any, schema: Schema) -> Iterator[ValidationError]:
    yield _error(reason)


def _readable(value: Any) -> bool:
    """Whether the value is a text to be judged; what is no text, or empty, is the business of ``type``."""
    return isinstance(value, str) and value not in ("", UNKNOWN)


def _error(message: str, cause: QuantityError | None = None) -> ValidationError:
    from jsonschema.exceptions import ValidationError

    return ValidationError(message, cause=cause)
