"""Rules on hands and water near what is hot, at any step that says how hot it is to touch, or where water goes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, says
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

T = Dimension.TEMPERATURE
TOUCHED = "hottest to the hand"
WARM, HOT = 321.15, 333.15
"""48 and 60 °C, for every material: nobody has to guess what the surface is."""
THIN = 333.15
LEVEL = "EN 407 contact heat "


def _touched(r: Reading) -> bool:
    """Whether the step's forecast says what hands may touch."""
    return TOUCHED in r.case.facts


def _burns(r: Reading) -> Iterator[Hit]:
    if r.word("hands") != "bare":
        return
    touch = r.fact(TOUCHED)
    _, late = touch.band()
    if above(late, WARM, T):
        yield Hit(
            "hands",
            f"up to {show(touch.nominal, T)}, {show(late, T)} in one shop of twenty",
            f"{show(WARM, T)} for bare hands",
            level=Level.ERROR if above(touch.nominal, HOT, T) else Level.WARNING,
        )


def _glove(r: Reading) -> Iterator[Hit]:
    hands = r.word("hands")
    if hands == "bare":  # touch-burns judges them
        return
    stands = _level(hands) if hands.startswith(LEVEL) else THIN
    touch = r.fact(TOUCHED).worst(highest=True)
    if above(touch, stands, T):
        # levels 3 and 4 need a flame level, which nobody states: beyond level 2 no other glove is advised
        cooler = "" if not above(touch, _level(f"{LEVEL}2"), T) else "let it cool, or move it with tongs or a tool"
        yield Hit("hands", f"up to {show(touch, T)}", f"{show(stands, T)} for this glove", do=cooler)


def _level(hands: str) -> float:
    """What the glove was tested at; nobody says its flame level, so 3 and 4 count as 2."""
    from recipes_core.physics.burns import glove_temperature

    return glove_temperature(int(hands.removeprefix(LEVEL)))


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
            "memory: burn thresholds for smooth metal",
            "judgement: one line for all materials",
        ),
        reads=("hands", f"fact:{TOUCHED}"),
        test=_burns,
        on=("any step",),
        when=_touched,
    ),
    Rule(
        "glove-too-thin",
        Level.WARNING,
        Scope.STEP,
        message="The glove is not made for this heat.",
        checks="the hottest that hands may touch in the step against the contact heat the glove is tested at",
        why="a thin glove lets the heat through while the hand still holds on; 15 seconds are a test, not an allowance",
        do="wear EN 407 contact heat 2 or better, gauntlet over the sleeve",
        sources=(
            "published: EN 407 contact-heat table, test-laboratory page",
            "judgement: 60 °C for thin gloves",
        ),
        reads=("hands", f"fact:{TOUCHED}"),
        test=_glove,
        on=("any step",),
        when=_touched,
    ),
    Rule(
        "water-on-melt",
        Level.ERROR,
        Scope.STEP,
        message="Water meets hot melt.",
        checks="what water is put onto against melt, and the inside of a closed mould",
        why="water turns to steam at once and throws hot plastic",
        do="cool the outside of the closed mould, or the part once its skin has set; on a burn water is always right",
        sources=("memory: steam from water on melt", "judgement: never"),
        reads=("water_onto",),
        test=lambda r: says(
            r, "water_onto", ("melt", "closed mould"), "the outside of the mould, or a part that has set"
        ),
        on=("any step",),
        absolute=True,
    ),
)
