"""Whether a plastic comes off a liner: what the liner's sheet says of each resin of the charge."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from recipes_core.facts import Given, Open, missing

if TYPE_CHECKING:
    from recipes_core.sheets.sheet import Sheet

GRIP = "grip"
"""The name by which a rule asks; the answer is one of these two words."""
STICKS, LETS_GO = "sticks", "lets go"


def grip(liner: Sheet, resins: Iterable[Given]) -> Given | Open:
    """`STICKS` if any of the resins sticks to the liner, `LETS_GO` if it lets go of all of them.

    Open where the sheet says nothing of one of them: what nobody has tried may stick.
    """
    sticky, loose = (_listed(liner, name) for name in ("sticks to", "lets go of"))
    found = None
    for resin in resins:
        if sticky is not None and resin.value in sticky.value:
            return replace(sticky, value=STICKS)
        if loose is None or resin.value not in loose.value:
            question = f"the data sheet of {liner.id} does not say whether {resin.value} comes off it"
            return missing(("liner sheet", liner.id, "lets go of"), question)
        found = replace(loose, value=LETS_GO)
    return found or missing((), "")


def _listed(liner: Sheet, name: str) -> Given | None:
    value = liner.get(name)
    return value if isinstance(value, Given) else None
