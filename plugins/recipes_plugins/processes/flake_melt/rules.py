"""Rules on melting flake."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, below, longer, over, show, too_short
from recipes_plugins.processes.flake_melt.thinner import loading_in_time, thinner_layer

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

TIME, SHARE = Dimension.TIME, Dimension.SHARE
FLASH = 0.1


def _cut_short(r: Reading) -> Iterator[Hit]:
    through = r.fact("melted through after")
    given = r.si("at_least")
    _, late = through.band()
    if not below(given, late, TIME):
        return
    ways = [longer(r, "at_least", late)] if late < inf else []
    if r.case.setting == "oven":  # between platens the layer is as thick as the sheet is to be
        target = loading_in_time(r, given)
        if target is not None:
            ways.append(thinner_layer(r, target))
    do = "" if ways else "set it hotter, inside the window of the sheet"
    yield from too_short("at_least", given, through, do=do, advice=tuple(ways))


def _steam(r: Reading) -> Iterator[Hit]:
    yield from over("lot.moisture", r.fact("steam").nominal, r.fact("void").nominal, Dimension.VOLUME)


def _gathers(r: Reading) -> Iterator[Hit]:
    for guess, level in (("100 µg/g", Level.ERROR), ("1000 µg/g", Level.WARNING)):
        share = r.fact(f"vapour at {guess}").nominal
        if above(share, FLASH, SHARE):
            told = f"{show(share, SHARE)} of what can flash, if the plastic gives off {guess}"
            yield Hit("equipment.oven.vented", told, f"{show(FLASH, SHARE)} at most", level=level)
            return


RULES = (
    Rule(
        "melt-cut-short",
        Level.WARNING,
        Scope.STEP,
        message="The core is still solid when this step may end.",
        checks="at_least against the computed time until the coldest plastic is past its melting range",
        why="unmelted flake folds in as seams and voids",
        do="allow more time, or spread the flake thinner",
        sources=(
            "derived: transient conduction with melting",
            "common practice: the surface looks melted long before",
        ),
        reads=("at_least", "fact:melted through after"),
        test=_cut_short,
        on=("melts",),
        may_read=(
            "at_most",
            "fact:melting",
            "fact:loading",
            "equipment.tray.length",
            "equipment.tray.width",
            "equipment.mould.cavity.length",
            "equipment.mould.cavity.width",
        ),
    ),
    Rule(
        "water-left",
        Level.WARNING,
        Scope.STEP,
        message="The steam of the water left has no room in the layer.",
        checks="the volume of the measured water as steam, when the surface closes, against the gaps in the layer",
        why="steam that finds no room blows bubbles in the melt, and throws it about when it is folded or pressed",
        do="dry it for longer and weigh it twice, an hour apart",
        sources=("derived: ideal gas at 1 atm; bulk and solid density of the sheet",),
        reads=("fact:steam", "fact:void"),
        test=_steam,
        on=("flake-melt",),
    ),
    Rule(
        "cavity-vapour",
        Level.ERROR,
        Scope.STEP,
        message="Vapour may gather in the closed oven until it can flash.",
        checks="what the charge may give off, hot and in the volume of the oven, against 10 % of the flammable limit",
        why="a glowing element lights it, and the door flies open",
        do="open the vents of the oven, or melt less at a time in a larger one",
        sources=(
            "derived: vapour at the heat of the oven, which fills more of it than at room heat",
            "judgement: an error if 100 µg/g are too much, a warning if only 1000 µg/g are; 10 %",
        ),
        reads=(
            "equipment.oven.vented",
            "equipment.oven.cavity",
            "fact:vapour at 100 µg/g",
            "fact:vapour at 1000 µg/g",
        ),
        test=_gathers,
        on=("flake-melt",),
        when=lambda r: r.word("equipment.oven.vented") != "yes",
    ),
)
