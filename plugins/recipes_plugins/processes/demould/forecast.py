"""What comes out of the mould: its size when cold, and how hot the mould is to the hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.plugin_api import Band, Outcome, calc

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Work


def forecast(case: Case, work: Work) -> Outcome:
    """Cold length from the cavity and the shrinkage of the sheet, over its range (m); the touch (K)."""
    size = calc(
        "cold length",
        "length",
        "length of the cavity × (1 - shrinkage)",
        lambda cavity_length, shrinkage: [cavity_length * (1.0 - s) for s in Band("loading", *shrinkage).members()],
        cavity_length=case.middle("equipment.mould.cavity.length"),
        shrinkage=case.spread("resin:shrinkage"),
    )
    touch = calc(
        "hottest to the hand",
        "temperature",
        "the hotter of core and mould when it is opened",
        lambda opened: opened,
        opened=work.opened,
    )
    return Outcome(work.after("part"), {f.name: f for f in (size, touch)})
