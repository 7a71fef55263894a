"""What is in one charge besides its main resin: each lot against the largest one, by what the sheets say of the pair.

A pair is *same*, *tolerated* up to a share of the smaller one, *separates* (it floats or sinks apart in water and is
sorted out before), or *never*; a pair that the sheet of the main resin does not name is never mixed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from recipes_core.case import Case, number
from recipes_core.facts import Given, Open, missing
from recipes_core.findings import Path

if TYPE_CHECKING:
    from collections.abc import Sequence

    from recipes_core.recipe import Recipe
    from recipes_core.sheets import Sheet


class Relation(StrEnum):
    """How two resins get on in one melt."""

    SAME = "same"
    TOLERATED = "tolerated"
    SEPARATES = "separates"
    NEVER = "never"


@dataclass(frozen=True)
class Pair:
    """A lot beside the main resin: its place, both names, how they get on, and the share of the lot in the charge."""

    path: Path
    minor: str
    main: str
    relation: Relation
    share: float
    tolerated: Given | None = None


def relation(main: Sheet, other: str) -> tuple[Relation, Given | None]:
    """How ``other`` gets on in ``main``, with the largest share that is tolerated where there is one."""
    if other == main.id:
        return Relation.SAME, None
    apart = main.get("separates")
    share = main.get(f"tolerated, {other}") if main.find(f"tolerated, {other}") is not None else None
    if isinstance(share, Given) and number(share) > 0.0:
        return Relation.TOLERATED, share
    if isinstance(apart, Given) and other in apart.value:
        return Relation.SEPARATES, None
    return Relation.NEVER, share if isinstance(share, Given) else None


def pairs(recipe: Recipe, case: Case) -> tuple[Pair, ...] | Open:
    """Every lot whose resin is not the main one; open where a resin, a sheet or a share is not known."""
    named = case.resin_ids()
    lots = [("formula", "feedstock", lot) for lot in recipe.lots]
    if len({n.value if isinstance(n, Given) else "" for n in named}) < 2:
        return ()
    shares = [recipe.get((*path, "share")) for path in lots]
    for value in (*named, *shares):
        if isinstance(value, Open):
            return value
    by_resin = _by_resin(named, shares)
    main = max(by_resin, key=lambda name: by_resin[name])
    sheet = case.library.resins.get(main)
    if sheet is None:
        return ()  # that no sheet goes by this name is asked elsewhere
    found = []
    for path, name in zip(lots, named, strict=True):
        other = str(name.value) if isinstance(name, Given) else ""
        if other != main:
            how, most = relation(sheet, other)
            found.append(Pair(path, other, main, how, by_resin[other], most))
    return tuple(found)


def melt_flow_ratio(recipe: Recipe, case: Case) -> tuple[Path, float] | Open:
    """The stiffest lot against the runniest of the same resin: the place of the runniest, and the ratio of melt flows.

    Tests of two resins run at two temperatures and are not compared. Open without a question where there is only
    one lot; open with one where a lot says neither its grade nor its melt flow.
    """
    named = case.resin_ids()
    names = [n.value if isinstance(n, Given) else None for n in named]
    worst: tuple[Path, float] | None = None
    for name in {n for n in names if n is not None and names.count(n) > 1}:
        flows = []
        for lot in (lot for lot, n in zip(recipe.lots, names, strict=True) if n == name):
            flow = _melt_flow(recipe, case, lot)
            if isinstance(flow, Open):
                return flow
            flows.append((flow, lot))
        ratio = max(flows)[0] / min(flows)[0]
        if worst is None or ratio > worst[1]:
            worst = ("formula", "feedstock", max(flows)[1]), ratio
    return worst or missing((), "")


def _melt_flow(recipe: Recipe, case: Case, lot: int) -> float | Open:
    stated = recipe.get(("formula", "feedstock", lot, "melt_flow", "value"))
    if isinstance(stated, Given):
        return float(str(stated.value).split(maxsplit=1)[0])
    value = replace(case, lot=lot).get("resin:melt flow")
    return value if isinstance(value, Open) else 600_000 * number(value)


def _by_resin(named: Sequence[Given | Open], shares: Sequence[object]) -> dict[str, float]:
    total: dict[str, float] = {}
    for name, share in zip(named, shares, strict=True):
        if isinstance(name, Given):
            total[str(name.value)] = total.get(str(name.value), 0.0) + (
                number(share) if isinstance(share, Given) else 0.0
            )
    return total
