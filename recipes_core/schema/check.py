"""Checks a recipe against the schemas in two passes: the envelope, then each step against its own process.

One cause gives one finding, at the smallest piece of text that is wrong: a misspelt key is not also a missing
one, and a step of an unknown process is not also a step with unknown keys.
"""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from recipes_core.findings import Finding, Path, Span
from recipes_core.quantities import QuantityError
from recipes_core.schema import wording
from recipes_core.schema.compose import Schema, Schemas
from recipes_core.schema.format import TOO_NEW, WRONG_KIND, judge_format
from recipes_core.schema.near import near
from recipes_core.schema.validator import UNKNOWN, errors

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

    from recipes_core.document import Document

MOST = 100  # findings; nobody reads more at once
_START = Span(1, 1, 1, 1)


def check(document: Document, schemas: Schemas) -> tuple[Finding, ...]:
    """Everything in the document that does not fit its schema, in the order of the text.

    The check stops after MOST faults, and says so.
    """
    run = _Run(document, schemas)
    with suppress(_Enough):
        _both_passes(run, document.data, schemas)
    return tuple(sorted(run.found.values(), key=lambda f: (f.span or _START, f.rule)))


def _both_passes(run: _Run, data: Any, schemas: Schemas) -> None:
    if isinstance(data, dict) and isinstance(data.get("format"), str):
        found = judge_format(data["format"])
        if found is not None:
            run.add(found, run.value(("format",)))
            if found.rule in (TOO_NEW, WRONG_KIND):
                return
    run.validate(schemas.envelope, (), data)
    steps = data.get("procedure") if isinstance(data, dict) else None
    if isinstance(steps, list):
        for index, step in enumerate(steps):
            if isinstance(step, dict):
                run.step(("procedure", index), step)
        run.names(steps)


class _Enough(Exception):  # noqa: N818 - no error, but the way out of both passes
    """There are as many findings as anybody reads."""


@dataclass
class _Run:
    """The findings so far, at most one a path."""

    document: Document
    schemas: Schemas
    found: dict[Path, Finding] = field(default_factory=dict)

    def add(self, finding: Finding, span: Span) -> None:
        self.found.setdefault(finding.path, replace(finding, span=span))
        if len(self.found) == MOST:
            last = max(f.span or _START for f in self.found.values())
            self.found[()] = replace(wording.too_many(MOST), span=last)
            raise _Enough

    def step(self, path: Path, step: dict[str, Any]) -> None:
        """The second pass, for one step."""
        process = step.get("process")
        if not isinstance(process, str) or (*path, "process") in self.found:
            return
        schema = self.schemas.steps.get(process)
        if schema is None:
            at = (*path, "process")
            self.add(wording.unknown_process(at, process, self.schemas.steps), self.value(at))
        else:
            self.validate(schema, path, step)

    def names(self, steps: list[Any]) -> None:
        """Ids that are given twice, and references to ids that are not there."""
        ids = [step.get("id") if isinstance(step, dict) else None for step in steps]
        first: dict[str, int] = {}
        for index, name in enumerate(ids):
            if not isinstance(name, str) or name in ("", UNKNOWN):
                continue
            if first.setdefault(name, index) != index:
                at: Path = ("procedure", index, "id")
                line = self.value(("procedure", first[name], "id")).line
                self.add(wording.id_twice(at, name, line), self.value(at))
        if any(name is None or ("procedure", index, "id") in self.found for index, name in enumerate(ids)):
            return  # the step that is missed below may be the one whose id is wrong
        for index, step in enumerate(steps):
            beside = step.get("alongside") if isinstance(step, dict) else None
            if not isinstance(beside, str) or beside in ("", UNKNOWN):
                continue
            if beside not in first or beside == ids[index]:
                at = ("procedure", index, "alongside")
                others = [name for name in first if name != ids[index]]
                self.add(wording.unknown_step(at, beside, others), self.value(at))

    def validate(self, schema: Schema, path: Path, data: Any) -> None:
        """One pass: every error of the validator, as a finding."""
        for error in errors(schema, data):
            at = (*path, *error.absolute_path)
            if error.validator in ("required", "additionalProperties"):
                self._keys(at, error)
            else:
                self._value(at, error)

    def _keys(self, path: Path, error: ValidationError) -> None:
        """Keys that are missing or not known, of one group; a pair of near names is one finding."""
        group: Any = error.instance
        schema: Any = error.schema
        known = dict(schema["properties"])
        if path[:1] == ("procedure",) and len(path) == 2:  # what else a step may say, its process decides
            known |= self.schemas.steps.get(str(group.get("process")), self.schemas.step)["properties"]
        strange = [key for key in group if key not in known and not key.startswith("x-")]
        for key in schema.get("required", ()):
            if key not in group:
                meant = next((word for word in strange if near(word, [key])), None)
                if meant is None:
                    self.add(wording.missing_key((*path, key)), self._group(path))
                else:
                    at = (*path, meant)
                    self.add(wording.unknown_key(at, [key], (), known), self.document.key_span(at))
        if schema.get("additionalProperties") is False:
            names = [key for key, inner in known.items() if "mb:refused" not in inner]
            for key in strange:
                at = (*path, key)
                self.add(wording.unknown_key(at, names, group), self.document.key_span(at))

    def _value(self, path: Path, error: ValidationError) -> None:
        """A value that does not fit."""
        value: Any = error.instance
        schema: Any = error.schema
        if error.validator == "mb:refused":
            self.add(wording.refused(path, error.message), self.document.key_span(path))
        elif error.validator == "minItems":
            self.add(wording.empty_list(path), self._group(path))
        elif error.validator == "pattern":
            self.add(wording.not_like(path, schema, value), self.value(path))
        elif isinstance(error.cause, QuantityError):
            finding = wording.not_a_quantity(path, schema, value, error.cause)
            self.add(finding, self._part(path, value, error.cause.start, error.cause.end))
        elif error.validator in ("enum", "mb:quantity"):
            self.add(wording.not_a_choice(path, schema, value), self.value(path))
        else:
            span = self._group(path) if value == "" or not isinstance(value, str) else self.value(path)
            self.add(wording.wrong_shape(path, schema, value), span)

    def value(self, path: Path) -> Span:
        """Where the value at ``path`` stands."""
        return self.document.span(path)

    def _group(self, path: Path) -> Span:
        """The place that names a group: its key, or else its first key, or else its first line."""
        if path and isinstance(path[-1], str):
            return self.document.key_span(path)
        group = _inside(self.document.data, path)
        if isinstance(group, dict) and group:
            return self.document.key_span((*path, next(iter(group))))
        return self.value(path)

    def _part(self, path: Path, value: str, start: int, end: int) -> Span:
        """The wrong part of a value, where its text stands in the file letter for letter on one line."""
        whole = self.value(path)
        quotes = whole.end_column - whole.column - len(value)
        if whole.line != whole.end_line or quotes not in (0, 2) or end <= start:
            return whole
        column = whole.column + quotes // 2
        return Span(whole.line, column + start, whole.line, column + end)


def _inside(data: Any, path: Iterable[str | int]) -> Any:
    for part in path:
        data = data[part]
    return data
