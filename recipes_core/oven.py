"""The air in the oven: what the dial says, what it may be, and the hottest that must be believed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from recipes_core.case import number, upper
from recipes_core.facts import Fact, Given, assumed, calc, missing
from recipes_core.spread import members

if TYPE_CHECKING:
    from recipes_core.case import Case

UNMEASURED = 20.0
READING = 5.0
CREDIBLE = 30.0
ORDINARY_SWING = 28.0
MACHINES = {"oven": "equipment.oven", "platens": "equipment.press.platen"}
"""What is set by each of the two settings that a heating step may have."""
FARTHEST = 60.0
"""A reading further off its setting is a slip of the pen, or an oven to be mended first (judgement)."""
COLDEST, HOTTEST = 313.15, 573.15
"""40 and 300 °C: no forecast is made below or above; nothing dries, or every plastic breaks down (judgement)."""
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def oven_air(case: Case) -> dict[str, Fact]:
    """The facts ``oven air``, ``measured maximum`` and ``air at worst`` (K) of a step that sets an oven or platens.

    Not measured: the air is within 20 K of the setting, and air 30 K hotter must be believed. With a dated
    reading: the setting corrected by it, within 5 K and half the swing; the hottest is the reading and half the
    swing. All of these widths are judgement.
    """
    setting, machine = case.get("setting"), MACHINES[case.setting]
    if not _measured(case, machine):
        error = assumed(UNMEASURED, "± 20 K, as the oven was not measured")
        air = calc(
            "oven air",
            "temperature",
            "",
            lambda oven, oven_error: members("oven air", oven, oven - oven_error, oven + oven_error),
            oven=_computable(case),
            oven_error=error,
        )
        credible = calc(
            "air at worst",
            "temperature",
            "setting + 30 K",
            lambda oven: _one(oven + CREDIBLE),
            oven=_highest(setting),
        )
        maximum = Fact("measured maximum", "record", missing((), ""), "")
        return {"oven air": air, "air at worst": credible, "measured maximum": maximum}
    at, reads = case.middle(f"{machine}.measured.set"), case.middle(f"{machine}.measured.reads")
    swing = case.get(f"{machine}.swing")
    if not isinstance(swing, Given):
        swing = assumed(ORDINARY_SWING, "28 K, as nobody measured it")
    inputs = {"oven": case.middle("setting"), "set": at, "reads": _credible(case, at, reads), "swing": swing}
    air = calc("oven air", "temperature", "", _corrected, **{**inputs, "oven": _computable(case)})
    maximum = calc(
        "measured maximum", "record", "reading and half the swing",
        lambda oven, set, reads, swing: _one(oven + reads - set + 0.5 * _high(swing)),
        **{**inputs, "oven": _highest(setting)},
    )  # fmt: skip
    credible = Fact("air at worst", "temperature", maximum.value, maximum.equation, maximum.inputs)
    return {"oven air": air, "air at worst": credible, "measured maximum": maximum}


def _computable(case: Case) -> Any:
    """The setting for the forecast (the middle of a range), which stops where no plastic of the trade survives."""
    setting = case.get("setting")
    if isinstance(setting, Given) and not COLDEST <= upper(setting) <= HOTTEST:
        question = (
            f"Is it really {setting.text}, or was another unit meant? Only 40 to 300 °C (104 to 572 °F) is computed."
        )
        return missing(setting.origin.path, question)
    return case.middle("setting")


def _credible(case: Case, at: Any, reads: Any) -> Any:
    """The reading, unless nobody believes it, or it puts the air where none is computed."""
    setting = _computable(case)
    if not all(isinstance(v, Given) for v in (setting, at, reads)):
        return reads
    off = number(reads) - number(at)
    if abs(off) <= FARTHEST and number(setting) + off <= HOTTEST:
        return reads
    question = (
        f"Does it really read {reads.text} when it is set to {at.text}? A dial that is off by more than 60 K (108 F°) "
        "is not computed, nor is air above 300 °C (572 °F)."
    )
    return missing(reads.origin.path, question)


def _measured(case: Case, machine: str) -> bool:
    parts = [case.get(f"{machine}.measured.{name}") for name in ("set", "reads", "on")]
    return all(isinstance(p, Given) for p in parts) and bool(_DATE.fullmatch(str(parts[2].value)))  # type: ignore[union-attr]


def _corrected(oven: float, set: float, reads: float, swing: Any) -> Any:
    centre = oven + reads - set
    width = READING + 0.5 * _high(swing)
    return members("oven air", centre, centre - width, centre + width)


def _highest(value: Any) -> Any:
    return Given(upper(value), value.text, value.origin) if isinstance(value, Given) else value


def _high(value: Any) -> float:
    return float(value[-1]) if isinstance(value, tuple) else float(value)


def _one(value: float) -> Any:
    import numpy as np

    return np.array([value])
