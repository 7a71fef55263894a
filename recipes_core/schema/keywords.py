"""The keywords that a schema may use: a closed list, since a misspelt keyword would silently check nothing.

Those of JSON Schema 2020-12 that recipes need, and our own under ``mb:``, which validators elsewhere ignore.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from recipes_core.quantities import Dimension
from recipes_core.schema.near import near

ANNOTATIONS: Mapping[str, Any] = {
    "title": str,
    "description": str,
    "$comment": str,
    "mb:absent": str,
    "mb:ask": str,
    "mb:means": str,
    "mb:default": str,
    "mb:like": str,
}
_KEYWORDS: Mapping[str, Any] = {
    **ANNOTATIONS,
    "$schema": str,
    "$id": str,
    "$defs": dict,
    "$ref": str,
    "allOf": list,
    "type": str,
    "enum": list,
    "pattern": str,
    "items": dict,
    "minItems": int,
    "properties": dict,
    "patternProperties": dict,
    "required": list,
    "additionalProperties": bool,
    "unevaluatedProperties": bool,
    "mb:quantity": str,
    "mb:zero": bool,
    "mb:forms": list,
    "mb:refused": str,
}
_ONE_OF: Mapping[str, frozenset[str]] = {
    "type": frozenset({"string", "array", "object"}),
    "mb:absent": frozenset({"answer", "unsaid", "ask"}),
    "mb:quantity": frozenset(Dimension),
}
_OWN_KEYS = {"^x-": True}
_OF_TEXTS = ("enum", "mb:forms", "required")


def fault_in(schema: Any) -> str | None:
    """What is wrong with the keywords of one schema, not of those inside it; None when nothing is."""
    if not isinstance(schema, Mapping):
        return f"has {schema!r} where a schema is wanted"
    for key, value in schema.items():
        if fault := _fault_of(key, value):
            return fault
    if not schema.keys() & {"type", "$ref", "mb:refused"}:
        return f"has {dict(schema)!r}, which says neither type nor $ref"
    if schema.get("patternProperties", _OWN_KEYS) != _OWN_KEYS:
        return 'lets other keys than those of one\'s own ("^x-": true) pass by a pattern'
    return _fault_of_pattern(schema) if "pattern" in schema else None


def _fault_of(key: str, value: Any) -> str | None:
    kind = _KEYWORDS.get(key)
    if kind is None:
        name = near(key, _KEYWORDS)
        return f"uses the keyword {key!r}, which is not known here" + (f"; did it mean {name!r}?" if name else "")
    if not isinstance(value, kind):
        return f"gives the keyword {key!r} a value of the wrong kind"
    if key in _ONE_OF and value not in _ONE_OF[key]:
        return f"gives the keyword {key!r} the value {value!r}, which is not known"
    if key in _OF_TEXTS and not all(isinstance(item, str) for item in value):
        return f"lists in {key!r} what is not text"
    return None


def _fault_of_pattern(schema: Mapping[str, Any]) -> str | None:
    pattern = schema["pattern"]
    try:
        re.compile(pattern)
    except re.error as error:
        return f"has the pattern {pattern!r}, which cannot be read: {error}"
    if pattern.startswith("^") and pattern.endswith("$") and "mb:like" in schema:
        return None
    return f"must hold the pattern {pattern!r} between ^ and $, beside mb:like"
