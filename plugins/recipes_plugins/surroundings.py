"""What surrounds the plastic: the air that moves over it, what it radiates to, the liners it lies between."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from recipes_core.plugin_api import Band, Basis, Given, assumed, missing, number, upper

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value

ROOM = 293.15
"""20 °C: what comes out of the shop into an oven."""

PLASTIC_SHINE = assumed(
    Band("emissivity of the plastic", 0.9, 0.85, 0.95), "0.9, from 0.85 to 0.95", Basis.COMMON_PRACTICE
)
_FILMS = {
    "static": assumed(Band("convection", 5.0, 4.0, 6.25), "5 W/(m² K) in still oven air, × 0.8 to 1.25"),
    "fan": assumed(Band("convection", 20.0, 16.0, 25.0), "20 W/(m² K) with a fan, × 0.8 to 1.25"),
}
STILL_AIR = assumed(Band("convection", 5.0, 4.0, 6.25), "5 W/(m² K) in the still air of the shop, × 0.8 to 1.25")


def film(case: Case) -> Value:
    """The film coefficient on a face in this oven (derived from correlations for a tray of 200 × 150 mm)."""
    kind = case.get("equipment.oven.type")
    if not isinstance(kind, Given):
        return kind
    other = f"Can it go into an oven with still air or a fan? Heating by {kind.text} is not computed yet."
    return _FILMS.get(str(kind.value)) or missing(kind.origin.path, other)


def shop_air(case: Case) -> Value:
    """The air of the shop: the recipe's range, or 15 to 30 °C."""
    given = case.get("site.shop_air")
    if not isinstance(given, Given):
        return assumed(Band("shop air", ROOM, 288.15, 303.15), "20 °C, from 15 to 30 °C")
    low, high = number(given), upper(given)
    return Given(Band("shop air", 0.5 * (low + high), low, high), given.text, given.origin)


_PLACES = {
    "liner": "formula.liner.tray",
    "liner over": "formula.liner.over",
    "liner mould": "formula.liner.mould",
    "liner platen top": "formula.liner.platen_top",
    "liner platen bottom": "formula.liner.platen_bottom",
}
_LINER = ("conductivity", "density", "heat capacity", "areal mass", "loose contact")


def liner_inputs(case: Case, kind: str) -> dict[str, Value]:
    """The sheet values of one sheet of liner, prefixed with its place; nothing where there is none."""
    named = case.get(_PLACES[kind])
    if isinstance(named, Given) and named.value in ("none", "bare-metal"):
        return {}
    return {f"{kind} {entry}": case.get(f"{kind}:{entry}") for entry in _LINER}


def liner_sheet(given: dict[str, Any], kind: str) -> tuple[float, ...]:
    """One sheet of liner: W/(m K), kg/m3, J/(kg K), kg/m2 and its loose contact in W/(m2 K); empty for none."""
    return tuple(given[f"{kind} {entry}"] for entry in _LINER) if f"{kind} {_LINER[0]}" in given else ()


def paper(sheet: tuple[float, ...]) -> float:
    """What one sheet of liner, pressed tight, holds back: m2 K/W; nothing for none."""
    return sheet[3] / sheet[1] / sheet[0] if sheet else 0.0
