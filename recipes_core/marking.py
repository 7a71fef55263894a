"""The mark on the finished part: what it is made of, and how much of that is recycled.

ISO 11469 puts the symbols of ISO 1043-1 between ``>`` and ``<``, the main plastic first and others after a plus;
``(REC60)`` says that 60 % by mass at least is recycled. What nobody can vouch for gets no mark: a wrong one sends the
part into the wrong melt for good.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import floor
from typing import TYPE_CHECKING

from recipes_core.case import number
from recipes_core.facts import Given

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.recipe import Recipe

RECYCLED = frozenset({"post-consumer", "production scrap"})
"""Own regrind goes round in one shop and is not counted (memory, commonly quoted from ISO 14021)."""


def mark(parts: Iterable[tuple[str, float]], recycled: float) -> str:
    """The mark of plastics (symbol, share by mass), of which the share ``recycled`` (0 to 1) is recycled.

    >>> mark([("PE-HD", 1.0)], 1.0)
    '>PE-HD(REC100)<'
    """
    by_symbol: dict[str, float] = {}
    for symbol, share in parts:
        by_symbol[symbol] = by_symbol.get(symbol, 0.0) + share
    symbols = sorted(by_symbol, key=lambda symbol: -by_symbol[symbol])
    percent = floor(100.0 * recycled + 1e-9)  # a minimum, so never rounded up
    return f">{'+'.join(symbols)}{f'(REC{percent})' if percent else ''}<"


def mark_of(recipe: Recipe, case: Case) -> tuple[str, tuple[str, ...]]:
    """The mark, and why there is none: for each lot what nobody knows about it."""
    parts, recycled, unknown = [], 0.0, []
    for lot, named in zip(recipe.lots, case.resin_ids(), strict=False):
        share = recipe.get(("formula", "feedstock", lot, "share"))
        origin = recipe.get(("formula", "feedstock", lot, "origin"))
        sheet = case.library.resins.get(str(named.value)) if isinstance(named, Given) else None
        symbol = sheet.get("symbol") if sheet else None
        if not (isinstance(symbol, Given) and isinstance(share, Given) and isinstance(origin, Given)):
            gaps = (("its plastic", symbol), ("its share", share), ("where it comes from", origin))
            gone = [what for what, value in gaps if not isinstance(value, Given)]
            unknown.append(f"lot {lot + 1}: {', '.join(gone)}")
            continue
        if reason := _untraced(recipe, lot):
            unknown.append(f"lot {lot + 1}: {reason}")
            continue
        parts.append((str(symbol.value), number(share)))
        recycled += number(share) if origin.value in RECYCLED else 0.0
    return (mark(parts, recycled), ()) if parts and not unknown else ("", tuple(unknown or ["no lot is described"]))


def _untraced(recipe: Recipe, lot: int) -> str:
    """Why a lot whose plastic is named cannot be vouched for: fillers of unknown amount, a blend without names."""
    filled = recipe.raw(("formula", "feedstock", lot, "filled"))
    if filled not in (None, "not seen"):
        return "how much filler is in it"
    parents = recipe.raw(("formula", "feedstock", lot, "parents"))
    for parent in parents if isinstance(parents, list) else ():
        name = parent.get("lot") if isinstance(parent, dict) else None
        if name in (None, "unknown"):
            return "one of the lots it was blended from"
    return "the lots it was blended from" if parents == "unknown" else ""
