"""The walk through the procedure: each process says what its step does to the work, one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import inf
from typing import TYPE_CHECKING, Any

from recipes_core.case import Case, Value, number, upper
from recipes_core.errors import reason
from recipes_core.facts import Fact, Given, Open, calc
from recipes_core.findings import Finding, Kind, Level, Path
from recipes_core.marking import mark_of
from recipes_core.mass import TRIMS, mass_gap
from recipes_core.mixing import melt_flow_ratio, pairs
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
            case, work = replace(case, facts=outcome.facts, tables=outcome.tables), outcome.work
        except (Exception, SystemExit) as error:  # a forecast is foreign code: whatever it raises is contained here
            problems.append(_problem(recipe, step, error))
            case, work = replace(case, failed=True), work.lost(kind.yields or work.form, step.path)
        cases.append(case)
        after.append(work)
    trimmed = any(TRIMS in kinds[case.step.process].marks for case in cases if case.step)
    whole = {
        **_whole(recipe, start, kinds, joins),
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


def _whole(
    recipe: Recipe, start: Case, kinds: Mapping[str, Kindred], joins: list[tuple[Path, str, tuple[str, ...]]]
) -> dict[str, Fact]:
    marks = {s.id: kinds[s.process].marks for s in recipe.steps if s.process in kinds}
    heating = tuple(name for name, m in marks.items() if "heats" in m)
    plastic = tuple(name for name, m in marks.items() if m & {"heats plastic", "dries"})
    fuming = tuple(name for name, m in marks.items() if "heats plastic" in m)
    baking = tuple(s.id for s in recipe.steps if s.id in heating and kinds[s.process].setting == "oven")
    sanding = tuple(name for name, m in marks.items() if "sands" in m)
    planing = tuple(name for name, m in marks.items() if "planes" in m)

    def settings(steps: tuple[str, ...]) -> list[Value]:
        named = [s for s in recipe.steps if s.id in steps]
        return [replace(start, step=s, setting=kinds[s.process].setting).get("setting") for s in named]

    hottest = max((upper(s) for s in settings(heating) if isinstance(s, Given)), default=0.0)
    # a setting that nobody knows must be taken for hot
    heated_to = max((upper(s) if isinstance(s, Given) else inf for s in settings(plastic)), default=0.0)
    return {
        "heating steps": _record("heating steps", heating),
        "plastic heating steps": _record("plastic heating steps", plastic),
        "fuming steps": _record("fuming steps", fuming),
        "cutting steps": _record("cutting steps", tuple(name for name, m in marks.items() if "cuts" in m)),
        "sanding steps": _record("sanding steps", sanding),
        "planing steps": _record("planing steps", planing),
        "melts": _record("melts", sum("melts" in m for m in marks.values())),
        "hottest setting": _record("hottest setting", hottest),
        "plastic heated to": _record("plastic heated to", heated_to),
        "sum of shares": _shares(recipe),
        "mark": _record("mark", mark_of(recipe, start)),
        "stated hazards": _record("stated hazards", tuple(_stated_hazards(recipe))),
        "pairs": _record("pairs", pairs(recipe, start)),
        "melt flow ratio": _record("melt flow ratio", melt_flow_ratio(recipe, start)),
        "broken joins": _record("broken joins", joins),
        "limit lists": _limit_lists(recipe),
        "missing tools": _record("missing tools", _missing_tools(recipe)),
        "oven clashes": _record("oven clashes", _clashes(recipe, start, baking)),
    }


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


def _shares(recipe: Recipe) -> Fact:
    shares = [recipe.get(("formula", "feedstock", lot, "share")) for lot in recipe.lots]
    for share in shares:
        if isinstance(share, Open):
            return Fact("sum of shares", "share", share, "")
    total = sum(number(s) for s in shares)
    return _record("sum of shares", total if shares else 1.0)


def _stated_hazards(recipe: Recipe) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """The hazards that steps of the recipe state besides those of their processes."""
    for step in recipe.steps:
        hazards = recipe.raw((*step.path, "hazards"))
        for at, hazard in enumerate(hazards if isinstance(hazards, list) else ()):
            if isinstance(hazard, dict):
                yield (*step.path, "hazards", at), hazard


def _limit_lists(recipe: Recipe) -> Fact:
    """Where the date of each list of limits stands, and what it says."""
    lists = recipe.raw(("site", "limits_from"))
    paths: list[Path] = [("site", "limits_from", i, "on") for i in range(len(lists) if isinstance(lists, list) else 0)]
    dates = {path: recipe.get(path) for path in paths}
    for on in dates.values():
        if isinstance(on, Open):
            return Fact("limit lists", "record", on, "")
    return _record("limit lists", [(path, on.text) for path, on in dates.items() if isinstance(on, Given)])


def _missing_tools(recipe: Recipe) -> list[tuple[Path, str]]:
    gone = []
    for step in recipe.steps:
        tool = recipe.raw((*step.path, "tool"))
        if isinstance(tool, str) and tool != "unknown" and recipe.raw(("equipment", tool)) is None:
            gone.append(((*step.path, "tool"), tool))
    return gone


def _clashes(recipe: Recipe, start: Case, baking: tuple[str, ...]) -> list[tuple[Path, float, float]]:
    """The settings of steps that share an oven: alongside each other, or going back into it, as a fold does."""
    by_id: dict[str, Step] = {s.id: s for s in recipe.steps}
    clashes = []
    lately: Step | None = None
    for step in recipe.steps:
        if step.id in baking:
            beside = by_id.get(str(recipe.raw((*step.path, "alongside"))))
            lately = step if beside is None else lately
        else:
            beside = lately if recipe.raw((*step.path, "oven")) is not None else None
        if beside is None or beside.id not in baking:
            continue
        mine, theirs = (replace(start, step=s).middle("oven") for s in (step, beside))
        if isinstance(mine, Given) and isinstance(theirs, Given):
            clashes.append(((*step.path, "oven"), number(mine), number(theirs)))
    return clashes


def _record(name: str, value: Any) -> Fact:
    return Fact(name, "record", value, "")


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
