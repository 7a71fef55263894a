"""The text report: each finding with its line, worst first, then the verdict.

In a pipe the layout is fixed at 100 columns, so that two runs can be compared line by line; a terminal has its own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from textwrap import wrap
from typing import TYPE_CHECKING

from recipes_core.document import LINE_BREAK
from recipes_core.findings import Finding, Kind, Level
from recipes_core.report.counts import counts
from recipes_core.report.page import BAD, BOLD, OPEN, Page
from recipes_core.report.visible import printable, shortened
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from recipes_core.app import Linted

CLOSING = (
    "This check is no approval. Follow local codes; leave wiring, pressure and structural work to licensed people."
)

PIPE = Page()

_COUNTED = {"procedure": "step", "feedstock": "lot"}
_LABELS = {Kind.OPEN: "open question", Kind.NOT_APPLICABLE: "does not apply"}


_MARKS = {Verdict.DO_NOT_TRY: BAD, Verdict.UNUSABLE: BAD, Verdict.NOT_YET: OPEN, Verdict.WITH_CARE: BOLD}


def render(linted: Iterable[Linted], page: Page = PIPE) -> str:
    """The report on one or more recipes, ending with the closing line."""
    items = list(linted)
    tally = [page.folded(_tally(items))] if len(items) > 1 else []
    return "\n\n".join([*(_one(item, page) for item in items), *tally, page.folded(CLOSING)]) + "\n"


def _tally(items: list[Linted]) -> str:
    verdicts = Counter(item.verdict.words for item in items)
    return f"{len(items)} recipes: " + ", ".join(f"{count} {words}" for words, count in sorted(verdicts.items()))


def _one(item: Linted, page: Page) -> str:
    blocks = [page.marked(printable(item.file), BOLD), *("\n".join(told(f, item, page)) for f in in_order(item))]
    words = item.verdict.words
    rest = page.folded(summary(item)).removeprefix(words)  # the width counts what is seen, so the mark comes last
    return "\n\n".join([*blocks, page.marked(words, _MARKS.get(item.verdict, "")) + rest])


def in_order(item: Linted) -> list[Finding]:
    """The findings as they are told: the worst first, those of one weight as they stand in the text."""
    return sorted(item.findings, key=_weight)


def elsewhere(f: Finding, item: Linted) -> bool:
    """Whether the finding is about another file than the recipe: a data sheet, library.yaml."""
    return bool(f.file) and f.file != item.file


def summary(item: Linted) -> str:
    """The verdict in one line, with what was counted."""
    told = [count.words(number) for count, number in counts(item.findings).items()]
    if item.passed is not None:
        told += [f"{item.passed} checks passed", f"{item.not_applicable} not applicable"]
    return " · ".join([item.verdict.words, *told])


def _weight(f: Finding) -> tuple[int, int]:
    order = {Kind.FAIL: {Level.ERROR: 0, Level.WARNING: 3, Level.NOTE: 5}, Kind.REVIEW: {}, Kind.OPEN: {}}
    rank = order.get(f.kind, {}).get(f.level, 1 if f.kind is Kind.REVIEW else 2 if f.absolute else 4)
    return rank, f.span.line if f.span else 0


def told(f: Finding, item: Linted, page: Page = PIPE) -> Iterator[str]:
    """One finding in lines: its place and weight, what was found, why it matters, what to do."""
    f = replace(f, span=None) if elsewhere(f, item) else f
    number = str(f.span.line) if f.span else ""
    name, mark = _name(f)
    room = page.width - len(name) - 6
    quote = shortened(printable(_quote(f, _lines(item.text))), room)
    yield f"{number:>3}  {quote:<{room}} {page.marked(name, mark)}".rstrip()
    yield from _wrapped(f.message, page, "     ")
    labels = [("why", f.why), ("do", f.do)]
    if f.kind is not Kind.OPEN:
        yield from _compared(f, page)
        labels += [("from", ", ".join(f.origins)), ("basis", f.basis)]
    for label, text in labels:
        yield from _labelled(label, text, page)


@lru_cache(maxsize=2)  # every finding quotes one of them
def _lines(text: str) -> list[str]:
    return LINE_BREAK.split(text)  # as spans count


def _name(f: Finding) -> tuple[str, str]:
    """What stands at the right of a finding, and its mark."""
    if f.kind is Kind.OPEN and f.absolute:
        return "open question · must be answered", OPEN
    weights = {Level.ERROR: BAD, Level.WARNING: BOLD, Level.NOTE: ""}
    mark = weights[f.level] if f.kind is Kind.FAIL else OPEN if f.kind is Kind.REVIEW else ""
    return _LABELS.get(f.kind, f"{f.level} · {f.rule}"), mark


def found_of(f: Finding) -> str:
    """What was found, and by how much it is off."""
    return ", ".join(part for part in (f.found, f.margin) if part)


def limit_label(limit: str) -> str:
    """Whether a limit is something needed, or something not to go beyond."""
    return "needed" if "at most" not in limit and ("least" in limit or "plausible" in limit) else "limit"


def _compared(f: Finding, page: Page) -> Iterator[str]:
    """What was found and what it was held against, on one line where both fit."""
    found = found_of(f)
    needed = limit_label(f.limit)
    one_line = f"found   {found}     {needed:<7} {f.limit}"
    if found and f.limit and len(one_line) + 5 <= page.width:
        yield from _wrapped(one_line, page, "     ")
    else:
        yield from _labelled("found", found, page)
        yield from _labelled(needed, f.limit, page)


def _quote(f: Finding, lines: list[str]) -> str:
    """What the finding points at: the key with its text, or the whole line; for a question where its answer goes."""
    if f.kind is Kind.OPEN and f.path:
        words = [
            f"{_COUNTED.get(str(f.path[at - 1]), 'item')} {p + 1}" if isinstance(p, int) else p
            for at, p in enumerate(f.path)
        ]
        return ".".join(words).replace("procedure.", "").replace("formula.feedstock.", "")
    if f.span is None or f.span.line > len(lines):
        return ""
    line = lines[f.span.line - 1]
    literal = line[f.span.column - 1 : f.span.end_column - 1]
    before, after = line[: f.span.column - 1].rstrip(), line[f.span.end_column - 1 :].strip()
    part = bool(f.path) and (not before.endswith(f"{f.path[-1]}:") or after[:1] not in ("", ",", "}", "]", "#"))
    whole = f.span.end_line > f.span.line or literal.startswith(("{", "[")) or not f.path or part
    return line.strip() if whole or isinstance(f.path[-1], int) else f"{f.path[-1]}: {literal}"


def _labelled(label: str, text: str, page: Page) -> list[str]:
    return _wrapped(f"{label:<7} {text}", page, "     ", "             ") if text else []


def _wrapped(text: str, page: Page, first: str, rest: str = "") -> list[str]:
    return wrap(
        printable(text),
        page.width,
        initial_indent=first,
        subsequent_indent=rest or first,
        break_on_hyphens=False,
        drop_whitespace=True,
    )
