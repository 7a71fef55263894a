"""Comparisons as rules make them: at the resolution that is displayed, with found, limit and margin in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil
from typing import TYPE_CHECKING

from recipes_core.findings import Change, Level, Way
from recipes_core.quantities import Dimension, rounded, show
from recipes_core.rules.rule import Hit

if TYPE_CHECKING:
    from recipes_core.facts import Fact
    from recipes_core.rules.reading import Reading


def above(found: float, limit: float, dimension: Dimension) -> bool:
    """Whether ``found`` is over ``limit`` once both are shown."""
    return rounded(found, dimension) > rounded(limit, dimension)


def below(found: float, limit: float, dimension: Dimension) -> bool:
    """Whether ``found`` is under ``limit`` once both are shown."""
    return rounded(found, dimension) < rounded(limit, dimension)


def over(
    at: str,
    found: float,
    limit: float,
    dimension: Dimension,
    *,
    level: Level | None = None,
    do: str = "",
) -> Iterator[Hit]:
    """One hit at ``at`` if the value found is over the limit."""
    if above(found, limit, dimension):
        most = f"{show(limit, dimension)} at most"
        gap = f"{_gap(found - limit, dimension)} too much"
        yield Hit(at, show(found, dimension), most, gap, level, do=do)


def under(
    at: str, found: float, limit: float, dimension: Dimension, *, level: Level | None = None, do: str = ""
) -> Iterator[Hit]:
    """One hit at ``at`` if the value found is under the limit."""
    if below(found, limit, dimension):
        least = f"{show(limit, dimension)} at least"
        yield Hit(at, show(found, dimension), least, f"{_gap(limit - found, dimension)} short", level, do=do)


def too_cold(at: str, kelvin: float, warning: float, error: float, *, found: str, limit: str) -> Iterator[Hit]:
    """One hit at ``at`` for a temperature under ``warning``; an error under ``error``, which is lower; all in K."""
    if below(kelvin, warning, Dimension.TEMPERATURE):
        yield Hit(at, found, limit, level=Level.ERROR if below(kelvin, error, Dimension.TEMPERATURE) else Level.WARNING)


def heats(r: Reading) -> bool:
    """Whether any step of the recipe heats; the rule must read ``fact:heating steps``."""
    return bool(r.fact("heating steps").numbers)


def cuts(r: Reading) -> bool:
    """Whether any step runs blades or a belt; the rule must read ``fact:cutting steps``."""
    return bool(r.fact("cutting steps").numbers)


def resin_said(r: Reading) -> str:
    """What a lot says of its resin, ``unknown`` included; the rule must read ``lot.resin``."""
    return str(r.text("lot.resin") or r.case.recipe.raw(r.path("lot.resin")) or "no name")


def says(r: Reading, name: str, wrong: Iterable[str], wanted: str) -> Iterator[Hit]:
    """One hit if the field says one of the wrong words."""
    bad = [word for word in r.words(name) if word in frozenset(wrong)]
    if bad:
        yield Hit(name, ", ".join(bad), wanted)


def _gap(gap: float, dimension: Dimension) -> str:
    if dimension is Dimension.TEMPERATURE:
        return show(gap, Dimension.TEMPERATURE_DIFFERENCE)
    return show(gap, dimension)


def show_band(fact: Fact, dimension: Dimension) -> str:
    """A computed need with its spread: ``17 min (13 min to 26 min in nine of ten plausible shops)``."""
    low, high = fact.band()
    never = float("inf")
    if fact.nominal == never:
        return "not in this oven" + (f"; {show(low, dimension)} in the hottest plausible one" if low < never else "")
    if high == never:
        return f"{show(fact.nominal, dimension)}, from {show(low, dimension)}; not in the coolest of plausible ovens"
    band = f"{show(low, dimension)} to {show(high, dimension)}"
    return f"{show(fact.nominal, dimension)} ({band} in nine of ten plausible shops)"


def longer(r: Reading, at: str, seconds: float) -> Way:
    """The way out of a time that is too short: whole minutes at ``at``; an ``at_most`` is never left behind."""
    whole = ceil(seconds / 60.0 - 1e-9)
    text = f"{whole} min"
    least = Change(r.path(at), text)
    if at == "at_least" and r.known("at_most") and r.upper("at_most") < whole * 60.0:
        return Way(f"allow at least {text}, and at_most as long", (least, Change(r.path("at_most"), text)))
    return Way(f"allow at least {text}", (least,))


def too_short(
    at: str,
    given: float,
    needed: Fact,
    *,
    do: str = "",
    advice: tuple[Way, ...] = (),
) -> Iterator[Hit]:
    """One hit at ``at`` for a time below the computed need: an error below its nominal value, else a warning."""
    _, high = needed.band()
    time = Dimension.TIME
    if below(given, needed.nominal, time):
        gap = "" if needed.nominal == float("inf") else f"{show(needed.nominal - given, time)} short"
        yield Hit(at, show(given, time), show_band(needed, time), gap, Level.ERROR, do=do, advice=advice)
    elif below(given, high, time):
        sure = f"{show(high, time)} at least, for nineteen of twenty plausible shops"
        gap = "" if high == float("inf") else f"{show(high - given, time)} short"
        yield Hit(at, show(given, time), sure, gap, Level.WARNING, do=do, advice=advice)
