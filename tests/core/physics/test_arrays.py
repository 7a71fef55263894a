"""The array tools against scipy."""

from __future__ import annotations

import numpy as np
from scipy import special

from recipes_core.physics.arrays import bisect, erf, erfcx


def test_erf_is_the_library_one_to_double_precision() -> None:
    """erf on arrays agrees with scipy to 1e-15 on both sides of zero."""
    x = np.linspace(-6.0, 6.0, 1201)
    assert np.max(np.abs(erf(x) - special.erf(x))) < 1e-15


def test_scaled_erfc_neither_overflows_nor_jumps() -> None:
    """erfcx agrees with scipy to a relative 1e-12 from 0 to 1e6, across its change of formula at 25."""
    x = np.concatenate([np.linspace(0.0, 30.0, 3001), [24.999999, 25.0, 25.000001, 1e3, 1e6]])
    assert np.max(np.abs(erfcx(x) / special.erfcx(x) - 1.0)) < 1e-12


def test_bisect_finds_each_element_and_keeps_to_the_nearer_end() -> None:
    """One root per element; without a sign change the nearer end."""
    targets = np.array([0.25, 4.0, 100.0, -1.0])
    roots = bisect(lambda x: x**2 - targets, 0.0, 3.0, targets.shape)
    assert np.allclose(roots, [0.5, 2.0, 3.0, 0.0], atol=1e-12)
