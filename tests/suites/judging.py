"""Judging many copies of one recipe that differ in a field each: without a file, and without solving twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any
from unittest.mock import patch

from recipes_core import app
from recipes_core.document import Document, read, read_file
from recipes_core.document.model import Entry
from recipes_core.findings import Finding, Span
from recipes_core.findings import Path as Place
from recipes_core.rules.verdict import Verdict, verdict
from recipes_core.schema import check
from recipes_core.schema.validator import errors
from recipes_core.shelf import Shelf, beside
from tests.suites.memo import Memo, put_off
from tests.suites.tracking import Track, structural

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

    from recipes_core.case import Case
    from recipes_core.rules.engine import Judgement
    from recipes_core.schema.compose import Schema

RECIPES = Path(__file__).parents[2] / "recipes"
TODAY = date(2026, 11, 25)
"""After the last check of any thermometer in the shipped recipes, and less than a year after the first."""
SOUND = (Verdict.NOTHING_FOUND, Verdict.WITH_CARE)
ORDER = (Verdict.NOTHING_FOUND, Verdict.WITH_CARE, Verdict.NOT_YET, Verdict.DO_NOT_TRY, Verdict.UNUSABLE)
"""The verdicts from the best to the worst."""

Told = tuple[str, Place, str]
"""What makes two findings the same: rule, place, level. A step is named by its id, so that moving it is no news."""


NOWHERE = Entry(None, Span(1, 1, 1, 1), plain=False)


class Nowhere(dict[Place, Entry]):
    """The spans of a document that was never written: all of it stands in one place."""

    def __contains__(self, path: object) -> bool:
        return True

    def __missing__(self, path: Place) -> Entry:
        return NOWHERE


@dataclass(frozen=True)
class Judged:
    """One copy, what was found in it, and the cases with their facts.

    ``asked`` names the rules that each question stops; ``put_off`` the facts that were not solved; ``left`` the rules
    that were not run, as nothing that they read has changed.
    """

    data: dict[str, Any]
    findings: tuple[Finding, ...]
    cases: tuple[Case, ...]
    asked: Mapping[Place, frozenset[str]]
    put_off: frozenset[str] = frozenset()
    left: frozenset[str] = frozenset()

    @property
    def verdict(self) -> Verdict:
        """Of all findings."""
        return verdict(self.findings)

    def told(self, finding: Finding) -> Told:
        """What makes this finding the same as one in another copy."""
        return finding.rule, by_id(self.data, finding.path), str(finding.level)


class Judge:
    """Judges copies of one recipe, and remembers what the recipe itself came to.

    Where it is told the one place in which a copy differs, only what can have changed is done again; the findings of
    rules that cannot are then left out.
    """

    def __init__(self, file: Path, shelf: Shelf) -> None:
        self.shelf = beside(shelf, file, TODAY)
        self.name = file.stem
        self.text = file.read_text("utf-8")
        self.data = read_file(file).data
        self.memo = Memo()
        self.track = Track()
        self.checked: tuple[dict[str, Any], tuple[Finding, ...]] | None = None
        self.memo.pinning = True
        with self.track.written_down():
            kinds = self.track.watched(self.shelf.kinds)
            self.base = self._judged(written_nowhere(self.data), replace(self.shelf, kinds=kinds))
        self.memo.pinning = False
        self.track.cases = self.base.cases
        self.known = {self.base.told(f) for f in self.base.findings}
        self.marks = {name: kind.marks for name, kind in self.shelf.kinds.items()}

    @property
    def sound(self) -> bool:
        """Whether nothing stands against the recipe itself."""
        return self.base.verdict in SOUND

    def shape(self, data: dict[str, Any]) -> tuple[Finding, ...]:
        """What the schemas say, which costs little. The last answer is kept."""
        if self.checked is None or self.checked[0] is not data:
            with patch.object(import_module("recipes_core.schema.check"), "errors", self._errors):
                self.checked = data, check(written_nowhere(data), self.shelf.schemas)
        return self.checked[1]

    def _errors(self, schema: Schema, data: Any) -> Iterable[ValidationError]:
        """The errors of the schema; parts that are those of the recipe itself have none."""
        if any(data is step for step in self.data["procedure"]) and self.sound:
            return ()
        if schema is self.shelf.schemas.envelope and self.sound and isinstance(data, dict):
            own = {key: value for key, value in data.items() if value is self.data.get(key)}
            data = {key: value for key, value in data.items() if key not in own or key in schema["required"]}
        return errors(schema, data)

    def of(self, data: dict[str, Any], changed: Place = ()) -> Judged:
        """All findings, or those that a change at one place can have brought."""
        with patch.object(app, "check", lambda *_: self.shape(data)):
            if not changed or structural(changed):
                return self._judged(written_nowhere(data), self.shelf)
            kinds = self.track.repeating(self.shelf.kinds, changed)
            return self._judged(written_nowhere(data), replace(self.shelf, kinds=kinds), changed)

    def of_text(self, text: str) -> Judged:
        """All findings in a text as it stands."""
        return self._judged(read(text, "recipe.yaml"), self.shelf)

    def better(self, data: dict[str, Any], changed: Place) -> bool:
        """Whether a copy comes out better than the recipe itself; findings that need no solve often tell."""
        if self.base.verdict is ORDER[0] or not worse(self.base.verdict, self._verdict(self.quick(data, changed))):
            return False
        return worse(self.base.verdict, self.of(dict(data)).verdict)

    def _verdict(self, judged: Judged) -> Verdict:
        """Of what was found, and of what the rules that were not run say of the recipe itself."""
        return verdict((*judged.findings, *(f for f in self.base.findings if f.rule in judged.left)))

    def quick(self, data: dict[str, Any], changed: Place = ()) -> Judged:
        """The findings that rest on no solve that is still to be made. Each of them is among all findings."""
        self.memo.lazy = True
        try:
            judged = self.of(data, changed)
        finally:
            self.memo.lazy = False
        waiting = frozenset(name for case in judged.cases for name, fact in case.facts.items() if put_off(fact))
        unsure = {r.id for r in self.shelf.rules if waiting & {n[5:] for n in _facts((*r.reads, *r.may_read))}}
        findings = tuple(f for f in judged.findings if f.rule not in unsure)
        return Judged(data, findings, judged.cases, judged.asked, waiting, judged.left)

    def new(self, judged: Judged) -> Iterator[Finding]:
        """What was found that the recipe itself does not have."""
        return (f for f in judged.findings if judged.told(f) not in self.known)

    def _judged(self, document: Document, shelf: Shelf, changed: Place = ()) -> Judged:
        seen: list[tuple[Any, Judgement]] = []
        run: set[str] = set()
        engine = getattr(app, "judge")  # noqa: B009

        def watched(rules: Any, cases: Any, *more: Any) -> Judgement:
            rules = self.track.affected(rules, cases, changed) if changed else rules
            run.update(rule.id for rule in rules)
            seen.append((cases, engine(rules, cases, *more)))
            return seen[-1][1]

        with self.memo.working(), patch.object(app, "judge", watched):
            findings = app._judged(document, TODAY, shelf)[0]
        cases, judgement = seen[-1]
        asked = {path: frozenset(question.rules) for path, question in judgement.questions.items()}
        left = frozenset(r.id for r in shelf.rules) - run if changed else frozenset()
        return Judged(document.data, findings, tuple(cases), asked, left=left)


def shipped() -> list[Path]:
    """Every recipe that is shipped."""
    return [file for file in sorted(RECIPES.rglob("*.yaml")) if file.parent != RECIPES]


def written_nowhere(data: dict[str, Any]) -> Document:
    """A document without a text."""
    return Document("recipe.yaml", "", data, Nowhere(), "")


def by_id(data: dict[str, Any], path: Place) -> Place:
    """The path with a step named by its id."""
    if path[:1] == ("procedure",) and len(path) > 1 and isinstance(path[1], int):
        steps = data.get("procedure")
        step = steps[path[1]] if isinstance(steps, list) and path[1] < len(steps) else None
        name = step.get("id") if isinstance(step, dict) else None
        return ("procedure", str(name) if name is not None else path[1], *path[2:])
    return path


def worse(one: Verdict, other: Verdict) -> bool:
    """Whether ``one`` is the worse verdict."""
    return ORDER.index(one) > ORDER.index(other)


def _facts(names: Iterable[str]) -> Iterator[str]:
    return (name for name in names if name.startswith("fact:"))
