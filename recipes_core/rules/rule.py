"""What a rule is: a declared object whose prose serves the report, `meltbook explain` and the docs alike."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from recipes_core.findings import Level, Path, Way

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

_ID = re.compile(r"[a-z]+(-[a-z0-9]+)*")
_REMEDIES = ("avoid-", "use-", "prefer-", "do-not-", "no-more-", "consider-", "check-")


class Scope(StrEnum):
    """How often a rule runs: once a recipe, once a lot of feedstock, or once for each step it is meant for."""

    RECIPE = "recipe"
    LOT = "lot"
    STEP = "step"


@dataclass(frozen=True)
class Hit:
    """A comparison that came out against the recipe.

    ``at`` is the name that the rule reads (the finding points at its text) or a path. ``level`` overrules the
    rule's own, ``do`` its cure, ``message`` its sentence, where the number found decides. ``advice`` are ways
    out with numbers; they are tried before anybody is told, and come before ``do``.
    """

    at: str | Path
    found: str = ""
    limit: str = ""
    margin: str = ""
    level: Level | None = None
    message: str = ""
    do: str = ""
    advice: tuple[Way, ...] = ()


@dataclass(frozen=True)
class Rule:
    """One rule.

    ``reads`` names what must be known before ``test`` runs: a field of the step (``at_least``), a field of the
    recipe (``equipment.press.rating``, ``lot.colour``), a computed fact (``fact:through``), or a value of a
    sheet (``resin:oven-air cap``, ``liner:refusal line``). Whatever of it is open becomes one question.
    ``also`` names more of the same, where what is known decides whether it is needed.
    ``may_read`` names what the test may ask for besides; it may be unknown.
    ``on`` names the processes, or the marks of processes (``heats``), that a STEP rule is meant for.
    ``absolute``: nothing can silence or loosen it; a question it leaves open means "do not try yet".
    ``refuses_plastic``: once it fires, what the data sheet of that plastic lacks is nobody's question any more.
    """

    id: str
    level: Level
    scope: Scope
    message: str
    checks: str
    why: str
    do: str
    sources: tuple[str, ...]
    reads: tuple[str, ...]
    test: Callable[[Reading], Iterable[Hit]]
    on: tuple[str, ...] = ()
    also: Callable[[Reading], tuple[str, ...]] | None = None
    may_read: tuple[str, ...] = ()
    when: Callable[[Reading], bool] | None = None
    absolute: bool = False
    refuses_plastic: bool = False
    since: str = "0.1"

    def __post_init__(self) -> None:
        if not _ID.fullmatch(self.id):
            raise ValueError(f"rule id {self.id!r} is not a slug of lower-case words")
        if self.id.startswith(_REMEDIES):
            raise ValueError(f"rule id {self.id!r} names a remedy; it must name the problem")
        for part in ("message", "checks", "why", "do"):
            if not getattr(self, part).strip():
                raise ValueError(f"rule {self.id} has no text for {part!r}")
        if not self.sources:
            raise ValueError(f"rule {self.id} names no source")
        if (self.scope is Scope.STEP) != bool(self.on):
            raise ValueError(f"rule {self.id}: a step rule, and only a step rule, says which processes it is for")
