"""Flake in an oven: how long it takes against a trial computation, and the laws that every shop obeys."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from recipes_core.app import forecast
from recipes_core.facts import Fact, Open

if TYPE_CHECKING:
    from pathlib import Path

    from recipes_plugins.processes.flake_melt.melting import Melting

    from recipes_core.case import Case
    from recipes_core.forecast import Walk
    from tests.conftest import Shop

MINUTE = 60.0
ICE = 273.15
MELT = ("weigh", "melt")
SHORT = {"melt.at_least": "5 min", "melt.at_most": "5 min"}
few = settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])

# Trial computation on the same inputs, convection 5 W/(m2 K), eps 0.9/0.85, k_bed 0.09, bulk 330: 0.8 mm steel
# tray and parchment with its gap (0.003 m2 K/W) in an oven at 177 °C; HDPE that melts from 100 to 136 °C. Not a
# measurement. Charge on 0.1 m2; minutes until the top passes 130 °C, and until all of it does.
TRIAL = [("375 g", 8.0, 13.7), ("500 g", 9.5, 18.5), ("750 g", 12.2, 29.2)]


def melt(shop: Shop, changes: Mapping[str, Any] | None = None) -> Mapping[str, Fact]:
    """The facts of the melt step, followed for five minutes after all is molten."""
    return shop.facts({**SHORT, **(changes or {})}, MELT)["melt"]


def forecast_of(shop: Shop, charge: str, tmp_path: Path) -> Walk:
    """The forecast of a file, as the command makes it."""
    file = tmp_path / "trial.yaml"
    file.write_text(shop.text({"formula.charge": charge}, MELT), "utf-8")
    return forecast(file, date(2026, 6, 1), shop.shelf)[0]


def last(walked: Walk) -> Case:
    """The case of the melt step."""
    assert walked.problems == ()
    return walked.cases[-1]


@pytest.mark.parametrize(("charge", "surface", "all_over"), TRIAL)
def test_the_trial_computation(shop: Shop, tmp_path: Path, charge: str, surface: float, all_over: float) -> None:
    """The forecast of a file: within 15 % of each trial figure, with a band around the nominal value."""
    facts = last(forecast_of(shop, charge, tmp_path)).facts
    looks, through = facts["surface melted after"], facts["melted through after"]
    melting: Melting = facts["melting"].numbers
    above = melting.history.crossing(melting.history.coldest(melting.layer), 130.0 + ICE)
    assert looks.nominal / MINUTE == pytest.approx(surface, rel=0.15)
    assert above[0] / MINUTE == pytest.approx(all_over, rel=0.15)
    assert through.nominal / MINUTE == pytest.approx(all_over, rel=0.15)  # at 136 °C, so a little later
    assert through.nominal > above[0]
    for fact in (looks, through):
        low, high = fact.band()
        assert low < fact.nominal < high
        assert 0.5 * fact.nominal < low
        assert high < 2.0 * fact.nominal


def test_twice_the_layer_takes_more_than_twice_as_long_and_the_table_says_why(shop: Shop, tmp_path: Path) -> None:
    """10 kg/m2 against 5: the table shows both, and its last column more than doubles, as its note says."""
    half, whole = (last(forecast_of(shop, charge, tmp_path)) for charge in ("500 g", "1000 g"))
    through = [case.facts["melted through after"].numbers for case in (half, whole)]
    assert np.all(through[1] > 2.0 * through[0])
    table = half.tables[0]()
    rows = {round(row[0], 6): dict(zip((c[0] for c in table.columns), row, strict=True)) for row in table.rows}
    once, twice = rows[5.0], rows[10.0]
    assert once["melted through"] == pytest.approx(through[0][0], rel=0.01)
    assert twice["melted through"] == pytest.approx(through[1][0], rel=0.01)
    assert twice["heat's own way"] > 2.0 * once["heat's own way"]
    rest = [row["melted through"] - row["heat's own way"] for row in (once, twice)]
    assert rest[1] == pytest.approx(2.0 * rest[0], rel=0.15)  # twice the heat through the same two faces
    assert "more than twice as long" in table.note
    assert once["from"] < once["melted through"] < once["to"]


def test_the_surface_of_a_thick_layer_looks_melted_after_10_to_15_minutes(shop: Shop) -> None:
    """Common practice at 177 °C, no source: that is when an operator sees it; the core is far from it."""
    facts = melt(shop, {"formula.charge": "1000 g"})
    assert 10.0 <= facts["surface melted after"].nominal / MINUTE <= 15.0
    assert facts["melted through after"].nominal > 2.0 * facts["surface melted after"].nominal


@few
@given(cool=st.integers(150, 200), more=st.integers(1, 30))
def test_a_hotter_oven_is_never_later(shop: Shop, cool: int, more: int) -> None:
    """In any one shop, to the surface and to the core."""
    slow, fast = (melt(shop, {"melt.oven": f"{t} °C"}) for t in (cool, cool + more))
    for name in ("surface melted after", "melted through after"):
        assert np.all(fast[name].numbers <= slow[name].numbers * (1.0 + 1e-3)), name


@few
@given(thin=st.integers(150, 900), more=st.integers(10, 400))
def test_a_thicker_layer_is_never_sooner(shop: Shop, thin: int, more: int) -> None:
    """Neither its surface nor its core."""
    quick, slow = (melt(shop, {"formula.charge": f"{m} g"}) for m in (thin, thin + more))
    for name in ("surface melted after", "melted through after"):
        assert np.all(slow[name].numbers >= quick[name].numbers * (1.0 - 1e-3)), name


@few
@given(early=st.integers(1, 60), later=st.integers(0, 60))
@example(early=1, later=0)
def test_longer_in_the_oven(shop: Shop, early: int, later: int) -> None:
    """Never cools the coldest plastic, never lowers the hottest, never takes ageing back."""
    short, long = (
        melt(shop, {"melt.at_least": f"{t} min", "melt.at_most": f"{t} min"}) for t in (early, early + later)
    )
    for name in ("coldest at the end", "hottest", "aged"):
        assert np.all(long[name].numbers >= short[name].numbers - 1e-9), name
        assert np.all(np.isfinite(long[name].numbers))
    assert np.all(short["coldest at the end"].numbers <= short["hottest"].numbers + 1e-9)


@few
@given(setting=st.integers(160, 200), swing=st.integers(0, 20))
def test_a_measured_oven_narrows_the_forecast(shop: Shop, setting: int, swing: int) -> None:
    """A reading that agrees with the dial: the band of the melt lies inside that of the unmeasured oven."""
    rough = melt(shop, {"melt.oven": f"{setting} °C"})
    measured = {"set": "180 °C", "reads": "180 °C", "on": "2026-05-01"}
    fine = melt(
        shop,
        {"melt.oven": f"{setting} °C", "equipment.oven.measured": measured, "equipment.oven.swing": f"{swing} K"},
    )
    for name in ("surface melted after", "melted through after"):
        (low, high), (narrow_low, narrow_high) = rough[name].band(), fine[name].band()
        assert low <= narrow_low <= fine[name].nominal <= narrow_high <= high, name
        assert fine[name].nominal == pytest.approx(rough[name].nominal, rel=1e-3)


def test_the_surface_is_melted_before_the_core(shop: Shop) -> None:
    """In every shop, thick or thin."""
    for charge in ("100 g", "1500 g"):
        facts = melt(shop, {"formula.charge": charge})
        assert np.all(facts["surface melted after"].numbers <= facts["melted through after"].numbers)


def test_an_oven_that_is_too_cool_never_gets_there(shop: Shop) -> None:
    """At 130 °C on the dial most shops never melt it through; the hottest do; none is NaN."""
    facts = melt(shop, {"melt.oven": "130 °C"})
    through = facts["melted through after"]
    assert through.nominal == np.inf
    assert 0.0 < through.share(np.isinf) < 1.0
    assert not np.isnan(through.numbers).any()
    assert through.band()[1] == np.inf
    assert np.all(facts["coldest at the end"].numbers < 410.0)


def test_the_table_of_layers_says_never(shop: Shop, tmp_path: Path) -> None:
    """At 110 °C on the dial no layer melts through in any shop: every time of it is never, none is NaN."""
    file = tmp_path / "cool.yaml"
    file.write_text(shop.text({"melt.oven": "110 °C"}, MELT), "utf-8")
    table = last(forecast(file, date(2026, 6, 1), shop.shelf)[0]).tables[0]()
    heads = [head for head, _ in table.columns]
    for name in ("melted through", "from", "to", "heat's own way"):
        assert all(row[heads.index(name)] == np.inf for row in table.rows), name


def test_no_heater_beats_its_power(shop: Shop) -> None:
    """The heater needs: 0.375 kg and the tray's 0.624 kg of steel to 136 °C at 2 kW, by hand within 5 %."""
    plastic = 0.375 * (2.0e3 * 80.0 + 190e3 + 2.35e3 * 36.0)  # about 435 kJ/kg: solid, latent, the rest
    tray = 0.4 * 0.25 * 0.0008 * 7800.0 * 490.0 * 116.0
    floor = melt(shop)["heater needs"]
    assert floor.nominal == pytest.approx((plastic + tray) / 2000.0, rel=0.05)
    weak = melt(shop, {"equipment.oven.power": "500 W"})["heater needs"]
    assert weak.nominal == pytest.approx(4.0 * floor.nominal)


def test_a_fan_a_dark_tray_and_no_sheet_on_top_help(shop: Shop) -> None:
    """Each against the still, dark, open tray, in every shop."""
    base = melt(shop)["melted through after"].numbers
    assert np.all(melt(shop, {"equipment.oven.type": "fan"})["melted through after"].numbers < base)
    assert np.all(melt(shop, {"equipment.tray.finish": "bright"})["melted through after"].numbers > base)
    assert np.all(melt(shop, {"formula.liner.over": "parchment"})["melted through after"].numbers > base)


@pytest.mark.parametrize(
    ("change", "asked"),
    [
        ({"melt.oven_start": "cold"}, "A cold start is not computed yet"),
        ({"melt.oven_start": None}, "hot when the tray goes in"),
        ({"equipment.tray.thickness": None}, "?"),
        ({"equipment.oven.type": "unknown"}, "?"),
        ({"melt.oven": None}, "set to"),
        ({"formula.feedstock.0.resin": "mixed"}, "mixed lot cannot be computed"),
        ({"formula.charge": "unknown"}, "?"),
    ],
)
def test_what_is_not_known_is_asked_and_not_computed(shop: Shop, change: dict[str, str | None], asked: str) -> None:
    """Every time of the melt is open with that question, and there is no table."""
    walked = shop.walk(change, MELT)
    assert walked.problems == ()
    for name in ("surface melted after", "melted through after", "aged"):
        value = walked.cases[-1].facts[name].value
        assert isinstance(value, Open)
        assert any(asked in question for _, question in value.needs)
    assert walked.cases[-1].tables == ()


def test_a_missing_clock_leaves_the_times_known(shop: Shop) -> None:
    """How long it needs does not depend on how long it is given; only its state at the end does."""
    facts = shop.facts({"melt.at_least": None, "melt.at_most": None}, MELT)["melt"]
    assert facts["melted through after"].nominal > 0.0
    assert isinstance(facts["coldest at the end"].value, Open)
    assert isinstance(facts["hottest"].value, Open)


def test_the_melt_hands_on_its_profile(shop: Shop) -> None:
    """The layer as it stands when the step may end, one column a shop, coldest as the fact says."""
    walked = shop.walk(None, MELT)
    work, facts = walked.after[-1], walked.cases[-1].facts
    assert work.form == "melt"
    assert work.melts == 1
    profile = work.profile.numbers  # type: ignore[union-attr]
    assert profile.temperatures.shape == (len(profile.fractions), 65)
    coldest = facts["coldest at the end"].numbers
    assert profile.temperatures.min(axis=0) == pytest.approx(coldest, abs=0.01)  # another cell may be the coldest next
    assert profile.areal_mass == pytest.approx(facts["loading"].numbers)
    assert profile.fractions.sum() == pytest.approx(1.0)


def test_a_second_melt_ages_on_top_of_the_first(shop: Shop) -> None:
    """The reserve is used up over all heatings."""
    once = shop.facts(None, MELT)["melt"]["aged"].numbers
    again = {"process": "flake-melt", "oven_start": "hot", "at_least": "20 min", "at_most": "30 min", "by": None}
    changes = {f"preheat.{key}": value for key, value in again.items()}
    twice = shop.facts({**changes, "preheat.to": None}, ("weigh", "melt", "preheat"))
    assert twice["preheat"]["aged"].numbers == pytest.approx(2.0 * once, rel=1e-6)
