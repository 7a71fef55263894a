"""A sheet in an oven and on its former: how long each takes, what both depend on, and what is not computed."""

from __future__ import annotations

import copy
import json
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from recipes_plugins import plastic
from recipes_plugins.processes.reheat_bend import forecast, holding, soaking
from recipes_plugins.processes.reheat_bend.holding import Former, Holding
from recipes_plugins.processes.reheat_bend.soaking import Soaking

from recipes_core.case import Case, Library
from recipes_core.document import read
from recipes_core.facts import Fact, Given, Open
from recipes_core.forecast import Walk, walk
from recipes_core.physics.grid import MELT_STEPS_PER_DURATION, PART_FRACTIONS
from recipes_core.recipe import Recipe
from recipes_core.sheets import load_sheet
from recipes_core.spread import Band
from recipes_core.work import Profile

if TYPE_CHECKING:
    from recipes_core.physics.matter import Matter
    from tests.conftest import Shop

ICE, MINUTE, MEMBERS = 273.15, 60.0, 65

SHEET: Mapping[str, Any] = {
    "format": "recipe/1",
    "header": {"id": "trial-bend", "title": "Trial bend"},
    "part": {"shape": "plate", "length": "200 mm", "width": "60 mm"},
    "formula": {
        "feedstock": [{"resin": "hdpe", "share": "100 %", "form": "sheet", "thickness": "6 mm"}],
        "liner": {"tray": "parchment", "over": "none", "mould": "none"},
    },
    "site": {"shop_air": "22 °C"},
    "equipment": {
        "oven": {"type": "static", "power": "2 kW"},
        "tray": {"thickness": "0.8 mm", "material": "steel", "finish": "dark"},
    },
    "procedure": [
        {
            "id": "bend",
            "process": "reheat-bend",
            "oven": "170 °C",
            "oven_start": "hot",
            "at_least": "30 min",
            "at_most": "40 min",
            "supported": "yes",
            "former": {"material": "steel", "wall": "5 mm"},
            "turned": "90 deg",
            "radius": "20 mm",
            "legs": {"first": "100 mm", "second": "120 mm"},
            "hold": "20 min",
        }
    ],
}
"""A sheet of 6 mm on the lined tray of an oven that nobody measured; all of it invented."""


def walked(shop: Shop, changes: Mapping[str, Any], library: Library | None = None) -> Walk:
    """The forecast of the sheet with changes: a dotted path (``bend.oven``, a key of the step) and its new value."""
    data: Any = copy.deepcopy(dict(SHEET))
    for dotted, value in changes.items():
        head, *rest = dotted.split(".")
        node = data["procedure"][-1] if head == "bend" else data
        path = rest if head == "bend" else [head, *rest]
        for part in path[:-1]:
            node = node[int(part) if part.isdigit() else part]
        node[path[-1]] = value
        if value is None:
            del node[path[-1]]
    recipe = Recipe(read(json.dumps(data, ensure_ascii=False), "trial.yaml"), shop.shelf.schemas)
    found = walk(recipe, Case(recipe, library or shop.shelf.library), shop.shelf.kinds)
    assert [p.message for p in found.problems] == []
    return found


def bend(shop: Shop, **changes: Any) -> Mapping[str, Fact]:
    """The facts of the bend, with changed keys of the step."""
    return walked(shop, {f"bend.{key}": value for key, value in changes.items()}).cases[-1].facts


def asked(fact: Fact) -> list[str]:
    """The questions that keep a fact open."""
    assert isinstance(fact.value, Open)
    return sorted(text for _, text in fact.value.needs if text)


@pytest.fixture(scope="module")
def hdpe(shop: Shop) -> Mapping[str, Matter]:
    """The matter of the sheet on the way up and down."""

    def matter(curve: str) -> Matter:
        inputs = plastic.inputs(shop.case(step="melt"), curve)
        return plastic.matter({name: value.value for name, value in inputs.items() if isinstance(value, Given)})

    return {"up": matter("melting curve"), "down": matter("freezing curve")}


def soak(matter: Matter, thickness: float, film: float, air: float) -> Soaking:
    """A sheet in moving air with nothing that shines, in one shop 65 times over."""
    given = {"film": Band("convection", film, film, film), "plastic_emissivity": Band("convection", 0.0, 0.0, 0.0)}
    areal = np.full(MEMBERS, 950.0 * thickness)
    return Soaking(areal, matter, np.full(MEMBERS, air + ICE), 135.0 + ICE, "air", given, 0.0)


def test_a_sheet_that_is_nearly_of_one_temperature(hdpe: Mapping[str, Matter]) -> None:
    """6 mm of HDPE, 20 W/(m² K), 160 °C (Bi 0.15): the heat balance of a sheet of one temperature, and a little more.

    The balance is summed here along the way, 5.7 kg/m² × dH over 2 × 20 W/(m² K) × (160 °C - T). Far from a minute for
    each millimetre, as it is quoted for acrylic.
    """
    at = np.linspace(20.0, 135.0, 2301) + ICE
    heat = hdpe["up"].enthalpy(np.tile(at[:, None], MEMBERS))
    drive = 160.0 + ICE - 0.5 * (at[1:] + at[:-1])
    lumped = (5.7 * np.diff(heat, axis=0) / (2.0 * 20.0 * drive[:, None])).sum(axis=0)
    through = soak(hdpe["up"], 0.006, 20.0, 160.0).through()
    assert np.all((through > lumped) & (through < 1.15 * lumped))
    assert through[0] / MINUTE / 6.0 > 2.5


def test_steps_are_fine_enough(hdpe: Mapping[str, Matter], monkeypatch: pytest.MonkeyPatch) -> None:
    """Four times as many steps change neither the soak nor the hold by 1 %."""
    start = Profile(np.full((len(PART_FRACTIONS), MEMBERS), 150.0 + ICE), PART_FRACTIONS, np.full(MEMBERS, 9.5))
    wood = Former(0.13, 500.0, 1600.0, 0.04, np.full(MEMBERS, 0.9))
    steel = Former(50.0, 7800.0, 490.0, 0.005, np.full(MEMBERS, 0.8))

    def times() -> list[float]:
        shop = {"air": np.full(MEMBERS, 295.15), "film": np.full(MEMBERS, 5.0), "shine": np.full(MEMBERS, 0.9)}
        held = [Holding(start, hdpe["down"], np.full(MEMBERS, 10.0), f, 200.0, **shop) for f in (wood, steel)]
        through = [soak(hdpe["up"], t, 20.0, 165.0).through()[0] for t in (0.003, 0.012)]
        return [*through, *(h.below(80.0 + ICE)[0] for h in held), *(h.hottest(300.0)[0] - 295.15 for h in held)]

    coarse = times()
    monkeypatch.setattr(soaking, "MELT_STEPS_PER_DURATION", 4 * MELT_STEPS_PER_DURATION)
    monkeypatch.setattr(soaking, "MORE_STEPS", 2 * soaking.MORE_STEPS)
    monkeypatch.setattr(holding, "STEPS", 4 * holding.STEPS)
    monkeypatch.setattr(holding, "TAIL", 2 * holding.TAIL)
    monkeypatch.setattr(holding, "CARRY_STEPS", 4 * holding.CARRY_STEPS)
    monkeypatch.setattr(holding, "FIRST", 0.25 * holding.FIRST)
    assert coarse == pytest.approx(times(), rel=0.01)


def test_what_it_lies_on(shop: Shop) -> None:
    """Free air at both faces is soonest, then a thin tray, then a cold board; hanging is as good as a rack."""
    rack, tray, board = (bend(shop, lies_on=on)["heated through after"].numbers for on in ("rack", "tray", "board"))
    assert np.all(rack < tray)
    assert np.all(tray < board)
    assert bend(shop, supported="no")["heated through after"].numbers == pytest.approx(rack)
    assert bend(shop)["heated through after"].numbers == pytest.approx(tray)


def test_bare_metal_is_as_good_as_paper(shop: Shop) -> None:
    """Without a liner the sheet lies on the metal itself, loosely: a little slower or sooner, never another world."""
    lined = bend(shop)["heated through after"].numbers
    bare = walked(shop, {"formula.liner.tray": "none"}).cases[-1].facts["heated through after"].numbers
    assert bare == pytest.approx(lined, rel=0.1)


def test_twice_as_thick_takes_more_than_twice_as_long(shop: Shop) -> None:
    """Minutes for each millimetre hold for one thickness, one oven and one plastic."""

    def through(thickness: str) -> Any:
        changes = {"formula.feedstock.0.thickness": thickness, "bend.lies_on": "rack"}
        return walked(shop, changes).cases[-1].facts["heated through after"].numbers

    thin, thick = through("3 mm"), through("6 mm")
    assert np.all(thick > 2.0 * thin)


def test_clocks(shop: Shop) -> None:
    """Through when the coldest is at the foot of the window; later it is warmer, and the hottest is warmer still."""
    facts = bend(shop)
    early = facts["heated through after"].numbers <= 30.0 * MINUTE
    assert np.array_equal(early, facts["coldest at the end"].numbers >= 135.0 + ICE)
    assert 0.0 < early.mean() < 1.0
    assert np.all(facts["hottest"].numbers > facts["coldest at the end"].numbers)
    assert np.all(facts["hottest"].numbers < facts["oven air"].numbers)
    assert np.all(facts["coldest when bent"].numbers < facts["coldest at the end"].numbers)
    assert facts["heater needs"].worst(highest=True) < facts["heated through after"].worst(highest=False)


def test_held_until_set(shop: Shop) -> None:
    """A shop in which it has set at the end of the hold finds the middle below 80 °C then, and no other shop does."""
    facts = bend(shop, hold="9 min")
    done = facts["set after"].numbers <= 9.0 * MINUTE
    assert np.array_equal(done, facts["mid-plane at release"].numbers <= 80.0 + ICE)
    assert 0.0 < done.mean() < 1.0


def test_wood_holds_the_heat(shop: Shop) -> None:
    """A wooden former takes longer than steel, and thin steel longer than thick."""
    formers = [("softwood", "40 mm"), ("steel", "2 mm"), ("steel", "10 mm")]
    took = [bend(shop, former={"material": m, "wall": w})["set after"].nominal for m, w in formers]
    assert took[0] > took[1] > took[2]


def test_a_sheet_brings_its_thickness_and_a_part_has_its_own(shop: Shop) -> None:
    """A range counts by its middle; a part out of the mould is as thick as it should be, a custom one at its most."""
    lot = {"formula.feedstock.0.thickness": "5 - 7 mm"}
    assert walked(shop, lot).cases[-1].facts["thickness"].nominal == pytest.approx(0.006)
    part = {"formula.feedstock.0.form": "flake", "part.thickness": "8 mm", "part.thickest": "9 mm"}
    assert walked(shop, part).cases[-1].facts["thickness"].nominal == pytest.approx(0.008)
    custom = {**part, "part.shape": "custom"}
    assert walked(shop, custom).cases[-1].facts["thickness"].nominal == pytest.approx(0.009)


def test_ageing_goes_on_from_the_melt(shop: Shop) -> None:
    """The bend adds to what the oven did to the flake; what comes out is a bent part that is still warm."""
    step = {**SHEET["procedure"][0], "at_most": "60 min"}
    steps = [*json.loads(shop.text())["procedure"], step]
    chain = shop.walk({"procedure": steps})
    melt, end = chain.cases[1].facts["aged"].numbers, chain.cases[-1].facts["aged"].numbers
    alone = bend(shop, at_most="60 min")["aged"].numbers
    assert np.all(end > melt)
    assert np.all(alone > 0.0)
    after = chain.after[-1]
    assert (after.form, after.melts) == ("bent part", 1)
    assert after.aged == chain.cases[-1].facts["aged"]
    assert after.left_warm == chain.cases[-1].facts["mid-plane at release"]


@pytest.mark.parametrize("kind", ["heat gun", "strip heater", "torch", "hot plate", "convection plate"])
def test_only_an_oven_is_computed(shop: Shop, kind: str) -> None:
    """Anything else is a question, never a default; strain and length do not need to know."""
    facts = walked(shop, {"equipment.oven.type": kind}).cases[-1].facts
    for name in ("heated through after", "hottest", "aged", "coldest when bent", "set after"):
        assert any(f"Heating by {kind} is not computed yet" in text for text in asked(facts[name]))
    assert facts["outer-fibre strain"].nominal == pytest.approx(6.0 / 46.0)
    soaked, one_sided = 0.25 * np.pi * 2.0 * (0.020 + 0.003), 0.25 * np.pi * 2.0 * (0.020 + 0.0024)
    expected = soaked if kind == "convection plate" else one_sided
    assert facts["bend allowance"].nominal == pytest.approx(expected)
    low, high = (facts["bend allowance"].worst(highest=end) for end in (False, True))
    assert high - low == pytest.approx(0.0 if kind == "convection plate" else 0.5 * np.pi * 0.1 * 0.006)


@pytest.mark.parametrize(
    ("change", "open_", "question"),
    [
        ({"oven_start": "cold"}, "heated through after", "A cold start is not computed yet"),
        ({"supported": None}, "heated through after", "Does anything carry the piece"),
        ({"lies_on": "unknown"}, "heated through after", "lie on a tray, a board or a rack"),
        ({"transfer": "unknown"}, "coldest when bent", "from the oven until it is bent"),
        ({"former": {"material": "steel"}}, "set after", "How thick is the former"),
        ({"former": {"wall": "5 mm"}}, "set after", "What is the former made of"),
        ({"turned": "170 deg"}, "flat length", "less than 166 deg"),
        ({"at_most": None}, "hottest", "at most"),
        ({"hold": None}, "mid-plane at release", "For how long is it held"),
    ],
)
def test_what_is_not_known_is_asked(shop: Shop, change: Mapping[str, Any], open_: str, question: str) -> None:
    """Each on its own; what does not rest on it is computed all the same."""
    facts = bend(shop, **change)
    assert any(question in text for text in asked(facts[open_]))
    assert not isinstance(facts["outer-fibre strain"].value, Open)


def test_a_plastic_without_a_whitening_line_is_not_asked_for_one(shop: Shop) -> None:
    """Most have none; the fact is open without a question."""
    assert asked(bend(shop)["over the whitening line for"]) == []


def test_a_finish_of_the_former(shop: Shop) -> None:
    """Dark steel gives its heat away sooner than bright; where nobody says, its sheet's usual finish counts."""
    dark, bright, usual = (
        bend(shop, former={"material": "steel", "wall": "5 mm", **finish})["mid-plane at release"].nominal
        for finish in ({"finish": "dark"}, {"finish": "bright"}, {})
    )
    assert usual == dark < bright


def test_set_where_the_sheet_says_nothing_of_bends(shop: Shop) -> None:
    """Then where this kind of plastic sets: a semicrystalline one at its freezing peak."""
    text = shop.shelf.plugins.resins["hdpe"].read().decode("utf-8").replace("\n  bend set:", "\n  x-bend set:")
    sheet = load_sheet(read(text, "hdpe.yaml"))
    case = shop.case(step="melt")
    assert forecast._set(case) == case.get("resin:bend set")
    other = replace(case, library=replace(case.library, resins={"hdpe": sheet}))
    assert forecast._set(other) == other.get("resin:freezing peak")
