"""Cutting and rubbing: the marks that a knife head leaves, and how hot a rubbed face gets."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from recipes_core.physics.arrays import Floats, floats


def mark_pitch(feed: ArrayLike, turns: ArrayLike, knives: ArrayLike) -> Floats:
    """Distance between two knife marks p = f/(n z), m, from the feed in m/s and turns in 1/s (definition).

    ``knives`` are those that leave marks: all of them where they were jointed to one circle, else one. With all
    the knives on the head it is the feed per tooth.
    """
    return floats(feed) / (floats(turns) * floats(knives))


def scallop(pitch: ArrayLike, diameter: ArrayLike) -> Floats:
    """Height of the ridges between the marks s = p²/(8 R), m, from the diameter 2 R of the cutting circle.

    The first term of R - √(R² - p²/4); 1e-4 too low at p = R/25. Source: Koch, Hoadley (memory).
    """
    return floats(pitch) ** 2 / (4.0 * floats(diameter))


def passes(removed: ArrayLike, cut: ArrayLike) -> Floats:
    """Whole passes that take ``removed`` off, the last of them as thin as is left (m, m)."""
    return np.ceil(floats(removed) / floats(cut) - 1e-9)


def surface_rise(flux: ArrayLike, time: ArrayLike, effusivity: ArrayLike) -> Floats:
    """How much a rubbed face warms, ΔT = 2 q √(t/π)/b, K, from W/m², s and W s½/(m² K).

    A semi-infinite body under a constant flux, so until the far side feels it. Source: Carslaw and Jaeger,
    Conduction of Heat in Solids, 1959 (memory).
    """
    return 2.0 * floats(flux) * np.sqrt(floats(time) / math.pi) / floats(effusivity)
