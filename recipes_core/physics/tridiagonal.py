"""Tridiagonal systems, one per scenario, eliminated from both ends at once.

The cells of a slab are kept in *folded* order: first, last, second, second last, and so on inward. Then the
neighbour of row i on its inward side is row i + 2 for both halves, and eliminating the two outermost open
rows (a twisted factorisation) is one numpy call on contiguous memory. For the small arrays of a forecast
the number of calls is the time spent: 16 cells under 65 scenarios take a third of the plain Thomas algorithm.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.arrays import Floats


def folded_order(cells: int) -> NDArray[np.intp]:
    """Return the cell found at each folded row: 0, n-1, 1, n-2, ..."""
    order = np.empty(cells, dtype=np.intp)
    order[0::2] = np.arange((cells + 1) // 2)
    order[1::2] = cells - 1 - np.arange(cells // 2)
    return order


class Tridiagonal:
    """Buffers and elimination for one tridiagonal system per scenario; all arrays are (rows, S).

    Link i ties row i to row j = min(i + 2, cells - 1), its neighbour inward:
    ``diagonal[i] x[i] - inner[i] x[j] - ... = right[i]`` and ``diagonal[j] x[j] - outer[i] x[i] - ... = right[j]``.
    Links are not negative and each diagonal is at least the sum of the links in its column, so that no
    pivoting is needed. At least two cells.
    """

    def __init__(self, cells: int, scenarios: int) -> None:
        if cells < 2:
            raise ValueError("a tridiagonal system needs at least two cells")
        self.diagonal: Floats = np.empty((cells, scenarios))
        self.right: Floats = np.empty((cells, scenarios))
        self.inner: Floats = np.empty((cells - 1, scenarios))
        self.outer: Floats = np.empty((cells - 1, scenarios))
        self._ratio: Floats = np.empty((cells - 1, scenarios))
        product = np.empty((2, scenarios))
        paired = max(0, (cells - 2) // 2)
        blocks = [(slice(2 * j, 2 * j + 2), slice(2 * j + 2, 2 * j + 4)) for j in range(paired)]
        for row in range(2 * paired, cells - 1):
            inward = min(row + 2, cells - 1)
            blocks.append((slice(row, row + 1), slice(inward, inward + 1)))
        d, b = self.diagonal, self.right
        # Flat views of whole rows, made once: each numpy call of `solve` runs over contiguous memory.
        self._blocks = []
        for o, i in blocks:
            rows = (d[o], d[i], b[o], b[i], self.inner[o], self.outer[o], self._ratio[o], product[: o.stop - o.start])
            self._blocks.append([part.reshape(-1) for part in rows])

    def solve(self) -> Floats:
        """Return the solution, which takes the place of ``right``; ``diagonal`` is overwritten too."""
        multiply, add = np.multiply, np.add
        for diagonal, next_diagonal, right, next_right, inner, outer, ratio, product in self._blocks:
            np.divide(outer, diagonal, ratio)
            multiply(ratio, inner, product)
            np.subtract(next_diagonal, product, next_diagonal)
            multiply(ratio, right, product)
            add(next_right, product, next_right)
        np.divide(self.right, self.diagonal, self.right)
        np.divide(self.inner, self.diagonal[:-1], self._ratio)
        for _, _, solution, known, _, _, ratio, product in reversed(self._blocks):
            multiply(ratio, known, product)
            add(solution, product, solution)
        return self.right
