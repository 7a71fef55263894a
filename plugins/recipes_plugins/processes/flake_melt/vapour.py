"""What hot plastic may give off: its share of what can flash in a closed oven, and the air that a room would need.

Orders of magnitude, never an exposure. What this plastic gives off nobody has measured, so each number is told for
10, 100 and 1000 µg/g (judgement; the few published figures of small machines lie inside or below).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from recipes_core.physics import ventilation
from recipes_core.plugin_api import Dimension, Fact, Given, Open, Table, calc, missing, number, show, upper

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value

FACTORS = {"10 µg/g": 1e-5, "100 µg/g": 1e-4, "1000 µg/g": 1e-3}
MIXINGS = (3.0, 10.0)


class Vapour(NamedTuple):
    """The vapour that counts for a family: kg/mol, lower flammable limit (share of air at 25 °C), and what the air
    of a room is to be kept at (kg/m³), with the words for both.
    """

    name: str
    molar_mass: float
    flammable: float
    target: float
    aim: str


VAPOURS = {
    "styrenic": Vapour("styrene", 104.15e-3, 0.009, 8.519e-6, "styrene at 2 ppm, a tenth of a published limit"),
    "polyolefin": Vapour("light alkanes", 72.15e-3, 0.011, 0.08e-6, "all fume at 0.08 mg/m³, proposed for irritation"),
    "polyester": Vapour("acetaldehyde", 44.05e-3, 0.04, 4.504e-6, "acetaldehyde at 2.5 ppm, a tenth of a ceiling"),
}
"""Which vapour: HSE Plastics Processing Sheet 13, 2002, for styrenics and polyolefins (published), memory for
polyesters. Pentane stands for the light alkanes (judgement). Flammable limits: the lower of IEC 60079-20-1 (2010) and
NFPA 497 (2008), as an open data library carries them (published, secondary). Targets: a tenth (judgement) of the 20 ppm
TLV of a 2008 OSHA page and of California's 25 ppm ceiling, Table AC-1 (published); and for polypropylene fume what
AIHA J. 55 (1994) 924, abstract, proposes (published), which is no legal limit."""


def oven_facts(case: Case, charge: Value, oven_air: Fact) -> list[Fact]:
    """The vapour of the charge in the closed oven, as a share of what can flash there; one fact for each guess.

    Nothing is computed for an oven that lets vapour out: what stays in it is not known.
    """
    vented = case.get("equipment.oven.vented")
    leaves = isinstance(vented, Given) and vented.value == "yes"
    inputs = {
        "vapours": _vapours(case),
        "charge": charge,
        "vented": None if leaves else vented,
        "cavity": None if leaves else case.middle("equipment.oven.cavity"),
        "oven_air": oven_air,
    }
    return [_oven_fact(name, factor, inputs) for name, factor in FACTORS.items()]


def _oven_fact(name: str, factor: float, inputs: dict[str, Value]) -> Fact:
    def share(vapours: Any, charge: Any, cavity: float, vented: str, oven_air: Any) -> Any:
        return np.max([_of_limit(v, factor * charge, oven_air, cavity) for v in vapours], axis=0)

    return calc(f"vapour at {name}", "share", "vapour by volume ÷ flammable limit, both hot", share, **inputs)


def _of_limit(vapour: Vapour, mass: float, kelvin: Any, cavity: float) -> Any:
    held = ventilation.vapour_share(mass, vapour.molar_mass, kelvin, cavity)
    return held / ventilation.hot_flammable_limit(vapour.flammable, kelvin)


def _vapours(case: Case) -> Given | Open:
    families = case.get("resins:family")
    if not isinstance(families, Given):
        return families if isinstance(families, Open) else missing((), "")
    for family in families.value:
        if family not in VAPOURS:
            question = f"Which vapour does it give off? For a {family} plastic none is on record: not computed yet."
            return missing(("formula", "feedstock"), question)
    return Given([VAPOURS[family] for family in families.value], families.text, families.origin)


def air_tables(case: Case, charge: Value, at_least: Value) -> tuple[Any, ...]:
    """The air that a room would need, where the charge and the time are known and the work is not outdoors."""
    vapours, place = _vapours(case), case.get("site.place")
    if isinstance(place, Given) and place.value == "outdoors":
        return ()
    if not (isinstance(vapours, Given) and isinstance(charge, Given) and isinstance(at_least, Given)):
        return ()
    room = case.middle("site.room_volume")
    volume = number(room) if isinstance(room, Given) else None
    worst = min(vapours.value, key=lambda vapour: float(vapour.target))
    return (lambda: _air_table(worst, upper(charge), number(at_least), volume),)


def _air_table(vapour: Vapour, charge: float, time: float, volume: float | None) -> Table:
    rows = []
    for factor in FACTORS.values():
        release = ventilation.generation(factor, charge, time)
        air = [float(ventilation.dilution_flow(release, vapour.target, k)) * 3600.0 for k in MIXINGS]
        changes = [] if volume is None else [air[-1] / volume]
        rows.append(tuple(_two_digits(value) for value in (factor * 1e6, *air, *changes)))
    columns = [("given off, µg/g", "number"), *((f"m³/h at K {k:g}", "number") for k in MIXINGS)]
    if volume is not None:
        columns.append((f"air changes an hour at K {MIXINGS[-1]:g}", "number"))
    room = "" if volume is None else f", the room holds {show(volume, Dimension.VOLUME)}"
    return Table(
        "the air that a room would need without a hood, for information",
        tuple(columns),
        tuple(rows),
        f"Take the fume away at the oven door and the press first: air in the room only thins what was missed. To keep "
        f"{vapour.aim}, if {show(charge, Dimension.MASS)} give it off evenly over {show(time, Dimension.TIME)}{room}. "
        f"K allows for corners that the air does not reach, from 1 to 10. Nobody has measured what this plastic gives "
        f"off, so there are three guesses; a fan of a shop changes the air 5 to 20 times an hour.",
    )


def _two_digits(value: float) -> float:
    return float(f"{value:.2g}")
