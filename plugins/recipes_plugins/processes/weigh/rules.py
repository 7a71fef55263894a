"""Rules on the charge: enough and not too much, a scale that can tell, a bed that lies flat."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Change, Dimension, Hit, Level, Rule, Scope, Way, above, below, over, show

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

MASS = Dimension.MASS
DEEPEST = 0.05
COARSE = 0.01


def _short(r: Reading) -> Iterator[Hit]:
    charge, needed = r.upper("formula.charge"), r.fact("needed").nominal
    loss = r.upper("formula.tray_loss") if r.known("formula.tray_loss") else 0.0
    bare = r.fact("pressed piece").nominal + loss
    if below(charge, needed, MASS):
        yield Hit(
            "formula.charge",
            show(charge, MASS),
            f"{show(needed, MASS)} at least, with flash, machining stock and what stays on the tray",
            f"{show(needed - charge, MASS)} short",
            level=Level.ERROR if below(charge, bare, MASS) else Level.WARNING,
            advice=(_weigh(needed),),
        )


def _much(r: Reading) -> Iterator[Hit]:
    charge, needed = r.upper("formula.charge"), r.fact("needed").nominal
    most = needed * (1.0 + r.si("formula.flash_allowance"))
    holds = float("inf")
    if r.known("fact:melt volume") and r.known("fact:cavity volume"):
        holds = charge * r.fact("cavity volume").nominal / r.fact("melt volume").nominal
    fits = not above(charge, holds, MASS)
    if fits and not above(charge, most, MASS):
        return
    cured = needed <= holds
    yield Hit(
        "formula.charge",
        show(charge, MASS),
        f"{show(needed, MASS)} with its flash"
        if fits
        else f"{show(holds, MASS)}, all that the cavity holds when molten",
        f"{show(charge - (needed if fits else holds), MASS)} too much",
        level=Level.WARNING if fits else Level.ERROR,
        do="" if cured else "make the cavity deeper, so that it holds the melt",
        advice=(_weigh(needed),) if cured else (),
    )


def _coarse(r: Reading) -> Iterator[Hit]:
    share = r.upper("equipment.scale.resolution") / r.si("formula.charge")
    if above(share, COARSE, Dimension.SHARE):
        yield Hit(
            "equipment.scale.resolution",
            f"{r.text('equipment.scale.resolution')}, {show(share, Dimension.SHARE)} of the charge",
            f"{show(COARSE, Dimension.SHARE)} of the charge",
        )


def _overloaded(r: Reading) -> Iterator[Hit]:
    vessel = r.upper("vessel") if r.known("vessel") else 0.0
    yield from over("formula.charge", r.upper("formula.charge") + vessel, r.si("equipment.scale.capacity"), MASS)


def _deep(r: Reading) -> Iterator[Hit]:
    depth = r.fact("bed depth").nominal
    if r.known("equipment.tray.depth") and above(depth, r.si("equipment.tray.depth"), Dimension.LENGTH):
        yield from over(
            "formula.charge", depth, r.si("equipment.tray.depth"), Dimension.LENGTH, level=Level.ERROR,
            do="take a larger tray, or melt in two trays",
        )  # fmt: skip
    elif above(depth, DEEPEST, Dimension.LENGTH):
        yield from over("formula.charge", depth, DEEPEST, Dimension.LENGTH)


def _weigh(needed: float) -> Way:
    """No less than what is needed, and no more than one displayed step above it: a gram, or a tenth under 10 g."""
    tenths = 10 * ceil(needed * 1e3 - 1e-6) if needed >= 0.01 else ceil(needed * 1e4 - 1e-6)
    return Way(f"weigh out {show(tenths * 1e-4, MASS)}", (Change(("formula", "charge"), f"{tenths / 10:g} g"),))


RULES = (
    Rule(
        "charge-short",
        Level.WARNING,
        Scope.STEP,
        message="The charge is too light to fill the part.",
        checks="the charge against the part with its machining stock and flash, and what stays on the tray",
        why="a short part shows sinks and unfilled edges, and cannot be mended",
        do="weigh out more",
        sources=("derived: a mass balance",),
        reads=("formula.charge", "fact:pressed piece", "fact:needed"),
        test=_short,
        on=("weigh",),
        may_read=("formula.tray_loss",),
    ),
    Rule(
        "charge-over",
        Level.WARNING,
        Scope.STEP,
        message="The charge is heavier than the part and its flash.",
        checks="the charge against the part with twice its flash allowance, and the melt against the cavity",
        why="what does not fit flashes out, or holds the mould open and the part thick",
        do="weigh out less",
        sources=("derived: a mass balance", "judgement: twice the flash allowance"),
        reads=("formula.charge", "formula.flash_allowance", "fact:needed"),
        test=_much,
        on=("weigh",),
        may_read=("fact:melt volume", "fact:cavity volume"),
    ),
    Rule(
        "scale-too-coarse",
        Level.WARNING,
        Scope.STEP,
        message="The scale cannot show so small a charge well.",
        checks="the smallest step of the scale against one part in a hundred of the charge",
        why="what the scale cannot show goes into the thickness of the part",
        do="use a scale whose smallest step is a hundredth of the charge or less",
        sources=("common practice",),
        reads=("equipment.scale.resolution", "formula.charge"),
        test=_coarse,
        on=("weigh",),
    ),
    Rule(
        "scale-overloaded",
        Level.ERROR,
        Scope.STEP,
        message="The scale cannot carry this.",
        checks="the charge, and the vessel where it is given, against the capacity of the scale",
        why="an overloaded scale reads low, or breaks",
        do="weigh in two goes, or use a larger scale",
        sources=("derived: the scale's own mark",),
        reads=("formula.charge", "equipment.scale.capacity"),
        test=_overloaded,
        on=("weigh",),
        may_read=("vessel",),
    ),
    Rule(
        "bed-too-deep",
        Level.WARNING,
        Scope.STEP,
        message="The loose flake lies too deep.",
        checks="the depth of the loose flake against the rim of the tray, and against 50 mm",
        why="flake that spills burns on the element; a deep bed melts on top and stays raw below",
        do="take a larger tray, or melt in two trays",
        sources=("derived: charge ÷ (bulk density × area)", "judgement: 50 mm, as nothing is published"),
        reads=("formula.charge", "fact:bed depth"),
        test=_deep,
        on=("weigh",),
        may_read=("equipment.tray.depth",),
    ),
)
