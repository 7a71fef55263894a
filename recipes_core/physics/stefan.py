"""Stefan problems: how fast a melting or freezing front runs into a thick body.

Every case shares the front law X = 2 λ √(α t), α being that of the phase that grows from the face. They
assume a sharp melting point, equal densities and a half-space, so they bound a polymer with a melting range.
Source of the equations: Carslaw and Jaeger, Conduction of Heat in Solids, 1959, chapter 11 (memory); Ghosh
and Mallik, Manufacturing Science, chapter 2, for freezing onto a mould (published, worked examples seen).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, bisect, erf, erfcx, floats

_LARGEST = 6.0  # λ at which the Stefan number would pass 1e16


def stefan_number(heat_capacity: ArrayLike, temperature_step: ArrayLike, latent_heat: ArrayLike) -> Floats:
    """Ste = c |ΔT| / L, from J/(kg K), K and J/kg."""
    return floats(heat_capacity) * np.abs(floats(temperature_step)) / floats(latent_heat)


def one_phase(stefan: ArrayLike, mould_ratio: ArrayLike = 0.0) -> Floats:
    """λ when the other phase already stands at the melting point: λ exp(λ²) (erf λ + φ) = Ste/√π.

    ``mould_ratio`` φ is the effusivity of the growing phase over that of the thick mould it grows onto, with
    Ste taken from the mould's starting temperature; φ = 0 is a face held at a fixed temperature. Ste > 0, φ
    >= 0.
    """
    target, ratio = np.broadcast_arrays(floats(stefan) / np.sqrt(np.pi), floats(mould_ratio))

    def excess(lam: Floats) -> Floats:
        return floats(lam * np.exp(lam**2) * (erf(lam) + ratio) - target)

    return bisect(excess, 0.0, _LARGEST, target.shape)


def two_phase(
    stefan: ArrayLike,
    other_step: ArrayLike,
    conductivity_ratio: ArrayLike,
    diffusivity_ratio: ArrayLike,
) -> Floats:
    """Neumann's λ when the original phase starts away from the melting point.

    λ √π = Ste/(exp(λ²) erf λ) − Ste₀ √(αa/αb) (kb/ka)/(exp(ν² λ²) erfc(ν λ)), ν = √(αa/αb), with a the phase
    that grows from the face, b the original one. ``other_step`` is Ste₀ = ca |Ti − Tf|/L;
    ``conductivity_ratio`` kb/ka; ``diffusivity_ratio`` αa/αb. All dimensionless and positive (``other_step``
    may be 0).
    """
    grow, start, conduct, diffuse = np.broadcast_arrays(
        floats(stefan), floats(other_step), floats(conductivity_ratio), floats(diffusivity_ratio)
    )
    nu = np.sqrt(diffuse)

    def excess(lam: Floats) -> Floats:
        drawn = grow / (np.exp(lam**2) * erf(lam))
        fed = start * nu * conduct / erfcx(nu * lam)
        return floats(lam * np.sqrt(np.pi) - drawn + fed)

    return bisect(excess, 0.0, _LARGEST, grow.shape)


def front(lam: ArrayLike, diffusivity: ArrayLike, time: ArrayLike) -> Floats:
    """Depth of the front X = 2 λ √(α t), m, from m²/s of the growing phase and s."""
    return 2.0 * floats(lam) * np.sqrt(floats(diffusivity) * floats(time))


def front_time(lam: ArrayLike, diffusivity: ArrayLike, depth: ArrayLike) -> Floats:
    """Time for the front to reach a depth, t = (X/(2 λ))²/α, s."""
    return (floats(depth) / (2.0 * floats(lam))) ** 2 / floats(diffusivity)


def mould_face(lam: ArrayLike, freezing: ArrayLike, latent_heat: ArrayLike, heat_capacity: ArrayLike) -> Floats:
    """Temperature of a thick mould's face while melt at its freezing point sets on it, K.

    Ts = Tf − (L/c) √π λ exp(λ²) erf λ, with λ from ``one_phase`` and the mould ratio; constant in time.
    """
    lam = floats(lam)
    drop = np.sqrt(np.pi) * lam * np.exp(lam**2) * erf(lam)
    return floats(floats(freezing) - floats(latent_heat) / floats(heat_capacity) * drop)
