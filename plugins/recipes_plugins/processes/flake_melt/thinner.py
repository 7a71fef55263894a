"""The other cure for a melt that is cut short: the same charge in a thinner layer, solved backwards."""

from __future__ import annotations

from math import ceil, inf
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Change, Dimension, Given, Way, number, show

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

SHARES = (1.0, 0.85, 0.7, 0.6, 0.5, 0.4, 0.3, 0.25)
LATE = 0.95


def loading_in_time(r: Reading, time: float) -> float | None:
    """The loading, kg/m2, that is through in ``time`` s in nineteen of twenty plausible shops.

    One batch over a ladder of loadings, then a straight line between the two that enclose the answer; None where
    even a quarter of the layer would not be through.
    """
    through = r.fact("melting").value.by_loading(SHARES)[1]
    late = [sorted(row[1:])[ceil(LATE * (len(row) - 1)) - 1] for row in through.tolist()]
    now = r.fact("loading").nominal
    for more, less, slow, fast in zip(SHARES, SHARES[1:], late, late[1:], strict=False):
        if fast <= time:
            reach = 0.0 if slow == inf else (time - fast) / (slow - fast)
            return float(now * (less + reach * (more - less)))
    return None


def thinner_layer(r: Reading, target: float) -> Way:
    """The tray, and the layers it is folded into, that bring the loading down to ``target``.

    The stack that goes into the mould stays as it is: the tray grows by whole layers along the side that is folded.
    """
    now, name = r.fact("loading").nominal, "equipment.tray.length"
    fold = next((step for step in r.case.recipe.steps if step.process == "fold"), None)
    layers = r.case.recipe.get((*fold.path, "layers"), "fold") if fold else None
    if fold is None or not isinstance(layers, Given):
        length = ceil(r.si(name) * now / target * 1000.0 - 1e-6)
        changes: tuple[Change, ...] = (Change(r.path(name), f"{length} mm"),)
        return _way(target, f"a tray {show(length / 1000.0, Dimension.LENGTH)} long", changes)
    old = int(layers.value)
    new = ceil(old * now / target - 1e-9)
    if not _folds_along_length(r, old):
        name = "equipment.tray.width"
    length = ceil(r.si(name) * new / old * 1000.0 - 1e-6)
    side = "long" if name.endswith("length") else "wide"
    words = f"a tray {show(length / 1000.0, Dimension.LENGTH)} {side}, folded in {new}"
    changes = (Change(r.path(name), f"{length} mm"), Change((*fold.path, "layers"), str(new)))
    return _way(target, words, changes)


def _way(target: float, tray: str, changes: tuple[Change, ...]) -> Way:
    return Way(f"spread the charge to {show(target, Dimension.AREAL_MASS)} or less ({tray})", changes)


def _folds_along_length(r: Reading, layers: int) -> bool:
    """Whether the tray's length is what is folded: so that the stack fits the cavity, where that is known."""
    length, width = r.si("equipment.tray.length"), r.si("equipment.tray.width")
    sides = [r.raw(f"equipment.mould.cavity.{side}") for side in ("length", "width")]
    if not all(isinstance(side, Given) for side in sides):
        return True
    room = sorted(number(side) for side in sides)
    return all(a <= b + 1e-4 for a, b in zip(sorted((length / layers, width)), room, strict=True))
