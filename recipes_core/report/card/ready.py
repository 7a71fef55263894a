"""What stands on the card before the first step: when to break off, what to lay out, what the oven was seen to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from recipes_core.bench import LONGEST
from recipes_core.case import number
from recipes_core.facts import Given, Open
from recipes_core.quantities import Dimension, show
from recipes_core.report.card.values import reading
from recipes_core.sheets.states import HEAT_CAP

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.hazards import ProcessPage
    from recipes_core.recipe import Recipe, Step

MOST_STOPS = 6
"""Lines of the stop box; what is hot and what presses goes first."""
CEILING = "resin:surface ceiling"
HOTTEST = (f"resin:{HEAT_CAP}", CEILING, "liners:limit")
"""What the air must not pass: what the plastic stands in the oven, what its skin stands, and the liner's limit."""
_GRAVE = frozenset({"heats plastic", "presses"})
_AIR = {"oven": "Oven air", "platens": "Platens"}
_LINED = {"tray": "tray", "over": "over it", "mould": "mould", "platen_top": "above", "platen_bottom": "below"}


class Told(NamedTuple):
    """A step whose process is known: as it was forecast, and as its page speaks of it."""

    case: Case
    step: Step
    page: ProcessPage


def stop(known: Iterable[Told]) -> tuple[str, ...]:
    """When to break off: what is too hot first, then what the processes say, those before any heat last."""
    told = list(known)
    first = next((at for at, one in enumerate(told) if one.case.marks & _GRAVE), 0)
    gravest = sorted(told[first:], key=lambda one: not one.case.marks & _GRAVE) + told[:first]
    said = (line for one in gravest for line in one.page.bench.stop)
    return tuple(dict.fromkeys([*_too_hot(gravest), *said]))[:MOST_STOPS]


def _too_hot(known: Sequence[Told]) -> Iterator[str]:
    """For oven and platens the lowest line that any step, its plastic or its liner draws; what is not known is told."""
    heated = [told.case for told in known if "heats plastic" in told.case.marks]
    for machine, air in _AIR.items():
        lines = [
            case.get(name)
            for case in heated
            if case.setting == machine
            for name in HOTTEST
            if name != CEILING or "melts" in case.marks or isinstance(case.get(name), Given)  # a short bend needs none
        ]
        stated = [number(line) for line in lines if isinstance(line, Given)]
        if stated:
            yield f"{air} above {show(min(stated), Dimension.TEMPERATURE)}: heat off"
        if any(isinstance(line, Open) and any(asked for _, asked in line.needs) for line in lines):
            yield "What liner or plastic stands is not known"


def bring(recipe: Recipe, known: Iterable[Told]) -> tuple[str, ...]:
    """What is laid out and looked at before the first step."""
    return tuple(dict.fromkeys(_laid_out(recipe, list(known))))


def _laid_out(recipe: Recipe, known: Sequence[Told]) -> Iterator[str]:
    kind, checked = (recipe.get(("equipment", "thermometer", key)) for key in ("type", "checked"))
    if isinstance(checked, Given):
        yield f"{kind.text if isinstance(kind, Given) else 'thermometer'} checked {checked.text}"
    if any("heats plastic" in told.case.marks for told in known):
        yield _air(recipe)
        yield from _liners(recipe)
    for told in known:
        yield from told.page.bench.bring
    yield from _worn(recipe, [told.step for told in known])


def _air(recipe: Recipe) -> str:
    """What takes the fume away, as the recipe has it."""
    place, capture = (recipe.get(("site", key)) for key in ("place", "capture"))
    if isinstance(capture, Given) and capture.text != "none":
        return f"{capture.text}, on"
    return "outdoors, upwind of it" if isinstance(place, Given) and place.text == "outdoors" else "hood on or outdoors"


def _liners(recipe: Recipe) -> Iterator[str]:
    where: dict[str, list[str]] = {}
    for key, place in _LINED.items():
        liner = recipe.get(("formula", "liner", key))
        if isinstance(liner, Given) and liner.text != "none":
            where.setdefault(liner.text, []).append(place)
    yield from (f"{liner}: {', '.join(places)}" for liner, places in where.items())


def _worn(recipe: Recipe, steps: Iterable[Step]) -> Iterator[str]:
    """Gloves by their standard, then the rest of the gear; a gauntlet would be those gloves once more."""
    hands = [recipe.get((*step.path, "hands"), step.process) for step in steps]
    gloves = dict.fromkeys(worn.text for worn in hands if isinstance(worn, Given) and worn.text.startswith("EN"))
    yield from (f"gloves {standard}" for standard in gloves)
    gear = [recipe.get((*step.path, "gear"), step.process) for step in steps]
    items = dict.fromkeys(item for worn in gear if isinstance(worn, Given) for item in worn.text.split(", "))
    yield from _packed(item for item in items if item != "none" and not (gloves and item == "gauntlet"))


def _packed(items: Iterable[str]) -> list[str]:
    """Short items share a line, each in the first that has room for it."""
    lines: list[str] = []
    for item in items:
        at = next((at for at, line in enumerate(lines) if len(line) + 2 + len(item) <= LONGEST["bring"]), None)
        if at is None:
            lines.append(item)
        else:
            lines[at] += f", {item}"
    return lines


def readings(known: Iterable[Told]) -> tuple[str, ...]:
    """What a dated reading says of the dial of each machine that a step sets, or that there is none."""
    dials = (told.case for told in known if told.page.bench.sets_dial)
    return tuple(dict.fromkeys(reading(case) or f"{case.setting} not measured: go by a thermometer" for case in dials))
