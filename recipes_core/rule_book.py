"""All rules in one text: those of every recipe first, then process by process. `recipes/RULES.md` is this text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from recipes_core.explain import rule_lines
from recipes_core.report.text import CLOSING
from recipes_core.rules.rule import Scope

if TYPE_CHECKING:
    from recipes_core.plugin_api import Process
    from recipes_core.rules.rule import Rule
    from recipes_core.shelf import Shelf

_SHARED = {
    Scope.RECIPE: "Every recipe",
    Scope.LOT: "Every lot of scrap",
}


def rule_book(having: Shelf) -> str:
    """Every rule in full, once: under the recipe, the lot, the steps it is shared by, or its one process."""
    rules = sorted(having.rules, key=lambda rule: rule.id)
    processes = list(having.plugins.processes.values())
    lines = ["# The rules", "", *_introduction(rules), ""]
    for scope, title in _SHARED.items():
        lines += [f"## {title}", "", *_told(rule for rule in rules if rule.scope is scope)]
    meant = {rule.id: _meant(rule, processes) for rule in rules if rule.scope is Scope.STEP}
    shared = [rule for rule in rules if len(meant.get(rule.id, ())) > 1]
    lines += ["## Steps of several kinds", "", *_told(shared, meant)]
    for process in processes:
        lines += [f"## {process.id}: {process.name}", "", *_of(process, rules, meant)]
    return "\n".join(lines).rstrip("\n") + "\n"


def _introduction(rules: list[Rule]) -> Iterator[str]:
    absolute = sum(rule.absolute for rule in rules)
    yield f"{len(rules)} rules, {absolute} of them absolute: nothing silences those; what they need must be known."
    yield CLOSING


def _meant(rule: Rule, processes: Iterable[Process]) -> tuple[str, ...]:
    return tuple(p.id for p in processes if {p.id, "any step", *p.marks} & set(rule.on))


def _of(process: Process, rules: Iterable[Rule], meant: dict[str, tuple[str, ...]]) -> Iterator[str]:
    also = [name for name, ids in meant.items() if process.id in ids and len(ids) > 1]
    yield from _told(rule for rule in rules if meant.get(rule.id) == (process.id,))
    if also:
        yield f"Told above, and meant for this process too: {', '.join(also)}."
        yield ""


def _told(rules: Iterable[Rule], meant: dict[str, tuple[str, ...]] | None = None) -> Iterator[str]:
    for rule in rules:
        first, *rest = rule_lines(rule)
        yield f"### {first}"
        yield ""
        yield "```text"
        yield from rest
        if meant:
            yield f"  steps      {', '.join(meant[rule.id])}"
        yield "```"
        yield ""
