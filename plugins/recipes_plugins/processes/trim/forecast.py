"""What trimming takes off: the flash, as it was weighed or as the recipe allows for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.plugin_api import Outcome, calc
from recipes_plugins import piece

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Fact, Work


def forecast(case: Case, work: Work) -> Outcome:
    """Mass and volume trimmed off (kg, m³), and what is left of the charge; the work keeps its form."""
    off = _off(case, work)
    volume = calc(
        "volume trimmed off",
        "volume",
        "mass ÷ solid density",
        lambda off, density: [off[0] / density],
        off=off,
        density=piece.density(case),
    )
    left = piece.mass_left(work, off)
    return Outcome(work.after(work.form, mass=left), {f.name: f for f in (off, volume, left)})


def _off(case: Case, work: Work) -> Fact:
    flash = case.middle("flash")
    if flash is not None:
        return calc("trimmed off", "mass", "as it was weighed", lambda flash: [flash], flash=flash)
    return calc(
        "trimmed off",
        "mass",
        "flash allowance × face × thickness × solid density",
        lambda flash_allowance, face, thickness, density: [
            flash_allowance * piece.first(face) * thickness[0] * density
        ],
        flash_allowance=case.middle("formula.flash_allowance"),
        face=piece.area(case),
        thickness=piece.thickness(case, work),
        density=piece.density(case),
    )
