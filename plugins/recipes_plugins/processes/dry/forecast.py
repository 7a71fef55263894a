"""How long drying takes by the sheet, and what it leaves: a table and the square of the thickness, not a model."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.physics.drying import sheet_time, slower, steam_volume
from recipes_core.plugin_api import (
    Band,
    Dimension,
    Fact,
    Given,
    Open,
    Outcome,
    below,
    calc,
    missing,
    number,
    oven_air,
    show,
    upper,
)
from recipes_plugins import profiles, water

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work

DRY = "dry to touch"
BOILING = 373.15
T, TIME = Dimension.TEMPERATURE, Dimension.TIME
TABLE = "the sheet's hours by thickness, at another temperature by an Arrhenius law"


def forecast(case: Case, work: Work) -> Outcome:
    """The hours that the sheet asks for in this air, the water it allows, and the room of that water as steam."""
    heat = oven_air(case)
    inside = case.get("resin:takes up water")
    needed = _sheet(case, work, heat["oven air"]) if _is_thick(work, inside) else _flake(case)
    if isinstance(inside, Open):
        needed = Fact(needed.name, needed.dimension, inside, needed.equation)
    allowed = calc(
        "water allowed", "share", "", lambda allowed: [profiles.last(allowed)], allowed=water.allowed(case, work.form)
    )
    steam = calc(
        "steam from a kilogram",
        "volume",
        f"{water.STEAM}, of the water allowed in 1 kg, at 100 °C",
        lambda allowed: steam_volume(allowed, BOILING),
        allowed=allowed,
    )
    facts = (*heat.values(), needed, allowed, steam, _no_floor())
    after = work.after(work.form, moisture=_moisture(case, work, inside, needed, allowed))
    return Outcome(after, {f.name: f for f in facts})


def _is_thick(work: Work, inside: Value) -> bool:
    """Whether water has to come out of the depth of a sheet; on the surface a sheet dries as flake does."""
    return work.form == "sheet" and isinstance(inside, Given) and inside.value == "yes"


def _no_floor() -> Fact:
    """No heater is too weak for hours of mild warmth: there is nothing to judge, and nothing to ask."""
    return Fact("heater needs", "time", missing((), ""), "")


def _setting(case: Case) -> Value:
    """The setting, as long as it is no colder than the sheet speaks of."""
    setting, low = case.get("setting"), case.get("resin:drying low")
    if not isinstance(setting, Given) or not isinstance(low, Given):
        return setting if isinstance(low, Given) else low
    if below(number(setting), number(low), T):
        question = f"Can it be dried at {show(number(low), T)} or hotter? Colder drying is not computed yet."
        return missing(setting.origin.path, question)
    return setting


def _flake(case: Case) -> Fact:
    return calc(
        "hours needed",
        "time",
        "the sheet's hours, which hold from its lowest drying temperature up; the longer ones in a deeper bed",
        lambda setting, hours: Band("loading", *hours).members(),
        setting=_setting(case),
        hours=case.spread("resin:drying time"),
    )


def _sheet(case: Case, work: Work, air: Fact) -> Fact:
    """The table of the sheet, carried to the air of this oven; what is not used is neither listed nor asked for."""
    table, square, energy = (case.get(f"resin:sheet drying {name}") for name in ("time", "square", "energy"))
    reference = case.get("resin:sheet drying temperature")
    used = {"table": table, "square": square, "energy": energy}
    if isinstance(table, Open):
        del used["square" if isinstance(square, Open) else "table"]
    elif not _beyond(table, work.thickness):
        del used["square"]
    if isinstance(energy, Open) and not _colder(case, reference):
        del used["energy"]
    return calc(
        "hours needed",
        "time",
        TABLE,
        _by_table,
        setting=_setting(case),
        oven_air=air,
        thickness=work.thickness,
        reference=reference,
        **used,
    )


def _beyond(table: Value, thickness: Value) -> bool:
    """Whether the sheet is thicker than the table goes."""
    return isinstance(table, Given) and isinstance(thickness, Given) and upper(thickness) > table.value[0][-1]


def _colder(case: Case, reference: Value) -> bool:
    """Whether the oven is set colder than the table holds for; hotter air never dries more slowly."""
    setting = case.get("setting")
    if not isinstance(setting, Given) or not isinstance(reference, Given):
        return False
    return below(number(setting), number(reference), T)


def _by_table(
    setting: Any,
    oven_air: Any,
    thickness: Any,
    reference: float,
    table: Any = ((), ()),
    square: float | None = None,
    energy: float | None = None,
) -> Any:
    thicknesses, times = table
    hours = sheet_time(profiles.last(thickness), thicknesses, times, square)
    return np.array([float(hours)]) if energy is None else hours * slower(oven_air, reference, energy)


def _moisture(case: Case, work: Work, inside: Value, needed: Fact, allowed: Fact) -> Value:
    """What the step leaves of water: the sheet's limit where the hours suffice, else what was there before."""
    at_least = case.get("at_least")
    wait, lasts = case.get("used_within"), case.get("resin:stays dry")
    through = inside if not isinstance(inside, Given) else allowed if inside.value == "yes" else inside
    dried = calc("moisture", "record", "the sheet's limit, where the hours suffice", _left,
                 needed=needed, at_least=at_least, through=through)  # fmt: skip
    if isinstance(dried.value, Open):
        return dried
    if below(number(at_least), needed.nominal, TIME):
        return work.moisture
    if isinstance(wait, Given) and isinstance(lasts, Given) and upper(wait) > number(lasts):
        said = f"left for {show(upper(wait), TIME)} after drying, and it stays dry for {show(number(lasts), TIME)}"
        return Fact("moisture", "record", said, dried.equation, dried.inputs)
    return dried


def _left(needed: Any, at_least: Any, through: Any) -> float | str:
    return DRY if isinstance(through, str) else float(through[0])
