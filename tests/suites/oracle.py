"""The oracle of the mutation suite: whether all that must hold of a sound recipe still holds of a copy.

It sees facts and values of sheets, and calls no rule. A relation that needs what is open is left to the questions.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Union

from recipes_core.case import number, upper
from recipes_core.facts import Fact, Given, Open
from recipes_core.quantities import Dimension, rounded
from tests.suites.readers import place, same, touches

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.findings import Path

Term = Union[str, float, "Callable[[Sight], float]"]


class NotKnown(Exception):  # noqa: N818 - no error: the relation is not judged
    """A relation that cannot be told, because something it needs is open or not there."""


@dataclass
class Sight:
    """One case as a relation sees it; ``seen`` are the places that it looked at, where these are traced."""

    case: Case
    tracing: bool = False
    seen: set[Path] = field(default_factory=set)
    values: dict[str, Any] = field(default_factory=dict)

    def value(self, name: str) -> Fact | Given:
        """Whatever is behind a name."""
        try:
            if self.tracing:
                self.seen.update(place(name, self.case))
            value = self.values[name] = self.case.get(name)
        except LookupError:
            raise NotKnown from None
        if value is None or isinstance(value, Open) or (isinstance(value, Fact) and isinstance(value.value, Open)):
            raise NotKnown
        return value

    def has(self, name: str) -> bool:
        """Whether it is there and known."""
        try:
            self.value(name)
        except NotKnown:
            return False
        return True

    def fact(self, name: str) -> Fact:
        """A fact, by its name."""
        value = self.value(f"fact:{name}")
        assert isinstance(value, Fact)
        return value

    def term(self, term: Term) -> float:
        """A number as the table of relations writes it: ``late core set after``, ``low at_least``, or itself.

        Of a fact ``mid`` is the nominal number, ``early`` and ``late`` what nineteen of twenty shops stay above
        and under, ``least`` and ``worst`` the ends; of a value ``low`` and ``high`` are the ends of its range.
        """
        if not isinstance(term, str):
            return term(self) if callable(term) else term
        which, _, name = term.partition(" ")
        if which in ("low", "high"):
            return self.low(name) if which == "low" else self.high(name)
        fact = self.fact(name)
        early, late = fact.band()
        told = {"mid": fact.nominal, "early": early, "late": late}
        return told[which] if which in told else fact.worst(highest=which == "worst")

    def low(self, name: str) -> float:
        """A number, or the lower end of a range."""
        return number(self.value(name))

    def high(self, name: str) -> float:
        """A number, or the upper end of a range."""
        return upper(self.value(name))

    def word(self, name: str) -> str:
        """A choice, a name or a count; empty where nothing was said."""
        if not self.has(name):
            return ""
        return str(self.value(name).value)


def most(found: float, limit: float, dimension: Dimension) -> bool:
    """Whether ``found`` is within ``limit`` as both are displayed."""
    return rounded(found, dimension) <= rounded(limit, dimension)


@dataclass(frozen=True)
class Relation:
    """One thing that must hold of every step with one of these marks, of each ``lot``, or of the ``recipe``."""

    name: str
    on: frozenset[str]
    holds: Callable[[Sight], bool]


@dataclass(frozen=True)
class Opinion:
    """What the oracle says of one copy: the relations that are broken, and what each relation looked at."""

    broken: frozenset[str]
    seen: frozenset[Path]
    values: Mapping[str, Mapping[str, Any]]

    def looks_at(self, path: Path, before: Opinion) -> bool:
        """Whether what stands at a place makes a difference, or was looked at before."""
        if any(touches(path, seen) for seen in before.seen):
            return True
        return any(
            not same(value, before.values[name].get(key))
            for name, values in self.values.items()
            if name in before.values
            for key, value in values.items()
        )


def opinion(
    cases: Iterable[Case],
    marks: Mapping[str, frozenset[str]],
    relations: Iterable[Relation],
    tracing: bool = False,
) -> Opinion:
    """Every relation on every case it is meant for; to trace what places it looks at takes time."""
    relations, broken, seen, values = list(relations), set(), set(), {}
    for case in cases:
        kind = marks.get(case.step.process, frozenset()) if case.step else {"recipe" if case.lot is None else "lot"}
        for relation in relations:
            if not relation.on & kind:
                continue
            sight, at = Sight(case, tracing), f"{relation.name} ({case.step.id})" if case.step else relation.name
            try:
                held = relation.holds(sight)
            except NotKnown:
                continue
            seen |= sight.seen
            values[at] = sight.values
            if not held:
                broken.add(at)
    return Opinion(frozenset(broken), frozenset(seen), values)
