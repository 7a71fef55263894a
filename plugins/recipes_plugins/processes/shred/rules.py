"""Rules on shredding: what may go in, how far the blades are, how a jam is cleared, how large the flake is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, over, says, show, under
from recipes_plugins.processes.shred.reach import WIDEST

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

LENGTH = Dimension.LENGTH
DENIED = frozenset({"chlorinated", "acetal"})


def _unsorted(r: Reading) -> Iterator[Hit]:
    for lot, resin, family in r.fact("plastics shredded").numbers:
        if not resin or family in DENIED:
            named = resin.upper() if resin else "unknown: nobody can say which plastic"
            yield Hit(("formula", "feedstock", lot, "resin"), named, "one named plastic, neither vinyl nor acetal")


def _reach(r: Reading) -> Iterator[Hit]:
    size = r.upper("machine.opening.size")
    if above(size, WIDEST, LENGTH):
        least = f"{show(WIDEST, LENGTH)} at most; a competent person decides on a wider one"
        yield Hit("machine.opening.size", show(size, LENGTH), least)
    else:
        do = "make the opening smaller, or the way to the blades longer, with a flap or baffle that stays"
        yield from under("machine.reach", r.si("machine.reach"), r.fact("reach needed").nominal, LENGTH, do=do)
    yield from says(r, "site.present", ("under 14",), "nobody under 14: the distances hold from 14 years on")


def _jam(r: Reading) -> Iterator[Hit]:
    said = set(r.words("machine.to_clear_a_jam"))
    lacks = [word for word in ("stop", "verify dead") if word not in said]
    if not said & {"unplug", "lock"}:
        lacks.insert(1 if "stop" in lacks else 0, "unplug or lock")
    if lacks:
        found = r.text("machine.to_clear_a_jam")
        yield Hit("machine.to_clear_a_jam", found, "stop, unplug or lock, verify dead", f"{', '.join(lacks)} missing")


def _coarse(r: Reading) -> Iterator[Hit]:
    at = "flake_size" if r.known("flake_size") else "lot.flake_size"
    yield from over(at, r.fact("flake size").nominal, r.fact("coarsest flake").nominal, LENGTH)


RULES = (
    Rule(
        "shredded-unsorted",
        Level.ERROR,
        Scope.STEP,
        message="This must not be shredded.",
        checks="the plastic of every lot: unknown, mixed, chlorinated or acetal",
        why="flake cannot be sorted back; a gram of vinyl or acetal in it makes poisonous gas when the rest is melted",
        do="sort it out whole and set it aside; identify every piece before it is cut",
        sources=("derived: 0.64 g of PVC reaches the 5 ppm ceiling in a closed 50 m3 room", "judgement"),
        reads=("fact:plastics shredded",),
        test=_unsorted,
        on=("shred",),
        absolute=True,
    ),
    Rule(
        "reach-too-short",
        Level.ERROR,
        Scope.STEP,
        message="A hand can reach the blades.",
        checks="the opening and its distance from the blades against the table of reach, for people from 14 years on",
        why="a shredder takes fingers faster than anyone can pull back, and does not stop for bone",
        do="leave it off until a competent person has looked at the hopper",
        sources=("published: ISO 13857:2019, Table 4, as an engineering consultant's page reproduces it",),
        reads=(
            "machine.opening.shape",
            "machine.opening.size",
            "machine.reach",
            "fact:reach needed",
            "site.present",
        ),
        test=_reach,
        on=("shred",),
        absolute=True,
    ),
    Rule(
        "jam-without-isolation",
        Level.ERROR,
        Scope.STEP,
        message="A jam is cleared while the machine can start.",
        checks="what is done before anybody reaches for a jam against stop, unplug or lock, verify dead",
        why="a jammed rotor is under tension and jumps when it comes free, or somebody switches it on",
        do="stop, wait, unplug and keep the plug, try the switch, then clear it with a tool",
        sources=("published: 29 CFR 1910.147, United States, copy of 2002; other places have their own rules",),
        reads=("machine.to_clear_a_jam",),
        test=_jam,
        on=("shred",),
        absolute=True,
    ),
    Rule(
        "flake-too-coarse",
        Level.WARNING,
        Scope.STEP,
        message="The flake is coarse for this part.",
        checks="the size of the flake against the thickness of the part and the depth of the bed on the tray",
        why="large pieces and strips bridge over hollows and melt unevenly, and are seen in a thin part",
        do="shred it again, through a smaller screen",
        sources=("common practice: finely shredded plastic melts more evenly", "judgement: the two limits"),
        reads=("fact:flake size", "fact:coarsest flake"),
        test=_coarse,
        on=("shred",),
        may_read=("flake_size",),
    ),
)
