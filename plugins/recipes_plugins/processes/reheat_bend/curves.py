"""The pictures of a bend: the piece in the oven, a cut through it, and the piece on the former."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from recipes_core.plugin_api import calc, upper
from recipes_plugins import pictures
from recipes_plugins.processes.reheat_bend.inputs import EQUATION, ON_THE_FORMER

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Curves, Fact, Value
    from recipes_plugins.processes.reheat_bend.holding import Holding
    from recipes_plugins.processes.reheat_bend.soaking import Soaking

LINES = {
    "foot of the forming window": "resin:forming foot",
    "top of the forming window": "resin:forming top",
    "turns white": "resin:whitening line",
    "limit of the liner": "liners:limit",
}
"""What a piece is warmed between, and the entry of the sheets that each is read from."""


def soaked_curves(case: Case, soaking: Fact) -> tuple[Callable[[], Fact], Callable[[], Fact]]:
    """The temperatures of the piece in the oven, and cuts through it."""
    at_least = case.get("at_least")
    marks = (*pictures.marks({"at least": at_least}), *pictures.marks({"at most": case.get("at_most")}, upper))
    limits = pictures.lines({name: case.get(entry) for name, entry in LINES.items()})

    def warmed(soaking: Soaking) -> Curves:
        until, title = float(soaking.through()[0]), "temperature in the piece"
        across = "since the piece went into the hot oven"
        return pictures.heated(title, across, soaking.history, soaking.part, lines=limits, marks=marks, until=until)

    def cuts(soaking: Soaking, at_least: Any) -> Curves:
        moments = pictures.moments(marks)
        return pictures.cut(soaking.history.times, soaking.history, soaking.part, moments, lines=limits)

    return (
        lambda: calc("curves", "curves", EQUATION, warmed, soaking=soaking),
        lambda: calc("curves", "curves", EQUATION, cuts, soaking=soaking, at_least=at_least),
    )


def held_curves(case: Case, holding: Fact, keeps: Value) -> Callable[[], Fact]:
    """The hottest of the piece on the former, beside where a bend of it ``keeps`` its shape."""
    limits, marks = pictures.lines({"keeps its bend": keeps}), pictures.marks({"let go": case.get("hold")})

    def cooled(holding: Holding) -> Curves:
        series = {"hottest inside": holding.history.hottest(1)}
        title, across = "temperature on the former", "since it was bent"
        return pictures.over_time(title, across, holding.history.times, series, lines=limits, marks=marks)

    return lambda: calc("curves", "curves", ON_THE_FORMER, cooled, holding=holding)
