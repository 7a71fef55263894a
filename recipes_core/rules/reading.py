"""What a rule's test sees: the values that the rule said it reads, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from recipes_core.case import number, upper
from recipes_core.facts import Fact, Given, Open

if TYPE_CHECKING:
    from recipes_core.case import Case, Value
    from recipes_core.findings import Path
    from recipes_core.rules.rule import Rule


@dataclass
class Reading:
    """Access by declared name; asking for any other name is a mistake in the rule, and says so."""

    case: Case
    rule: Rule
    today: date
    seen: dict[str, Value] = field(default_factory=dict)

    def raw(self, name: str) -> Value:
        """The value, fact, open question or None behind a declared name."""
        if name not in self.rule.reads and name not in self.rule.may_read:
            raise LookupError(f"rule {self.rule.id} does not say that it reads {name!r}")
        if name not in self.seen:
            self.seen[name] = self.case.get(name)
        return self.seen[name]

    def known(self, name: str) -> bool:
        """Whether an optional value is there and not open."""
        value = self.raw(name)
        if isinstance(value, Fact):
            return not isinstance(value.value, Open)
        return isinstance(value, Given)

    def si(self, name: str) -> float:
        """The number (the lower end of a range) in SI."""
        return number(self.raw(name))

    def upper(self, name: str) -> float:
        """The number (the upper end of a range) in SI."""
        return upper(self.raw(name))

    def word(self, name: str) -> str:
        """The text or choice, or an empty text where nothing was said."""
        value = self.raw(name)
        return str(value.value) if isinstance(value, Given) and not isinstance(value.value, tuple) else ""

    def words(self, name: str) -> tuple[str, ...]:
        """The items of a list; empty where nothing was said."""
        value = self.raw(name)
        if not isinstance(value, Given):
            return ()
        return value.value if isinstance(value.value, tuple) else (str(value.value),)

    def text(self, name: str) -> str:
        """The author's own words."""
        value = self.raw(name)
        return value.text if isinstance(value, Given) else ""

    def fact(self, name: str) -> Fact:
        """A computed fact, by its name without ``fact:``."""
        value = self.raw(f"fact:{name}")
        if not isinstance(value, Fact):
            raise LookupError(f"fact {name} was not computed")
        return value

    def does(self, mark: str) -> bool:
        """Whether the step's process has this mark, for a rule that is meant for several."""
        return mark in self.case.marks

    def path(self, name: str) -> Path:
        """The path of a declared field, for an edit that a finding advises."""
        return self.case.path(name)[0]
