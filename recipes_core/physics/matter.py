"""What a layer is made of: temperature and thermal resistance as functions of specific enthalpy.

The slab solver keeps enthalpy, so each material is tabulated on a uniform enthalpy grid, one grid per
scenario. Between grid points temperature and resistance are straight lines, and `Matter.enthalpy` inverts the
temperature exactly: a round trip loses only round-off.

Resistance is per areal mass, r = 1/(k ρ) in m⁴ K/(W kg): a cell of m kg/m² resists m r m² K/W whatever its
thickness, which lets a bed of flake densify without remeshing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats

Curve = tuple[Sequence[float] | Floats, Sequence[float] | Floats]
"""Rising temperatures, K, and the values there; constant beyond both ends."""

Property = float | Curve
"""A property against temperature: one value or a curve."""

LOWEST, HIGHEST = 220.0, 620.0
"""Span of all tables, K (judgement: from colder than any workshop to hotter than any oven used)."""

POINTS = 160
"""Points of an enthalpy grid. One interval of HDPE is then 7 kJ/kg, 3 K of sensible heat."""


@dataclass(frozen=True)
class Matter:
    """One material under S scenarios, or under one that is valid for all.

    ``spacing`` (S,) is the step of each enthalpy grid, J/kg; the grids start with 0 at `LOWEST`.
    ``temperatures``, K, and ``resistances``, m⁴ K/(W kg), are the values on it (S, points). ``melted`` is the
    melted share against temperature, not shifted; None for matter that does not melt. ``shift``, K (one value or
    (S,)), is how far it lies elsewhere.
    """

    spacing: Floats
    temperatures: Floats
    resistances: Floats
    melted: Curve | None = None
    shift: ArrayLike = 0.0

    @property
    def scenarios(self) -> int:
        """How many scenarios the tables hold."""
        return len(self.spacing)

    @property
    def potentials(self) -> Floats:
        """Kirchhoff potential on the grid, the integral of dT/r from its start, W kg/m⁴ (S, points)."""
        mean = 2.0 / (self.resistances[:, 1:] + self.resistances[:, :-1])
        potential = np.zeros(self.temperatures.shape)
        np.cumsum(np.diff(self.temperatures, axis=1) * mean, axis=1, out=potential[:, 1:])
        return potential

    def lines(self, values: Floats) -> Floats:
        """Intercepts and slopes (2, S, points - 1) of ``values`` (S, points) over enthalpy in each interval."""
        spacing = self.spacing[:, None]
        slope = np.diff(values, axis=1) / spacing
        starts = spacing * np.arange(values.shape[1] - 1)
        return np.stack([values[:, :-1] - slope * starts, slope])

    def enthalpy(self, temperature: ArrayLike) -> Floats:
        """Specific enthalpy above `LOWEST`, J/kg, at temperatures (..., S), K.

        Raises ValueError outside `LOWEST` to `HIGHEST`.
        """
        wanted = floats(temperature)
        if not np.all((wanted >= LOWEST) & (wanted <= HIGHEST)):
            raise ValueError(f"temperatures must be between {LOWEST} and {HIGHEST} K")
        grid = np.arange(self.temperatures.shape[1], dtype=float)
        places = np.empty(np.broadcast_shapes(wanted.shape, (self.scenarios,)))
        if self.scenarios == 1:
            places[...] = np.interp(wanted, self.temperatures[0], grid)
        else:
            wanted = np.broadcast_to(wanted, places.shape)
            for s, knots in enumerate(self.temperatures):
                places[..., s] = np.interp(wanted[..., s], knots, grid)
        return floats(self.spacing * places)

    def resistance(self, temperature: ArrayLike) -> Floats:
        """Resistance per areal mass, m⁴ K/(W kg), at temperatures (..., S), K."""
        place = self.enthalpy(temperature) / self.spacing
        left = np.minimum(place.astype(int), self.resistances.shape[1] - 2)
        scenario = np.arange(self.scenarios)
        low, high = self.resistances[scenario, left], self.resistances[scenario, left + 1]
        return floats(low + (place - left) * (high - low))

    def melted_share(self, temperature: ArrayLike) -> Floats:
        """Share of the latent heat taken up at temperatures (..., S), K: 0 to 1, and 0 if nothing melts."""
        if self.melted is None:
            return np.zeros(np.shape(temperature))
        return np.interp(floats(temperature) - floats(self.shift), *self.melted)


@dataclass(frozen=True)
class Bed:
    """Loose flake: bulk ``density``, kg/m³, and ``conductivity``, W/(m K), each one value or (S,).

    From the melted share ``slump_onset`` on the bed gives way to melt: specific volume and thermal resistivity
    go over linearly (harmonic blending of the conductivity). That slumping begins at one half is judgement;
    from 0 a bed melts through about 5 % sooner.
    """

    density: ArrayLike
    conductivity: ArrayLike
    slump_onset: float = 0.5


def constant(conductivity: ArrayLike, density: ArrayLike, heat_capacity: ArrayLike) -> Matter:
    """Matter without phase change: W/(m K), kg/m³ and J/(kg K), each one value or (S,), all above 0."""
    given = [np.atleast_1d(floats(value)) for value in (conductivity, density, heat_capacity)]
    k, rho, cp = np.broadcast_arrays(*given)
    if not np.all((k > 0) & (rho > 0) & (cp > 0)):
        raise ValueError("conductivity, density and heat capacity must be above zero")
    ends = np.ones((len(k), 2))
    return Matter(
        spacing=cp * (HIGHEST - LOWEST),
        temperatures=ends * [LOWEST, HIGHEST],
        resistances=ends / (k * rho)[:, None],
    )


def peaked_share(onset: float, peak: float, end: float, knots: int = 25) -> tuple[Floats, Floats]:
    """Melted share of a triangular melting peak, K: about ``knots`` temperatures and shares from 0 to 1.

    The heat taken up per kelvin rises linearly from ``onset`` to ``peak`` and falls linearly to ``end``, a
    stand-in for a scanning-calorimeter curve of which only three temperatures are known.
    """
    if not onset < peak < end:
        raise ValueError("a melting peak needs onset < peak < end")
    at = np.union1d(np.linspace(onset, end, knots), [peak])
    rising = (at - onset) ** 2 / ((end - onset) * (peak - onset))
    falling = 1.0 - (end - at) ** 2 / ((end - onset) * (end - peak))
    return floats(at), np.where(at <= peak, rising, falling)


def polymer(
    *,
    solid_heat_capacity: Property,
    melt_heat_capacity: Property,
    solid_conductivity: Property,
    melt_conductivity: Property,
    solid_density: Property,
    melt_density: Property,
    melted: Curve,
    latent_heat: ArrayLike,
    heat_capacity_factor: ArrayLike = 1.0,
    conductivity_factor: ArrayLike = 1.0,
    shift: ArrayLike = 0.0,
    bed: Bed | None = None,
    points: int = POINTS,
) -> Matter:
    """Polymer that melts, or freezes, over the range of ``melted``; J/(kg K), W/(m K), kg/m³ and J/kg against K.

    With X the melted share, ``dh/dT = factor [(1 - X) c_solid + X c_melt] + latent_heat dX/dT``. The resistances
    of solid and melt are blended in the ratio (1 - X) : X; with a ``bed``, those of the bed and of the melt as
    described there. ``latent_heat``, both factors, ``shift`` (K, by which ``melted`` lies elsewhere) and the bed's
    values are one value or (S,). ``melted`` may be steep (0.2 K) but not a step. An amorphous polymer has a latent
    heat of 0 and softens over ``melted``.

    Raises ValueError if enthalpy does not rise with temperature.
    """
    knots, shares = floats(melted[0]), floats(melted[1])
    shifts = np.atleast_1d(floats(shift))[:, None]
    grid = np.linspace(LOWEST, HIGHEST, 401).tolist()
    at = np.array(sorted({*grid, *(knots.tolist() if not shifts.any() else ())}))  # numpy's own union is slow to import
    x = np.interp(at - shifts, knots, shares)
    cp = (1.0 - x) * _values(solid_heat_capacity, at) + x * _values(melt_heat_capacity, at)
    sensible = np.zeros(cp.shape)
    np.cumsum(0.5 * (cp[:, 1:] + cp[:, :-1]) * np.diff(at), axis=1, out=sensible[:, 1:])
    loose = bed or Bed(1.0, 1.0)
    given = (latent_heat, heat_capacity_factor, conductivity_factor, loose.density, loose.conductivity, shifts[:, 0])
    columns = np.broadcast_arrays(*(np.atleast_1d(floats(value)) for value in given))
    latent, cp_factor, k_factor, bulk, k_bed, _ = (column[:, None] for column in columns)

    enthalpy = cp_factor * sensible + latent * x
    if not np.all(np.diff(enthalpy, axis=1) > 0):
        raise ValueError("enthalpy must rise with temperature: look at heat capacity and melted share")
    spacing = enthalpy[:, -1] / (points - 1)
    grid = np.arange(points)
    rows = [np.interp(step * grid, row, at) for step, row in zip(spacing, enthalpy, strict=True)]
    temperatures = np.stack(rows)

    melt_volume = 1.0 / _values(melt_density, at)
    melt_resistivity = 1.0 / _values(melt_conductivity, at)
    if bed is None:
        solid = 1.0 / (_values(solid_conductivity, at) * _values(solid_density, at))
        blend = (1.0 - x) * solid + x * melt_resistivity * melt_volume
        resistances = _laid(temperatures, at, blend) / k_factor
    else:
        slumped = np.clip((x - bed.slump_onset) / (1.0 - bed.slump_onset), 0.0, 1.0)
        w = _laid(temperatures, at, slumped)
        volume = (1.0 - w) / bulk + _laid(temperatures, at, slumped * melt_volume)
        melt = _laid(temperatures, at, slumped * melt_resistivity)
        resistances = volume * ((1.0 - w) / k_bed + melt / k_factor)
    return Matter(spacing, temperatures, resistances, (knots, shares), shift)


def _laid(wanted: Floats, at: Floats, values: Floats) -> Floats:
    """Curves over ``at``, one for all scenarios or one for each (S, ...), read at temperatures (S, points)."""
    if len(values) == 1:
        return floats(np.interp(wanted, at, values[0]))
    return np.stack([np.interp(row, at, value) for row, value in zip(wanted, values, strict=True)])


def _values(given: Property, temperature: Floats) -> Floats:
    if isinstance(given, tuple):
        return np.interp(temperature, *given)
    return np.full_like(temperature, given)
