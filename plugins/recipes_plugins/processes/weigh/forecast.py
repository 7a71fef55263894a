"""What the charge ought to weigh, and how it lies on the tray and in the mould."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.plugin_api import Outcome, calc
from recipes_plugins import piece, pressure
from recipes_plugins.plastic import bulk_density

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Fact, Value, Work


def forecast(case: Case, work: Work) -> Outcome:
    """Charge from volume, solid density, flash and loss; depth of the loose flake; volume of the melt (all SI).

    Shrinkage needs no mass of its own: the sizes of the part are those when cold, and so is the density.
    """
    charge = case.middle("formula.charge")
    part = _part(case)
    pressed = _pressed(case, part)
    needed = calc(
        "needed",
        "mass",
        "(part + machining stock) × (1 + flash allowance) + tray loss",
        lambda pressed, flash_allowance, tray_loss=0.0: [pressed[0] * (1.0 + flash_allowance) + tray_loss],
        pressed=pressed,
        flash_allowance=case.middle("formula.flash_allowance"),
        **piece.said(case, "formula.tray_loss"),
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
    facts = {f.name: f for f in (part, pressed, needed, depth, melt, cavity)}
    return Outcome(work.after("charge", charge=charge, mass=charge), facts)


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


def _part(case: Case) -> Fact:
    return calc(
        "finished part",
        "mass",
        "volume of the part × solid density",
        lambda volume, density: [volume * density],
        volume=piece.volume(case),
        density=case.middle("resin:density solid"),
    )


def _pressed(case: Case, part: Fact) -> Fact:
    """The part as it is pressed, which is thicker where it is planed or sanded afterwards."""
    stock = piece.said(case, "formula.machining_stock")
    more: dict[str, Value] = {}
    if stock:
        more = {**stock, "face": piece.area(case), "density": piece.density(case)}
    return calc(
        "pressed piece",
        "mass",
        "finished part + face × machining stock × solid density",
        lambda part, face=0.0, machining_stock=0.0, density=0.0: [part[0] + face * machining_stock * density],
        part=part,
        **more,
    )
