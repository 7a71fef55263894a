"""What a change to a recipe cannot touch need not be done again.

While the recipe itself is judged, every place that a forecast or a rule reads is written down. A copy that differs in
one other place runs the same way, so that the forecast's outcome and the rule's answer are the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import Field, fields, replace
from typing import TYPE_CHECKING, Any
from unittest.mock import patch

from recipes_core.recipe import Recipe
from recipes_core.rules import engine
from tests.suites.readers import near, same

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.findings import Path
    from recipes_core.forecast import Kindred
    from recipes_core.rules.rule import Rule
    from recipes_core.work import Outcome, Work

Kinds = Mapping[str, "Kindred"]


def structural(path: Path) -> bool:
    """Whether a change at a place may change which steps and lots there are."""
    if path[:1] == ("procedure",):
        return len(path) <= 2 or path[-1] in ("process", "id")
    return path in (("format",), ("formula",)) or (path[:2] == ("formula", "feedstock") and len(path) <= 3)


class Track:
    """The reads of one recipe, and the outcomes of its steps."""

    def __init__(self) -> None:
        self.read: dict[str | int, set[Path]] = {}
        self.outcomes: dict[int, tuple[Work, Outcome]] = {}
        self.cases: tuple[Case, ...] = ()
        self._now: set[Path] = set()

    @contextmanager
    def written_down(self) -> Iterator[None]:
        """Whatever is read of a recipe is, by the step or the rule that is at work."""
        get, raw, run = Recipe.get, Recipe.raw, getattr(engine, "_run")  # noqa: B009

        def tracked_get(recipe: Recipe, path: Path, process: str | None = None) -> Any:
            self._now.add(path)
            return get(recipe, path, process)

        def tracked_raw(recipe: Recipe, path: Path) -> Any:
            self._now.add(path)
            return raw(recipe, path)

        def tracked_run(rule: Rule, *more: Any) -> None:
            with self._at(rule.id):
                run(rule, *more)

        with (
            patch.object(Recipe, "get", tracked_get),
            patch.object(Recipe, "raw", tracked_raw),
            patch.object(engine, "_run", tracked_run),
        ):
            yield

    @contextmanager
    def _at(self, who: str | int) -> Iterator[None]:
        before, self._now = self._now, self.read.setdefault(who, set())
        try:
            yield
        finally:
            self._now = before

    def watched(self, kinds: Kinds) -> Kinds:
        """The same processes; what their forecasts come to is kept."""

        def forecast(kind: Kindred) -> Callable[[Case, Work], Outcome]:
            def kept(case: Case, work: Work) -> Outcome:
                assert case.step is not None
                _ = case.recipe.steps, case.recipe.lots  # which steps and lots there are is no news to anybody
                with self._at(case.step.index):
                    outcome = kind.forecast(case, work)
                self.outcomes[case.step.index] = work, outcome
                return outcome

            return kept

        return {name: replace(kind, forecast=forecast(kind)) for name, kind in kinds.items()}

    def repeating(self, kinds: Kinds, changed: Path) -> Kinds:
        """The same processes; a forecast that cannot have changed is not made again."""

        def forecast(kind: Kindred) -> Callable[[Case, Work], Outcome]:
            def repeated(case: Case, work: Work) -> Outcome:
                assert case.step is not None
                before, outcome = self.outcomes[case.step.index]
                untouched = not any(near(changed, path) for path in self.read[case.step.index])
                if not (untouched and alike(before, work)):
                    return kind.forecast(case, work)
                handed_on = {f.name for f in fields(work) if _of(outcome.work, f) is _of(before, f)}
                return replace(outcome, work=replace(outcome.work, **{name: getattr(work, name) for name in handed_on}))

            return repeated

        return {name: replace(kind, forecast=forecast(kind)) for name, kind in kinds.items()}

    def affected(self, rules: Iterable[Rule], cases: Sequence[Case], changed: Path) -> list[Rule]:
        """The rules that read the place, or a fact that is another one by now."""
        moved = {
            f"fact:{name}"
            for before, after in zip(self.cases, cases, strict=True)
            for name in {*before.facts, *after.facts}
            if not same(before.facts.get(name), after.facts.get(name))
        }
        return [
            rule
            for rule in rules
            if moved & {*rule.reads, *rule.may_read} or any(near(changed, path) for path in self.read.get(rule.id, ()))
        ]


def _of(work: Work, field: Field[Any]) -> Any:
    return getattr(work, field.name)


def alike(one: Work, other: Work) -> bool:
    """Whether two steps are handed the same."""
    return one is other or all(same(_of(one, f), _of(other, f)) for f in fields(one))
