"""A blend of resins that reads like one data sheet.

What keeps people safe is the strictest of the parts: the lowest cap, the highest foot. What heat sees is the mean
by mass, and how the melt flows the mean of the logarithms (the rule of Arrhenius; resin by resin it holds for a
melt-mixed blend, while pressed flake keeps its lumps). A value that any part lacks is open.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import exp, log
from typing import TYPE_CHECKING, Any

from recipes_core.facts import Basis, Given, Open, Origin, Source, missing
from recipes_core.sheets.properties import PROPERTIES
from recipes_core.sheets.states import HEAT_CAP, STATES, state

if TYPE_CHECKING:
    from recipes_core.sheets.sheet import Sheet

Curve = tuple[tuple[float, ...], tuple[float, ...]]

_LOWEST = frozenset({
    "oven-air cap", "bending line", HEAT_CAP, "surface ceiling", "window high", "forming top", "flash ignition",
    "decomposition start", "ageing reserve", "ageing limit", "ageing air factor", "most melts", "demould temperature",
    "demould temperature flat", "softening temperature", "heat deflection", "pressure high", "pressure doubtful",
    "bend set", "bend strain", "moisture limit", "bending moisture", "drying high", "stays dry", "machining high",
    "planing cut", "glass transition", "stiffening", "set", "solid", "whitening line", "whitening time",
    "ageing energy below", "ageing reference", "flow energy",
})  # fmt: skip
_HIGHEST = frozenset({
    "window low", "window foot", "forming foot", "forming best", "melted", "surface melted", "pressure foot",
    "pressure low", "drying low", "drying time", "draft", "friction", "cold bend", "machining low",
    "ageing energy above", "solid-phase line", "water at rest",
})  # fmt: skip
_MEAN = frozenset({
    "heat capacity solid", "heat capacity melt", "conductivity solid", "conductivity melt", "bed conductivity",
    "latent heat", "emissivity", "shrinkage", "thermal expansion", "modulus", "conductivity spread",
    "heat capacity spread",
})  # fmt: skip
_BY_VOLUME = frozenset({"density solid", "density melt", "density by temperature", "bulk density"})
_LOGARITHMIC = frozenset({"melt flow", "consistency", "flow index"})
_BY_LATENT_HEAT = frozenset({"melting curve", "freezing curve"})


def _inverse(value: float) -> float:
    return 1.0 / value


_MEANS: dict[str, tuple[Callable[[float], float], Callable[[float], float]]] = {
    **dict.fromkeys(_MEAN, (float, float)),
    **dict.fromkeys(_BY_VOLUME, (_inverse, _inverse)),
    **dict.fromkeys(_LOGARITHMIC, (log, exp)),
}
"""There and back: where a value is averaged, as it is, as its inverse, or as its logarithm."""


@dataclass(frozen=True)
class Part:
    """One resin of a blend: its share by mass, and the grade that its lot names."""

    sheet: Sheet
    share: float
    grade: Given | Open | None = None


@dataclass(frozen=True)
class Blend:
    """Two or more resins in one charge; ``get``, ``range`` and ``find`` answer as those of a sheet do."""

    parts: tuple[Part, ...]
    what: str = "resin"

    @property
    def id(self) -> str:
        """The ids of its resins, the largest share first."""
        return " + ".join(dict.fromkeys(p.sheet.id for p in sorted(self.parts, key=lambda p: -p.share)))

    def find(self, name: str) -> Any:
        """What the first part knows of a value, if every part knows it; None otherwise."""
        found = [_of_grade(part, name) for part in self.parts]
        return found[0] and self.parts[0].sheet.find(found[0]) if all(found) else None

    def get(self, name: str) -> Given | Open:
        """A value in SI, made from those of the parts; open where one is, or where no mean has a meaning."""
        if name == "id":
            return self._given(name, self.id, [])
        if name == "kind":
            return self._word(name, "semicrystalline")
        values = [self._value(part, name) for part in self.parts]
        for value in values:
            if isinstance(value, Open):
                return value
        given = [value for value in values if isinstance(value, Given)]
        if name in _LOWEST:
            return min(given, key=lambda g: float(_low(g.value)))
        if name in _HIGHEST:
            return max(given, key=lambda g: float(_low(g.value)))
        if mixed := self._mixed(name, [g.value for g in given]):
            return self._given(name, mixed[0], given)
        return self._word(name, "")

    def range(self, name: str) -> Given | Open:
        """The (low, high) range of a number: both ends mixed, or that of the part that decides."""
        ends = [self._range(part, name) for part in self.parts]
        for end in ends:
            if isinstance(end, Open):
                return end
        given = [end for end in ends if isinstance(end, Given)]
        if name in _LOWEST:
            return min(given, key=lambda g: float(g.value[0]))
        if name in _HIGHEST:
            return max(given, key=lambda g: float(g.value[1]))
        low = self._mixed(name, [g.value[0] for g in given])
        high = self._mixed(name, [g.value[1] for g in given])
        return self._given(name, (low[0], high[0]), given) if low and high else self._word(name, "")

    def _value(self, part: Part, name: str) -> Given | Open:
        if name in STATES or name == HEAT_CAP:
            return state(part.sheet, name)
        if name not in PROPERTIES:
            return part.sheet.get(name)
        kind = part.sheet.get("kind")
        if name in (*_BY_LATENT_HEAT, "latent heat") and isinstance(kind, Given) and kind.value == "amorphous":
            return self._given(name, ((300.0, 301.0), (0.0, 0.0)) if name in _BY_LATENT_HEAT else 0.0, [])
        return _asked(part, name) or part.sheet.get(_of_grade(part, name) or name)

    def _range(self, part: Part, name: str) -> Given | Open:
        return _asked(part, name) or part.sheet.range(_of_grade(part, name) or name)

    def _mixed(self, name: str, values: Sequence[Any]) -> tuple[Any] | None:
        """The mean in a tuple of one; None where this value has none."""
        shares = [part.share for part in self.parts]
        if name in _BY_LATENT_HEAT:
            heats = [self._value(part, "latent heat") for part in self.parts]
            shares = [s * float(h.value) if isinstance(h, Given) else 0.0 for s, h in zip(shares, heats, strict=True)]
            return (_curve(values, shares, lambda v: v, lambda v: v),) if sum(shares) else None
        if name not in _MEANS:
            return None
        there, back = _MEANS[name]
        if isinstance(values[0], tuple) and isinstance(values[0][0], tuple):
            return (_curve(values, shares, there, back),)
        return (back(_mean([there(_low(v)) for v in values], shares)),)

    def _word(self, name: str, wins: str) -> Given | Open:
        """A word that all parts share, or that wins where any part says it."""
        told = [part.sheet.get(name) for part in self.parts]
        words = {v.value for v in told if isinstance(v, Given)}
        if wins in words or (len(words) == 1 and all(isinstance(v, Given) for v in told)):
            return next(v for v in told if isinstance(v, Given) and v.value in (wins, *words))
        return missing((f"{self.what} sheet", self.id, name), f"no {name} is known for a blend of {self.id}")

    def _given(self, name: str, value: Any, parts: Sequence[Given]) -> Given:
        if not parts:
            return Given(value, str(value), Origin(Source.SHEET, f"{self.id} sheets: {name}", basis=Basis.DERIVED))
        origin = replace(parts[0].origin, where=f"{self.id} sheets: {name}", basis=Basis.DERIVED)
        return Given(value, " and ".join(p.text for p in parts), origin)


def _of_grade(part: Part, name: str) -> str:
    """The name that the part's sheet has for a value, with its lot's grade where it depends on one; or empty."""
    if part.sheet.find(name) is not None:
        return name
    if not _by_grade(name) or not isinstance(part.grade, Given):
        return ""
    graded = f"{name}, {part.grade.value}"
    return graded if part.sheet.find(graded) else ""


def _by_grade(name: str) -> bool:
    return name in PROPERTIES and PROPERTIES[name].by == "grade"


def _asked(part: Part, name: str) -> Open | None:
    """The question for the grade of a lot, where a value depends on it and the lot does not say."""
    asks = _by_grade(name) and isinstance(part.grade, Open) and part.sheet.find(name) is None
    return part.grade if asks and isinstance(part.grade, Open) else None


def _low(value: Any) -> Any:
    return value[0] if isinstance(value, tuple) else value


def _mean(values: Sequence[float], shares: Sequence[float]) -> float:
    return sum(v * s for v, s in zip(values, shares, strict=True)) / sum(shares)


def _curve(
    curves: Sequence[Curve], shares: Sequence[float], there: Callable[[float], float], back: Callable[[float], float]
) -> Curve:
    """The mean of curves at every point that any of them has; each is constant beyond its ends."""
    at = sorted({point for points, _ in curves for point in points})
    rows = [[_read(curve, point) for curve in curves] for point in at]
    return tuple(at), tuple(back(_mean([there(v) for v in row], shares)) for row in rows)


def _read(curve: Curve, point: float) -> float:
    points, values = curve
    after = bisect_right(points, point)
    if after in (0, len(points)):
        return values[min(after, len(points) - 1)]
    low, high = points[after - 1], points[after]
    return values[after - 1] + (values[after] - values[after - 1]) * (point - low) / (high - low)
