"""Rules on preheating the mould."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, longer, over, says, too_short

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

PLATENS = "equipment.press.platen.release"


def _short(r: Reading) -> Iterator[Hit]:
    ready, given = r.fact("mould ready after"), r.si("at_least")
    _, late = ready.band()
    if late == inf:
        yield from too_short("at_least", given, ready, do="set the oven at least 20 K above what the mould must reach")
        return
    yield from too_short(
        "at_least", given, ready, do="or go by a probe on both halves", advice=(longer(r, "at_least", late),)
    )


def _heater(r: Reading) -> str:
    """Where it is said what heats the mould, or the piece that is bent."""
    return "equipment.oven.type" if r.does("bends") else "by"


def _flame_or_gun(r: Reading) -> bool:
    return r.word(_heater(r)) in ("torch", "heat gun")


def _torch(r: Reading) -> Iterator[Hit]:
    if r.word("charge_nearby") != "no":
        yield Hit("charge_nearby", r.word("charge_nearby"), "flake, melt and spray somewhere else")
    if r.word("where") != "outdoors":
        yield Hit("where", r.word("where"), "outdoors")


def _spray(r: Reading) -> Iterator[Hit]:
    if r.does("sheet-press"):
        yield from says(r, PLATENS, ("silicone spray", "other spray"), "a liner, or wax put on while they were cold")
    else:
        yield from says(r, "equipment.mould.release_on", ("hot",), "a cold mould")


RULES = (
    Rule(
        "torch-near",
        Level.ERROR,
        Scope.STEP,
        message="A torch or heat gun is too near to what burns.",
        checks="what heats the mould or the piece; where, and what lies near, for a torch or heat gun",
        why="flake, release spray and liners catch fire, and hot air blows their fume into the room",
        do="heat it in the oven; a flame only on bare metal, outdoors, with the charge elsewhere",
        sources=("common practice",),
        reads=(),
        test=_torch,
        on=("mould-preheat", "bends"),
        also=lambda r: (_heater(r), *(("charge_nearby", "where") if _flame_or_gun(r) else ())),
        may_read=("by", "equipment.oven.type", "charge_nearby", "where"),
        when=lambda r: not r.known(_heater(r)) or _flame_or_gun(r),
    ),
    Rule(
        "release-spray-hot",
        Level.ERROR,
        Scope.STEP,
        message="Release spray goes onto hot metal.",
        checks="the release and whether the mould is hot when it goes on; platens always are",
        why="many sprays are flammable, and all of them fume on hot metal",
        do="put the release on while the mould is cold, and let it dry",
        sources=("common practice",),
        reads=(),
        test=_spray,
        on=("mould-preheat", "sheet-press"),
        also=lambda r: (
            (PLATENS,) if r.does("sheet-press") else ("equipment.mould.release", "equipment.mould.release_on")
        ),
        may_read=(PLATENS, "equipment.mould.release", "equipment.mould.release_on"),
        when=lambda r: r.does("sheet-press") or r.word("equipment.mould.release") not in ("none", "wax"),
    ),
    Rule(
        "preheat-short",
        Level.WARNING,
        Scope.STEP,
        message="The mould may not be warm enough when this step ends.",
        checks="at_least against the computed time until the coldest of the wall has reached what the step asks for",
        why="a mould that is warm outside and cool inside freezes the skin of the part",
        do="give it longer",
        sources=("derived: transient conduction into the wall",),
        reads=("at_least", "to", "fact:mould ready after"),
        test=_short,
        on=("mould-preheat",),
        may_read=("at_most",),
    ),
    Rule(
        "wood-preheated-hot",
        Level.WARNING,
        Scope.STEP,
        message="This mould must not be heated so far.",
        checks="what the mould must reach against the preheat limit of its material",
        why="wood and board lose strength, open their glue lines, and can light themselves after long heat",
        do="keep wood below its limit, or do not preheat it at all: wood takes the melt well when it is cold",
        sources=("published: Babrauskas et al., Fire Mater. 31 (2007) 125, abstract", "judgement: 100 °C"),
        reads=("to", "mould material:preheat limit"),
        test=lambda r: over("to", r.upper("to"), r.si("mould material:preheat limit"), Dimension.TEMPERATURE),
        on=("mould-preheat",),
        may_read=("mould material:burns",),
        when=lambda r: r.word("mould material:burns") != "no",
    ),
)
