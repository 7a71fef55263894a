"""What shredding needs and leaves: how far the blades lie back, what is cut, what room the flake takes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from recipes_core.plugin_api import Fact, Given, Outcome, calc
from recipes_plugins import plastic, profiles
from recipes_plugins.processes.shred.reach import distance

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work


def forecast(case: Case, work: Work) -> Outcome:
    """The reach to the blades, the plastics that are mixed for good, and the flake: its size, its room, its limit."""
    facts = (
        _reach(case),
        _shredded(case),
        _room(case, "room for a kilogram", None),
        _room(case, "room for the charge", case.middle("formula.charge")),
        _size(case),
        _coarsest(case),
    )
    return Outcome(work.after("flake"), {f.name: f for f in facts})


def _reach(case: Case) -> Fact:
    length = case.get("machine.opening.length")
    return calc(
        "reach needed",
        "length",
        "ISO 13857:2019, Table 4: least distance to the blades behind the opening",
        lambda shape, size, length=None: [
            distance(shape, profiles.last(size), None if length is None else profiles.last(length))
        ],
        shape=case.get("machine.opening.shape"),
        size=case.get("machine.opening.size"),
        **({"length": length} if isinstance(length, Given) else {}),
    )


def _shredded(case: Case) -> Fact:
    """Each lot with its plastic and family; both are empty where nobody can say what it is."""
    lots = [replace(case, lot=lot) for lot in case.recipe.lots]
    named = {lot.lot: lot.get("lot.resin") for lot in lots}
    known = {n: v.value for n, v in named.items() if isinstance(v, Given) and v.value != "mixed"}
    families = {f"lot {lot.lot}": lot.get("resin:family") for lot in lots if lot.lot in known}
    return calc(
        "plastics shredded",
        "record",
        "",
        lambda **family: [(n, str(known.get(n, "")), family.get(f"lot {n}", "")) for n in named],
        **families,
    )


def _room(case: Case, name: str, mass: Value) -> Fact:
    return calc(
        name,
        "volume",
        "mass ÷ bulk density of the loose flake",
        lambda bulk, mass=1.0: [mass / bulk],
        bulk=plastic.bulk_density(case),
        **({} if mass is None else {"mass": mass}),
    )


def _size(case: Case) -> Fact:
    """What the step says of its flake, or the largest that a lot says."""
    own = case.get("flake_size")
    lots = [replace(case, lot=lot).get("lot.flake_size") for lot in case.recipe.lots]
    sizes = [own] if isinstance(own, Given) else lots or [own]
    return calc(
        "flake size",
        "length",
        "",
        lambda **sizes: [max(profiles.last(size) for size in sizes.values())],
        **{f"flake {n}": size for n, size in enumerate(sizes)},
    )


def _coarsest(case: Case) -> Fact:
    """The largest flake that still lies flat in the part and in the bed on the tray."""
    shape = case.get("part.shape")
    custom = isinstance(shape, Given) and shape.value == "custom"

    def coarsest(thickness: float, charge: float, bulk: float, length: float, width: float) -> Any:
        return [min(thickness, charge / (bulk * length * width))]

    return calc(
        "coarsest flake",
        "length",
        "the thickness of the part, or the depth of the bed where that is less",
        coarsest,
        thickness=case.middle("part.thickest" if custom else "part.thickness"),
        charge=case.middle("formula.charge"),
        bulk=plastic.bulk_density(case),
        length=case.middle("equipment.tray.length"),
        width=case.middle("equipment.tray.width"),
    )
