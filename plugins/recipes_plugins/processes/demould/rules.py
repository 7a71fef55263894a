"""Rules on taking the part out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, below, says, show

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, LENGTH = Dimension.TEMPERATURE, Dimension.LENGTH
WARM, HOT = 321.15, 333.15
GLOVES = {"thin gloves": 333.15, "EN 407 contact heat 1": 373.15, "EN 407 contact heat 2": 523.15}


def _burns(r: Reading) -> Iterator[Hit]:
    if r.word("hands") != "bare":
        return
    touch = r.fact("hottest to the hand")
    _, late = touch.band()
    if above(late, WARM, T):
        yield Hit(
            "hands",
            f"up to {show(touch.nominal, T)}, {show(late, T)} in one shop of twenty",
            f"{show(WARM, T)} for bare hands",
            level=Level.ERROR if above(touch.nominal, HOT, T) else Level.WARNING,
        )


def _glove(r: Reading) -> Iterator[Hit]:
    stands = GLOVES.get(r.word("hands"))
    touch = r.fact("hottest to the hand").worst(highest=True)
    if stands is not None and above(touch, stands, T):
        yield Hit("hands", f"up to {show(touch, T)}", f"{show(stands, T)} for this glove")


def _size(r: Reading) -> Iterator[Hit]:
    for side in ("length", "width"):
        low, high = r.fact(f"cold {side}").band()
        wanted, tolerance = r.si(f"part.{side}"), r.si("part.tolerance")
        if below(high, wanted - tolerance, LENGTH) or above(low, wanted + tolerance, LENGTH):
            yield Hit(
                f"part.{side}",
                f"{show(low, LENGTH)} to {show(high, LENGTH)} when cold",
                f"{show(wanted, LENGTH)} ± {show(tolerance, LENGTH)}",
            )


def _stuck(r: Reading) -> Iterator[Hit]:
    if r.word("part.cores") == "yes" and r.si("part.draft") < r.si("resin:draft") - 1e-9:
        yield Hit(
            "part.draft",
            show(r.si("part.draft"), Dimension.ANGLE),
            show(r.si("resin:draft"), Dimension.ANGLE),
        )


RULES = (
    Rule(
        "touch-burns",
        Level.WARNING,
        Scope.STEP,
        message="What the hands touch is too hot for them.",
        checks="the hottest that hands may touch in the step against 48 °C, and 60 °C, for bare hands",
        why="metal at 55 °C burns in ten to thirty seconds, at 60 °C in less than five",
        do="wait, or wear gloves made for contact heat",
        sources=(
            "memory: commonly quoted burn thresholds for smooth metal",
            "judgement: one line for all materials",
        ),
        reads=("hands", "fact:hottest to the hand"),
        test=_burns,
        on=("demould", "fold", "presses"),
    ),
    Rule(
        "glove-too-thin",
        Level.WARNING,
        Scope.STEP,
        message="The glove is not made for this heat.",
        checks="the hottest that hands may touch in the step against the contact heat the glove is tested at",
        why="a thin glove lets the heat through while the hand still holds on",
        do="wear EN 407 contact heat 2 or better, gauntlet over the sleeve",
        sources=(
            "published: EN 407 contact-heat table, test-laboratory page",
            "judgement: 60 °C for thin gloves",
        ),
        reads=("hands", "fact:hottest to the hand"),
        test=_glove,
        on=("demould", "fold", "presses"),
    ),
    Rule(
        "part-off-size",
        Level.WARNING,
        Scope.STEP,
        message="The part will not come out at the size asked for.",
        checks="the cavity less shrinkage, over the range of the sheet, against length and width and their tolerance",
        why="plastic shrinks more than metal or wood; the mould must be larger than the part",
        do="make the cavity longer by the shrinkage, or measure the shrinkage of one plate",
        sources=("derived: the definition of shrinkage",),
        reads=("part.length", "part.width", "part.tolerance", "fact:cold length", "fact:cold width"),
        test=_size,
        on=("demould",),
        may_read=("part.shape",),
        when=lambda r: r.word("part.shape") != "custom",
    ),
    Rule(
        "stuck-on-core",
        Level.WARNING,
        Scope.STEP,
        message="The part will grip the core.",
        checks="the draft of the cores against the draft of the sheet",
        why="the part shrinks onto the core and has to be levered off, which slips and cuts",
        do="give the core more draft, or take it out while the part is still warm",
        sources=(
            "published: a mould maker's reference page (0.5 to 1 degree)",
            "judgement: 2 degrees for this family",
        ),
        reads=("part.cores", "resin:draft"),
        test=_stuck,
        on=("demould",),
        also=lambda r: ("part.draft",) if r.word("part.cores") == "yes" else (),
        may_read=("part.draft",),
    ),
    Rule(
        "blade-toward-hand",
        Level.WARNING,
        Scope.STEP,
        message="The blade points at the hand.",
        checks="the direction of the blade",
        why="the part lets go at once, and the blade goes on",
        do="cut and lever away from the hand, with the part clamped",
        sources=("common practice",),
        reads=("blade",),
        test=lambda r: says(r, "blade", ("toward hand",), "away from the hand"),
        on=("demould",),
    ),
)
