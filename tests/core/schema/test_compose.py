"""Composing the schemas: plain JSON Schema in, closed schemas without references out, faults blamed."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import pytest

from recipes_core.errors import PluginError
from recipes_core.schema.compose import FIELDS, Schemas, compose, shared

RECIPE = "urn:meltbook:recipe-1"
MINIMAL = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "type": "object",
    "allOf": [{"$ref": f"{FIELDS}#/$defs/step"}],
    "properties": {"depth": {"type": "string", "mb:quantity": "length", "mb:ask": "How deep?"}},
    "unevaluatedProperties": False,
}


def with_change(**changes: Any) -> dict[str, Any]:
    """The minimal step schema with some keywords replaced."""
    return {**copy.deepcopy(MINIMAL), **changes}


def nodes(schema: Any) -> Iterator[dict[str, Any]]:
    """Every JSON object inside ``schema``."""
    if isinstance(schema, dict):
        yield schema
        for value in schema.values():
            yield from nodes(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from nodes(value)


def test_the_files_are_valid_json_schema(step_schemas: dict[str, Any]) -> None:
    """Each file passes the 2020-12 meta-schema (json-schema.org) as it stands."""
    from jsonschema import Draft202012Validator

    for schema in (shared(FIELDS), shared(RECIPE), *step_schemas.values()):
        Draft202012Validator.check_schema(schema)


def test_any_validator_can_use_the_files(step_schemas: dict[str, Any]) -> None:
    """Uncomposed, by the standard keywords alone, a step schema takes its keys and refuses a strange one."""
    from jsonschema import Draft202012Validator
    from referencing import Registry, Resource

    known = {"registry": Registry().with_resource(FIELDS, Resource.from_contents(shared(FIELDS)))}
    validator = Draft202012Validator(step_schemas["fold"], **known)
    assert validator.is_valid({"id": "fold", "process": "fold", "layers": "3", "x-mine": "a", "attended": "always"})
    assert not validator.is_valid({"id": "fold", "process": "fold", "layer": "3"})
    assert not validator.is_valid({"id": "fold", "process": "fold", "attended": "sometimes"})


def test_no_reference_is_left(schemas: Schemas) -> None:
    """What is composed needs nothing fetched and nothing looked up."""
    for schema in (schemas.envelope, *schemas.steps.values()):
        for node in nodes(schema):
            assert not node.keys() & {"$ref", "allOf", "unevaluatedProperties", "$defs"}


def test_every_object_is_closed_but_for_keys_of_ones_own(schemas: Schemas) -> None:
    """Every group refuses strange keys and keeps those under x-; only a step of the envelope is open."""
    open_groups = []
    for schema in (schemas.envelope, *schemas.steps.values()):
        for node in nodes(schema):
            if node.get("type") == "object" and node.get("additionalProperties") is not False:
                open_groups.append(node)
            elif node.get("type") == "object":
                assert node["patternProperties"] == {"^x-": True}
    assert open_groups == [schemas.envelope["properties"]["procedure"]["items"]]


def test_every_leaf_is_text(schemas: Schemas) -> None:
    """The reader hands over text alone, so a leaf of any other type could never fit."""
    for schema in (schemas.envelope, *schemas.steps.values()):
        for node in nodes(schema):
            if isinstance(node.get("type"), str) and node["type"] not in ("object", "array"):
                assert node["type"] == "string"


def test_a_step_takes_the_shared_keys_and_its_own() -> None:
    """A group taken in by allOf and the schema's own keys end up in one closed object."""
    properties = compose({"demo": MINIMAL}).steps["demo"]["properties"]
    assert {"at_least", "until", "depth"} <= properties.keys()


def test_composing_leaves_the_schema_as_it_was() -> None:
    """A plugin's own data is not changed."""
    before = json.dumps(MINIMAL)
    compose({"demo": MINIMAL})
    assert json.dumps(MINIMAL) == before


@pytest.mark.parametrize(
    ("schema", "said"),
    [
        ([], "no JSON object"),
        (with_change(requierd=["depth"]), "'requierd', which is not known here; did it mean 'required'?"),
        (with_change(oneOf=[]), "'oneOf'"),
        (with_change(unevaluatedProperties=True), "unevaluatedProperties: false"),
        (with_change(type="array"), "must be of type object"),
        (with_change(properties={"a": {"type": "object", "properties": {}}}), "leaves a group open"),
        (with_change(properties={"a": {"$ref": f"{FIELDS}#/$defs/scale"}}), "leaves a group open"),
        (with_change(properties={"a": {"enum": ["yes", "no"]}}), "neither type nor $ref"),
        (with_change(patternProperties={"^.*$": True}), "of one's own"),
        (with_change(type="text"), "'text'"),
        (with_change(properties=[]), "'properties' a value of the wrong kind"),
        (with_change(properties={"a": "b"}), "'b' where a schema is wanted"),
        (with_change(properties={"a": {"type": "string", "mb:quantity": "heat"}}), "'heat'"),
        (with_change(properties={"a": {"type": "string", "mb:absent": "maybe"}}), "'maybe'"),
        (with_change(properties={"a": {"type": "string", "enum": [1]}}), "not text"),
        (
            with_change(properties={"a": {"type": "string", "pattern": "^(a$", "mb:like": "a"}}),
            "cannot be read",
        ),
        (
            with_change(properties={"a": {"type": "string", "pattern": "a", "mb:like": "a"}}),
            "between ^ and $",
        ),
        (with_change(properties={"a": {"type": "string", "pattern": "^a$"}}), "mb:like"),
        (with_change(properties={"a": {"$ref": "#/$defs/b"}}), "#/$defs/b, which is not there"),
        (with_change(properties={"a": {"$ref": "https://example.org/a.json"}}), "which is not there"),
        (
            with_change(properties={"a": {"$ref": f"{FIELDS}#/$defs/date", "type": "string"}}),
            "'type' beside a $ref",
        ),
        (with_change(properties={"until": {"type": "string"}}), "'until' twice"),
        (with_change(allOf=[{"$ref": f"{FIELDS}#/$defs/date"}]), "is no group"),
        (with_change(allOf=[{"type": "object"}]), "nothing but a $ref"),
        (
            with_change(
                properties={"a": {"$ref": "#/$defs/a"}},
                **{"$defs": {"a": {"type": "array", "items": {"$ref": "#/$defs/a"}}}},
            ),
            "in a circle",
        ),
    ],
)
def test_a_faulty_schema_is_blamed_on_its_process(schema: Any, said: str) -> None:
    """The first fault is said in one sentence that names the process."""
    with pytest.raises(PluginError) as raised:
        compose({"demo": schema})
    assert "process demo" in str(raised.value)
    assert said in str(raised.value)
