"""What comes out of the mould: its size when cold, and how hot the mould is to the hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.plugin_api import Band, Outcome, calc
from recipes_plugins import pressure

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Fact, Work


def forecast(case: Case, work: Work) -> Outcome:
    """Cold length and width from the cavity and the shrinkage of the sheet, over its range (m); the touch (K)."""
    sizes = [_cold(case, side) for side in ("length", "width")]
    touch = calc(
        "hottest to the hand",
        "temperature",
        "the hotter of core and mould when it is opened",
        lambda opened: opened,
        opened=work.opened,
    )
    return Outcome(work.after("part"), {f.name: f for f in (*sizes, touch)})


def _cold(case: Case, side: str) -> Fact:
    return calc(
        f"cold {side}",
        "length",
        f"{side} of the cavity × (1 - shrinkage)",
        lambda cavity, shrinkage: cavity * (1.0 - Band("shrinkage", *shrinkage).members()),
        cavity=pressure.cavity(case, side),
        shrinkage=case.spread("resin:shrinkage"),
    )
