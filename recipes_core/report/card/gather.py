"""What goes on the card of one recipe: the words of its processes, its own numbers, and what the forecast adds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from recipes_core.bench import PAUSES
from recipes_core.case import number
from recipes_core.emergency import emergencies
from recipes_core.facts import Given
from recipes_core.findings import Kind, Level
from recipes_core.quantities import Dimension, show
from recipes_core.report.card.content import Block, Card, Line, Number
from recipes_core.report.card.values import split, times, valued
from recipes_core.report.text import CLOSING, summary
from recipes_core.rules.verdict import Verdict
from recipes_core.sheets.states import HEAT_CAP

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.bench import Cell
    from recipes_core.case import Case
    from recipes_core.forecast import Walk
    from recipes_core.hazards import ProcessPage
    from recipes_core.recipe import Recipe, Step

MOST_CARES = 3
"""Warnings and open questions that are named on the card; the others are counted."""
MOST_STOPS = 6
"""Lines of the stop box; what is hot and what presses goes first."""
RECORD = ("charge", "part", "flash", "left over", "thickness 1", "2", "3", "4", "oven at the tray", "core at opening")
"""Numbers that are worth writing down after a run."""
_SIZE = ("length", "width", "thickness", "depth", "diameter")
_BANNERS = {
    Verdict.DO_NOT_TRY: "DO NOT TRY THIS RECIPE",
    Verdict.NOT_YET: "DO NOT TRY YET: QUESTIONS ARE OPEN",
}


class Told(NamedTuple):
    """A step whose process is known: as it was forecast, and as its page speaks of it."""

    case: Case
    step: Step
    page: ProcessPage


def gather(linted: Linted, walked: Walk, start: Case, pages: Mapping[str, ProcessPage]) -> Card:
    """The card. Nobody can set a machine by it while the recipe must not be tried: such places stay blank."""
    recipe = start.recipe
    known = [Told(c, c.step, pages[c.step.process]) for c in walked.cases if c.step and c.step.process in pages]
    blank = linted.verdict in _BANNERS
    weighed = recipe.raw(("formula", "charge")) is not None
    charge = Number("CHARGE", *(("",) if blank else valued(start, "formula.charge"))) if weighed else None
    return Card(
        title=_word(recipe, "title") or linted.file,
        revision=_word(recipe, "revision"),
        id=_word(recipe, "id"),
        file=Path(linted.file).name,
        digest=sha256(linted.text.encode("utf-8", "surrogatepass")).hexdigest(),
        size=_size(recipe),
        mark=str(walked.whole["mark"].numbers[0]) if "mark" in walked.whole else "",
        lots=tuple(_lots(recipe)),
        charge=charge,
        banner=_BANNERS.get(linted.verdict, ""),
        why=_why(linted) if blank else (),
        care=() if blank else _care(linted),
        stop=tuple(_stop(known)),
        emergency=emergencies(mark for told in known for mark in told.case.marks),
        bring=tuple(dict.fromkeys(_bring(recipe, known))),
        blocks=tuple(_blocks(known, linted.verdict)),
        record=RECORD,
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


def _size(recipe: Recipe) -> str:
    """Length, width and so on as one line in each system."""
    sizes = [recipe.get(("part", key)) for key in _SIZE if recipe.raw(("part", key)) is not None]
    shown = [split(show(number(v), Dimension.LENGTH)) for v in sizes if isinstance(v, Given)]
    if not shown:
        return ""
    systems = [" × ".join([*(s[at].rpartition(" ")[0] for s in shown[:-1]), shown[-1][at]]) for at in (0, 1)]
    same = all({s[at].rpartition(" ")[2] for s in shown} == {shown[-1][at].rpartition(" ")[2]} for at in (0, 1))
    return f"{systems[0]} ({systems[1]})" if same else " × ".join(f"{a} ({b})" for a, b in shown)


def _why(linted: Linted) -> tuple[str, ...]:
    """The errors, or the questions that must be answered first."""
    errors = [f.message for f in linted.findings if f.kind is Kind.FAIL and f.level is Level.ERROR]
    asked = [f.message for f in linted.findings if f.kind in (Kind.OPEN, Kind.REVIEW) and f.absolute]
    return tuple(dict.fromkeys(errors or asked))


def _care(linted: Linted) -> tuple[str, ...]:
    """What to mind: the warnings, and the questions that nobody has answered."""
    minded = [f.message for f in linted.findings if f.kind is Kind.OPEN or f.level is Level.WARNING]
    told = list(dict.fromkeys(minded))
    more = len(told) - MOST_CARES
    return (*told[:MOST_CARES], *([f"and {more} more: see meltbook lint"] if more > 0 else []))


def _stop(known: Iterable[Told]) -> Iterator[str]:
    """When to break off: the oven's air first, then what the processes say."""
    gravest = sorted(known, key=lambda told: not told.case.marks & {"heats plastic", "presses"})
    heated = (told.case.get(f"resin:{HEAT_CAP}") for told in gravest if "heats plastic" in told.case.marks)
    caps = [number(cap) for cap in heated if isinstance(cap, Given)]
    lines = [f"Oven air above {show(min(caps), Dimension.TEMPERATURE)}: heat off"] if caps else []
    said = dict.fromkeys(line for told in gravest for line in told.page.bench.stop)
    yield from [*lines, *said][:MOST_STOPS]


def _bring(recipe: Recipe, known: Iterable[Told]) -> Iterator[str]:
    """What is laid out and looked at before the first step."""
    kind, checked = (recipe.get(("equipment", "thermometer", key)) for key in ("type", "checked"))
    if isinstance(checked, Given):
        yield f"{kind.text if isinstance(kind, Given) else 'thermometer'} checked {checked.text}"
    for _, step, page in known:
        yield from page.bench.bring
        hands, gear = (recipe.get((*step.path, key), step.process) for key in ("hands", "gear"))
        if isinstance(hands, Given) and hands.text.startswith("EN"):
            yield f"gloves {hands.text}"
        if isinstance(gear, Given):
            yield from gear.text.split(", ")


def _blocks(known: Iterable[Told], verdict: Verdict) -> Iterator[Block]:
    pause, ready = "", ""
    lines: list[Line] = []
    for at, told in enumerate(known, start=1):
        bench = told.page.bench
        if bench.pause and bench.pause != pause:
            if lines:
                yield Block(PAUSES.get(pause, ""), ready, tuple(lines))
            pause, ready, lines = bench.pause, bench.ready, []
        lines.append(_line(at, told, verdict))
    if lines:
        yield Block(PAUSES.get(pause, ""), ready, tuple(lines))


def _line(at: int, told: Told, verdict: Verdict) -> Line:
    case, step, page = told
    signal, _, caution = next((h.caution for h in page.hazards if h.caution), "").partition(": ")
    until = case.recipe.raw((*step.path, "until"))
    said = until if isinstance(until, str) and until != "unknown" else page.bench.until
    line = Line(at, step.id, signal, caution, tuple(_own(case.recipe, step)), page.bench.action, said, (), None)
    if verdict is Verdict.DO_NOT_TRY:
        return line
    clock = page.bench.clock
    shown = (_number(case, cell, verdict is Verdict.NOT_YET) for cell in page.bench.cells)
    return replace(
        line,
        numbers=tuple(number for number in shown if number),
        times=times(case, clock, page.bench.ticks) if clock else None,
    )


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
    first, second, remark = valued(case, cell.value, cell.says)
    return Number(cell.label, first, second, remark) if first else None
