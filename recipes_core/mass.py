"""Whether the mass closes: what was weighed out, against the part and all that is told to come off on the way."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from recipes_core.facts import Fact, calc
from recipes_core.work import NOTHING

if TYPE_CHECKING:
    from recipes_core.case import Case, Value
    from recipes_core.work import Work

TRIMS = "trims"
"""The mark of a process that takes the flash off; without it the flash is still on the part, or snapped off."""


def mass_gap(start: Case, cases: Iterable[Case], work: Work, trimmed: bool) -> Fact:
    """What is left of the charge when all is done, less what stays on the tray, less the part itself, kg.

    A process that weighs the charge says what the finished part and the pressed piece weigh; whatever cuts says
    what it took off. Where nothing was weighed there is nothing to close, and nobody is asked.
    """
    told = {name: fact for case in cases for name, fact in case.facts.items()}
    part, pressed = told.get("finished part"), told.get("pressed piece")
    if part is None or pressed is None or work.mass is NOTHING:
        return Fact("mass gap", "mass", NOTHING, "")
    others: dict[str, Value] = {"tray_loss": start.middle("formula.tray_loss")}
    if not trimmed:
        others |= {"flash_allowance": start.middle("formula.flash_allowance"), "pressed": pressed}
    return calc(
        "mass gap",
        "mass",
        "charge - tray loss - flash - what was cut away - finished part",
        _gap,
        left=work.mass,
        part=part,
        **{name: value for name, value in others.items() if value is not None},
    )


def _gap(
    left: Any, part: Any, tray_loss: float = 0.0, flash_allowance: float = 0.0, pressed: Any = (0.0,)
) -> list[float]:
    mass = left if isinstance(left, float) else left[0]
    return [float(mass - tray_loss - flash_allowance * pressed[0] - part[0])]
