"""What becomes of each mutant: caught, harmless, or it survived, which is a hole in the rules or in the expectation."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

from recipes_core.findings import Finding, Kind
from tests.suites.harmless import reason
from tests.suites.judging import Judge, Judged
from tests.suites.operators import Mutant, mutants
from tests.suites.oracle import Opinion, opinion
from tests.suites.readers import meant_for, moved, near, read_by, touches
from tests.suites.relations import RELATIONS

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.findings import Path
    from recipes_core.rules.rule import Rule


class Fate(StrEnum):
    """What became of a mutant."""

    CAUGHT = "caught"
    HARMLESS = "harmless"
    SURVIVED = "survived"


@dataclass(frozen=True)
class Outcome:
    """The fate of one mutant; ``by`` names the rule that caught it, or says why nobody did or had to.

    ``absolute``: it survived at a place that an absolute rule reads.
    """

    recipe: str
    mutant: Mutant
    fate: Fate
    by: str
    absolute: bool = False

    @property
    def place(self) -> str:
        """The place without indexes."""
        return ".".join("*" if isinstance(part, int) else part for part in self.mutant.path)

    @property
    def line(self) -> str:
        """All of it, for a test that fails."""
        at = ".".join(str(part) for part in self.mutant.path)
        return f"{self.recipe}: {self.mutant.operator} {at} {self.mutant.value!r}: {self.by}"


class Mutating:
    """The mutation of one recipe."""

    def __init__(self, judge: Judge) -> None:
        self.judge = judge
        self.rules: dict[str, Rule] = {rule.id: rule for rule in judge.shelf.rules}
        self.shape = {(f.rule, f.path) for f in judge.shape(judge.data)}

    @cached_property
    def healthy(self) -> Opinion:
        """What the oracle says of the recipe itself."""
        return opinion(self.judge.base.cases, self.judge.marks, RELATIONS, tracing=True)

    @cached_property
    def guarded(self) -> frozenset[Path]:
        """The places that absolute rules read."""
        absolute = [rule for rule in self.judge.shelf.rules if rule.absolute]
        return read_by(absolute, self.judge.base.cases, self.judge.marks)

    def run(self) -> Iterator[Outcome]:
        """Every mutant with its fate."""
        return self.of(mutants(self.judge.data, self.judge.shelf))

    def of(self, chosen: Iterable[Mutant]) -> Iterator[Outcome]:
        """These mutants with their fates."""
        for mutant in chosen:
            fate, by = self._fate(mutant)
            absolute = fate is Fate.SURVIVED and any(touches(mutant.path, path) for path in self.guarded)
            yield Outcome(self.judge.name, mutant, fate, by, absolute)

    def _fate(self, mutant: Mutant) -> tuple[Fate, str]:
        for finding in self.judge.shape(mutant.data):
            if (finding.rule, finding.path) not in self.shape and self._is_about(finding.path, mutant):
                return Fate.CAUGHT, finding.rule
        changed = () if mutant.operator == "swap steps" else mutant.path
        judged = self.judge.quick(mutant.data, changed)
        if by := self._caught(mutant, judged):
            return Fate.CAUGHT, by
        if why := reason(mutant, self.judge.data):
            return Fate.HARMLESS, why
        if judged.put_off:
            judged = self.judge.of(mutant.data, changed)
            if by := self._caught(mutant, judged):
                return Fate.CAUGHT, by
        return self._uncaught(mutant, judged)

    def _uncaught(self, mutant: Mutant, judged: Judged) -> tuple[Fate, str]:
        now = opinion(judged.cases, self.judge.marks, RELATIONS)
        broken = [name for name in now.broken if name not in self.healthy.broken]
        if broken:
            return Fate.SURVIVED, f"no rule minds that this fails: {'; '.join(broken)}"
        if now.looks_at(mutant.path, self.healthy):
            return Fate.HARMLESS, "all relations of the oracle still hold"
        stray = [f.rule for f in self.judge.new(judged)]
        if stray:
            return Fate.SURVIVED, f"found by a rule that does not say that it reads it: {', '.join(stray)}"
        return Fate.SURVIVED, "nothing reads it, and no line says that nothing need to"

    def _caught(self, mutant: Mutant, judged: Judged) -> str:
        for finding in self.judge.new(judged):
            if finding.kind is Kind.REVIEW:
                raise AssertionError(f"{mutant.operator} {mutant.path} {mutant.value!r}: {finding.message}")
            if self._is_about(finding.path, mutant) or self._reads(finding, mutant, judged):
                return finding.rule
        return ""

    def _is_about(self, path: Path, mutant: Mutant) -> bool:
        return (near(path, mutant.path) and path != ()) or _steps_moved(mutant)

    def _reads(self, finding: Finding, mutant: Mutant, judged: Judged) -> bool:
        """Whether a rule that found or asked this reads the place: by its names, or as what it reads has moved."""
        names = judged.asked.get(finding.path, frozenset()) if finding.kind is Kind.OPEN else {finding.rule}
        rules = [self.rules[name] for name in sorted(names) if name in self.rules]
        cases, marks = (*judged.cases, *self.judge.base.cases), self.judge.marks
        if any(touches(mutant.path, path) for path in read_by(rules, cases, marks)):
            return True
        before = {_place(case): case for case in self.judge.base.cases}
        return any(
            _place(case) not in before or moved(rule, before[_place(case)], case)
            for rule in rules
            for case in judged.cases
            if meant_for(rule, case, marks)
        )


def _place(case: Case) -> tuple[str, int | None]:
    return case.step.id if case.step else "", case.lot


def _steps_moved(mutant: Mutant) -> bool:
    """A step that moved, went or is another one is read by whatever reads the steps."""
    at = mutant.path
    return at[:1] == ("procedure",) and (len(at) <= 2 or (len(at) == 3 and at[2] == "process"))
