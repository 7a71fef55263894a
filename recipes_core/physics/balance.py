"""The heat balance of the cells of a slab, and its solution by Newton's method for one implicit stage.

Inside a layer heat follows the Kirchhoff potential ``P(e) = ∫ dT / r``: between the centres of two cells it is
``(P1 - P2) / ((m1 + m2) / 2)`` however fast the resistance changes on the way (flake beside melt).
Temperatures with a mean resistance need about twice the cells for the same error. Across a contact between
layers, and at a face, the flow is the difference of temperatures over half a cell, the contact and half a cell.

The unknown of Newton's method is the change of potential: flows inside a layer are linear in it, so that only
the slope of P(e) and the radiation are linearised. Half cells at contacts and faces resist as at the stage's
first guess, which the last rate of change has extrapolated to second order: if the resistance followed the
iterate, a cell that conducts better as it melts could feed itself and the stage have more than one answer.
(Voller, IMA J. Numer. Anal. 5 (1985) 201-214, treats implicit enthalpy methods; abstract seen.)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from recipes_core.physics.arrays import Floats
from recipes_core.physics.exchange import Exchange
from recipes_core.physics.lookup import Lookup
from recipes_core.physics.slab import Slab
from recipes_core.physics.tridiagonal import Tridiagonal, folded_order

PLAIN_ITERATIONS = 3
"""Iterations after which steps of Newton's method are drawn back where they overshoot."""


class Balance:
    """The cells of ``slab`` in folded order, with every buffer; ``start`` holds their temperatures, K."""

    def __init__(self, slab: Slab, start: Floats) -> None:
        self.order = folded_order(slab.cells)
        self.iterations = 0
        self._mass = slab.mass[self.order]
        self._lookup = Lookup(slab, self.order)
        self._system = Tridiagonal(*self._mass.shape)
        self._slope, self._potential = np.empty_like(self._mass), np.empty_like(self._mass)
        self._work, self._inertia = np.empty_like(self._mass), np.empty_like(self._mass)
        self._flow = np.empty_like(self._system.inner)
        self._link(slab)
        self._open(slab, start[self.order])

    def _link(self, slab: Slab) -> None:
        """Tie neighbours together: fixed conductances inside layers, rows to fill in at contacts."""
        links = np.arange(slab.cells - 1)
        inward = np.minimum(links + 2, slab.cells - 1)
        below = np.minimum(self.order[links], self.order[inward]).tolist()
        contacts = [below.index(slab.cells_of(i).stop - 1) for i in range(len(slab.contacts))]
        self._outer_rows, self._inner_rows = contacts, inward[contacts].tolist()
        self._contact_resistance = np.empty((len(contacts), slab.scenarios))
        for row, resistance in enumerate(slab.contacts):
            self._contact_resistance[row] = resistance

        self._conductance = 2.0 / (self._mass[:-1] + self._mass[inward])
        self._conductance[contacts] = 0.0
        self._conductance_sum = np.zeros_like(self._mass)
        for end in (links, inward):
            np.add.at(self._conductance_sum, end, self._conductance)
        system = self._system
        system.inner[:] = system.outer[:] = self._conductance
        self._contact_views = [
            (self._flow[c], system.outer[c], system.inner[c], system.diagonal[c], system.diagonal[i])
            for c, i in zip(contacts, self._inner_rows, strict=True)
        ]

    def _open(self, slab: Slab, start: Floats) -> None:
        """Find the surfaces that exchange heat and the rows whose temperature and resistance are needed."""
        rims = {row: rim for row, cell in enumerate(self.order) if (rim := slab.rim_of(int(cell)))}
        self._rims = list(rims)
        self._surface_rows = np.array([0, 1, *rims])
        self._rows = np.array([*self._surface_rows, *self._outer_rows, *self._inner_rows])
        n, m = len(self._surface_rows), len(self._outer_rows)
        self._surfaces, self._outer, self._inner = slice(n), slice(n, n + m), slice(n + m, n + 2 * m)
        self._half_mass = 0.5 * self._mass[self._rows]
        self._half_mass[2:n] = 0.0
        self._exchange = Exchange([slab.bottom, slab.top, *rims.values()], start[self._surface_rows])

    def temperatures(self, enthalpy: Floats) -> tuple[Floats, Floats]:
        """Temperatures, K, of all cells and of the bottom and top surface at ``enthalpy``."""
        interval = self._lookup.locate(enthalpy)
        temperature = self._lookup.temperature.at(interval, enthalpy)
        rows = self._surface_rows
        resistance = self._lookup.resistance.at(interval.take(rows, axis=0), enthalpy.take(rows, axis=0))
        self._exchange.linearise(temperature.take(rows, axis=0), self._half_mass[self._surfaces] * resistance)
        return temperature, self._exchange.temperature[:2]

    def solve_stage(self, enthalpy: Floats, known: Floats, duration: Floats, tolerance: float, limit: int) -> Floats:
        """Solve ``mass (e - known) / duration = inflow(e)`` from the guess ``enthalpy``, in place.

        Each scenario stops by itself once no cell of it changed by more than ``tolerance`` J/kg, so that its
        answer does not depend on its neighbours. Returns the heat that flows in from the surroundings, W/m²
        (S,), linearised as the cells see it: it balances to round-off. Raises FloatingPointError if ``limit``
        iterations do not suffice.
        """
        change, work = self._system.right, self._work
        self._lookup.confine(enthalpy)
        np.divide(self._mass, duration, self._inertia)
        self._resist(enthalpy)
        heat = np.zeros(enthalpy.shape[1])
        running = np.ones(enthalpy.shape[1], bool)
        for iteration in range(limit):
            self.iterations += 1
            self._conduct(enthalpy, known)
            inflow, stiffness = self._cross(enthalpy, running)
            self._system.solve()
            stiffness *= change.take(self._surface_rows, axis=0)
            inflow -= stiffness
            np.copyto(heat, inflow.sum(axis=0), where=running)
            np.divide(change, self._slope, work)
            np.multiply(work, running, work)
            np.add(enthalpy, work, enthalpy)
            np.abs(work, work)
            running = ~(work.max(axis=0) <= tolerance)
            if not running.any():
                return heat
            if iteration >= PLAIN_ITERATIONS:
                self._draw_back(enthalpy, running)
        raise FloatingPointError("the heat balance of a time step did not settle; take shorter steps")

    def _resist(self, enthalpy: Floats) -> None:
        """Resistances of the half cells at faces and contacts, and of the contacts in all."""
        some = self._lookup.locate(enthalpy).take(self._rows, axis=0)
        self._half = self._lookup.resistance.at(some, enthalpy.take(self._rows, axis=0))
        self._half *= self._half_mass
        self._contact = self._half[self._outer] + self._half[self._inner]
        self._contact += self._contact_resistance

    def _conduct(self, enthalpy: Floats, known: Floats) -> None:
        """Set up the system as far as storage and the inside of layers go."""
        right, diagonal = self._system.right, self._system.diagonal
        slope, potential, work, flow = self._slope, self._potential, self._work, self._flow
        subtract, multiply = np.subtract, np.multiply
        interval = self._interval = self._lookup.locate(enthalpy)
        self._lookup.potential.slope.take(interval, out=slope, mode="clip")
        self._lookup.potential.intercept.take(interval, out=potential, mode="clip")
        multiply(slope, enthalpy, work)
        np.add(potential, work, potential)
        subtract(potential[:-2], potential[2:], flow[:-1])
        subtract(potential[-2], potential[-1], flow[-1])
        multiply(flow, self._conductance, flow)
        subtract(known, enthalpy, right)
        multiply(right, self._inertia, right)
        np.divide(self._inertia, slope, diagonal)
        np.add(diagonal, self._conductance_sum, diagonal)

    def _cross(self, enthalpy: Floats, running: NDArray[np.bool_]) -> tuple[Floats, Floats]:
        """Add what crosses contacts and faces; return inflow at the surfaces and its fall per potential."""
        right, diagonal, flow, add = self._system.right, self._system.diagonal, self._flow, np.add
        surfaces, outer, inner = self._surfaces, self._outer, self._inner
        some = self._interval.take(self._rows, axis=0)
        temperature = self._lookup.temperature.at(some, enthalpy.take(self._rows, axis=0))
        warming = self._lookup.temperature.slope.take(some)
        warming /= self._slope.take(self._rows, axis=0)
        if self._contact_views:
            drop = temperature[outer] - temperature[inner]
            drop /= self._contact
            per_outer, per_inner = warming[outer] / self._contact, warming[inner] / self._contact
            for i, (through, to_inner, to_outer, d_outer, d_inner) in enumerate(self._contact_views):
                through[:] = drop[i]
                to_inner[:] = per_outer[i]
                to_outer[:] = per_inner[i]
                add(d_outer, to_inner, d_outer)
                add(d_inner, to_outer, d_inner)
        np.subtract(right[:-1], flow, right[:-1])
        add(right[2:], flow[:-1], right[2:])
        add(right[-1], flow[-1], right[-1])
        inflow, stiffness = self._exchange.linearise(temperature[surfaces], self._half[surfaces], running)
        stiffness *= warming[surfaces]
        add(right[:2], inflow[:2], right[:2])
        add(diagonal[:2], stiffness[:2], diagonal[:2])
        if self._rims:
            right[self._rims] += inflow[2:]
            diagonal[self._rims] += stiffness[2:]
        return inflow, stiffness

    def _draw_back(self, enthalpy: Floats, running: NDArray[np.bool_]) -> None:
        """Take back what a step overshot by leaving a flat piece of P(e), such as a sharp melting range.

        Full steps may jump to and fro across a corner for ever. A step that meets a steeper piece ends where
        that piece's line has the potential aimed at; onto a flatter piece it falls short, which does no harm.
        """
        change, lines = self._system.right, self._lookup.potential
        self._lookup.confine(enthalpy)
        interval = self._lookup.locate(enthalpy)
        excess = lines.at(interval, enthalpy) - (self._potential + change)
        over = (excess * change > 0.0) & running
        enthalpy -= np.where(over, excess / lines.slope.take(interval), 0.0)
