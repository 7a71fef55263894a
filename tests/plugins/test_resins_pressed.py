"""The plastics that are melted and pressed, as a shop uses them: limits, drying, shaping, flow and mixing of LDPE, PP,
PS, HIPS, ABS and HDPE against values that others published.
"""

from __future__ import annotations

from importlib.resources import files
from typing import Any

import numpy as np
import pytest

from recipes_core.document import read
from recipes_core.facts import Given
from recipes_core.physics.ageing import ageing_rate
from recipes_core.physics.flow import CrossWlf
from recipes_core.quantities import Dimension, parse
from recipes_core.sheets import Sheet, load_sheet
from recipes_core.sheets.properties import PROPERTIES

ICE, GAS = 273.15, 8.314462618
CRYSTALS, GLASSES = ("hdpe", "ldpe", "pp"), ("ps", "hips", "abs")
NAMES = (*CRYSTALS, *GLASSES)
ALL = {"hdpe", "ldpe", "pp", "ps", "hips", "abs", "pla", "petg", "pmma", "pet", "pc", "pa6", "pa66", "pvc", "pom"}


def _load(name: str) -> Sheet:
    return load_sheet(read((files("recipes_plugins.resins") / f"{name}.yaml").read_bytes(), f"{name}.yaml"))


SHEETS = {name: _load(name) for name in NAMES}


def value(name: str, entry: str) -> Any:
    """A value that must be there, in SI."""
    found = SHEETS[name].get(entry)
    assert isinstance(found, Given), f"{name}: {entry}"
    return found.value


def ends(name: str, entry: str) -> tuple[float, float]:
    """A range that must be there, in SI."""
    found = SHEETS[name].range(entry)
    assert isinstance(found, Given), f"{name}: {entry}"
    low, high = found.value
    return float(low), float(high)


def at(name: str, entry: str, celsius: float) -> float:
    """A curve at one temperature."""
    return float(np.interp(celsius + ICE, *value(name, entry)))


PUBLISHED = [
    # density of the solid
    ("ldpe", "density solid", "912 kg/m³", "932 kg/m³"),  # data page citing Cardarelli; web table
    ("pp", "density solid", "900 kg/m³", "910 kg/m³"),  # article PMC9088909, Table 1
    ("ps", "density solid", "1050 kg/m³", "1050 kg/m³"),  # Crawford, Table 1.8, and analysis page
    ("hips", "density solid", "1030 kg/m³", "1060 kg/m³"),  # supplier table
    ("abs", "density solid", "1040 kg/m³", "1050 kg/m³"),  # Crawford 1040, moulding note 1050
    # transitions
    ("ldpe", "melting peak", "98 °C", "115 °C"),  # web table; 112 on the analysis page
    ("pp", "melting peak", "160 °C", "168 °C"),  # analysis page: typical 160-165, measured 164 and 168
    ("pp", "freezing start", "117 °C", "136 °C"),  # J. Appl. Polym. Sci. 77 (2000) 163
    ("ps", "glass transition", "84 °C", "88 °C"),  # analysis page, measured
    ("abs", "glass transition", "90 °C", "102 °C"),  # properties portal, ASTM E1356
    # latent heat
    ("pp", "latent heat", "94 kJ/kg", "112 kJ/kg"),  # analysis page, two heatings
    # window
    ("ps", "window foot", "149 °C", "204 °C"),  # encyclopaedia values, compression moulding
    ("ps", "window low", "149 °C", "204 °C"),
    ("ps", "window high", "149 °C", "204 °C"),
    # drying before the melt
    ("hdpe", "drying low", "49 °C", "66 °C"),  # processing guidelines
    ("ldpe", "drying high", "49 °C", "66 °C"),
    ("pp", "drying time", "1 h", "2 h"),
    ("ps", "drying high", "66 °C", "66 °C"),
    ("hips", "drying low", "66 °C", "77 °C"),
    ("hips", "drying high", "66 °C", "77 °C"),
    ("abs", "drying low", "80 °C", "90 °C"),  # design guide
    ("abs", "drying high", "82 °C", "93 °C"),  # processing guidelines
    ("abs", "drying time", "2 h", "4 h"),  # design guide: at least 2
    ("abs", "moisture limit", "0.1 %", "0.1 %"),  # design guide
    ("abs", "water at rest", "0.17 %", "0.75 %"),  # Materials 16 (2023) 938
    # forming
    ("hdpe", "forming best", "132 °C", "166 °C"),  # bending notes to web guide
    ("pp", "forming foot", "150 °C", "180 °C"),  # sheet maker
    ("pp", "forming best", "150 °C", "180 °C"),
    ("pp", "forming top", "150 °C", "180 °C"),
    ("ps", "forming foot", "127 °C", "127 °C"),  # bending notes
    ("ps", "forming best", "135 °C", "135 °C"),
    ("ps", "forming top", "182 °C", "182 °C"),
    ("hips", "forming best", "130 °C", "140 °C"),  # study of medium-gauge sheet
    # shrinkage of moulded parts
    ("ldpe", "shrinkage", "1.5 %", "3 %"),  # trade sheet
    ("pp", "shrinkage", "1.0 %", "2.5 %"),  # encyclopaedia values
    ("ps", "shrinkage", "0.4 %", "0.7 %"),  # encyclopaedia values
    ("hips", "shrinkage", "0.5 %", "0.8 %"),  # processing guidelines
    ("abs", "shrinkage", "0.4 %", "0.9 %"),  # tutorial
    # softening
    ("ldpe", "heat deflection", "40 °C", "44 °C"),  # web table
    ("pp", "heat deflection", "107 °C", "121 °C"),  # article PMC9088909, Table 1
    ("ps", "heat deflection", "68 °C", "96 °C"),
    ("abs", "heat deflection", "68 °C", "100 °C"),  # properties portal
    # stiffness
    ("pp", "modulus", "1140 MPa", "1550 MPa"),  # encyclopaedia values
    ("ps", "modulus", "3100 MPa", "3300 MPa"),  # analysis page
    # ignition and breakdown: Hilado 1998, pp. 41-44, in a copy
    ("ldpe", "flash ignition", "341 °C", "357 °C"),
    ("ps", "flash ignition", "345 °C", "360 °C"),
    ("ldpe", "decomposition start", "335 °C", "450 °C"),
    ("pp", "decomposition start", "328 °C", "410 °C"),
    ("ps", "decomposition start", "300 °C", "400 °C"),
]


@pytest.mark.parametrize(("name", "entry", "low", "high"), PUBLISHED)
def test_inside_the_published_range(name: str, entry: str, low: str, high: str) -> None:
    """Both ends as printed; the source stands beside each row."""
    measure = PROPERTIES[entry].measure
    assert isinstance(measure, Dimension)
    assert parse(low, measure).low - 1e-9 <= value(name, entry) <= parse(high, measure).low + 1e-9


@pytest.mark.parametrize(
    ("entry", "fahrenheit", "celsius"),
    [("bend set", 185, 85), ("forming foot", 260, 127), ("forming best", 280, 138), ("forming top", 360, 182)],
)
def test_abs_row_of_the_forming_page(entry: str, fahrenheit: float, celsius: float) -> None:
    """185/260/280/360 °F as printed, 85/127/138/182 °C to the degree."""
    assert parse(f"{fahrenheit} °F", Dimension.TEMPERATURE).low - ICE == pytest.approx(celsius, abs=1)
    assert value("abs", entry) - ICE == pytest.approx(celsius, abs=1e-6)


def test_forming_and_demoulding_stand_in_order() -> None:
    """Let go of colder than it bends; it bends best inside its window; a flat part leaves no hotter than any other."""
    for name in NAMES:
        assert value(name, "demould temperature flat") <= value(name, "demould temperature")
        if name != "ldpe":  # nothing on record
            lines = [value(name, line) for line in ("bend set", "forming foot", "forming best", "forming top")]
            assert lines == sorted(lines)


@pytest.mark.parametrize("name", NAMES)
def test_limits_of_heat_stand_in_order(name: str) -> None:
    """Foot, window, ceiling, cap; what melts has melted at the foot; fire and breakdown lie beyond the cap."""
    lines = [value(name, x) for x in ("window foot", "window low", "window high", "surface ceiling", "oven-air cap")]
    assert lines == sorted(lines)
    assert max(lines) < min(value(name, "decomposition start"), value(name, "flash ignition"))
    if name in CRYSTALS:
        assert value(name, "melting end") < value(name, "window foot")


@pytest.mark.parametrize(
    ("name", "window", "ceiling", "cap"),
    [
        ("hdpe", (170, 200), 220, 240), ("ldpe", (150, 180), 200, 220), ("pp", (190, 215), 230, 230),
        ("ps", (170, 200), 220, 230), ("hips", (170, 200), 220, 230), ("abs", (190, 220), 230, 230),
    ],
)  # fmt: skip
def test_the_three_lines_of_heat(name: str, window: tuple[int, int], ceiling: int, cap: int) -> None:
    """°C as the project settled them: window (common practice), ceiling and cap (judgement)."""
    lines = [value(name, x) - ICE for x in ("window low", "window high", "surface ceiling", "oven-air cap")]
    assert lines == pytest.approx([*window, ceiling, cap])


@pytest.mark.parametrize(("name", "usual", "less"), [("ldpe", 200, 0), ("ps", 230, 10)])
def test_oven_air_cap_is_what_its_note_says(name: str, usual: float, less: float) -> None:
    """Lowest of ignition - 100 K, decomposition - 60 K and usual upper window (memory) + 20 K; PS 10 K less."""
    fire, breakdown = value(name, "flash ignition") - 100, value(name, "decomposition start") - 60
    assert value(name, "oven-air cap") == pytest.approx(min(fire, breakdown, usual + ICE + 20) - less)


@pytest.mark.parametrize("name", ["ldpe", "pp"])
def test_ageing_is_that_of_hdpe(name: str) -> None:
    """All its entries, and the limit is reserve times air factor."""
    for entry in ("reference", "reserve", "air factor", "limit", "energy below", "energy above"):
        assert value(name, f"ageing {entry}") == value("hdpe", f"ageing {entry}")
    assert value(name, "ageing limit") == pytest.approx(
        value(name, "ageing reserve") * value(name, "ageing air factor")
    )


def aged(name: str, celsius: float, minutes: float) -> float:
    """Share of the ageing limit that a stay takes."""
    below, above = value(name, "ageing energy below"), value(name, "ageing energy above")
    rate = ageing_rate(celsius + ICE, below, above, value(name, "ageing reference"))
    return float(rate) * minutes * 60 / value(name, "ageing limit")


def test_ageing_against_oven_trials() -> None:
    """LDPE 180 °C, 50 min was best of an oven trial (IOP Conf. Ser. 498 (2020) 012064): just inside. HDPE 220 °C, 60
    min is refused, for the worst recycled lot lasts 9 min at 200 °C in oxygen (record 14570, Table 5).
    """
    assert 0.85 < aged("ldpe", 180, 50) < 1
    assert aged("hdpe", 220, 60) > 5


@pytest.mark.parametrize("name", ["ldpe", "pp", "ps", "hips", "abs"])
def test_shrinkage_is_in_the_upper_half(name: str) -> None:
    """A lightly pressed charge shrinks more than a packed one (derived from the study that ranks pressure first)."""
    low, high = ends(name, "shrinkage")
    assert (low + high) / 2 < value(name, "shrinkage") <= high


@pytest.mark.parametrize("name", NAMES)
def test_softening_is_the_lower_end_of_heat_deflection(name: str) -> None:
    """Sanding and drying stay below it; drying never passes it, save surface water on LDPE and on ABS, which cake."""
    assert value(name, "softening temperature") == ends(name, "heat deflection")[0]
    if name in ("hdpe", "pp", "ps", "hips"):
        assert value(name, "drying high") <= value(name, "softening temperature")


@pytest.mark.parametrize("name", NAMES)
def test_bed_conductivity_is_the_geometric_mean_and_a_quarter(name: str) -> None:
    """1.25 k_solid^0.35 k_air^0.65 at 65 % voids and 25 °C, air 0.026 W/(m K): to the second digit."""
    loose = 1.25 * at(name, "conductivity solid", 25) ** 0.35 * 0.026**0.65
    assert value(name, "bed conductivity") == pytest.approx(loose, abs=0.006)
    low, high = ends(name, "bed conductivity")
    assert low < loose < high


def test_ldpe_power_law_touches_its_published_curve() -> None:
    """32 400/(1 + 3.1 rate)^0.62 Pa s at 190 °C (Rao and O'Brien, example): value and slope at 3.16 1/s; 13 500 and
    3780 Pa s at 1 and 10 1/s within 5 %.
    """
    consistency, index, rate = value("ldpe", "consistency"), value("ldpe", "flow index"), 3.16
    assert consistency * rate ** (index - 1) == pytest.approx(32_400 / (1 + 3.1 * rate) ** 0.62, rel=5e-3)
    assert index == pytest.approx(1 - 0.62 * 3.1 * rate / (1 + 3.1 * rate), abs=5e-4)
    for other, viscosity in ((1, 13_500), (10, 3_780)):
        assert consistency * other ** (index - 1) == pytest.approx(viscosity, rel=0.055)
    assert value("ldpe", "consistency temperature") == pytest.approx(190 + ICE)


def test_ps_power_law_touches_its_cross_curve() -> None:
    """K, n and the energy from the published constants at 190 °C and 3.16 1/s."""
    entries = ("cross index", "cross stress", "wlf viscosity", "wlf temperature", "wlf slope", "wlf span")
    melt = CrossWlf(*(value("ps", entry) for entry in entries))
    kelvin = value("ps", "consistency temperature")
    consistency, index = melt.tangent(kelvin, 3.16)
    assert value("ps", "consistency") == pytest.approx(float(consistency), rel=1e-3)
    assert value("ps", "flow index") == pytest.approx(float(index), abs=5e-4)
    warm, warmer = kelvin - 1, kelvin + 1
    energy = GAS * np.log(melt.zero_shear(warm) / melt.zero_shear(warmer)) / (1 / warm - 1 / warmer)
    assert value("ps", "flow energy") == pytest.approx(float(energy), rel=5e-3)
    for celsius, rest in ((180, 22_300), (200, 5_590)):  # worked from the constants
        assert float(melt.zero_shear(celsius + ICE)) == pytest.approx(rest, rel=5e-3)


def test_pp_at_rest_against_the_worked_table() -> None:
    """Pa s of the second-hand easy-flow grade: 1110 at 180 to 475 at 230 °C; its 32 kJ/mol is the low end of ours."""
    entries = ("cross index", "wlf viscosity", "wlf temperature", "wlf slope", "wlf span")
    index, d1, t_star, a1, a2 = (value("pp", f"{entry}, injection") for entry in entries)
    melt = CrossWlf(index, 1.0, d1, t_star, a1, a2)  # the stress at which it thins is not on record
    for celsius, rest in ((180, 1110), (190, 936), (200, 790), (210, 667), (220, 563), (230, 475)):
        assert float(melt.zero_shear(celsius + ICE)) == pytest.approx(rest, rel=2e-3)
    energy = GAS * np.log(936 / 667) / (1 / (190 + ICE) - 1 / (210 + ICE))
    assert ends("pp", "flow energy")[0] == pytest.approx(energy, rel=0.04)
    assert ends("pp", "consistency, injection")[0] == pytest.approx(790)


def test_abs_power_law_lies_in_its_published_band() -> None:
    """6678-12189 Pa s^n and 0.42-0.49 (Materials 16 (2023) 7664, Table 1): the means of both."""
    low, high = ends("abs", "consistency")
    assert (low, high) == pytest.approx((6678, 12189))
    assert value("abs", "consistency") == pytest.approx((low * high) ** 0.5, rel=3e-3)
    assert value("abs", "flow index") == pytest.approx((0.42 + 0.49) / 2)


@pytest.mark.parametrize("name", NAMES)
def test_mixing(name: str) -> None:
    """Every other resin has its share; PVC and POM none; what is set apart lies across water, 1000 kg/m³."""
    shares = {entry.partition(", ")[2]: value(name, entry) for entry in SHEETS[name].names() if "tolerated" in entry}
    assert set(shares) == ALL - {name}
    assert shares["pvc"] == shares["pom"] == 0
    assert max(shares.values()) <= 0.5
    floating = value(name, "density solid") < 1000
    other_side = ALL - set(CRYSTALS) if floating else set(CRYSTALS)
    assert set(value(name, "separates")) == other_side


def test_left_open_where_nothing_is_on_record() -> None:
    """No number where none is published, remembered or settled: a question is asked instead."""
    open_ = {
        "ldpe": ("forming foot", "forming best", "forming top", "bend set", "planing cut"),
        "ps": ("bend strain", "ageing reserve", "pressure foot"),
        "hips": ("bend strain", "ageing reserve", "pressure foot", "consistency"),
        "abs": ("bend strain", "ageing reserve", "pressure foot"),
    }
    for name, entries in open_.items():
        assert not set(entries) & set(SHEETS[name].values)
