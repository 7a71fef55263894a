"""Rules on taking the part out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, below, says, show

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

LENGTH = Dimension.LENGTH


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
        why="the part or the flash lets go at once, and the blade goes on",
        do="cut and lever away from the hand, with the part clamped",
        sources=("common practice",),
        reads=("blade",),
        test=lambda r: says(r, "blade", ("toward hand",), "away from the hand"),
        on=("demould", "trim"),
    ),
)
