"""What holds for a recipe as a whole: which steps do what, what the lots make together, what one step leaves out.

These facts need no physics. Rules read them as ``fact:heating steps``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from math import inf
from typing import TYPE_CHECKING, Any

from recipes_core.case import Case, Value, number, upper
from recipes_core.facts import Fact, Given, Open
from recipes_core.identity import evidence_of_lots
from recipes_core.marking import mark_of
from recipes_core.mixing import melt_flow_ratio, pairs

if TYPE_CHECKING:
    from recipes_core.findings import Path
    from recipes_core.forecast import Kindred
    from recipes_core.recipe import Recipe, Step

STEPS: Mapping[str, frozenset[str]] = {
    "heating steps": frozenset({"heats"}),
    "plastic heating steps": frozenset({"heats plastic", "dries"}),
    "fuming steps": frozenset({"heats plastic"}),
    "cutting steps": frozenset({"cuts"}),
    "sanding steps": frozenset({"sands"}),
    "planing steps": frozenset({"planes"}),
    "sorting steps": frozenset({"sorts"}),
    "pressing steps": frozenset({"presses"}),
    "bending steps": frozenset({"bends"}),
}
"""Lists of steps that rules ask for, by the marks of their processes."""


def whole_facts(recipe: Recipe, start: Case, kinds: Mapping[str, Kindred]) -> dict[str, Fact]:
    """All facts on the recipe as a whole that rest on no forecast."""
    known = [s for s in recipe.steps if s.process in kinds]
    listed = {name: tuple(s.id for s in known if marks & kinds[s.process].marks) for name, marks in STEPS.items()}
    baking = tuple(s.id for s in known if s.id in listed["heating steps"] and kinds[s.process].setting == "oven")

    def settings(steps: tuple[str, ...]) -> list[Value]:
        named = [s for s in known if s.id in steps]
        return [replace(start, step=s, setting=kinds[s.process].setting).get("setting") for s in named]

    hottest = max((upper(s) for s in settings(listed["heating steps"]) if isinstance(s, Given)), default=0.0)
    # a setting that nobody knows must be taken for hot
    plastic = settings(listed["plastic heating steps"])
    heated_to = max((upper(s) if isinstance(s, Given) else inf for s in plastic), default=0.0)
    records: dict[str, Any] = {
        **listed,
        "fuming oven steps": tuple(s for s in baking if s in listed["fuming steps"]),
        "melts": sum("melts" in kinds[s.process].marks for s in known),
        "machines": frozenset(kinds[s.process].machine for s in known),
        "hottest setting": hottest,
        "plastic heated to": heated_to,
        "unwashed step": _unwashed(recipe, kinds),
        "texts": tuple(_texts(recipe)),
        "evidence": evidence_of_lots(start, sorts=bool(listed["sorting steps"])),
        "mark": mark_of(recipe, start),
        "stated hazards": tuple(_stated_hazards(recipe)),
        "pairs": pairs(recipe, start),
        "melt flow ratio": melt_flow_ratio(recipe, start),
        "sum of shares": _shares(recipe),
        "limit lists": _limit_lists(recipe),
        "missing tools": _missing_tools(recipe),
        "oven clashes": _clashes(recipe, start, known, baking),
    }
    return {name: Fact(name, "record", value, "") for name, value in records.items()}


def _shares(recipe: Recipe) -> float | Open:
    shares = [recipe.get(("formula", "feedstock", lot, "share")) for lot in recipe.lots]
    for share in shares:
        if isinstance(share, Open):
            return share
    total = sum(number(s) for s in shares)
    return total if shares else 1.0


def _unwashed(recipe: Recipe, kinds: Mapping[str, Kindred]) -> str:
    """The first step that shreds or heats plastic, if none before it washes; else an empty text."""
    for kind, step in ((kinds[s.process], s) for s in recipe.steps if s.process in kinds):
        if "washes" in kind.marks:
            return ""
        if kind.machine == "shredder" or kind.marks & {"heats plastic", "dries"}:
            return step.id
    return ""


def _texts(recipe: Recipe) -> Iterator[tuple[Path, str]]:
    """What the recipe and its steps say in free words."""
    for path in (("notes",), *((*step.path, key) for step in recipe.steps for key in ("notes", "until"))):
        if isinstance(text := recipe.raw(path), str):
            yield path, text


def _stated_hazards(recipe: Recipe) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """The hazards that steps of the recipe state besides those of their processes."""
    for step in recipe.steps:
        hazards = recipe.raw((*step.path, "hazards"))
        for at, hazard in enumerate(hazards if isinstance(hazards, list) else ()):
            if isinstance(hazard, dict):
                yield (*step.path, "hazards", at), hazard


def _limit_lists(recipe: Recipe) -> list[tuple[Path, str]] | Open:
    """Where the date of each list of limits stands, and what it says."""
    lists = recipe.raw(("site", "limits_from"))
    paths: list[Path] = [("site", "limits_from", i, "on") for i in range(len(lists) if isinstance(lists, list) else 0)]
    dates = {path: recipe.get(path) for path in paths}
    for on in dates.values():
        if isinstance(on, Open):
            return on
    return [(path, on.text) for path, on in dates.items() if isinstance(on, Given)]


def _missing_tools(recipe: Recipe) -> list[tuple[Path, str]]:
    gone = []
    for step in recipe.steps:
        tool = recipe.raw((*step.path, "tool"))
        if isinstance(tool, str) and tool != "unknown" and recipe.raw(("equipment", tool)) is None:
            gone.append(((*step.path, "tool"), tool))
    return gone


def _clashes(
    recipe: Recipe, start: Case, known: Iterable[Step], baking: tuple[str, ...]
) -> list[tuple[Path, float, float]]:
    """The settings of steps that share an oven: alongside each other, or going back into it, as a fold does."""
    by_id: dict[str, Step] = {s.id: s for s in recipe.steps}
    clashes = []
    lately: Step | None = None
    for step in known:
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
