"""Rules on folding the melt."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Change, Dimension, Hit, Level, Rule, Scope, Way, above, below, show, too_cold

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, TIME, LENGTH = Dimension.TEMPERATURE, Dimension.TIME, Dimension.LENGTH


def _unmelted(r: Reading) -> Iterator[Hit]:
    coldest, end = r.fact("coldest at folding"), r.si("resin:melted")
    low, _ = coldest.band()
    if below(low, end, T):
        yield Hit(
            "layers",
            f"core at {show(coldest.nominal, T)}, {show(low, T)} in the coldest of plausible ovens",
            f"{show(end, T)} at least",
            level=Level.ERROR if below(coldest.nominal, end, T) else Level.WARNING,
        )


def _cooled(r: Reading) -> Iterator[Hit]:
    skin, start, end = r.fact("skin after folding").nominal, r.si("resin:stiffening"), r.si("resin:solid")
    limit = f"{show(start, T)} at least, where it stiffens"
    yield from too_cold("out_of_oven", skin, start, end, found=f"skin at {show(skin, T)}", limit=limit)


def _return(r: Reading) -> Iterator[Hit]:
    needed, given = r.fact("return needed"), r.si("back_for")
    if not below(given, needed.nominal, TIME):
        return
    if needed.nominal == float("inf"):
        yield Hit(
            "back_for",
            show(given, TIME),
            "longer than 20 min, if ever",
            do="melt it again, hotter or thinner",
        )
        return
    _, late = needed.band()
    seconds = needed.nominal if late == float("inf") else late
    text = f"{ceil(seconds / 10.0 - 1e-9) * 10} s" if seconds <= 120.0 else f"{ceil(seconds / 60.0 - 1e-9)} min"
    yield Hit(
        "back_for",
        show(given, TIME),
        f"{show(needed.nominal, TIME)} at least",
        f"{show(needed.nominal - given, TIME)} short",
        advice=(Way(f"put it back for {text}", (Change(r.path("back_for"), text),)),),
    )


def _fit(r: Reading) -> Iterator[Hit]:
    layers = int(r.word("layers"))
    tray = (r.si("equipment.tray.length"), r.si("equipment.tray.width"))
    cavity = sorted((r.si("equipment.mould.cavity.length"), r.si("equipment.mould.cavity.width")))
    folded = [sorted((tray[0] / layers, tray[1])), sorted((tray[0], tray[1] / layers))]
    fits = [f for f in folded if not any(above(a, b, LENGTH) for a, b in zip(f, cavity, strict=True))]
    height, depth = r.fact("stack height").nominal, r.si("equipment.mould.cavity.depth")
    if not fits:
        best = min(folded, key=lambda f: max(a / b for a, b in zip(f, cavity, strict=True)))
        yield Hit(
            "layers",
            f"{show(best[1], LENGTH)} × {show(best[0], LENGTH)} when folded",
            f"{show(cavity[1], LENGTH)} × {show(cavity[0], LENGTH)}, the cavity",
        )
    elif above(height, depth, LENGTH):
        yield Hit("layers", f"{show(height, LENGTH)} high", f"{show(depth, LENGTH)}, the depth of the cavity")


def _air(r: Reading) -> Iterator[Hit]:
    if int(r.word("layers")) > 1 and r.word("pressed_out") != "yes":
        yield Hit("layers", f"{r.word('layers')} layers", "air pressed out between them")


RULES = (
    Rule(
        "unmelted-at-fold",
        Level.WARNING,
        Scope.STEP,
        message="The core is still solid when the layer is folded.",
        checks="the coldest plastic when the melt ends against the end of the melting range, nominal and spread",
        why="folding shapes the melt but does not finish it; the return to the oven reheats only the skin",
        do="melt it through before folding: longer, thinner, or hotter within the window",
        sources=("derived: transient conduction with melting",),
        reads=("layers", "fact:coldest at folding", "resin:melted"),
        test=_unmelted,
        on=("fold",),
    ),
    Rule(
        "cooled-while-out",
        Level.WARNING,
        Scope.STEP,
        message="The skin freezes while the melt is out of the oven.",
        checks="the skin after out_of_oven against the start of freezing",
        why="a frozen skin folds in as a seam",
        do="fold faster, or fold beside the open oven",
        sources=("derived: transient conduction to the air of the shop",),
        reads=("out_of_oven", "fact:skin after folding", "resin:stiffening", "resin:solid"),
        test=_cooled,
        on=("fold",),
    ),
    Rule(
        "return-too-short",
        Level.WARNING,
        Scope.STEP,
        message="The skin is still dull when the stack leaves the oven again.",
        checks="back_for against the time the skin takes to get back to the foot of the melt window",
        why="a dull skin does not weld to the mould's shape or to the next layer",
        do="put it back for longer",
        sources=(
            "derived: transient conduction in the oven",
            "common practice: two minutes restore the surface",
        ),
        reads=("back_for", "fact:return needed"),
        test=_return,
        on=("fold",),
    ),
    Rule(
        "stack-does-not-fit",
        Level.ERROR,
        Scope.STEP,
        message="The folded stack does not fit the cavity.",
        checks="the tray's size divided by the layers, and the height of the stack, against the cavity",
        why="what hangs over the edge is sheared off or keeps the mould from closing",
        do="fold it into other layers, or spread it on a tray that folds to the cavity",
        sources=("derived: the sizes given",),
        reads=(
            "layers",
            "equipment.tray.length",
            "equipment.tray.width",
            "equipment.mould.cavity.length",
            "equipment.mould.cavity.width",
            "equipment.mould.cavity.depth",
            "fact:stack height",
        ),
        test=_fit,
        on=("fold",),
    ),
    Rule(
        "air-folded-in",
        Level.NOTE,
        Scope.STEP,
        message="Air may be folded in between the layers.",
        checks="more than one layer, and air pressed out between them",
        why="trapped air stays as flat voids",
        do="roll or press each fold from the middle outwards before the next",
        sources=("common practice",),
        reads=("layers",),
        test=_air,
        on=("fold",),
        may_read=("pressed_out",),
    ),
)
