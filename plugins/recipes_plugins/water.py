"""Water that the plastic still holds: how much the sheet allows, and what room it takes as steam."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from recipes_core.physics.drying import steam_volume
from recipes_core.plugin_api import Fact, Given, calc, missing
from recipes_plugins import piece
from recipes_plugins.plastic import bulk_density

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work

STEAM = "V = w m R T ÷ (M p)"


def allowed(case: Case, form: str) -> Value:
    """The share of water that the sheet allows: in a sheet that is bent, or in whatever is melted."""
    bending = case.get("resin:bending moisture")
    return bending if form == "sheet" and isinstance(bending, Given) else case.get("resin:moisture limit")


def steam_in_layer(case: Case, work: Work, charge: Value) -> tuple[Fact, Fact]:
    """The facts ``steam`` and ``void`` (m³) of a layer of flake: what its water fills, and what is free in it.

    The steam is taken at the temperature where the surface closes. Only a measured share is computed: words
    such as dry to touch name none, and after drying less is left than the sheet allows.
    """
    steam = calc(
        "steam",
        "volume",
        STEAM,
        lambda share, charge, closes: steam_volume([_last(share) * charge], closes),
        share=_measured(work.moisture),
        charge=charge,
        closes=case.get("resin:surface melted"),
    )
    void = calc(
        "void",
        "volume",
        "charge × (1 ÷ bulk density - 1 ÷ solid density)",
        lambda charge, bulk, solid: [charge * (1.0 / bulk - 1.0 / solid)],
        charge=charge,
        bulk=bulk_density(case),
        solid=piece.density(case),
    )
    return steam, void


def _measured(moisture: Value) -> Value:
    if isinstance(moisture, Given) and not isinstance(moisture.value, str):
        return moisture
    return missing((), "")


def _last(share: Any) -> float:
    return float(share[-1] if isinstance(share, tuple) else share)
