"""Elimination from both ends against numpy's general solver."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.tridiagonal import Tridiagonal, folded_order


@given(cells=st.integers(2, 24), scenarios=st.integers(1, 4), seed=st.integers(0, 2**32 - 1))
def test_solve_agrees_with_dense_elimination(cells: int, scenarios: int, seed: int) -> None:
    """Any column-dominant system with positive links is solved to round-off, odd and even sizes alike."""
    random = np.random.default_rng(seed)
    upper, lower = random.random((2, cells - 1, scenarios))  # upper: row i on x[i+1]; lower: row i+1 on x[i]
    diagonal = random.random((cells, scenarios)) + 0.01
    diagonal[:-1] += lower
    diagonal[1:] += upper
    right = random.random((cells, scenarios))
    order = folded_order(cells)
    system = Tridiagonal(cells, scenarios)
    system.diagonal[:], system.right[:] = diagonal[order], right[order]
    for link in range(cells - 1):
        row, inward = order[link], order[min(link + 2, cells - 1)]
        assert abs(int(row) - int(inward)) == 1
        system.inner[link] = upper[row] if inward > row else lower[inward]
        system.outer[link] = lower[row] if inward > row else upper[inward]
    solution = system.solve()
    for s in range(scenarios):
        dense = np.diag(diagonal[:, s]) - np.diag(upper[:, s], 1) - np.diag(lower[:, s], -1)
        assert solution[:, s] == pytest.approx(np.linalg.solve(dense, right[:, s])[order], rel=1e-9, abs=1e-12)


def test_folded_order() -> None:
    """Cells alternate between both ends."""
    assert folded_order(5).tolist() == [0, 4, 1, 3, 2]


def test_one_cell_is_refused() -> None:
    """A single cell has no neighbours to fold."""
    with pytest.raises(ValueError, match="two cells"):
        Tridiagonal(1, 1)
