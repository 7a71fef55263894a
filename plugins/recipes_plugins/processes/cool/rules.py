"""Rules on cooling in the mould."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Change, Dimension, Hit, Level, Rule, Scope, Way, above, says, show, show_band

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, TIME, LENGTH = Dimension.TEMPERATURE, Dimension.TIME, Dimension.LENGTH
WARMER = 10.0
_READS = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?°? ?([CF])\b")
_OUTSIDE = frozenset(["steel", "mould", "mold", "outside", "surface", "aluminium", "metal", "wood", "hand", "touch"])
_FEELS = frozenset(["touch", "touched", "feels", "feel", "cool", "cold", "warm", "lukewarm", "hand"])
TOUCH = 321.15


def _molten(r: Reading) -> Iterator[Hit]:
    core, end = r.fact("core when opened"), r.si("resin:solid")
    worst = core.worst(highest=True)
    if above(worst, end, T):
        yield Hit(
            "at_least",
            f"core at {show(core.nominal, T)}, {show(worst, T)} in the slowest of plausible shops",
            f"{show(end, T)} at most, where the last of it has frozen",
            advice=_longer(r, r.fact("core solid after").worst(highest=True)),
        )


def _warm(r: Reading) -> Iterator[Hit]:
    core, limit = r.fact("core when opened"), r.fact("target").nominal
    _, late = core.band()
    if above(late, limit, T):
        needed = r.fact("core cool enough after")
        yield Hit(
            "at_least",
            f"core at {show(core.nominal, T)} when opened, {show(late, T)} in one shop of twenty",
            f"{show(limit, T)} at most",
            level=Level.ERROR if above(core.nominal, limit, T) else Level.WARNING,
            do=f"from full force it takes {show_band(needed, TIME)}",
            advice=_longer(r, needed.band()[1]),
        )


def _longer(r: Reading, needed: float) -> tuple[Way, ...]:
    """The cure, for ``needed`` seconds from full force until the mould may be opened."""
    if needed == float("inf"):
        return ()
    seconds = needed - r.fact("opened after").nominal + r.si("at_least")
    text = f"{ceil(seconds / 60.0 - 1e-9)} min"
    changes = [Change(r.path("at_least"), text)]
    if r.known("at_most") and r.upper("at_most") < ceil(seconds / 60.0 - 1e-9) * 60.0:
        changes.append(Change(r.path("at_most"), text))
    return (Way(f"cool it for at least {text} after the hold", tuple(changes)),)


def _misleads(r: Reading) -> Iterator[Hit]:
    reads = _outside_reads(r.text("until"))
    if reads is None:
        return
    cooling, limit, opened = r.fact("cooling").numbers, r.fact("target").nominal, r.fact("opened after").nominal
    ends = [max(float(t), opened) for t in cooling.below(reads, outside=True)]
    core = sorted(cooling.core(ends)[1:].tolist())[60]
    if above(core, limit, T):
        yield Hit(
            "until",
            f"core still at {show(core, T)} when the time is over and the outside reads {show(reads, T)}",
            f"{show(limit, T)} at most",
        )


def _outside_reads(text: str) -> float | None:
    """What an end test says of the outside, K: what it names, or what a hand bears; None where it says nothing."""
    words = set(re.findall(r"[a-z]+", text.lower()))
    if "core" in words or not words & _OUTSIDE:
        return None
    match = _READS.search(text)
    if match:
        return float(match[1]) + 273.15 if match[2] == "C" else (float(match[1]) + 459.67) / 1.8
    return TOUCH if words & _FEELS else None


def _quenched(r: Reading) -> Iterator[Hit]:
    core, peak = r.fact("core when cooling starts"), r.si("resin:set")
    if r.word("water_onto") in ("mould outside", "set part") and above(core.nominal, peak, T):
        yield Hit("water_onto", f"core at {show(core.nominal, T)}", f"{show(peak, T)} at most before any water")


def _styrenic_indoors(r: Reading) -> bool:
    outdoors = r.known("site.place") and r.word("site.place") == "outdoors"
    return not outdoors and r.known("resins:family") and "styrenic" in r.words("resins:family")


def _second(r: Reading) -> Iterator[Hit]:
    now, first = r.fact("mould when opened").nominal, r.fact("mould at the start").nominal
    if r.word("next_part") == "at once" and above(now, first + WARMER, T):
        yield Hit(
            "next_part",
            f"the mould is then at {show(now, T)}",
            f"{show(first + WARMER, T)}, 10 K more than this part found it at",
        )


def _bows(r: Reading) -> Iterator[Hit]:
    bent, allowed = r.fact("bow"), r.si("part.tolerance")
    _, most = bent.band()
    if above(most, allowed, LENGTH):
        yield Hit(
            "part.tolerance",
            f"a bow of {show(bent.nominal, LENGTH)}, {show(most, LENGTH)} in one shop of twenty",
            f"{show(allowed, LENGTH)} at most",
        )


RULES = (
    Rule(
        "opened-molten",
        Level.ERROR,
        Scope.STEP,
        message="The mould is opened while the core may still be melt.",
        checks="the core when the mould is opened, in the slowest of the plausible shops, against the end of freezing",
        why="melt under pressure sprays and sticks to skin",
        do="keep it closed for longer; open it slowly, standing aside, with gloves and a face shield",
        sources=("derived: transient conduction with freezing",),
        reads=(
            "at_least",
            "fact:core when opened",
            "fact:core solid after",
            "fact:opened after",
            "resin:solid",
        ),
        test=_molten,
        on=("cool",),
        may_read=("at_most",),
        absolute=True,
    ),
    Rule(
        "opened-warm",
        Level.WARNING,
        Scope.STEP,
        message="The part is opened warm.",
        checks="the core when the mould is opened against what done means, or the sheet's demould temperature",
        why="a part that is opened warm warps as it goes on shrinking, and is hot to hold",
        do="cool it for longer",
        sources=("derived: transient conduction with freezing", "common practice: demould temperatures"),
        reads=(
            "at_least",
            "fact:core when opened",
            "fact:core cool enough after",
            "fact:opened after",
            "fact:target",
        ),
        test=_warm,
        on=("cool",),
        may_read=("at_most",),
    ),
    Rule(
        "touch-misleads",
        Level.WARNING,
        Scope.STEP,
        message="The outside feels cool before the core is.",
        checks="the core when the time is over and the outside is as until says, against the limit of opened-warm",
        why="wood and thick parts are cool outside long before they are inside",
        do="wait for the time as well, or put a probe into the part's edge",
        sources=("derived: transient conduction with freezing",),
        reads=("until", "fact:cooling", "fact:target", "fact:opened after"),
        test=_misleads,
        on=("cool",),
    ),
    Rule(
        "quenched-early",
        Level.ERROR,
        Scope.STEP,
        message="Water comes before the core has set.",
        checks="water onto the mould or the part against the core when cooling starts",
        why="the skin is shocked over a soft core: holes inside, bow outside, and steam",
        do="let the core set under pressure first",
        sources=("common practice", "derived: transient conduction with freezing"),
        reads=("water_onto", "fact:core when cooling starts", "resin:set"),
        test=_quenched,
        on=("cool",),
    ),
    Rule(
        "second-part-warm",
        Level.NOTE,
        Scope.STEP,
        message="The next part finds the mould warmer than this one did.",
        checks="the inner face of the mould when it is opened against its start and 10 K, for a next part at once",
        why="10 K more add about a tenth to the time that the core takes; a warm wooden mould takes twice as long",
        do="let the mould stand open until it is cold, use a second one, or forecast the next part with a warm mould",
        sources=("derived: transient conduction with freezing", "judgement: 10 K"),
        reads=("next_part", "fact:mould when opened", "fact:mould at the start"),
        test=_second,
        on=("cool",),
    ),
    Rule(
        "will-bow",
        Level.WARNING,
        Scope.STEP,
        message="The part will bow: one face sets hotter than the other.",
        checks="the bow that the difference of the two faces leaves, when the core sets, against the tolerance",
        why="the face that sets hotter has further to shrink, and pulls the plate hollow on its side",
        do="cool both faces alike: boards or plates on both sides, or feet in the open",
        sources=("derived: a straight temperature profile bends a free plate; the mould holds it flatter than that",),
        reads=("part.tolerance", "fact:bow"),
        test=_bows,
        on=("cool",),
    ),
    Rule(
        "styrenic-cooled-in-room",
        Level.NOTE,
        Scope.STEP,
        message="It goes on giving off styrene while it cools in the room.",
        checks="where it cools, indoors, for any styrene plastic",
        why="printed parts of it still gave off styrene when they were cold to touch",
        do="let it cool under the hood, or outdoors",
        sources=("published: J. Occup. Environ. Hyg. 14 (2017) 540, abstract",),
        reads=("cooled_in", "site.place", "resins:family"),
        test=lambda r: says(r, "cooled_in", ("room",), "under the hood that is ducted outdoors"),
        on=("cool", "demould"),
        when=_styrenic_indoors,
    ),
)
