"""A layer on its way to molten, in an oven or between platens, and what is asked of it: lent to processes."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.grid import MELT_STEPS_PER_DURATION
from recipes_core.physics.history import History
from recipes_core.physics.slab import Slab
from recipes_core.physics.solver import solve
from recipes_core.plugin_api import Dimension, Fact, Given, calc, upper
from recipes_plugins import pictures, profiles

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Curves, Value, Work

Array = NDArray[Any]

MORE_STEPS = 60
"""Steps after the expected melting time; they grow by a tenth each."""
LINES = {
    "looks melted": "resin:surface melted",
    "molten": "resin:melted",
    "oven window, lower end": "resin:window low",
    "oven window, upper end": "resin:window high",
    "ceiling of the surface": "resin:surface ceiling",
    "limit of the liner": "liners:limit",
}
"""What a layer is melted between, and the entry of the sheets that each is read from."""
NEVER = 2.0
"""Heat less than 2 K above the end of melting does not get a layer through in any useful time."""


@dataclass
class Melted(ABC):
    """The solved history of a layer that is heated until it is molten; ``level`` (K) is where all of it is."""

    history: History = field(init=False)

    @property
    @abstractmethod
    def layer(self) -> int:
        """The layer of the slab that is the plastic."""

    @property
    @abstractmethod
    def level(self) -> float:
        """The temperature from which on the plastic is molten, K."""

    def through(self) -> Array:
        """When the coldest of the layer is molten, s."""
        return self.history.crossing(self.history.coldest(self.layer), self.level)

    def coldest(self, time: float | Array) -> Array:
        """The coldest plastic after ``time``, K."""
        return profiles.at(self.history.times, self.history.coldest(self.layer), time)

    def hottest(self, time: float | Array) -> Array:
        """The hottest plastic after ``time``, K."""
        return profiles.at(self.history.times, self.history.hottest(self.layer), time)

    def profile(self, time: float | Array) -> Array:
        """The temperatures through the layer after ``time``, K, (cells, members)."""
        cells = self.history.slab.cells_of(self.layer)
        return profiles.at(self.history.times, self.history.temperature[:, cells], time)

    def aged(self, time: float, below: float, above: float, reference: float) -> Array:
        """Seconds at the reference temperature that age as much as the hottest plastic did until ``time``."""
        series = self.history.hottest(self.layer)
        return profiles.aged_until(self.history.times, series, time, below, above, reference)

    def follow(self, slab: Slab, start: Array, heat: Array, expected: Array, until: float | Array) -> History:
        """Until all is molten in every member whose ``heat`` (K) can melt it, and ``until`` (s) is past.

        ``expected`` (members,) s is roughly how long it takes, to choose the steps by.
        """
        cells, reachable = slab.cells_of(self.layer), heat > self.level + NEVER

        def molten(history: History) -> bool:
            if not np.all(history.times[-1] >= until):
                return False
            return bool(np.all((history.temperature[-1, cells].min(axis=0) > self.level) | ~reachable))

        growth = np.concatenate([np.ones(MELT_STEPS_PER_DURATION), 1.1 ** np.arange(1, MORE_STEPS + 1)])
        return solve(slab, start, np.outer(growth, expected / MELT_STEPS_PER_DURATION), stop=molten)


class Ages(Protocol):
    """A record of plastic that was hot for a while."""

    def aged(self, time: float, below: float, above: float, reference: float) -> Array:
        """Seconds at the reference temperature that age as much as the hottest plastic did until ``time``."""


def ageing(case: Case, heated: Fact, at_most: Value, work: Work) -> Fact:
    """The fact ``aged``, s at the sheet's reference temperature: what was before, and this heating until at_most."""

    def aged(heated: Ages, at_most: Any, below: float, above: float, reference: float, before: Any = 0.0) -> Any:
        return before + heated.aged(profiles.last(at_most), below, above, reference)

    return calc(
        "aged",
        "time",
        "running sum of an Arrhenius rate at the hottest plastic, as time at the reference temperature",
        aged,
        heated=heated,
        at_most=at_most,
        below=case.get("resin:ageing energy below"),
        above=case.get("resin:ageing energy above"),
        reference=case.get("resin:ageing reference"),
        **({"before": work.aged} if isinstance(work.aged, Fact) else {}),
    )


def curves(case: Case, melting: Fact, across: str, at_least: Value, at_most: Value) -> tuple[Callable[[], Fact], ...]:
    """The pictures of a layer on its way to molten: its temperatures, its molten share, and cuts through it.

    ``across`` says in words what the clock counts from. What has no crystals has no molten share.
    """
    marks = (*pictures.marks({"at least": at_least}), *pictures.marks({"at most": at_most}, upper))
    limits = pictures.lines({name: case.get(entry) for name, entry in LINES.items()})
    kind = case.get("resin:kind")
    crystals = not (isinstance(kind, Given) and kind.value == "amorphous")

    def warmed(melting: Melted) -> Curves:
        until, title = float(melting.through()[0]), "temperature in the layer"
        return pictures.heated(title, across, melting.history, melting.layer, lines=limits, marks=marks, until=until)

    def molten(melting: Melted) -> Curves:
        series = {"molten": melting.history.melted_share(melting.layer)}
        until, title = float(melting.through()[0]), "molten share of the layer"
        return pictures.over_time(
            title, across, melting.history.times, series, marks=marks, until=until, dimension=Dimension.SHARE
        )

    def cuts(melting: Melted, at_least: Any) -> Curves:
        moments = pictures.moments(marks)
        return pictures.cut(melting.history.times, melting.history, melting.layer, moments, lines=limits)

    asked: list[tuple[Callable[..., Curves], dict[str, Value]]] = [(warmed, {}), (cuts, {"at_least": at_least})]
    if crystals:
        asked.insert(1, (molten, {}))
    return tuple(partial(calc, "curves", "curves", melting.equation, fn, melting=melting, **more) for fn, more in asked)
