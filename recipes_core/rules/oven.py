"""Rules on the oven as a machine: what else it is used for, what cuts it off, and how it is wired."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, heats, over, says, under
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

CONTINUOUS = 3 * 3600.0
CHECK_LASTS = 365
DEDICATED = "equipment.oven.dedicated"
RETURNED = tuple(f"equipment.{tool}.food_again" for tool in ("tray", "mould", "shredder", "planer", "sander", "saw"))


def _cutout(r: Reading) -> Iterator[Hit]:
    none = r.word("equipment.oven.cutout") == "none"
    if r.word("equipment.oven.built") in ("converted", "home-built"):
        if r.word("equipment.oven.cutout") != "independent manual reset":
            yield Hit(
                "equipment.oven.cutout",
                r.word("equipment.oven.cutout"),
                "an independent cut-out with manual reset",
                level=Level.ERROR,
            )
    elif none:
        yield Hit("equipment.oven.cutout", "none", "a built-in limiter at least", level=Level.WARNING)


def _circuit(r: Reading) -> Iterator[Hit]:
    rated = r.si("equipment.oven.supply.volts") * r.si("equipment.oven.supply.amps")
    long = r.known("equipment.oven.supply.continuous_for") and (
        r.upper("equipment.oven.supply.continuous_for") >= CONTINUOUS
    )
    limit = rated * 0.8 if long else rated
    yield from over("equipment.oven.power", r.upper("equipment.oven.power"), limit, Dimension.POWER)


def _thermometer(r: Reading) -> Iterator[Hit]:
    name = "equipment.thermometer.type"
    if r.word(name) == "none":
        yield Hit(name, "none", "a second thermometer")
        return
    checked = r.word("equipment.thermometer.checked")
    try:
        age = (r.today - date.fromisoformat(checked)).days
    except ValueError:
        yield Hit("equipment.thermometer.checked", checked, "a date written like 2026-05-01")
        return
    if age > CHECK_LASTS:
        yield Hit("equipment.thermometer.checked", f"{age} days ago", f"within {CHECK_LASTS} days")
    elif age < 0:
        yield Hit("equipment.thermometer.checked", checked, "a day that has already been")


def _weak(r: Reading) -> Iterator[Hit]:
    floor = r.fact("heater needs").nominal
    yield from under(
        "at_least",
        r.si("at_least"),
        floor,
        Dimension.TIME,
        do=f"give it at least {show(floor, Dimension.TIME)}, or melt less at a time",
    )


def _two_settings(r: Reading) -> Iterator[Hit]:
    for path, found, other in r.fact("oven clashes").numbers:
        if above(abs(found - other), 0.0, Dimension.TEMPERATURE_DIFFERENCE):
            yield Hit(
                path,
                show(found, Dimension.TEMPERATURE),
                show(other, Dimension.TEMPERATURE) + " in the same oven",
            )


def _food(r: Reading) -> Iterator[Hit]:
    yield from says(r, DEDICATED, ("shared with food", "to be returned to food"), "for plastic, now and later")
    for name in RETURNED:
        yield from says(r, name, ("yes",), "never for food again")


RULES = (
    Rule(
        "food-oven",
        Level.ERROR,
        Scope.RECIPE,
        message="What was used for plastic can never touch food again.",
        checks="whether the oven is shared with food, or oven, tray, mould or machine will be given back to it",
        why="residues stay on the walls and go into the food",
        do="keep oven, tray, mould and machines for plastic alone and label them so",
        sources=("common practice",),
        reads=("fact:heating steps",),
        test=_food,
        also=lambda r: () if any(r.word(name) == "yes" for name in RETURNED) else (DEDICATED,),
        may_read=(DEDICATED, *RETURNED),
        when=heats,
        absolute=True,
    ),
    Rule(
        "no-cutout",
        Level.ERROR,
        Scope.RECIPE,
        message="Nothing stops this oven when its thermostat sticks.",
        checks="the cut-out against how the oven was built",
        why="a stuck thermostat heats on until something burns",
        do="have a competent person fit a cut-out with manual reset that does not share a part with the thermostat",
        sources=("common practice", "memory: standards for ovens that heat combustible goods"),
        reads=("equipment.oven.built", "equipment.oven.cutout", "fact:heating steps"),
        test=_cutout,
        when=heats,
    ),
    Rule(
        "extension-lead",
        Level.ERROR,
        Scope.RECIPE,
        message="The oven hangs on a lead that is not made for it.",
        checks="how the oven is plugged in",
        why="a heater runs for hours; leads, strips and adapters overheat and burn",
        do="plug it into its own receptacle; take damaged leads out of service",
        sources=("common practice: shop rules on extension leads",),
        reads=("equipment.oven.cord",),
        test=lambda r: says(
            r,
            "equipment.oven.cord",
            ("extension", "strip", "adapter", "damaged"),
            "its own receptacle, lead undamaged",
        ),
    ),
    Rule(
        "circuit-overloaded",
        Level.ERROR,
        Scope.RECIPE,
        message="The circuit is too small for this oven.",
        checks="power against volts times amps; four fifths of it where it runs three hours or more",
        why="wiring that is overloaded for hours overheats inside the wall",
        do="use another circuit; a licensed electrician and the local code decide",
        sources=("published: NEC 210.20(A), United States; other places have their own limit",),
        reads=(
            "equipment.oven.power",
            "equipment.oven.supply.volts",
            "equipment.oven.supply.amps",
            "fact:heating steps",
        ),
        test=_circuit,
        may_read=("equipment.oven.supply.continuous_for",),
        when=heats,
    ),
    Rule(
        "wiring-by-the-shop",
        Level.ERROR,
        Scope.RECIPE,
        message="Mains wiring is not for the shop to do.",
        checks="who works on the wiring of the oven",
        why="mains and heaters kill and burn; a mistake may show only weeks later",
        do="leave wiring to a licensed electrician, with a permit where local law asks for one",
        sources=("common practice",),
        reads=("equipment.oven.work_on_wiring",),
        test=lambda r: says(r, "equipment.oven.work_on_wiring", ("by the shop",), "a licensed electrician"),
        absolute=True,
    ),
    Rule(
        "element-faces-plastic",
        Level.ERROR,
        Scope.RECIPE,
        message="The glowing element looks straight at the plastic.",
        checks="whether a tray or screen stands between element and plastic",
        why="an element runs at 400-700 °C; the skin scorches and a drip can catch fire",
        do="put a screen or tray between them, also along the path of a drip",
        sources=(
            "memory: element temperatures",
            "published: flash ignition of polyethylene from 341 °C (Hilado 1998)",
        ),
        reads=("equipment.oven.element", "fact:heating steps"),
        test=lambda r: says(r, "equipment.oven.element", ("faces the plastic",), "screened"),
        when=heats,
    ),
    Rule(
        "thermometer-doubtful",
        Level.WARNING,
        Scope.RECIPE,
        message="Nobody can say how hot it really was.",
        checks="a second thermometer, and the date of its last check",
        why="dials drift; every time in the recipe rests on this one number",
        do="put a second thermometer at tray height and check it in boiling water and in ice",
        sources=("common practice", "judgement: a check lasts a year"),
        reads=("equipment.thermometer.type", "fact:heating steps"),
        test=_thermometer,
        also=lambda r: () if r.word("equipment.thermometer.type") == "none" else ("equipment.thermometer.checked",),
        may_read=("equipment.thermometer.checked",),
        when=heats,
    ),
    Rule(
        "heater-too-weak",
        Level.ERROR,
        Scope.STEP,
        message="The heater cannot deliver this much heat in this time.",
        checks="at_least against the heat that plastic and metal need, divided by the power of the oven or the platens",
        why="the oven sags below its setting and every other time in the recipe is too short",
        do="allow more time, melt less at a time, or use a stronger heater",
        sources=("derived: energy balance",),
        reads=("at_least", "fact:heater needs"),
        test=_weak,
        on=("heats",),
    ),
    Rule(
        "oven-has-two-settings",
        Level.ERROR,
        Scope.RECIPE,
        message="One oven is asked for two temperatures at a time.",
        checks="the settings of steps that run alongside each other in the oven, or go back into it",
        why="one of the two steps will not get what it asks for",
        do="give both the same setting, or run them one after the other",
        sources=("derived: one oven has one temperature",),
        reads=("fact:oven clashes",),
        test=_two_settings,
    ),
)
