"""Judging many copies of one recipe that differ in a field each: without a file, and without solving twice."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
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
from recipes_core.shelf import Shelf, beside
from tests.suites.memo import Memo, put_off

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.rules.engine import Judgement

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

    ``asked`` names the rules that each question stops; ``put_off`` the facts that were not solved.
    """

    data: dict[str, Any]
    findings: tuple[Finding, ...]
    cases: tuple[Case, ...]
    asked: Mapping[Place, frozenset[str]]
    put_off: frozenset[str] = frozenset()

    @property
    def verdict(self) -> Verdict:
        """Of all findings."""
        return verdict(self.findings)

    def told(self, finding: Finding) -> Told:
        """What makes this finding the same as one in another copy."""
        return finding.rule, by_id(self.data, finding.path), str(finding.level)


class Judge:
    """Judges copies of one recipe, and remembers what the recipe itself came to."""

    def __init__(self, file: Path, shelf: Shelf) -> None:
        self.shelf = beside(shelf, file, TODAY)
        self.name = file.stem
        self.text = file.read_text("utf-8")
        self.data = read_file(file).data
        self.memo = Memo()
        self.bad_enough: set[str] = set()
        self.checked: tuple[dict[str, Any], tuple[Finding, ...]] | None = None
        self.memo.pinning = True
        self.base = self.of(self.data)
        self.memo.pinning = False
        self.known = {self.base.told(f) for f in self.base.findings}
        self.marks = {name: kind.marks for name, kind in self.shelf.kinds.items()}

    @property
    def sound(self) -> bool:
        """Whether nothing stands against the recipe itself."""
        return self.base.verdict in SOUND

    def shape(self, data: dict[str, Any]) -> tuple[Finding, ...]:
        """What the schemas say, which costs little. The last answer is kept."""
        if self.checked is None or self.checked[0] is not data:
            self.checked = data, check(written_nowhere(data), self.shelf.schemas)
        return self.checked[1]

    def of(self, data: dict[str, Any]) -> Judged:
        """All findings."""
        with patch.object(app, "check", lambda *_: self.shape(data)):
            return self._judged(written_nowhere(data))

    def of_text(self, text: str) -> Judged:
        """All findings in a text as it stands."""
        return self._judged(read(text, "recipe.yaml"))

    def better(self, data: dict[str, Any]) -> bool:
        """Whether a copy comes out better than the recipe itself; findings that need no solve often tell."""
        key = json.dumps(data)
        if key not in self.bad_enough and worse(self.base.verdict, self.quick(data).verdict):
            return worse(self.base.verdict, self.of(data).verdict)
        return False

    def quick(self, data: dict[str, Any]) -> Judged:
        """The findings that rest on no solve that is still to be made. Each of them is among all findings."""
        self.memo.lazy = True
        try:
            judged = self.of(data)
        finally:
            self.memo.lazy = False
        waiting = frozenset(name for case in judged.cases for name, fact in case.facts.items() if put_off(fact))
        unsure = {r.id for r in self.shelf.rules if waiting & {n[5:] for n in _facts((*r.reads, *r.may_read))}}
        findings = tuple(f for f in judged.findings if f.rule not in unsure)
        quick = Judged(data, findings, judged.cases, judged.asked, waiting)
        if not worse(self.base.verdict, quick.verdict):
            self.bad_enough.add(json.dumps(data))
        return quick

    def new(self, judged: Judged) -> Iterator[Finding]:
        """What was found that the recipe itself does not have."""
        return (f for f in judged.findings if judged.told(f) not in self.known)

    def _judged(self, document: Document) -> Judged:
        seen: list[tuple[Any, Judgement]] = []
        engine = getattr(app, "judge")  # noqa: B009

        def watched(rules: Any, cases: Any, *more: Any) -> Judgement:
            seen.append((cases, engine(rules, cases, *more)))
            return seen[-1][1]

        with self.memo.working(), patch.object(app, "judge", watched):
            findings, _ = app._judged(document, TODAY, self.shelf)
        cases, judgement = seen[-1]
        asked = {path: frozenset(question.rules) for path, question in judgement.questions.items()}
        return Judged(document.data, findings, tuple(cases), asked)


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
