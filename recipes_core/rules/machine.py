"""Rules on machines with blades or a belt: the guard, the hands, the dust, and what starts them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension
from recipes_core.rules.bypass import bypass_told
from recipes_core.rules.compare import over, says
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

LAYER = 0.0008
"""1/32 in, the dust layer that is commonly quoted."""
TEXTS = ("notes", "until")


def _told(r: Reading) -> list[tuple[str, str]]:
    return [(name, clause) for name in TEXTS if r.known(name) and (clause := bypass_told(r.text(name)))]


def _interlock_needed(r: Reading) -> tuple[str, ...]:
    """The field is asked for where a machine runs, unless the words have said enough."""
    return ("machine.interlock",) if r.case.runs_machine and not _told(r) else ()


def _bypassed(r: Reading) -> Iterator[Hit]:
    told = _told(r)
    for name, clause in told:
        yield Hit(name, f"“{clause}”", "no way round anything that protects")
    if r.case.runs_machine and not told:
        yield from says(r, "machine.interlock", ("bypassed",), "an interlock that works")


def _gloves(r: Reading) -> Iterator[Hit]:
    yield from says(r, "machine.hands", ("gloves",), "bare hands, kept away from what turns")
    yield from says(r, "machine.loose_clothing", ("yes",), "sleeves closed, hair tied, no cords or rings")
    if r.known("hands") and r.word("hands") != "bare":
        yield Hit("hands", r.word("hands"), "bare hands, kept away from what turns")


def _gear(r: Reading) -> Iterator[Hit]:
    worn = set(r.words("gear"))
    lacks = ["eyes"] * (not worn & {"eyes", "face shield"}) + ["hearing"] * ("hearing" not in worn)
    if lacks:
        yield Hit("gear", r.text("gear"), "eyes and hearing protected", f"{', '.join(lacks)} missing")


def _dust(r: Reading) -> Iterator[Hit]:
    yield from over("machine.dust_layer", r.upper("machine.dust_layer"), LAYER, Dimension.LENGTH)
    yield from says(r, "machine.dust", ("none",), "dust taken away where it is made, or bound with water")


RULES = (
    Rule(
        "interlock-bypassed",
        Level.ERROR,
        Scope.STEP,
        message="Something that protects people is got round.",
        checks="the interlock of the machine; and the words of the step, for a clause that pairs a way round with a "
        "guard, an interlock, a switch, a sensor or a cut-out and is not negated",
        why="whoever relies on it next loses a hand, or finds an oven that heats on; defeating a sensor kills",
        do="repair it; a machine whose interlock does not work stays unplugged",
        sources=("common practice", "memory: standards on interlocks ask for a design that nobody wants to defeat"),
        reads=(),
        test=_bypassed,
        on=("any step",),
        also=_interlock_needed,
        may_read=("machine.interlock", *TEXTS),
        absolute=True,
    ),
    Rule(
        "guard-open",
        Level.ERROR,
        Scope.STEP,
        message="The machine runs without its guard.",
        checks="the guard against open, removed and none",
        why="hands get to what turns, and pieces fly out",
        do="run it with the guard fitted and shut only",
        sources=("published: 29 CFR 1910.212(a)(1), United States, training copy; other places have their own rules",),
        reads=("machine.guard",),
        test=lambda r: says(r, "machine.guard", ("open", "removed", "none"), "fitted, and shut while it runs"),
        on=("cuts", "trims"),
        when=lambda r: r.case.runs_machine,
        absolute=True,
    ),
    Rule(
        "gloves-at-blades",
        Level.ERROR,
        Scope.STEP,
        message="Something at the machine can be caught and pull somebody in.",
        checks="gloves on the hands, and loose sleeves, cords or hair",
        why="a glove or a sleeve that is caught drags the hand in before anyone can let go",
        do="take gloves off and tie up whatever hangs loose; carry sharp pieces with gloves when nothing turns",
        sources=("common practice",),
        reads=("machine.hands", "machine.loose_clothing"),
        test=_gloves,
        on=("cuts", "trims"),
        when=lambda r: r.case.runs_machine,
        may_read=("hands",),
    ),
    Rule(
        "eyes-and-ears",
        Level.WARNING,
        Scope.STEP,
        message="Eyes or ears are bare at the machine.",
        checks="what is worn against protection for eyes and for hearing",
        why="hard plastic flies like gravel, and these machines are often louder than 85 dB",
        do="wear safety glasses or a face shield, and hearing protection",
        sources=(
            "published: 29 CFR 1910.212(a)(1), United States, training copy (flying chips)",
            "common practice",
            "memory: noise near a hopper, and the level at which hearing suffers over a working day",
        ),
        reads=("gear",),
        test=_gear,
        on=("cuts", "trims"),
        when=lambda r: r.case.runs_machine,
    ),
    Rule(
        "dust-layer",
        Level.ERROR,
        Scope.STEP,
        message="Fine plastic dust gathers around the machine.",
        checks="the layer of dust against 0.8 mm, and whether anything takes dust away",
        why="a layer thinner than a coin, whirled up, burns like gas; breathed in, it hurts lungs",
        do="vacuum it with a machine made for fine dust; ask the fire authority about layers in corners and on beams",
        sources=(
            "published: poster on combustible dust of a national safety authority (polyethylene and polypropylene)",
            "memory: the layer of 1/32 in",
        ),
        reads=("machine.dust_layer", "machine.dust"),
        test=_dust,
        on=("cuts", "trims"),
        when=lambda r: r.case.runs_machine,
    ),
    Rule(
        "compressed-air",
        Level.WARNING,
        Scope.STEP,
        message="Dust is blown about instead of taken away.",
        checks="how the machine is cleaned against compressed air",
        why="blown dust hangs in the air, gets into lungs and can flash; the jet drives chips into eyes and skin",
        do="vacuum it or wipe it damp; never blow on people",
        sources=("published: 29 CFR 1926.302(b)(4), United States, as quoted in an official letter of 2000",),
        reads=("machine.cleaned_by",),
        test=lambda r: says(r, "machine.cleaned_by", ("compressed air",), "a vacuum cleaner or a damp cloth"),
        on=("cuts", "trims"),
        when=lambda r: r.case.runs_machine,
    ),
    Rule(
        "restarts-by-itself",
        Level.ERROR,
        Scope.STEP,
        message="The machine starts by itself when the power comes back.",
        checks="what the machine does after a power cut",
        why="hands are in it by then, because it stood still",
        do="have a no-volt switch fitted by a competent person; until then unplug it whenever it stops",
        sources=("published: training page of a national agency on woodworking machines, United States",),
        reads=("machine.restart",),
        test=lambda r: says(r, "machine.restart", ("by itself",), "a switch that has to be pressed again"),
        on=("cuts", "trims"),
        when=lambda r: r.case.runs_machine,
    ),
)
