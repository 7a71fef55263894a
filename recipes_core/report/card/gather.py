"""What goes on the card of one recipe: the words of its processes, its own numbers, and what the forecast adds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from recipes_core.bench import PAUSES
from recipes_core.emergency import emergencies
from recipes_core.findings import Finding, Kind, Level
from recipes_core.report.card.content import Block, Card, Line, Number
from recipes_core.report.card.ready import Told, bring, readings, stop
from recipes_core.report.card.values import aside, sizes, times, unmeasured, valued
from recipes_core.report.text import CLOSING, summary
from recipes_core.report.visible import shortened
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.bench import Cell
    from recipes_core.case import Case
    from recipes_core.forecast import Walk
    from recipes_core.hazards import ProcessPage
    from recipes_core.recipe import Recipe, Step

_SIDES = ("length", "width", "thickness", "depth", "diameter")
LONGEST_NOTES = 900
"""Characters of the recipe's own notes that the card has room for; the file has the rest."""
MOST_CARES = 3
"""Warnings and open questions that are named on the card; the others are counted."""
RECORD = {
    "charge": "weigh", "part": "", "flash": "presses", "left over": "weigh", "oven at the tray": "heats plastic",
    "thickness 1": "", "2": "", "3": "", "4": "", "core at opening": "presses",
}  # fmt: skip
"""Numbers that are worth writing down after a run, and the mark of the process that gives rise to each."""
_BANNERS = {
    Verdict.DO_NOT_TRY: "DO NOT TRY THIS RECIPE",
    Verdict.NOT_YET: "DO NOT TRY YET: QUESTIONS ARE OPEN",
}


def gather(linted: Linted, walked: Walk, start: Case, pages: Mapping[str, ProcessPage]) -> Card:
    """The card. Nobody can set a machine by it while the recipe must not be tried: it holds no number to set then."""
    recipe = start.recipe
    known = [Told(c, c.step, pages[c.step.process]) for c in walked.cases if c.step and c.step.process in pages]
    blank = linted.verdict in _BANNERS
    notes = recipe.raw(("notes",))
    weighed = recipe.raw(("formula", "charge")) is not None and not blank
    return Card(
        title=_word(recipe, "title") or linted.file,
        revision=_word(recipe, "revision"),
        id=_word(recipe, "id"),
        file=Path(linted.file).name,
        digest=sha256(linted.text.encode("utf-8", "surrogatepass")).hexdigest(),
        size=sizes(recipe.get(("part", side)) for side in _SIDES if recipe.raw(("part", side)) is not None),
        mark=str(walked.whole["mark"].numbers[0]) if "mark" in walked.whole else "",
        lots=tuple(_lots(recipe)),
        charge=Number("CHARGE", *valued(start, "formula.charge")) if weighed else None,
        banner=_BANNERS.get(linted.verdict, ""),
        why=_why(linted) if blank else (),
        care=() if blank else _care(linted),
        stop=stop(known),
        emergency=emergencies(mark for told in known for mark in told.case.marks),
        bring=bring(recipe, known),
        readings=() if blank else readings(known),
        blocks=tuple(_blocks(known, linted.verdict)),
        notes=shortened(" ".join(notes.split()), LONGEST_NOTES) if isinstance(notes, str) else "",
        record=() if blank else tuple(_record(known)),
        evidence="no runs recorded",
        checked=summary(linted),
        closing=CLOSING,
    )


def _word(recipe: Recipe, key: str) -> str:
    value = recipe.raw(("header", key))
    return value if isinstance(value, str) else ""


def _lots(recipe: Recipe) -> Iterator[str]:
    """The names of the lots that go in, as they stand on the bags."""
    for lot in recipe.lots:
        name = recipe.raw(("formula", "feedstock", lot, "lot"))
        if isinstance(name, str) and name != "unknown":
            yield name


def _why(linted: Linted) -> tuple[str, ...]:
    """The errors, or the questions that must be answered first."""
    errors = [_placed(f) for f in linted.findings if f.kind is Kind.FAIL and f.level is Level.ERROR]
    asked = [_placed(f) for f in linted.findings if f.kind in (Kind.OPEN, Kind.REVIEW) and f.absolute]
    return tuple(dict.fromkeys(errors or asked))


def _placed(finding: Finding) -> str:
    """What was found, and at which step."""
    match finding.path:
        case ("procedure", int(index), *_):
            return f"Step {index + 1}: {finding.message}"
    return finding.message


def _care(linted: Linted) -> tuple[str, ...]:
    """What to mind: the warnings, and the questions that nobody has answered."""
    minded = [_placed(f) for f in linted.findings if f.kind is Kind.OPEN or f.level is Level.WARNING]
    told = list(dict.fromkeys(minded))
    more = len(told) - MOST_CARES
    return (*told[:MOST_CARES], *([f"and {more} more: see meltbook lint"] if more > 0 else []))


def _blocks(known: Iterable[Told], verdict: Verdict) -> Iterator[Block]:
    pause, ready = "", ""
    lines: list[Line] = []
    for told in known:
        bench = told.page.bench
        if bench.pause and bench.pause != pause:
            if lines:
                yield Block(PAUSES.get(pause, ""), ready, tuple(lines))
            pause, ready, lines = bench.pause, bench.ready, []
        lines.append(_line(told, verdict))
    if lines:
        yield Block(PAUSES.get(pause, ""), ready, tuple(lines))


def _line(told: Told, verdict: Verdict) -> Line:
    case, step, page = told
    first, *others = [h.caution for h in page.hazards if h.caution] or [""]
    signal, _, caution = first.partition(": ")
    dangers = (other for other in others if other.startswith("DANGER"))  # none of them is left out
    until = case.recipe.raw((*step.path, "until"))
    said = until if isinstance(until, str) and until != "unknown" else page.bench.until
    line = Line(step.index + 1, step.id, signal, caution, (*dangers, *_own(case.recipe, step)), page.bench.action, said)
    if verdict is Verdict.DO_NOT_TRY:
        return line
    blank = verdict is Verdict.NOT_YET
    shown = (_number(case, cell, blank) for cell in page.bench.cells)
    line = replace(line, numbers=tuple(number for number in shown if number))
    if blank:  # a clock or a hint beside a blank number would invite a pencil
        return line
    clock = page.bench.clock
    return replace(
        line,
        limits=tuple(_limits(told)),
        asides=tuple(_asides(told)),
        times=times(case, clock, page.bench.ticks) if clock else None,
    )


def _limits(told: Told) -> Iterator[str]:
    """What must not be missed: a dial that nobody measured, and the times that its process names."""
    if told.page.bench.sets_dial and (doubt := unmeasured(told.case)):
        yield doubt
    yield from filter(None, (aside(told.case, cell) for cell in told.page.bench.asides if cell.says))


def _asides(told: Told) -> Iterator[str]:
    """The step that it shares its time with, then the words and numbers that its process names."""
    case, step, page = told
    beside = case.recipe.raw((*step.path, "alongside"))
    for other in case.recipe.steps:
        if other.id == beside:
            yield f"beside step {other.index + 1}, to be ready when that is"
    yield from filter(None, (aside(case, cell) for cell in page.bench.asides if not cell.says))


def _record(known: Iterable[Told]) -> Iterator[str]:
    marks = frozenset[str]().union({""}, *(told.case.marks for told in known))
    yield from (label for label, mark in RECORD.items() if mark in marks)


def _own(recipe: Recipe, step: Step) -> Iterator[str]:
    """Hazards that the recipe adds to those of the process, with the first thing that keeps each away."""
    stated = recipe.raw((*step.path, "hazards"))
    for hazard in stated if isinstance(stated, list) else ():
        signal, what, controls = (hazard.get(key) for key in ("signal", "hazard", "controls"))
        first = controls[0].get("do") if isinstance(controls, list) and controls else None
        yield f"{signal or 'CAUTION'}: {what}{f'. {first}' if first else ''}"


def _number(case: Case, cell: Cell, blank: bool) -> Number | None:
    """One cell; blank where nobody may set a machine by it yet; None where the recipe does not say it."""
    if blank and cell.sets:
        return Number(cell.label, "")
    first, second = valued(case, cell.value)
    return Number(cell.label, first, second, cell.says) if first else None
