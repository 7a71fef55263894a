"""The walk through the procedure: each process says what its step does to the work, one after the other."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from recipes_core.case import Case, Value
from recipes_core.errors import reason
from recipes_core.facts import Fact, calc
from recipes_core.findings import Finding, Kind, Level, Path
from recipes_core.mass import TRIMS, mass_gap
from recipes_core.whole import whole_facts
from recipes_core.work import NOTHING, Outcome, Work

if TYPE_CHECKING:
    from recipes_core.recipe import Recipe, Step

DID_NOT_RUN = "forecast-did-not-run"
_FLAKES = frozenset({"flake", "regrind", "shavings"})
_SHEETS = frozenset({"sheet"})


@dataclass(frozen=True)
class Kindred:
    """What the walk needs to know of a process: the forms it takes and yields, its marks, its forecast."""

    takes: tuple[str, ...]
    yields: str
    marks: frozenset[str]
    forecast: Callable[[Case, Work], Outcome]
    setting: str = "oven"
    machine: str = ""


@dataclass(frozen=True)
class Walk:
    """The cases of all steps with their facts, what each step left behind, and what went wrong on the way."""

    cases: tuple[Case, ...]
    after: tuple[Work, ...]
    whole: Mapping[str, Fact]
    problems: tuple[Finding, ...] = field(default=())


def walk(recipe: Recipe, start: Case, kinds: Mapping[str, Kindred]) -> Walk:
    """Forecast every step whose process is known, in order.

    A step that cannot start from the form the work has by then is noted, and forecast all the same: what it
    lacks is open. A forecast that raises is contained: a finding names it and its facts are not there.
    """
    work = scrap = _first_work(recipe)
    cases, after, joins, problems = [], [], [], []
    heated: list[tuple[Path, bool, Value]] = []
    for step in recipe.steps:
        kind = kinds.get(step.process)
        if kind is None:  # what it leaves is not known; that nobody knows the process is said elsewhere
            work = work.lost("", step.path)
            continue
        case = replace(start, step=step, setting=kind.setting, machine=kind.machine, marks=kind.marks)
        if kind.takes and work.form and work.form not in kind.takes:
            joins.append(((*step.path, "process"), work.form, kind.takes))
        if kind.marks & {"melts", "bends"}:
            water = None if work.moisture is scrap.moisture else work.moisture
            heated.append((step.path, "bends" in kind.marks, water))
        try:
            outcome = kind.forecast(case, work)
            case = replace(case, facts=outcome.facts, tables=outcome.tables, curves=outcome.curves)
            work = outcome.work
        except (Exception, SystemExit) as error:  # a forecast is foreign code: whatever it raises is contained here
            problems.append(_problem(recipe, step, error))
            case, work = replace(case, failed=True), work.lost(kind.yields or work.form, step.path)
        cases.append(case)
        after.append(work)
    trimmed = any(TRIMS in kinds[case.step.process].marks for case in cases if case.step)
    whole = {
        **whole_facts(recipe, start, kinds),
        "broken joins": Fact("broken joins", "record", joins, ""),
        "water when heated": _heated_water(heated),
        "mass gap": mass_gap(start, cases, work, trimmed),
    }
    return Walk(tuple(replace(c, facts={**whole, **c.facts}) for c in cases), tuple(after), whole, tuple(problems))


def _first_work(recipe: Recipe) -> Work:
    """The scrap as it comes in; a sheet brings its thickness, every lot its water."""
    form, lot = _first_form(recipe), ("formula", "feedstock", 0)
    if not recipe.lots:
        return Work(form)
    moisture = recipe.get((*lot, "moisture"))
    thickness = recipe.get((*lot, "thickness")) if form == "sheet" else NOTHING
    return Work(form, thickness=thickness, moisture=moisture)


def _first_form(recipe: Recipe) -> str:
    forms = {recipe.raw(("formula", "feedstock", lot, "form")) for lot in recipe.lots}
    named = {f for f in forms if f not in (None, "unknown")}
    if named <= _FLAKES:  # an unknown form is asked about elsewhere
        return "flake"
    return "sheet" if named == _SHEETS else "item"


def _heated_water(heated: list[tuple[Path, bool, Value]]) -> Fact:
    """Each step that melts or bends, whether it bends, and what it finds of water: words, or a share.

    None where no step before it has wetted or dried the scrap, so that each lot's own word still holds.
    """
    states = {f"step {n}": water for n, (_, _, water) in enumerate(heated) if water is not None}
    return calc(
        "water when heated",
        "record",
        "",
        lambda **water: [(path, bends, water.get(f"step {n}")) for n, (path, bends, _) in enumerate(heated)],
        **states,
    )


def _problem(recipe: Recipe, step: Step, error: BaseException) -> Finding:
    return Finding(
        rule=DID_NOT_RUN,
        level=Level.ERROR,
        kind=Kind.REVIEW,
        message=f"The forecast of step {step.id} ({step.process}) did not run: {reason(error)}.",
        file=recipe.document.name,
        path=step.path,
        span=recipe.document.span(step.path),
        why="what this step does to the plastic is not known; the recipe was not fully checked",
        do="report this to whoever made the plugin that holds the process",
        absolute=True,
    )
