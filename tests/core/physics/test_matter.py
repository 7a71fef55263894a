"""Tables of matter: round trips, energy totals, blending and refusals."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.physics.matter import HIGHEST, LOWEST, Bed, Matter, constant, peaked_share, polymer

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

ICE = 273.15
MELTING = peaked_share(100 + ICE, 130 + ICE, 136 + ICE)


def hdpe(latent_heat: ArrayLike = 190e3, bed: Bed | None = None, points: int = 256, shift: ArrayLike = 0.0) -> Matter:
    """HDPE of the check values."""
    return polymer(
        solid_heat_capacity=2100.0,
        melt_heat_capacity=2500.0,
        solid_conductivity=([298.0, 373.0], [0.44, 0.30]),
        melt_conductivity=0.25,
        solid_density=950.0,
        melt_density=760.0,
        melted=MELTING,
        latent_heat=latent_heat,
        bed=bed,
        points=points,
        shift=shift,
    )


def temperature(matter: Matter, enthalpy: float) -> float:
    """Temperature from the lines the solver uses."""
    interval = min(int(enthalpy / matter.spacing[0]), matter.temperatures.shape[1] - 2)
    intercept, slope = matter.lines(matter.temperatures)[:, 0, interval]
    return float(intercept + slope * enthalpy)


@given(st.floats(LOWEST, HIGHEST))
def test_enthalpy_and_temperature_are_inverse(kelvin: float) -> None:
    """Temperature to enthalpy and back loses only round-off."""
    assert temperature(hdpe(), float(hdpe().enthalpy(kelvin)[0])) == pytest.approx(kelvin, abs=1e-7)


def test_heat_from_room_temperature() -> None:
    """439 kJ/kg to 136 °C and 512 kJ/kg to 165 °C (computed independently from the same 2100/2500/190 data)."""
    at = hdpe(points=4096).enthalpy(np.array([[20.0], [136.0], [165.0]]) + ICE)[:, 0]
    assert np.diff(at).cumsum() == pytest.approx([439e3, 512e3], rel=2e-3)


def test_the_coarse_table_is_good_enough() -> None:
    """The default table agrees with one sixteen times finer within 0.6 K and, past the corners, 1 J/g."""
    kelvin = np.linspace(LOWEST, HIGHEST, 400)[:, None]
    difference = np.abs(hdpe().enthalpy(kelvin) - hdpe(points=4096).enthalpy(kelvin))
    assert difference.max() < 0.6 * 2300.0
    assert np.median(difference) < 1.0


def test_each_scenario_has_its_own_latent_heat() -> None:
    """The enthalpy of the melt differs by exactly the difference in latent heat, that of the solid not at all."""
    matter = hdpe(latent_heat=[190e3, 209e3])
    cold, hot = matter.enthalpy(np.array([[300.0], [450.0]]))
    assert cold[0] == pytest.approx(cold[1], abs=1.0)
    assert hot[1] - hot[0] == pytest.approx(19e3, rel=1e-6)


def test_peaked_share_is_a_triangle() -> None:
    """Half of the range below the peak holds its share of the triangle's area, and slope peaks at the peak."""
    knots, share = MELTING
    assert share[[0, -1]].tolist() == [0.0, 1.0]
    assert np.interp(130 + ICE, knots, share) == pytest.approx(30.0 / 36.0)
    assert knots[np.argmax(np.diff(share) / np.diff(knots)) + 1] == pytest.approx(130 + ICE, abs=1e-9)
    with pytest.raises(ValueError, match="onset < peak < end"):
        peaked_share(400.0, 390.0, 410.0)


def test_a_bed_resists_as_bed_melt_and_between() -> None:
    """Loose below the onset of slumping, melt when all is molten, and volume and 1/k halfway in between."""
    matter = hdpe(bed=Bed(330.0, 0.09), points=8192)
    three_quarters = float(np.interp(0.75, MELTING[1], MELTING[0]))
    loose, half, melt = matter.resistance(np.array([[350.0], [three_quarters], [430.0]]))[:, 0]
    assert loose == pytest.approx(1.0 / (330.0 * 0.09))
    assert melt == pytest.approx(1.0 / (760.0 * 0.25))
    volume, resistivity = 0.5 / 330.0 + 0.5 / 760.0, 0.5 / 0.09 + 0.5 / 0.25
    assert half == pytest.approx(volume * resistivity, rel=2e-3)


def test_conductivity_follows_its_table() -> None:
    """The solid's table is read at the temperature of the cell."""
    resistance = hdpe().resistance(np.array([[335.5]]))[0, 0]
    assert resistance == pytest.approx(1.0 / (0.37 * 950.0), rel=2e-3)


def test_melted_share() -> None:
    """Matter without phase change never melts; a polymer follows its curve."""
    assert constant(50.0, 7850.0, 490.0).melted_share(np.array([300.0, 600.0])).tolist() == [0.0, 0.0]
    assert hdpe().melted_share(np.array([300.0, 420.0])).tolist() == [0.0, 1.0]


def test_the_melted_share_lies_where_the_range_was_shifted_to() -> None:
    """Each scenario melts over its own range: 5 K hotter, the share is that of 5 K less."""
    shares = hdpe(shift=[0.0, 5.0]).melted_share(np.array([[400.0, 400.0], [405.0, 405.0]]))
    assert shares[0, 0] == shares[1, 1] == pytest.approx(np.interp(400.0, *MELTING))
    assert shares[0, 1] < shares[0, 0] < shares[1, 0]


def test_refusals() -> None:
    """Temperatures off the tables, zero properties and enthalpy that falls are refused, not extrapolated."""
    with pytest.raises(ValueError, match="between"):
        hdpe().enthalpy(HIGHEST + 1.0)
    with pytest.raises(ValueError, match="between"):
        hdpe().enthalpy(np.nan)
    with pytest.raises(ValueError, match="above zero"):
        constant(0.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="must rise"):
        hdpe(latent_heat=-400e3)
