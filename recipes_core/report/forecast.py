"""The forecast as text and as JSON: the work step by step, what each number rests on, and what is not known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from recipes_core.facts import Fact, Open, Source
from recipes_core.quantities import Dimension, show
from recipes_core.report.page import WIDTH
from recipes_core.report.text import CLOSING
from recipes_core.report.visible import json_text, printable
from recipes_core.rules import trail

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.forecast import Walk
    from recipes_core.rules.verdict import Verdict
    from recipes_core.work import Table

FORMAT = "forecast/1"
_DIMENSIONS = frozenset(Dimension)


def untried(verdict: Verdict) -> str:
    """What is said before the numbers of a recipe that must not be tried; empty for any other."""
    if not verdict.exit_status:
        return ""
    return f"{verdict.words.upper()}: meltbook lint says why. What follows is what it would do, not how to work."


def render(walked: Walk, verdict: Verdict, cautions: Mapping[str, tuple[str, ...]]) -> str:
    """The forecast as text, 100 columns wide; ``cautions`` of each process stand before its steps."""
    document = walked.cases[0].recipe.document.name if walked.cases else ""
    lines = [f"{printable(document)}: what this recipe does to the plastic", ""]
    lines += [warning, ""] if (warning := untried(verdict)) else []
    lines += ["Each line: the nominal value, then what nine of ten plausible shops would see.", ""]
    for number, case in enumerate(walked.cases, start=1):
        lines += [*_step(number, case, walked.whole, cautions), ""]
    for problem in walked.problems:
        lines += [*wrap(printable(problem.message), WIDTH), ""]
    lines += [*_mark(walked), "What it rests on", *_assumptions(walked), "", CLOSING]
    return "\n".join(lines) + "\n"


def render_json(walked: Walk, verdict: Verdict) -> str:
    """The forecast as JSON: nominal, 5 % and 95 % values in SI for each fact of each step."""
    steps = [
        {
            "id": case.step.id if case.step else "",
            "process": case.step.process if case.step else "",
            "facts": {f.name: _data(f) for f in _told(case, walked.whole)},
            "tables": [_table_data(make()) for make in case.tables],
        }
        for case in walked.cases
    ]
    problems = [p.message for p in walked.problems]
    data = {
        "format": FORMAT,
        "verdict": verdict.words,
        "steps": steps,
        "problems": problems,
        "assumptions": _leaves(walked),
    }
    return json_text(data)


def _mark(walked: Walk) -> Iterator[str]:
    """The mark that the part may bear, or why it bears none."""
    if "mark" not in walked.whole:
        return
    mark, unknown = walked.whole["mark"].numbers
    why = f"none, since nobody knows: {printable('; '.join(unknown))}"
    yield from wrap(f"Mark on the part (ISO 11469): {mark or why}", WIDTH)
    yield ""


def _told(case: Case, whole: Mapping[str, Fact]) -> Iterator[Fact]:
    for name, fact in case.facts.items():
        if name not in whole and fact.dimension != "record":
            yield fact


def _step(number: int, case: Case, whole: Mapping[str, Fact], cautions: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    step = case.step
    if step:
        yield f"{number}  {printable(step.id)} ({printable(step.process)})"
        yield from (f"   ! {caution}" for caution in cautions.get(step.process, ()))
    questions: dict[str, None] = {}
    lacking: dict[str, dict[str, None]] = {}
    for fact in _told(case, whole):
        if isinstance(fact.value, Open):
            for path, text in fact.value.needs:
                if len(path) == 3 and text == f"the data sheet of {path[1]} gives no {path[2]}":
                    lacking.setdefault(str(path[1]), {})[str(path[2])] = None
                elif text:
                    questions[text] = None
        else:
            line = f"   {fact.name:<26}{_value(fact.nominal, fact.dimension):<28}{_band(fact)}"
            yield from wrap(line, WIDTH, subsequent_indent=" " * 57)
    sheets = [
        f"the data sheet of {sheet} gives no {', '.join(sorted(names))}" for sheet, names in sorted(lacking.items())
    ]
    for question in (*sheets, *sorted(questions)):
        yield from wrap(f"not computed until this is answered: {printable(question)}", WIDTH, initial_indent="   ",
                        subsequent_indent="   ")  # fmt: skip
    for make in case.tables:
        yield from _table(make())


def _band(fact: Fact) -> str:
    if len(fact.numbers) < 2:
        return ""
    low, high = fact.band()
    ends = _value(low, fact.dimension), _value(high, fact.dimension)
    return "" if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def _value(value: float, dimension: str) -> str:
    if value == float("inf"):
        return "never"
    if dimension == "energy":
        return f"{value:.0f} J"
    return show(value, Dimension(dimension)) if dimension in _DIMENSIONS else f"{value:g}"


def _table(table: Table) -> Iterator[str]:
    rows = [[_value(v, dimension) for v, (_, dimension) in zip(row, table.columns, strict=True)] for row in table.rows]
    heads = [head for head, _ in table.columns]
    widths = [max(len(head), *(len(row[i]) for row in rows)) + 2 for i, head in enumerate(heads)]
    yield f"   {table.title}"
    for cells in (heads, *rows):
        yield ("   " + "".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True))).rstrip()
    yield from wrap(table.note, WIDTH, initial_indent="   ", subsequent_indent="   ")


def _leaves(walked: Walk) -> dict[str, list[str]]:
    """What the numbers rest on, by who gave it; each value once."""
    lines: dict[str, dict[str, None]] = {"the recipe": {}, "the data sheets": {}, "taken by default": {}}
    steps = {case.step.path: f"{case.step.id}: " for case in walked.cases if case.step}
    for case in walked.cases:
        for name, given in trail.leaves(dict(case.facts)):
            origin = given.origin
            if not given.text:
                continue
            known = f" ({origin.known})" if origin.known else ""  # a word of a sheet rests on nothing
            if origin.source is Source.SHEET:
                lines["the data sheets"][f"{origin.where} {given.text}{known}"] = None
            elif origin.source is Source.DEFAULT:
                lines["taken by default"][f"{name.replace('_', ' ')} {given.text}{known}"] = None
            else:
                step = steps.get(origin.path[:2], "")
                lines["the recipe"][f"{step}{trail.label(name, given)} {given.text}"] = None
    return {who: sorted(told) for who, told in lines.items()}


def _assumptions(walked: Walk) -> Iterator[str]:
    for who, told in _leaves(walked).items():
        yield f"   {who}"
        for line in told:
            yield from wrap(printable(line), WIDTH, initial_indent="      ", subsequent_indent="         ")


def _data(fact: Fact) -> dict[str, Any]:
    if isinstance(fact.value, Open):
        return {"open": sorted(text for _, text in fact.value.needs if text)}
    low, high = fact.band()
    numbers = {"nominal": fact.nominal, "low": low, "high": high}
    finite = {k: (None if v == float("inf") else float(f"{v:.6g}")) for k, v in numbers.items()}
    return {"dimension": fact.dimension, **finite, "equation": fact.equation}


def _table_data(table: Table) -> dict[str, Any]:
    return {
        "title": table.title,
        "columns": [c[0] for c in table.columns],
        "rows": [list(r) for r in table.rows],
    }
