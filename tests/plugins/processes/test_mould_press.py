"""The press: against a trial computation and common practice, and the laws that every shop obeys."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from recipes_core.facts import Open

if TYPE_CHECKING:
    from recipes_plugins.processes.mould_press.pressing import Pressing

    from recipes_core.facts import Fact
    from tests.conftest import Shop

    Press = Callable[..., Pressing]

ICE = 273.15
MINUTE = 60.0
few = settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])

# Trial computation, not a measurement: plate and walls of steel, air 22 °C, film 5, emissivity 0.8, contact
# 1000 W/(m2 K), melt 165 °C, outside and mass of the mould 1.6 for each of the part's face. Minutes until the
# core is below 110, 90, 80 and 60 °C and the outside below 50 °C; °C outside at 22 min.
# Set here: the same but for three things. The mould's mass is 1.2 to 1.6 of a wall (from its size) where the trial
# takes 1.6; the outside 1.3 to 2.0; and the plastic freezes from 120 °C with a peak at 106 where the trial's froze
# from 122 with a peak at 116. Mass and outside act with their full share at most, which is 20 % here; the core
# below 110 °C falls into the middle of freezing, where the curve alone moves it by as much again.
TRIAL = [
    ({}, (20.5, 33.0, 38.9, 56.3, 67.8, 99.0)),
    ({"part": 0.008}, (13.8, 24.5, 29.8, 45.5, 56.0, 92.0)),
    ({"part": 0.006}, (10.7, None, 25.8, 40.6, 51.0, 86.0)),
    ({"preheated": 80.0}, (10.9, None, 28.5, 45.8, 57.0, 87.0)),
    ({"preheated": 150.0}, (26.3, None, 44.4, 61.8, 73.0, 103.0)),
    ({"wall": 0.010}, (24.7, None, 52.8, 82.4, 103.0, 103.0)),
    ({"film": 20.0}, (12.2, None, 19.0, 26.2, 29.9, 66.0)),
]
LEVELS = (110.0, 90.0, 80.0, 60.0)


@pytest.mark.parametrize(("change", "minutes"), TRIAL)
def test_the_trial_computation_in_steel(
    press: Press, change: dict[str, float], minutes: tuple[float | None, ...]
) -> None:
    """Every stage within 20 % of the trial, for the three differences named above, and the outside within 8 K."""
    part = press(**change)
    for level, wanted in zip(LEVELS, minutes[:4], strict=True):
        if wanted is not None:
            assert part.below(level + ICE)[0] / MINUTE == pytest.approx(wanted, rel=0.2), level
    assert part.below(50.0 + ICE, outside=True)[0] / MINUTE == pytest.approx(minutes[4], rel=0.2)
    assert part.outside(22.0 * MINUTE)[0] - ICE == pytest.approx(minutes[5], abs=8.0)


@pytest.mark.parametrize(
    ("change", "minutes"),
    [({}, (31.0, 88.0, 125.0)), ({"wall": 0.04}, (20.9, 75.0, 161.0)), ({"part": 0.008}, (9.4, 33.9, 64.5))],
)
def test_the_trial_computation_in_wood(press: Press, change: dict[str, float], minutes: tuple[float, ...]) -> None:
    """Cold softwood, 18 mm: core below 110, 80 and 60 °C, within a factor of 1.7.

    Trial computation, not a measurement; its wood had 0.12 W/(m K) and 550 kg/m3, and all but the first row count
    its mass and outside 1.6 times, as ours does not: its heat goes into and out of at most 1.6 times as much.
    """
    part = press(**{"wall": 0.018, "preheated": 22.0, "wood": True, **change})
    for level, wanted in zip((110.0, 80.0, 60.0), minutes, strict=True):
        assert wanted / 1.7 <= part.below(level + ICE)[0] / MINUTE <= wanted * 1.7, level


def test_a_cold_steel_mould_freezes_a_skin(press: Press) -> None:
    """20 s of closing onto steel of 20 °C: about 1.2 mm on each side of 12 mm (trial computation, by the 112 °C of
    its table), 13 to 25 % of the mass by the sheet's freezing peak; from 100 °C up there is none."""
    cold = press(preheated=20.0, closing=20.0, air=20.0)
    assert cold.skin(112.0 + ICE)[0] * 12.0 / 2.0 == pytest.approx(1.2, abs=0.15)
    assert 0.13 <= cold.skin(106.0 + ICE)[0] <= 0.25
    for warm in (100.0, 120.0, 140.0):
        assert np.all(press(preheated=warm, closing=60.0).skin(106.0 + ICE) == 0.0)


@pytest.mark.parametrize(
    ("preheated", "contact", "millimetres"),
    [
        (20.0, 500.0, (0.30, 0.55, 0.95, 1.80)),
        (20.0, 1000.0, (0.50, 0.80, 1.20, 2.05)),
        (20.0, 5000.0, (0.75, 1.05, 1.45, 2.25)),
        (60.0, 500.0, (0.05, 0.25, 0.45, 0.85)),
        (60.0, 1000.0, (0.25, 0.45, 0.70, 1.05)),
        (60.0, 5000.0, (0.50, 0.70, 0.90, 1.20)),
    ],
)
def test_the_trial_table_of_skins(
    press: Press, preheated: float, contact: float, millimetres: tuple[float, ...]
) -> None:
    """Frozen below 112 °C on each face after 5, 10, 20 and 60 s: never more than 0.1 mm, a cell, thinner than the
    trial; thicker by at most 1.3 × 1.13 and a cell: a re-run of the trial on a finer division came out up to 30 %
    thicker, and our curve gives off 17 % of the latent heat above 112 °C where the trial's gave off 42 %, which
    leaves 165 instead of 212 kJ/kg to be taken out, and depth goes by its square root."""
    for seconds, wanted in zip((5.0, 10.0, 20.0, 60.0), millimetres, strict=True):
        skin = press(preheated=preheated, contact=contact, closing=seconds).skin(112.0 + ICE)[0]
        assert wanted - 0.1 <= skin * 12.0 / 2.0 <= wanted * 1.3 * 1.13 + 0.1, seconds


def test_steel_sets_in_20_to_25_minutes_and_wood_opens_after_more_than_an_hour(shop: Shop) -> None:
    """Common practice, no source, for a plate of this size: the forecast tells what each clock means, by name."""
    steel = shop.facts({"preheat.at_least": "18 min"})
    wood = shop.facts(
        {"equipment.mould.material": "softwood", "equipment.mould.wall": "18 mm", "cool.at_least": "3 h"},
        only=("weigh", "melt", "fold", "press", "cool"),
    )
    assert 20.0 <= steel["press"]["core set after"].nominal / MINUTE <= 25.0
    assert wood["cool"]["core cool enough after"].nominal > 60.0 * MINUTE
    for facts in (steel, wood):
        cool = facts["cool"]
        stages = ("core set after", "core solid after", "core cool enough after")
        times = [cool[name].nominal for name in stages]
        assert times[0] < times[1] < times[2]
        assert cool["cool to touch after"].nominal > 0.0


@few
@given(short=st.integers(2, 60), more=st.integers(1, 60), wall=st.integers(15, 130))
def test_longer_closing_never_thins_the_skin(press: Press, short: int, more: int, wall: int) -> None:
    """Whatever the mould's temperature; a hundredth of the mass is the fineness that it is told to."""
    quick, slow = (press(preheated=float(wall), closing=float(t)).skin(106.0 + ICE) for t in (short, short + more))
    assert np.all(slow >= quick - 0.01)


@few
@given(cold=st.integers(15, 120), more=st.integers(1, 60), closing=st.integers(2, 60))
def test_a_colder_mould_never_thins_the_skin(press: Press, cold: int, more: int, closing: int) -> None:
    """Nor does it ever set the core later."""
    warm, cool = (press(preheated=float(t), closing=float(closing)) for t in (cold + more, cold))
    assert np.all(cool.skin(106.0 + ICE) >= warm.skin(106.0 + ICE) - 0.01)
    assert np.all(cool.below(106.0 + ICE) <= warm.below(106.0 + ICE) * 1.005 + 1.0)


@few
@given(thin=st.integers(4, 20), more=st.integers(1, 10), wood=st.booleans())
def test_a_thicker_part_is_never_sooner(press: Press, thin: int, more: int, wood: bool) -> None:
    """Not to set, not to be solid, not to be cool enough."""
    quick, slow = (press(part=t / 1000.0, wood=wood, wall=0.01) for t in (thin, thin + more))
    for level in (106.0, 90.0, 60.0):
        assert np.all(slow.below(level + ICE) >= quick.below(level + ICE) * 0.995)


@few
@given(short=st.integers(0, 60), more=st.integers(1, 120), wood=st.booleans())
def test_a_longer_hold_never_leaves_a_hotter_core(press: Press, short: int, more: int, wood: bool) -> None:
    """The plastic cools all the time; and a core can be told for any time at all."""
    part = press(wood=wood)
    assert np.all(part.core((short + more) * MINUTE) <= part.core(short * MINUTE) + 1e-9)
    assert np.all(np.isfinite(part.core(1e7)))
    assert np.all(part.core(1e7) < 22.0 + ICE + 2.0)


def test_cool_outside_means_for_good(press: Press) -> None:
    """A cold mould of wood is cool outside at first, warms up, and is cool again: only that counts."""
    part = press(wood=True, wall=0.018, preheated=22.0)
    again = part.below(50.0 + ICE, outside=True)
    assert part.outside(0.0)[0] < 50.0 + ICE
    assert np.all(again > 30.0 * MINUTE)
    for later in (1.0, 10.0, 60.0, 600.0):
        assert np.all(part.outside(again + later * MINUTE) <= 50.0 + ICE + 1e-6)
    assert np.all(part.outside(0.5 * again) > 50.0 + ICE)


def test_a_stand_takes_heat_or_keeps_it(press: Press) -> None:
    """Steel plates in the press cool the part faster than feet in the open; boards, which insulate, slower."""
    open_, boards, plates = (
        press(stands=stands).below(90.0 + ICE)[0]
        for stands in ("on feet in the open", "on boards in the press", "on steel plates in the press")
    )
    assert plates < open_ < boards


def test_shares_of_the_mould_by_hand(press: Press) -> None:
    """150 × 100 × 12 mm in 5 mm of steel: outer face, rim, and half the metal over one face's own wall."""
    mass, rim, outer = press().mould.shares
    face = 0.15 * 0.1
    assert outer == pytest.approx(0.16 * 0.11 / face)
    assert rim == pytest.approx((0.16 + 0.11) * 0.022 / face)
    assert mass == pytest.approx(0.5 * (0.16 * 0.11 * 0.022 - face * 0.012) / (face * 0.005))
    assert press(wood=True).mould.shares == (1.0, 0.0, 1.0)


def facts(shop: Shop, changes: Mapping[str, Any] | None = None) -> Mapping[str, Fact]:
    """The facts of the press step after the whole chain before it."""
    return shop.facts(changes, ("weigh", "melt", "preheat", "fold", "press"))["press"]


def test_pressure_energy_and_closing_force_by_hand(shop: Shop) -> None:
    """20 kN on 260 × 125 mm; half of force × 2 mm; a power-law melt: half the time to close needs 2^n of the force."""
    told = facts(shop)
    assert told["pressure"].nominal == pytest.approx(20e3 / (0.26 * 0.125))
    assert told["stored energy"].nominal == pytest.approx(20.0)
    slow, fast = (facts(shop, {"press.closing_time": f"{t} s"})["closing force"].nominal for t in (20, 10))
    assert fast / slow == pytest.approx(2.0**0.45)


def test_the_press_starts_from_what_the_steps_before_left(shop: Shop) -> None:
    """A mould that was not preheated is as cold as the shop and freezes a skin; a slow way cools the melt's skin."""
    warm = facts(shop)
    cold = shop.facts(only=("weigh", "melt", "fold", "press"))["press"]
    assert np.all(cold["skin at full force"].numbers > 0.05)
    assert warm["skin at full force"].nominal == 0.0
    assert np.all(warm["skin at full force"].numbers < cold["skin at full force"].numbers)
    assert np.all(cold["contact temperature"].numbers < warm["contact temperature"].numbers)
    slow = facts(shop, {"press.transfer": "2 min"})
    assert np.all(slow["skin at the mould"].numbers < warm["skin at the mould"].numbers)


@few
@given(short=st.integers(1, 60), more=st.integers(1, 60))
def test_through_the_whole_chain_a_longer_hold_never_leaves_a_hotter_core(shop: Shop, short: int, more: int) -> None:
    """In every shop, and so in the band."""
    quick, slow = (facts(shop, {"press.hold": f"{t} min"})["core when the force ends"] for t in (short, short + more))
    assert np.all(slow.numbers <= quick.numbers + 1e-9)
    assert slow.band()[1] <= quick.band()[1]


@pytest.mark.parametrize("gone", ["press.transfer", "press.closing_time", "equipment.mould.wall", "preheat.at_least"])
def test_what_is_not_known_is_open(shop: Shop, gone: str) -> None:
    """The cooling needs all of it; the pressure does not."""
    told = facts(shop, {gone: None})
    assert isinstance(told["core set after"].value, Open)
    assert told["pressure"].nominal > 0.0


def test_a_melt_that_went_cold_on_its_way_is_followed_all_the_same(shop: Shop) -> None:
    """After an hour in the air of the shop there is no heat left to choose the time steps by."""
    told = facts(shop, {"press.transfer": "1 h", "preheat.to": "60 °C"})
    assert told["skin at full force"].nominal == 1.0
    assert told["core set after"].worst(highest=True) == 0.0


def test_a_press_that_closes_at_once_needs_a_finite_force(shop: Shop) -> None:
    """Closing in 0 s counts as one second; nothing becomes infinite or fails."""
    assert np.all(np.isfinite(facts(shop, {"press.closing_time": "0 s"})["closing force"].numbers))
    assert np.all(np.isfinite(facts(shop, {"press.transfer": "0 s"})["skin at the mould"].numbers))
