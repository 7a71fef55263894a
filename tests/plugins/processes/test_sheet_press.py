"""Heated platens: against closed solutions of conduction and melting, and the laws that every shop obeys.

Printed values marked [X] were computed independently of this code for the collection of check values.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from recipes_plugins.processes.sheet_press.heating import FRACTIONS, Heating
from recipes_plugins.processes.sheet_press.platens import PlatenPressing, Platens
from scipy.optimize import brentq

from recipes_core.facts import Open
from recipes_core.physics.grid import PART_FRACTIONS
from recipes_core.physics.matter import Matter, constant, polymer
from recipes_core.physics.solver import solve

if TYPE_CHECKING:
    from recipes_core.facts import Fact
    from tests.conftest import Shop

ICE, MINUTE, MEMBERS = 273.15, 60.0, 65
few = settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])
SIZES = {"length": "300 mm", "width": "200 mm", "thickness": "20 mm"}
SHEET: Mapping[str, Any] = {
    "part.thickness": "6 mm",
    "formula.liner.platen_bottom": "parchment",
    "formula.liner.platen_top": "parchment",
    "formula.charge": "195 g",
    **{f"equipment.press.platen.{side}": size for side, size in SIZES.items()},
    "equipment.press.platen.material": "steel",
    "equipment.press.platen.power": "2 kW",
    "equipment.press.platen.cooled_by": "water",
    "equipment.press.platen.measured.set": "180 °C",
    "equipment.press.platen.measured.reads": "180 °C",
    "equipment.press.platen.measured.on": "2026-05-01",
    "equipment.press.platen.swing": "6 K",
    "press.process": "sheet-press",
    "press.transfer": None,
    "press.platens": "180 °C",
    "press.at_least": "10 min",
    "press.at_most": "15 min",
    "cool.in": "platens",
}


def facts(shop: Shop, changes: Mapping[str, Any] | None = None, melted: bool = False) -> Mapping[str, Fact]:
    """The facts of the press step, from flake or from a melt out of the oven; 6 mm of 260 × 125 mm."""
    way = {"press.transfer": "15 s"} if melted else {}
    steps = ("weigh", "melt", "press") if melted else ("weigh", "press")
    return shop.facts({**SHEET, **way, **(changes or {})}, steps)["press"]


def between(
    matter: Matter, areal_mass: float, start: float, platens: float, *, melted: float, gap: float = 1e-9
) -> Heating:
    """A layer of one temperature between platens, without liners; all in SI but temperatures in °C."""
    return Heating(
        matter=matter,
        loading=np.array([areal_mass]),
        start=np.full((len(FRACTIONS), 1), start + ICE),
        platens=np.array([platens + ICE]),
        gap=np.array([gap]),
        liners=((), ()),
        melted=melted + ICE,
        until=np.array([0.0]),
    )


@pytest.mark.parametrize(("thickness", "gap"), [(0.004, 1e-9), (0.012, 1e-9), (0.012, 0.003), (0.008, 0.012)])
def test_the_plane_wall_between_platens(thickness: float, gap: float) -> None:
    """Without melting, until the cells at the middle reach 140 °C: the series of a plane wall, within 0.5 %.

    Its first term C exp(-z² Fo) cos(z x/L), z tan z = L/(k gap), is good for Fo above 0.2 (memory: Incropera; Carslaw
    and Jaeger for platens that touch, where z is π/2). Those cells have their centres half a cell off the middle.
    """
    k, rho, cp = 0.25, 950.0, 2300.0
    half, share = 0.5 * thickness, (180.0 - 140.0) / (180.0 - 20.0)
    biot = half / (k * gap)
    z = brentq(lambda z: z * math.tan(z) - biot, 1e-6, math.pi / 2.0 - 1e-12) if biot < 1e5 else math.pi / 2.0
    c = 4.0 * math.sin(z) / (2.0 * z + math.sin(2.0 * z))
    place = FRACTIONS[len(FRACTIONS) // 2]
    fourier = math.log(c * math.cos(z * place) / share) / z**2
    assert fourier > 0.2
    heating = between(constant(k, rho, cp), rho * thickness, 20.0, 180.0, melted=140.0, gap=gap)
    assert heating.through()[0] == pytest.approx(fourier * half**2 * rho * cp / k, rel=5e-3)


@pytest.mark.parametrize("thickness", [0.004, 0.012])
def test_two_fronts_of_melting_meet(thickness: float) -> None:
    """A sheet that is all at its melting point, platens at 177 °C: Neumann's λ 0.49827 [X] holds until the fronts meet.

    ρ 850, melt .25/2500, 200 kJ/kg, melting within 0.2 K at 130 °C; through after (s/2)²/(4 λ² α), within 2 %.
    """
    matter = polymer(
        solid_heat_capacity=2200.0,
        melt_heat_capacity=2500.0,
        solid_conductivity=0.45,
        melt_conductivity=0.25,
        solid_density=850.0,
        melt_density=850.0,
        melted=([129.9 + ICE, 130.1 + ICE], [0.0, 1.0]),
        latent_heat=200e3,
        points=2048,
    )
    heating = between(matter, 850.0 * thickness, 129.9, 177.0, melted=130.1)
    exact = (0.5 * thickness) ** 2 / (4.0 * 0.49826776**2 * 0.25 / (850.0 * 2500.0))
    assert heating.through()[0] == pytest.approx(exact, rel=0.02)


def pressing(matter: Matter, areal_mass: float, start: float, hot: float, **changes: Any) -> PlatenPressing:
    """A sheet of one temperature between platens of 20 mm steel of its own size; temperatures in °C, the rest SI."""
    given: dict[str, Any] = {
        "conductivity": 50.0,
        "density": 7800.0,
        "heat_capacity": 490.0,
        "thickness": 0.02,
        "length": 0.3,
        "width": 0.25,
        "gap": np.full(MEMBERS, 0.001),
        "papers": (0.0, 0.0),
        "cooling": np.full(MEMBERS, 300.0),
        "rim": 0.0,
        "air": np.full(MEMBERS, 20.0 + ICE),
        **changes,
    }
    return PlatenPressing(
        start=np.full((len(PART_FRACTIONS), MEMBERS), start + ICE),
        fractions=PART_FRACTIONS,
        areal_mass=np.full(MEMBERS, areal_mass),
        matter=matter,
        closing=np.zeros(MEMBERS),
        platens=Platens(**given),
        area=0.075,
        wall=np.full((1, MEMBERS), hot + ICE),
    )


@pytest.mark.parametrize(("thickness", "centre"), [(3.0, 11.64), (5.0, 32.35), (8.0, 82.81), (12.0, 186.32)])
def test_the_mould_cooling_formula(thickness: float, centre: float) -> None:
    """α 1.1e-7, 200 °C to 90 °C between platens that stay at 40 °C [X], within 1.5 %: endless heat in the metal.

    The formula t = s²/(π²α) ln[(4/π)(Tm-Tw)/(Te-Tw)] was seen on a trainer's page.
    """
    matter = constant(0.25, 950.0, 0.25 / (950.0 * 1.1e-7))
    sheet = pressing(
        matter,
        950.0 * thickness * 1e-3,
        200.0,
        40.0,
        conductivity=1e5,
        heat_capacity=1e7,
        gap=np.full(MEMBERS, 1e-9),
        air=np.full(MEMBERS, 40.0 + ICE),
    )
    assert sheet.below(90.0 + ICE)[0] == pytest.approx(centre, rel=0.015)


def test_bare_platens_cool_like_a_lump() -> None:
    """With hardly any plastic the outside follows exp(-h t/(ρ c s)): 300 W/(m² K) on 20 mm of steel, 254.8 s."""
    sheet = pressing(constant(0.25, 950.0, 2300.0), 1e-3, 180.0, 180.0, conductivity=1e5)
    tau = 7800.0 * 490.0 * 0.02 / 300.0
    for level in (150.0, 100.0, 50.0):
        exact = tau * math.log(160.0 / (level - 20.0))
        assert sheet.below(level + ICE, outside=True)[0] == pytest.approx(exact, rel=0.005)


def test_the_default_steps_are_fine_enough(shop: Shop) -> None:
    """Core set and solid within 1.1 % of the same cells with steps an eighth as long; water, air and off."""
    for cooled in ("water", "air", "off"):
        sheet = facts(shop, {"equipment.press.platen.cooled_by": cooled})["pressing"].numbers
        history = sheet.history
        fine = np.repeat(np.diff(history.times, axis=0), 8, axis=0) / 8.0
        finer = solve(history.slab, history.temperature[0], fine)
        for level in (106.0, 90.0):
            exact = finer.crossing(finer.hottest(sheet.part), level + ICE, rising=False)
            assert sheet.below(level + ICE) == pytest.approx(exact, rel=0.011), (cooled, level)


def test_the_melting_steps_are_fine_enough(shop: Shop) -> None:
    """Melted through within 1.5 % of the same cells with steps an eighth as long: flake, and a chilled melt."""
    for changes, melted in (({}, False), ({"press.transfer": "5 min"}, True)):
        melting = facts(shop, changes, melted)["melting"].numbers
        history = melting.history
        fine = np.repeat(np.diff(history.times, axis=0), 8, axis=0) / 8.0
        finer = solve(history.slab, history.temperature[0], fine)
        exact = finer.crossing(finer.coldest(melting.layer), melting.level)
        assert melting.through() == pytest.approx(exact, rel=0.015), melted


def test_a_quarter_of_the_force_is_lost_at_the_steepest(shop: Shop) -> None:
    """Half a millimetre of 2 mm of stretch: no window of that length loses more, and one of them loses it all."""
    told = facts(shop)
    sheet, window = told["pressing"].numbers, told["quarter of force lost in"].numbers
    density = shop.case(SHEET, step="press").get("resin:density by temperature").value  # type: ignore[union-attr]
    cells = sheet.history.temperature[:, sheet.history.slab.cells_of(sheet.part)]
    solid = told["core solid after"].numbers
    for member in (0, 1, 40):
        thickness = sheet.areal_mass[member] * (sheet.fractions @ (1.0 / np.interp(cells[..., member], *density)).T)
        starts = np.linspace(0.0, solid[member] - window[member], 2000)
        times = sheet.history.times[:, member]
        lost = np.interp(starts, times, thickness) - np.interp(starts + window[member], times, thickness)
        assert lost.max() == pytest.approx(0.0005, rel=0.03)


def test_a_sheet_that_shrinks_less_than_that_never_slackens_the_press(shop: Shop) -> None:
    """2 mm of HDPE lose 19 % of their thickness from 180 to 90 °C, less than half a millimetre."""
    told = facts(shop, {"part.thickness": "2 mm", "formula.charge": "65 g"})
    assert np.all(np.isinf(told["quarter of force lost in"].numbers))


def test_the_plain_numbers_by_hand(shop: Shop) -> None:
    """195 g on 260 × 125 mm, 20 kN, 5 % of flash, 950 kg/m³; 435 kJ/kg at 2 kW; a power law closes with speed^n."""
    told = facts(shop)
    area = 0.26 * 0.125
    assert told["loading"].nominal == pytest.approx(0.195 / area)
    assert told["pressure"].nominal == pytest.approx(20e3 / area)
    assert told["stored energy"].nominal == pytest.approx(20.0)
    assert told["sheet thickness"].nominal == pytest.approx(0.195 / 1.05 / area / 950.0)
    assert told["full force after"].nominal == pytest.approx(15.0 * MINUTE + 15.0)
    assert told["heater needs"].nominal == pytest.approx(0.195 * 435e3 / 2000.0, rel=0.05)
    fast = facts(shop, {"press.closing_time": "7.5 s"})
    assert fast["closing force"].nominal / told["closing force"].nominal == pytest.approx(2.0**0.45)


def test_plaques_take_the_preheating_of_common_practice(shop: Shop) -> None:
    """5 to 15 minutes at 180 °C for plaques of polyethylene (memory, usually cited to ISO 17855-2): 4 to 6 mm need
    no more than the longest of it in every shop, and 6 mm of flake are not through after half the shortest."""
    for mm, grams in ((4, 130), (6, 195)):
        through = facts(shop, {"part.thickness": f"{mm} mm", "formula.charge": f"{grams} g"})["melted through after"]
        assert np.all(through.numbers < 15.0 * MINUTE)
    assert through.nominal > 2.5 * MINUTE


def test_twice_the_sheet_takes_up_to_four_times_as_long(shop: Shop) -> None:
    """Between hot platens time goes with the square of the thickness, less what the gaps take, which do not grow."""
    once, twice = (facts(shop, {"formula.charge": f"{g} g"})["melted through after"].numbers for g in (195, 390))
    assert np.all((twice > 3.0 * once) & (twice < 4.1 * once))


@few
@given(cool=st.integers(150, 200), more=st.integers(1, 30))
def test_hotter_platens_are_never_later(shop: Shop, cool: int, more: int) -> None:
    """To melt through; but the sheet then sets no sooner."""
    slow, fast = (facts(shop, {"press.platens": f"{t} °C"}) for t in (cool, cool + more))
    assert np.all(fast["melted through after"].numbers <= slow["melted through after"].numbers * 1.001)
    assert np.all(fast["core set after"].numbers >= slow["core set after"].numbers * 0.995)


@few
@given(thin=st.integers(60, 400), more=st.integers(10, 300))
def test_a_thicker_sheet_is_never_sooner(shop: Shop, thin: int, more: int) -> None:
    """Neither melted, nor set and solid where both were heated through."""
    long = {"press.at_least": "90 min", "press.at_most": "90 min"}
    quick, slow = (facts(shop, {**long, "formula.charge": f"{g} g"}) for g in (thin, thin + more))
    for name in ("melted through after", "core set after", "core solid after"):
        assert np.all(slow[name].numbers >= quick[name].numbers * 0.995), name


def test_water_cools_sooner_than_air_and_air_than_nothing(shop: Shop) -> None:
    """In every shop; and platens twice as thick take longer."""
    set_after = {
        kind: facts(shop, {"equipment.press.platen.cooled_by": kind})["core set after"].numbers
        for kind in ("water", "air", "off")
    }
    assert np.all(set_after["water"] < set_after["air"])
    assert np.all(set_after["air"] < set_after["off"])
    heavy = facts(shop, {"equipment.press.platen.thickness": "40 mm"})["core set after"].numbers
    assert np.all(heavy > set_after["water"])


def test_a_melt_comes_molten(shop: Shop) -> None:
    """It is through at once where it was in the oven; flake is not. A slow way lets its skin set, which melts again."""
    hot, flake = facts(shop, melted=True), facts(shop)
    assert hot["melted through after"].nominal == 0.0
    assert flake["melted through after"].nominal > MINUTE
    slow = facts(shop, {"press.transfer": "5 min"}, melted=True)
    assert 0.0 < slow["melted through after"].nominal < flake["melted through after"].nominal
    assert isinstance(hot["heater needs"].value, Open)
    assert hot["aged"].nominal > flake["aged"].nominal


def test_platens_that_are_too_cool_never_get_there(shop: Shop) -> None:
    """At 130 °C nothing melts through; none of the numbers is NaN."""
    told = facts(shop, {"press.platens": "130 °C"})
    assert told["melted through after"].nominal == np.inf
    assert not np.isnan(told["core solid after"].numbers).any()


def test_what_the_press_hands_on(shop: Shop) -> None:
    """The record that goes on cooling, the hold, the thickness, one more melt; and no question about a cavity."""
    walked = shop.walk({**SHEET, "equipment.mould": None}, ("weigh", "press", "cool", "demould"))
    assert walked.problems == ()
    _, pressed, cooled, _ = walked.after
    assert (pressed.form, pressed.melts) == ("pressed hot", 1)
    assert pressed.thickness.nominal == pytest.approx(0.006, rel=0.01)  # type: ignore[union-attr]
    assert cooled.form == "part"
    press, cool, demould = (case.facts for case in walked.cases[1:])
    assert np.all(cool["core solid after"].numbers == press["core solid after"].numbers)
    assert cool["core when opened"].nominal < 40.0 + ICE
    value = demould["cold length"].value
    assert isinstance(value, Open)
    assert not any(question for _, question in value.needs)


@pytest.mark.parametrize(
    ("gone", "still"),
    [
        ("press.at_most", "melted through after"),
        ("press.closing_time", "melted through after"),
        ("equipment.press.platen.cooled_by", "aged"),
        ("equipment.press.platen.material", "aged"),
        ("formula.liner.platen_top", "pressure"),
    ],
)
def test_what_is_not_known_is_open(shop: Shop, gone: str, still: str) -> None:
    """With a question for it; what does not rest on it is told all the same."""
    told = facts(shop, {gone: None})
    opened = [fact.value for fact in told.values() if isinstance(fact.value, Open)]
    assert any(question for value in opened for _, question in value.needs)
    assert told[still].nominal > 0.0
