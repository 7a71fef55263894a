"""Judging and forecasting files: what the command line calls, and programs may."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from recipes_core.advice import tried
from recipes_core.apart import not_for, switched_off
from recipes_core.case import Case
from recipes_core.document import Document, DocumentError, read_file
from recipes_core.errors import DataError, UsageError
from recipes_core.findings import Finding, Kind, Level
from recipes_core.forecast import Walk, walk
from recipes_core.hazards import process_page
from recipes_core.recipe import Recipe
from recipes_core.report.card.content import Card
from recipes_core.report.card.gather import gather
from recipes_core.rules.engine import judge
from recipes_core.rules.verdict import Verdict, verdict
from recipes_core.schema import check
from recipes_core.shelf import Shelf, beside, shelf

_OTHER_KINDS = frozenset({"library", "resin", "liner", "material", "process"})
_NO_RECIPE = frozenset({"format-missing", "format-not-read", "format-too-new", "format-of-another-kind"})
_SHOWN = 256 * 1024


@dataclass(frozen=True)
class Linted:
    """What came of judging one file. ``passed`` and ``not_applicable`` count checks; None: it was not read."""

    file: str
    text: str
    findings: tuple[Finding, ...]
    verdict: Verdict
    passed: int | None = None
    not_applicable: int = 0


Each = Callable[[Callable[[Path], Linted], Iterable[Path]], Iterable[Linted]]
"""A way of applying work to files, as ``map`` does."""


def lint(paths: Iterable[str | Path], today: date, having: Shelf | None = None, each: Each = map) -> Iterator[Linted]:
    """Judge every recipe among ``paths`` (files, and folders searched for recipes), in a stable order.

    ``each`` applies the judging to the files, one after the other or several at once.
    """
    files = list(recipe_files(paths))
    on = having or shelf()
    yield from each(lambda file: lint_file(file, today, on), files)


def lint_file(path: Path, today: date, having: Shelf) -> Linted:
    """Judge one file, with the sheets of the library it lies in."""
    try:
        document = read_file(path)
    except DocumentError as error:
        refused = tuple(
            Finding(p.rule, Level.ERROR, Kind.FAIL, p.sentence, file=str(path), span=p.span) for p in error.problems
        )
        text = path.read_bytes()[:_SHOWN].decode("utf-8-sig", "replace")  # spans do not count the mark
        return Linted(str(path), text, refused, Verdict.UNUSABLE)
    return lint_document(document, today, beside(having, path, today))


def lint_document(document: Document, today: date, having: Shelf) -> Linted:
    """Judge one document: schema, forecast, rules; try what the findings advise; give the verdict."""
    return _linted(document, today, having)[0]


def _linted(document: Document, today: date, having: Shelf) -> tuple[Linted, Walk]:
    """What came of judging a document, and the forecast that it was judged by."""
    findings, counts, walked = _judged(document, today, having)
    if foreign := tuple(f for f in findings if f.rule in _NO_RECIPE):
        return Linted(document.name, document.text, foreign, Verdict.UNUSABLE), walked
    general = {rule.id: rule.do for rule in having.rules}
    findings = tried(findings, document, lambda copy: _judged(copy, today, having)[0], general)
    return Linted(document.name, document.text, findings, verdict(findings), *counts), walked


def _judged(document: Document, today: date, having: Shelf) -> tuple[tuple[Finding, ...], tuple[int, int], Walk]:
    """All findings, how many checks passed and did not apply, and the forecast; advice is not tried yet."""
    shape = check(document, having.schemas)
    recipe = Recipe(document, having.schemas)
    walked = walk(recipe, Case(recipe, having.library), having.kinds)
    whole = Case(recipe, having.library, facts=walked.whole)
    lots = [replace(whole, lot=lot) for lot in recipe.lots or (0,)]
    marks = {name: kind.marks for name, kind in having.kinds.items()}
    judged = judge(having.rules, [whole, *lots, *walked.cases], marks, today)
    meant = {(*c.path[:-1], c.text) for f in shape for way in f.advice for c in way.changes if c.key}
    asked = (f for f in judged.findings if not (f.kind is Kind.OPEN and f.path in meant))  # one cause, one finding
    apart = (*switched_off(recipe, having.off), *not_for(whole))
    findings = (*having.problems, *shape, *walked.problems, *apart, *asked)
    return findings, (len(judged.passed), len(judged.not_applicable)), walked


def forecast(path: str | Path, today: date, having: Shelf | None = None) -> tuple[Walk, Verdict]:
    """The forecast of one recipe, and what is to be said of it as a whole. DataError where it cannot be read."""
    document, having = _opened(path, today, having)
    findings, _, walked = _judged(document, today, having)
    return walked, verdict(findings)


def card(path: str | Path, today: date, having: Shelf | None = None) -> tuple[Card, Linted, Walk]:
    """The card of one recipe, the judgement and the forecast it rests on. DataError where it is no recipe."""
    document, having = _opened(path, today, having)
    linted, walked = _linted(document, today, having)
    if linted.verdict is Verdict.UNUSABLE:
        raise DataError(linted.findings[0].message, linted.findings[0].span, str(path))
    recipe = Recipe(document, having.schemas)
    known = {step.process for step in recipe.steps} & set(having.kinds)
    pages = {name: process_page(having.plugins.processes[name]) for name in known}
    return gather(linted, walked, Case(recipe, having.library), pages), linted, walked


def _opened(path: str | Path, today: date, having: Shelf | None) -> tuple[Document, Shelf]:
    """The document, and the shelf with the sheets of the library that it lies in. DataError as reading raises it."""
    file = Path(path)
    return read_file(file), beside(having or shelf(), file, today)


def cautions(having: Shelf) -> dict[str, tuple[str, ...]]:
    """For each process what is to be heeded before a step of it, the gravest first."""
    pages = {name: process.hazards() for name, process in having.plugins.processes.items() if name in having.kinds}
    return {name: tuple(h.caution for h in hazards if h.caution) for name, hazards in pages.items()}


def recipe_files(paths: Iterable[str | Path]) -> Iterator[Path]:
    """The files named, and in folders every YAML file that is a recipe, or cannot be read as anything."""
    for given in map(Path, paths):
        if not given.exists():
            raise UsageError(f"there is no file or folder {given}")
        if not given.is_dir():
            yield given
            continue
        found = [p for p in sorted(given.rglob("*.yaml")) if not _hidden(p.relative_to(given))]
        recipes = [p for p in found if _may_be_recipe(p)]
        if not recipes:
            raise UsageError(f"there is no recipe in {given}; a recipe is a .yaml file with the line format: recipe/1")
        yield from recipes


def _hidden(path: Path) -> bool:
    return any(part.startswith(".") for part in path.parts)


def _may_be_recipe(path: Path) -> bool:
    try:
        form = read_file(path).data.get("format", "")
    except DocumentError:
        return True
    return not isinstance(form, str) or form.partition("/")[0] not in _OTHER_KINDS
