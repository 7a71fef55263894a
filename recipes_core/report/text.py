"""The text report: each finding with its line, worst first, then the verdict.

The layout is fixed at 100 columns, so that two runs can be compared line by line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from textwrap import wrap
from typing import TYPE_CHECKING

from recipes_core.document import LINE_BREAK
from recipes_core.findings import Finding, Kind, Level

if TYPE_CHECKING:
    from recipes_core.app import Linted

WIDTH = 100
CLOSING = (
    "This check is no approval. Follow local codes; leave wiring, pressure and structural work to licensed people."
)


_COUNTED = {"procedure": "step", "feedstock": "lot"}
_LABELS = {Kind.OPEN: "open question", Kind.NOT_APPLICABLE: "does not apply"}


def render(linted: Iterable[Linted]) -> str:
    """The report on one or more recipes, ending with the closing line."""
    items = list(linted)
    tally = [_tally(items)] if len(items) > 1 else []
    return "\n\n".join([*(_one(item) for item in items), *tally, CLOSING]) + "\n"


def _tally(items: list[Linted]) -> str:
    verdicts = Counter(item.verdict.words for item in items)
    return f"{len(items)} recipes: " + ", ".join(f"{count} {words}" for words, count in sorted(verdicts.items()))


def printable(text: str) -> str:
    """The text with every control or direction-changing character shown as an escape."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def _one(item: Linted) -> str:
    blocks = [printable(item.file)]
    lines = LINE_BREAK.split(item.text)  # as spans count
    for f in sorted(item.findings, key=_weight):
        elsewhere = bool(f.file) and f.file != item.file  # its line is in another file: a data sheet, library.yaml
        blocks.append("\n".join(_finding(replace(f, span=None) if elsewhere else f, lines)))
    blocks.append(summary(item))
    return "\n\n".join(blocks)


def summary(item: Linted) -> str:
    """The verdict in one line, with what was counted."""
    counted = [
        _count(sum(f.kind is Kind.FAIL and f.level is Level.ERROR for f in item.findings), "error"),
        _count(sum(f.kind is Kind.REVIEW for f in item.findings), "check did not run", "checks did not run"),
        _count(sum(f.kind is Kind.FAIL and f.level is Level.WARNING for f in item.findings), "warning"),
        _count(sum(f.kind is Kind.OPEN for f in item.findings), "open question"),
        _count(sum(f.kind is Kind.FAIL and f.level is Level.NOTE for f in item.findings), "note"),
        _count(
            sum(f.kind is Kind.NOT_APPLICABLE for f in item.findings),
            "step that does not apply",
            "steps that do not apply",
        ),
    ]
    told = [c for c in counted if c]
    if item.passed is not None:
        told += [f"{item.passed} checks passed", f"{item.not_applicable} not applicable"]
    return " · ".join([item.verdict.words, *told])


def _count(number: int, one: str, many: str = "") -> str:
    return "" if not number else f"{number} {one if number == 1 else many or one + 's'}"


def _weight(f: Finding) -> tuple[int, int]:
    order = {Kind.FAIL: {Level.ERROR: 0, Level.WARNING: 3, Level.NOTE: 5}, Kind.REVIEW: {}, Kind.OPEN: {}}
    rank = order.get(f.kind, {}).get(f.level, 1 if f.kind is Kind.REVIEW else 2 if f.absolute else 4)
    return rank, f.span.line if f.span else 0


def _finding(f: Finding, lines: list[str]) -> Iterator[str]:
    quote = _quote(f, lines)
    number = str(f.span.line) if f.span else ""
    name = _LABELS.get(f.kind, f"{f.level} · {f.rule}")
    if f.kind is Kind.OPEN and f.absolute:
        name = "open question · must be answered"
    room = WIDTH - len(name) - 6
    quote = printable(quote)
    quote = quote if len(quote) <= room else quote[: room - 1] + "…"
    yield f"{number:>3}  {quote:<{room}} {name}".rstrip()
    if f.kind is Kind.OPEN:
        yield from _wrapped(f.message, "     ")
        for label, text in (("why", f.why), ("do", f.do)):
            yield from _wrapped(f"{label:<7} {text}", "     ", "             ")
        return
    yield from _wrapped(f.message, "     ")
    found = ", ".join(part for part in (f.found, f.margin) if part)
    needed = "limit" if "at most" in f.limit else "needed" if "least" in f.limit or "plausible" in f.limit else "limit"
    one_line = f"found   {found}     {needed:<7} {f.limit}"
    if found and f.limit and len(one_line) + 5 <= WIDTH:
        yield from _wrapped(one_line, "     ")
    else:
        for label, text in (("found", found), (needed, f.limit)):
            if text:
                yield from _wrapped(f"{label:<7} {text}", "     ", "             ")
    for label, text in (("why", f.why), ("do", f.do), ("from", ", ".join(f.origins)), ("basis", f.basis)):
        if text:
            yield from _wrapped(f"{label:<7} {text}", "     ", "             ")


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


def _wrapped(text: str, first: str, rest: str = "") -> list[str]:
    return wrap(
        printable(text),
        WIDTH,
        initial_indent=first,
        subsequent_indent=rest or first,
        break_on_hyphens=False,
        drop_whitespace=True,
    )
