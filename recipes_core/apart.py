"""What a recipe names that is not judged: things the library switches off, steps that mean nothing for its resin.

Neither is a rule: nothing is compared. The one is open, so that the recipe is not called fully checked; the other is
said in a sentence of the resin's own sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from recipes_core.facts import Given
from recipes_core.findings import Finding, Kind, Level, Path

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.recipe import Recipe

OFF = "plugin-off"
NOT_FOR = "step-does-not-apply"


def switched_off(recipe: Recipe, off: Mapping[str, str]) -> Iterator[Finding]:
    """A finding for each place at which the recipe names something that is off; ``off`` gives its plugin."""
    for path, name in _names(recipe) if off else ():
        if name in off:
            yield Finding(
                rule=OFF,
                level=Level.ERROR,
                kind=Kind.OPEN,
                message=f"{name} is switched off in this library; it belongs to the {off[name]}.",
                file=recipe.document.name,
                path=path,
                span=recipe.document.span(path),
                why="what it would have checked was not checked",
                do=f"take {name} off the list in library.yaml, or use something else",
                absolute=True,
            )


def not_for(case: Case) -> Iterator[Finding]:
    """A sentence for each step that the sheet of a resin says does not apply to it."""
    recipe = case.recipe
    named = [str(recipe.raw(("formula", "feedstock", lot, "resin"))) for lot in recipe.lots]
    sheets = [case.library.resins[name] for name in dict.fromkeys(named) if name in case.library.resins]
    for step in recipe.steps:
        for sheet in sheets:
            name = f"not for, {step.process}"
            if sheet.find(name) is None:
                continue
            why = sheet.get(name)
            if isinstance(why, Given):
                yield Finding(
                    rule=NOT_FOR,
                    level=Level.NOTE,
                    kind=Kind.NOT_APPLICABLE,
                    message=f"{sheet.name}: {why.value}",
                    file=recipe.document.name,
                    path=(*step.path, "process"),
                    span=recipe.document.span((*step.path, "process")),
                )


def _names(recipe: Recipe) -> Iterator[tuple[Path, str]]:
    places: list[Path] = [("formula", "feedstock", lot, "resin") for lot in recipe.lots]
    liners = recipe.raw(("formula", "liner"))
    places += [("formula", "liner", place) for place in (liners if isinstance(liners, dict) else ())]
    tools = [("equipment",), *(step.path for step in recipe.steps)]
    places += [(*at, tool, "material") for at in tools for tool in ("tray", "mould", "former")]
    places += [(*step.path, "process") for step in recipe.steps]
    for path in places:
        value = recipe.raw(path)
        if isinstance(value, str):
            yield path, value
