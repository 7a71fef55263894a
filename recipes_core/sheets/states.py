"""Temperatures that mean the same for every plastic, read from what its sheet states.

A semicrystalline plastic melts and freezes over a range; an amorphous one has neither, and goes by its glass
transition and by the heat it needs to fuse. The sheet says which kind it is. Where the whole range may lie
elsewhere (``melting shift``, ``freezing shift``) the cautious end is taken.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from recipes_core.facts import Basis, Given, Open, missing

if TYPE_CHECKING:
    from recipes_core.sheets.sheet import Sheet


@dataclass(frozen=True)
class State:
    """Where to read a state: the entry of either kind, K below the amorphous one, and which end is cautious."""

    semicrystalline: str
    amorphous: str
    less: float = 0.0
    hottest: bool = False


STATES: Mapping[str, State] = MappingProxyType({
    "surface melted": State("melting peak", "window foot", hottest=True),
    "melted": State("melting end", "window foot", hottest=True),
    "stiffening": State("freezing start", "forming foot"),
    "set": State("freezing peak", "glass transition"),
    "solid": State("freezing end", "glass transition", less=10.0),
})  # fmt: skip
"""Solid is 10 K under the glass transition (judgement); stiffening is where a skin no longer fuses."""


HEAT_CAP = "heat cap"
"""The hottest that an oven may be set: the oven-air cap, or for a plastic that is only bent its bending line."""


def state(sheet: Sheet, name: str) -> Given | Open:
    """The temperature of one of `STATES`, or the `HEAT_CAP`, in K; open where the sheet lacks the entry."""
    if name == HEAT_CAP:
        return sheet.get("oven-air cap" if sheet.find("bending line") is None else "bending line")
    kind = sheet.get("kind")
    if isinstance(kind, Open):
        return kind
    wanted = STATES[name]
    if kind.value == "amorphous":
        value = sheet.get(wanted.amorphous)
        if isinstance(value, Open) or not wanted.less:
            return value
        derived = replace(value.origin, basis=Basis.DERIVED)
        return Given(value.value - wanted.less, f"{value.text} less {wanted.less:g} K", derived)
    if kind.value != "semicrystalline":
        return missing(
            (f"{sheet.what} sheet", sheet.id, "kind"), f"the data sheet of {sheet.id} does not say how it melts"
        )
    value = sheet.get(wanted.semicrystalline)
    shift = f"{wanted.semicrystalline.split()[0]} shift"
    if isinstance(value, Open) or sheet.find(shift) is None:
        return value
    ends = sheet.range(shift)
    if isinstance(ends, Open):
        return ends
    by = ends.value[1] if wanted.hottest else ends.value[0]
    return Given(value.value + by, f"{value.text}, {by:+g} K", replace(value.origin, basis=Basis.DERIVED))
