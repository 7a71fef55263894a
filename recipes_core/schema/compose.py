"""Joins the schemas that a recipe is checked against: the envelope, and one closed schema a process.

The files are plain JSON Schema 2020-12. Composing follows their ``$ref``s, which may point into the same file
or into the shared fields and nowhere else, and turns a group taken in by ``allOf`` and closed by
``unevaluatedProperties`` into one closed object: a validator then lists only keys that are truly unknown.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from recipes_core.errors import PluginError
from recipes_core.resources import data_root
from recipes_core.schema.keywords import ANNOTATIONS, fault_in

Schema = Mapping[str, Any]

FIELDS = "urn:meltbook:fields-1"
_ENVELOPE = "urn:meltbook:recipe-1"

_OF_THE_FILE = frozenset({"$schema", "$id", "$defs", "$comment"})
_GROUP = frozenset({"type", "properties", "patternProperties", "required", "mb:means"})


@dataclass(frozen=True, eq=False)
class Schemas:
    """What a recipe is checked against, without references. ``step`` holds the keys that all steps share."""

    envelope: Schema
    step: Schema
    steps: Mapping[str, Schema]


def compose(step_schemas: Mapping[str, Schema]) -> Schemas:
    """Compose the packaged envelope and the step schemas, given by process id.

    Raises PluginError, naming the process, for a schema that is not closed, uses an unknown keyword, or
    refers to what is not there.
    """
    envelope, step, flat = _packaged()
    steps = {}
    for process, schema in step_schemas.items():
        steps[process] = _Composer(f"The step schema of process {process}", schema, dict(flat)).closed()
    return Schemas(envelope, step, steps)


@cache
def _packaged() -> tuple[Schema, Schema, Mapping[str, Schema]]:
    """The envelope, the keys of all steps, and the flat form of every shared group by its reference."""
    groups = _Composer(FIELDS, shared(FIELDS), {})
    for name in shared(FIELDS)["$defs"]:
        groups.resolve(f"{FIELDS}#/$defs/{name}")
    envelope = _Composer(_ENVELOPE, shared(_ENVELOPE), dict(groups.flat)).closed()
    return envelope, groups.flat[f"{FIELDS}#/$defs/step"], groups.flat


@cache
def shared(name: str) -> Schema:
    """A packaged schema as it stands in its file."""
    file = data_root("schemas") / f"{name.rpartition(':')[2]}.schema.json"
    schema: Schema = json.loads(file.read_bytes())
    return schema


@dataclass
class _Composer:
    """Flattens one file. ``flat`` holds what is done already, by reference; ``under`` what is being done."""

    owner: str
    file: Schema
    flat: dict[str, Schema]
    under: list[str] = field(default_factory=list)

    def closed(self) -> Schema:
        """The whole file, which must be a closed object."""
        if not isinstance(self.file, Mapping):
            raise self.fault("is no JSON object")
        schema = self.flatten(self.file)
        if schema.get("type") != "object":
            raise self.fault("must be of type object")
        return schema

    def fault(self, what: str) -> PluginError:
        return PluginError(f"{self.owner} {what}.")

    def flatten(self, schema: Schema) -> Schema:
        if wrong := fault_in(schema):
            raise self.fault(wrong)
        if "$ref" in schema:
            target = self._referred(schema)
            self._lint_closed(target)
            return target
        result = {key: value for key, value in schema.items() if key not in _OF_THE_FILE}
        if "allOf" in result:
            self._take_in(result, result.pop("allOf"))
        if "unevaluatedProperties" in result:
            result["additionalProperties"] = result.pop("unevaluatedProperties")
        if "items" in result:
            result["items"] = self.flatten(result["items"])
        if "properties" in schema:
            own = {key: self.flatten(value) for key, value in schema["properties"].items()}
            # its own keys first: whoever lists the keys of a step begins with those
            result["properties"] = own | (result["properties"] if "allOf" in schema else {})
        self._lint_closed(result)
        return result

    def resolve(self, ref: str) -> Schema:
        """The flat form of what ``ref`` points at."""
        if ref not in self.flat:
            if ref in self.under:
                raise self.fault(f"refers to itself in a circle through {ref}")
            self.under.append(ref)
            self.flat[ref] = self.flatten(self._target(ref))
            self.under.pop()
        return self.flat[ref]

    def _target(self, ref: str) -> Schema:
        file, _, pointer = ref.partition("#/")
        node: Any = {"": self.file, FIELDS: shared(FIELDS)}.get(file)
        for part in pointer.split("/"):
            node = node.get(part) if isinstance(node, Mapping) else None
        if not isinstance(node, Mapping):
            raise self.fault(f"refers to {ref}, which is not there")
        return node

    def _referred(self, schema: Schema) -> Schema:
        beside = {key: value for key, value in schema.items() if key != "$ref"}
        if wrong := beside.keys() - ANNOTATIONS.keys():
            raise self.fault(f"has {sorted(wrong)[0]!r} beside a $ref, where only annotations may stand")
        ref = schema["$ref"]
        if ref.startswith("#") and self.owner == FIELDS:
            ref = FIELDS + ref
        return {**self.resolve(ref), **beside}

    def _take_in(self, result: dict[str, Any], groups: list[Any]) -> None:
        """Merge the groups that ``allOf`` names into one object."""
        merged: dict[str, Any] = {"properties": {}, "patternProperties": {}, "required": []}
        own = result.get("properties", {})
        for group in groups:
            if not isinstance(group, Mapping) or list(group) != ["$ref"]:
                raise self.fault("may hold nothing but a $ref to a group in each part of allOf")
            flat = self._referred(group)
            if wrong := flat.keys() - _GROUP:
                raise self.fault(f"takes in {group['$ref']}, which is no group: it has {sorted(wrong)[0]!r}")
            for key, value in flat["properties"].items():
                if key in own or key in merged["properties"]:
                    raise self.fault(f"defines the key {key!r} twice")
                merged["properties"][key] = value
            merged["patternProperties"] |= flat.get("patternProperties", {})
            merged["required"] += flat.get("required", [])
            result.setdefault("mb:means", flat.get("mb:means", ""))
        result["properties"] = merged["properties"]
        result["patternProperties"] = {**merged["patternProperties"], **result.get("patternProperties", {})}
        result["required"] = [*merged["required"], *result.get("required", [])]

    def _lint_closed(self, flat: Schema) -> None:
        """Groups stay open only among the shared fields, for others to take in, and in the envelope."""
        closed = flat.get("type") != "object" or flat.get("additionalProperties") is False
        if not closed and self.owner not in (FIELDS, _ENVELOPE):
            raise self.fault("leaves a group open: it must end with unevaluatedProperties: false")
