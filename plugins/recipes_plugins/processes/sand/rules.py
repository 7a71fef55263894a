"""Rules on sanding: heat under the belt, and where the dust goes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, below, says, show, show_band

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, SPEED = Dimension.TEMPERATURE, Dimension.SPEED
SLOWEST, FASTEST = 5.0, 15.0
MACHINE = ("machine.speed", "machine.contact_time", "fact:surface when sanded", "resin:softening temperature")


def _softens(r: Reading) -> Iterator[Hit]:
    if r.word("by") == "hand":
        return
    soft, surface = r.si("resin:softening temperature"), r.fact("surface when sanded")
    if above(surface.band()[1], soft, T):
        yield Hit("machine.contact_time", show_band(surface, T), f"{show(soft, T)}, where it begins to smear")
    slow, fast = r.si("machine.speed"), r.upper("machine.speed")
    if below(slow, SLOWEST, SPEED) or above(fast, FASTEST, SPEED):
        yield Hit(
            "machine.speed",
            show(fast if above(fast, FASTEST, SPEED) else slow, SPEED),
            f"{show(SLOWEST, SPEED)} to {show(FASTEST, SPEED)}",
            message="The belt does not run at a speed for plastics.",
            do="change the speed of the belt: a belt for wood is often too fast",
        )


RULES = (
    Rule(
        "sanding-softens",
        Level.WARNING,
        Scope.STEP,
        message="The belt may heat the face until it smears.",
        checks="the face after the contact time against softening, and the speed of the belt against 5 to 15 m/s",
        why="plastic leads heat away badly: the face melts in a second, clogs the belt and pulls the piece along",
        do="lift it sooner, press less, use a coarse open belt, or sand it wet",
        sources=(
            "derived: constant flux into a thick body, 0.3 to 1.0 of the rated power on the area that touches",
            "published: an abrasive maker's belt chart, two editions (5 to 15 m/s for plastics)",
            "judgement: the share of the power, so it warns and never refuses",
        ),
        reads=("by",),
        test=_softens,
        on=("sand",),
        also=lambda r: MACHINE if r.word("by") == "machine" else (),
        may_read=MACHINE,
    ),
    Rule(
        "sanded-dry",
        Level.WARNING,
        Scope.STEP,
        message="The dust of sanding goes into the air.",
        checks="what takes the dust away: water, a capture at the tool, or a vacuum of class M or HEPA",
        why="fine plastic dust is breathed, can burn in a cloud, and does not rot where it settles",
        do="sand it wet, or with capture at the belt",
        sources=(
            "published: OSHA combustible dust poster (polyethylene and polypropylene among the dusts)",
            "common practice",
        ),
        reads=("machine.dust",),
        test=lambda r: says(r, "machine.dust", ("none",), "wet, capture at the tool, or a vacuum M or HEPA"),
        on=("sand",),
    ),
)
