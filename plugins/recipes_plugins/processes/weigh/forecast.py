"""What the charge ought to weigh, and how it lies on the tray and in the mould."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.plugin_api import Outcome, calc
from recipes_plugins import pressure
from recipes_plugins.plastic import bulk_density

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Fact, Value, Work


def forecast(case: Case, work: Work) -> Outcome:
    """Charge from volume, solid density and flash; depth of the loose flake; volume of the melt (all SI)."""
    charge = case.middle("formula.charge")
    part = _part_volume(case)
    needed = calc(
        "needed",
        "mass",
        "volume of the part × solid density × (1 + flash allowance)",
        lambda part, density, flash_allowance: [part * density * (1.0 + flash_allowance)],
        part=part,
        density=case.middle("resin:density solid"),
        flash_allowance=case.middle("formula.flash_allowance"),
    )
    depth = calc(
        "bed depth",
        "length",
        "charge ÷ (bulk density × area that it lies on)",
        lambda charge, bulk, lies_on: [charge / (bulk * lies_on)],
        charge=charge,
        bulk=bulk_density(case),
        lies_on=_lies_on(case),
    )
    melt = calc(
        "melt volume",
        "volume",
        "charge ÷ density of the melt",
        lambda charge, density: [charge / density],
        charge=charge,
        density=case.get("resin:density melt"),
    )
    cavity = calc(
        "cavity volume",
        "volume",
        "length × width × depth of the cavity",
        lambda length, width, depth: [length * width * depth],
        length=pressure.cavity(case, "length"),
        width=pressure.cavity(case, "width"),
        depth=pressure.cavity(case, "depth"),
    )
    facts = {f.name: f for f in (needed, depth, melt, cavity)}
    return Outcome(work.after("charge", charge=charge), facts)


def _lies_on(case: Case) -> Value:
    """The area of the tray, m2; that of the sheet where the flake goes straight between the platens of a press."""
    processes = {step.process for step in case.recipe.steps}
    if "sheet-press" in processes and "flake-melt" not in processes:
        return pressure.area(case)
    return calc(
        "area of the tray",
        "area",
        "length × width of the tray",
        lambda length, width: length * width,
        length=case.middle("equipment.tray.length"),
        width=case.middle("equipment.tray.width"),
    )


def _part_volume(case: Case) -> Value | Fact:
    shape = case.get("part.shape")
    if getattr(shape, "value", None) == "custom":
        return case.middle("part.volume")
    return calc(
        "part volume",
        "volume",
        "length × width × thickness",
        lambda length, width, thickness: length * width * thickness,
        length=case.middle("part.length"),
        width=case.middle("part.width"),
        thickness=case.middle("part.thickness"),
    )
