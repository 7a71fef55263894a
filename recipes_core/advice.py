"""Advice is tried before it is given: its edits are made, and the recipe is judged again.

A way out that does not remove its finding is dropped. One that adds an error takes that error's own way out with
it (melt it for longer: then it is hotter, and must cool for longer), or is dropped too.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from recipes_core.document import Document
from recipes_core.edits import edited
from recipes_core.findings import Finding, Kind, Level, Path, Way

Judge = Callable[[Document], tuple[Finding, ...]]

MOST_TURNS = 3


def tried(
    findings: tuple[Finding, ...], document: Document, judge: Judge, general: Mapping[str, str]
) -> tuple[Finding, ...]:
    """The findings with only those ways out that hold.

    ``judge`` gives the findings of an edited copy; ``general`` is each rule's cure without a number, for a
    finding that is left with nothing else to do.
    """
    errors = _errors(findings)
    settled = []
    for finding in findings:
        if not any(way.words for way in finding.advice):
            settled.append(finding)
            continue
        ways = tuple(w for w in (_held(w, finding, document, judge, errors) for w in finding.advice) if w)
        words = ", or ".join(way.words for way in ways)
        do = "; ".join(part for part in (words, finding.do) if part) or general[finding.rule]
        settled.append(replace(finding, advice=ways, do=do))
    return tuple(settled)


def _held(way: Way, finding: Finding, document: Document, judge: Judge, errors: set[tuple[str, Path]]) -> Way | None:
    for _ in range(MOST_TURNS):
        copy = edited(document, way.changes)
        if copy is None:
            return None
        after = judge(copy)
        if any((f.rule, f.path) == (finding.rule, finding.path) and f.kind is Kind.FAIL for f in after):
            return None
        added = [f for f in after if (f.rule, f.path) in _errors(after) - errors]
        if not added:
            return way
        cures = [f.advice[0] for f in added if f.advice]
        if len(cures) < len(added):
            return None
        for cure in cures:
            other = tuple(c for c in way.changes if c.path not in {n.path for n in cure.changes})
            way = Way(f"{way.words} and then {cure.words}", (*other, *cure.changes))
    return None


def _errors(findings: tuple[Finding, ...]) -> set[tuple[str, Path]]:
    return {(f.rule, f.path) for f in findings if f.kind is Kind.FAIL and f.level is Level.ERROR}
