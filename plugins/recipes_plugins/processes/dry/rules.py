"""Rules on drying: the heat of the air, and the hours."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, inf
from typing import TYPE_CHECKING

from recipes_core.plugin_api import (
    Change,
    Dimension,
    Hit,
    Level,
    Rule,
    Scope,
    Way,
    above,
    below,
    over,
    show,
    too_short,
    under,
)

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, TIME = Dimension.TEMPERATURE, Dimension.TIME


def _hot(r: Reading) -> Iterator[Hit]:
    high, credible = r.si("resin:drying high"), r.fact("air at worst").nominal
    line = max(high, r.si("resin:softening temperature"))
    if above(r.upper("setting"), high, T):
        yield from over("setting", r.upper("setting"), high, T)
    elif above(credible, line, T):
        do = "measure the oven over a full on-off cycle and write the reading down, or set it lower"
        yield Hit("setting", f"the air may reach {show(credible, T)}", f"{show(line, T)} at most", do=do)


def _cold(r: Reading) -> Iterator[Hit]:
    yield from under("setting", r.si("setting"), r.si("resin:drying low"), T)


def _short(r: Reading) -> Iterator[Hit]:
    needed = r.fact("hours needed")
    _, late = needed.band()
    if below(r.si("at_least"), late, TIME):
        yield from too_short("at_least", r.si("at_least"), needed, advice=_longer(r, late))


def _longer(r: Reading, late: float) -> tuple[Way, ...]:
    if late == inf:
        return ()
    minutes = ceil(late / 60.0 - 1e-9)
    changes = [Change(r.path("at_least"), f"{minutes} min")]
    if r.known("at_most") and r.upper("at_most") < minutes * 60.0:
        changes.append(Change(r.path("at_most"), f"{minutes} min"))
    return (Way(f"dry it for at least {show(minutes * 60.0, TIME)}", tuple(changes)),)


RULES = (
    Rule(
        "dried-too-hot",
        Level.ERROR,
        Scope.STEP,
        message="The drying air is too hot for this plastic.",
        checks="the set point against the sheet's highest drying temperature, and the hottest air to be believed "
        "against that or the softening temperature, whichever is higher",
        why="flake cakes to a lump, a sheet sags and sticks; then the inside dries no more",
        do="set it within the drying temperatures of the sheet",
        sources=("common practice: drying guides", "judgement: credible air up to the softening temperature"),
        reads=("setting", "fact:air at worst", "resin:drying high", "resin:softening temperature"),
        test=_hot,
        on=("dries",),
    ),
    Rule(
        "dried-too-cold",
        Level.WARNING,
        Scope.STEP,
        message="The drying air is cooler than the sheet's drying temperatures.",
        checks="the set point against the sheet's lowest drying temperature",
        why="water leaves cool plastic so slowly that nobody can say when it is dry",
        do="set it within the drying temperatures of the sheet",
        sources=("common practice: drying guides",),
        reads=("setting", "resin:drying low"),
        test=_cold,
        on=("dries",),
    ),
    Rule(
        "dried-too-short",
        Level.WARNING,
        Scope.STEP,
        message="It is not dry when this step may end.",
        checks="at_least against the sheet's hours in this air, for a sheet at its thickness",
        why="water that stays inside turns to steam in the heat: bubbles, and with some plastics broken chains",
        do="dry it for longer",
        sources=(
            "common practice: drying guides",
            "derived: the table of the sheet, the square of the thickness, an Arrhenius law",
        ),
        reads=("at_least", "fact:hours needed"),
        test=_short,
        on=("dries",),
        may_read=("at_most",),
    ),
)
