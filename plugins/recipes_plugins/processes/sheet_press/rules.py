"""Rules on the platens: large enough for the sheet, and alike on both faces."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, over, show

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

LENGTH = Dimension.LENGTH
SIDES = ("length", "width")
FACES = ("formula.liner.platen_bottom", "formula.liner.platen_top")
BARE = ("none", "bare-metal")


def _large(r: Reading) -> Iterator[Hit]:
    platen = [r.si(f"equipment.press.platen.{side}") for side in SIDES]
    if r.word("part.shape") == "custom":
        area = r.upper("part.projected_area")
        yield from over("part.projected_area", area, platen[0] * platen[1], Dimension.AREA)
        return
    part = [r.upper(f"part.{side}") for side in SIDES]
    if any(above(a, b, LENGTH) for a, b in zip(sorted(part), sorted(platen), strict=True)):
        at = "part.length" if above(max(part), max(platen), LENGTH) else "part.width"
        yield Hit(at, _size(part), f"{_size(platen)}, the platen")


def _size(sides: list[float]) -> str:
    return f"{show(max(sides), LENGTH)} × {show(min(sides), LENGTH)}"


def _one_side(r: Reading) -> Iterator[Hit]:
    bare = [face for face in FACES if r.word(face) in BARE]
    if len(bare) == 1 and r.word("equipment.press.platen.release") in ("", "none"):
        yield Hit(bare[0], "bare metal on this face, a liner on the other", "a liner or a release on both faces")


RULES = (
    Rule(
        "part-over-platen",
        Level.ERROR,
        Scope.STEP,
        message="The sheet is larger than the platen.",
        checks="length and width of the part, or its projected area, against the platen",
        why="what hangs over the edge is neither melted nor pressed, and loads the press off centre",
        do="make the sheet smaller, or take a press with larger platens",
        sources=("derived: the sizes given",),
        reads=("equipment.press.platen.length", "equipment.press.platen.width"),
        test=_large,
        on=("sheet-press",),
        also=lambda r: (
            ("part.projected_area",)
            if r.known("part.shape") and r.word("part.shape") == "custom"
            else ("part.length", "part.width")
        ),
        may_read=("part.shape", "part.length", "part.width", "part.projected_area"),
    ),
    Rule(
        "liner-one-side",
        Level.WARNING,
        Scope.STEP,
        message="One hot face has neither liner nor release.",
        checks="the liners of both platens, and the release where one of them is bare",
        why="the sheet sticks to the bare face while the other lets go: it tears, or pulls itself crooked",
        do="line both platens with the same sheet",
        sources=("common practice",),
        reads=FACES,
        test=_one_side,
        on=("sheet-press",),
        may_read=("equipment.press.platen.release",),
    ),
)
