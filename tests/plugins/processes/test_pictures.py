"""The curves of every process, over all shipped recipes: they say what the facts say."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from recipes_plugins import pictures

from recipes_core import app
from recipes_core.curves import Curves, Mark, Series
from recipes_core.facts import Fact, Given, Open, Origin, Source, missing
from recipes_core.physics.matter import constant
from recipes_core.physics.slab import Face, Layer, Slab
from recipes_core.physics.solver import solve
from recipes_core.quantities import Dimension
from recipes_core.shelf import shelf

if TYPE_CHECKING:
    from recipes_core.case import Case, Value
    from tests.conftest import Shop

FOLDER = Path(__file__).parents[3] / "recipes"
RECIPES = [path.relative_to(FOLDER).as_posix() for path in app.recipe_files([FOLDER])]
MINUTE = 60.0
NEAR = 0.02
"""K: facts are read by straight lines between the steps of each member, curves between more places."""
SHELF = shelf()


def curves_of(case: Case) -> dict[str, Curves]:
    """The curves of a step by title; none may be open."""
    made = [make().value for make in case.curves]
    assert not any(isinstance(value, Open) for value in made)
    return {curves.title: curves for curves in made}


def at(curves: Curves, name: str, time: float) -> tuple[float, float, float]:
    """Nominal, low and high of a series at a time."""
    series = next(s for s in curves.series if name in s.name.split(", "))
    assert series.band is not None
    nominal, low, high = (float(np.interp(time, curves.x, v)) for v in (series.nominal, *series.band))
    return nominal, low, high


def told(fact: Fact) -> tuple[float, float, float]:
    """The same three of a fact."""
    return fact.nominal, *fact.band()


@pytest.fixture(scope="module")
def cases() -> list[tuple[str, Case]]:
    """Every step of every shipped recipe, forecast."""
    today = date(2026, 11, 26)
    return [(name, case) for name in RECIPES for case in app.forecast(FOLDER / name, today, SHELF)[0].cases]


def chosen(cases: list[tuple[str, Case]], *processes: str) -> list[tuple[Case, dict[str, Curves]]]:
    """The steps of some processes with their curves; there must be some."""
    found = [(case, curves_of(case)) for _, case in cases if case.step and case.step.process in processes]
    assert found
    return found


def marks(curves: Curves) -> dict[str, float]:
    """The marks by name."""
    return {mark.name: mark.time for mark in curves.marks}


def test_which_steps_have_curves(cases: list[tuple[str, Case]]) -> None:
    """All that heat, melt or cool plastic or a mould; the press hands its curve to the step that cools."""
    shown = {case.step.process for _, case in cases if case.step and case.curves}
    assert shown == {"flake-melt", "sheet-press", "cool", "mould-preheat", "reheat-bend"}


def test_what_is_heated_agrees_with_the_facts(cases: list[tuple[str, Case]]) -> None:
    """The coldest at at_least, with its band; and when it is through, where that is in the picture."""
    for case, curves in chosen(cases, "flake-melt", "sheet-press", "reheat-bend"):
        shown = next(c for title, c in curves.items() if title.startswith("temperature in the"))
        clock = marks(shown)
        assert at(shown, "coldest inside", clock["at least"]) == pytest.approx(
            told(case.facts["coldest at the end"]), abs=NEAR
        )
        through = case.facts.get("melted through after") or case.facts["heated through after"]
        line = next(i.value for i in shown.lines if i.name in ("molten", "foot of the forming window"))
        assert at(shown, "coldest inside", through.nominal)[0] == pytest.approx(line, abs=0.1)
        for name in ("top", "bottom"):
            assert at(shown, name, clock["at least"])[0] >= at(shown, "coldest inside", clock["at least"])[0] - 1e-6


def test_cuts_agree_with_the_facts(cases: list[tuple[str, Case]]) -> None:
    """The lowest of the cut at at_least is the coldest at the end, the highest of that at at_most the hottest."""
    for case, curves in chosen(cases, "flake-melt", "sheet-press", "reheat-bend"):
        cut = curves["cut through the plastic"]
        assert cut.over is Dimension.SHARE
        assert 0.0 < cut.x[0] < cut.x[-1] < 1.0
        words = {part: s.nominal for s in cut.series for part in s.name.split(", ")}
        end = next(values for name, values in words.items() if name.startswith("at least"))
        late = next(values for name, values in words.items() if name.startswith("at most"))
        assert end.min() == pytest.approx(case.facts["coldest at the end"].nominal, abs=NEAR + pictures.ALIKE)
        assert late.max() == pytest.approx(case.facts["hottest"].nominal, abs=NEAR + pictures.ALIKE)


def test_the_molten_share_is_whole_when_the_layer_is_through(cases: list[tuple[str, Case]]) -> None:
    """From nothing to all; not all before. What has no crystals has no such picture."""
    without = 0
    for case, curves in chosen(cases, "flake-melt", "sheet-press"):
        kind = case.get("resin:kind")
        if isinstance(kind, Given) and kind.value == "amorphous":
            assert "molten share of the layer" not in curves
            without += 1
            continue
        shown = curves["molten share of the layer"]
        assert shown.dimension is Dimension.SHARE
        through = case.facts["melted through after"].nominal
        assert at(shown, "molten", 0.0)[0] == 0.0
        assert at(shown, "molten", 0.8 * through)[0] < 0.999
        assert at(shown, "molten", shown.x[-1])[0] == pytest.approx(1.0, abs=1e-3)
        assert np.all(np.diff(shown.series[0].nominal) >= -1e-9)
    assert without


def test_the_core_agrees_with_the_facts(cases: list[tuple[str, Case]]) -> None:
    """Where the hold ends and where it is opened, with the bands; set and solid are passed when the facts say so."""
    for case, curves in chosen(cases, "cool"):
        shown, clock = curves["core and tool"], marks(curves["core and tool"])
        assert clock["opened"] == case.facts["opened after"].nominal
        known = shown.x[-1]
        for mark, fact in (("the hold ends", "core when cooling starts"), ("opened", "core when opened")):
            if clock[mark] <= known:
                assert at(shown, "core", clock[mark]) == pytest.approx(told(case.facts[fact]), abs=NEAR)
        if clock["opened"] <= known:
            assert at(shown, "outside of the tool", clock["opened"]) == pytest.approx(
                told(case.facts["outside when opened"]), abs=NEAR
            )
        for line, fact in (("set", "core set after"), ("solid", "core solid after")):
            level = next(i.value for i in shown.lines if i.name == line)
            when = case.facts[fact].nominal
            assert when > 0.0
            assert at(shown, "core", when)[0] == pytest.approx(level, abs=0.1)


def test_lines_are_the_values_of_the_sheets(cases: list[tuple[str, Case]]) -> None:
    """Each line has the value that the sheet states, and none is shown that it does not state."""
    for case, curves in chosen(cases, "flake-melt", "sheet-press"):
        lines = {line.name: line.value for line in curves["temperature in the layer"].lines}
        for name, entry in (
            ("molten", "resin:melted"),
            ("oven window, lower end", "resin:window low"),
            ("oven window, upper end", "resin:window high"),
            ("ceiling of the surface", "resin:surface ceiling"),
            ("limit of the liner", "liners:limit"),
        ):
            value = case.get(entry)
            assert lines.get(name) == (value.value if isinstance(value, Given) else None)


def test_marks_are_the_clocks_of_the_step(cases: list[tuple[str, Case]]) -> None:
    """At least and at most, the ends that count."""
    for case, curves in chosen(cases, "flake-melt", "sheet-press", "reheat-bend"):
        for mark, end in (("at least", 0), ("at most", -1)):
            value: Any = case.get(mark.replace(" ", "_"))
            wanted = value.value[end] if isinstance(value.value, tuple) else value.value
            assert {marks(c)[mark] for c in curves.values() if c.over is Dimension.TIME and mark in marks(c)} == {
                wanted
            }


def test_of_a_clock_with_two_ends_the_one_that_counts(shop: Shop) -> None:
    """The first of at_least, the last of at_most, as the facts take them."""
    walked = shop.walk({"melt.at_least": "20 - 22 min", "melt.at_most": "30 - 35 min"}, ("melt",))
    assert marks(curves_of(walked.cases[0])["temperature in the layer"]) == {"at least": 1200.0, "at most": 2100.0}


def test_a_bend_and_a_mould_agree_with_the_facts(cases: list[tuple[str, Case]]) -> None:
    """The piece when it is let go; the inner face of the mould at at_least."""
    for case, curves in chosen(cases, "reheat-bend"):
        shown = curves["temperature on the former"]
        when = marks(shown)["let go"]
        if when <= shown.x[-1]:
            fact = case.facts["mid-plane at release"]
            assert at(shown, "hottest inside", when) == pytest.approx(told(fact), abs=NEAR)
        else:  # a member is as cold as the shop by then, and is followed no longer
            assert at(shown, "hottest inside", shown.x[-1])[1] < 308.15
    for case, curves in chosen(cases, "mould-preheat"):
        shown = curves["temperature of the mould"]
        when = marks(shown)["at least"]
        name = "inner face of the mould"
        assert at(shown, name, when) == pytest.approx(told(case.facts["mould at the end"]), abs=NEAR)


@pytest.mark.parametrize(
    ("gone", "step", "lost"),
    [
        ("equipment.tray.thickness", "melt", {"temperature in the layer", "cut through the plastic"}),
        ("melt.at_least", "melt", {"cut through the plastic"}),
        ("equipment.mould.wall", "preheat", {"temperature of the mould"}),
        ("equipment.mould.wall", "cool", {"core and tool"}),
    ],
)
def test_what_nobody_gave_is_not_drawn(shop: Shop, gone: str, step: str, lost: set[str]) -> None:
    """A curve that needs it is open, with the question; the others are there."""
    case = next(c for c in shop.walk({gone: None}).cases if c.step and c.step.id == step)
    facts = [make() for make in case.curves]
    there = {f.value.title for f in facts if isinstance(f.value, Curves)}
    assert there & lost == set()
    assert any(question for f in facts if isinstance(f.value, Open) for _, question in f.value.needs)


# how a picture is made of a history


def plate(film: Mapping[int, float]) -> Any:
    """A metal plate so thin that it has one temperature, cooling from 150 °C in air of 20 °C; a film per member."""
    k, rho, cp, thickness = 200.0, 2700.0, 900.0, 0.002
    coefficient = np.array([film[m] for m in range(65)])
    face = Face(293.15, coefficient)
    slab = Slab((Layer(constant(k, rho, cp), rho * thickness, np.full(4, 0.25)),), bottom=face, top=face)
    steps = np.full((400, 65), 5.0)
    return solve(slab, slab.temperatures(423.15), steps), coefficient, rho * thickness * cp


def test_a_curve_against_the_law_of_cooling() -> None:
    """Newton's law for a body of one temperature, an exponential: nominal and band within 0.3 K all the way."""
    history, film, heat = plate({m: 10.0 + 0.1 * m for m in range(65)})
    curves = pictures.heated("plate", "since then", history, 0, marks=(Mark("late", 1500.0),))
    exact = 293.15 + 130.0 * np.exp(-2.0 * film[:, None] * curves.x / heat)
    (shown,) = curves.series
    assert shown.band is not None
    assert shown.name == "coldest inside, top, bottom"
    assert np.abs(shown.nominal - exact[0]).max() < 0.3
    for values, share in zip(shown.band, (0.05, 0.95), strict=True):
        assert np.abs(values - np.quantile(exact[1:], share, axis=0)).max() < 0.3
    assert exact[0, 0] - exact[0, -1] > 50.0


def test_a_picture_ends_where_a_member_is_no_longer_followed() -> None:
    """A little after the last mark, or where the shortest history ends; what never comes counts for nothing."""
    times = np.outer(np.linspace(0.0, 1.0, 11), np.linspace(100.0, 200.0, 65))
    series = {"a": 300.0 + times}

    def end(*moments: float, until: float = 0.0) -> float:
        shown = tuple(Mark(str(m), m) for m in moments)
        return float(pictures.over_time("a", "", times, series, marks=shown, until=until).x[-1])

    assert end(50.0) == pytest.approx(50.0 * pictures.BEYOND)
    assert end(50.0, until=80.0) == pytest.approx(80.0 * pictures.BEYOND)
    assert end(50.0, until=float("inf")) == pytest.approx(50.0 * pictures.BEYOND)
    assert end(150.0) == 100.0
    assert end() == 100.0
    assert end(0.0) == 100.0


def test_every_mark_is_a_place_of_the_curve() -> None:
    """So that what stands beside it is what was computed, not a chord."""
    times = np.outer(np.linspace(0.0, 1.0, 11), np.full(65, 100.0))
    x = pictures.over_time("a", "", times, {"a": times}, marks=(Mark("m", 33.3),)).x
    assert 33.3 in x
    assert set(times[:4, 0]) <= set(x)


def test_marks_and_lines_of_what_is_known() -> None:
    """Given values and facts; nothing for what is open, never comes, or was rightly not said."""
    given = Given((300.0, 420.0), "5 - 7 min", Origin(Source.RECIPE))
    ask = missing(("a",), "How long?")
    fact = Fact("opened", "time", np.array([900.0] * 65), "")
    never = Fact("never", "time", np.array([np.inf] * 65), "")
    unknown = Fact("unknown", "time", ask, "")
    values: dict[str, Value] = {
        "given": given,
        "ask": ask,
        "fact": fact,
        "never": never,
        "unknown": unknown,
        "none": None,
    }
    assert pictures.marks(values) == (Mark("given", 300.0), Mark("fact", 900.0))
    assert [(line.name, line.value) for line in pictures.lines(values)] == [("given", 300.0), ("fact", 900.0)]


def test_a_cut_on_the_way_is_at_the_time_that_it_names() -> None:
    """A quarter and a half of the way to the first mark, to the whole minute, or second where it is short."""
    marks = (Mark("at least", 540.0), Mark("at most", 720.0))
    found = pictures.moments(marks)
    assert [m.name for m in found] == ["after 2 min", "after 4 min", "at least 9 min", "at most 12 min"]
    assert [m.time for m in found] == [120.0, 240.0, 540.0, 720.0]
    assert pictures.moments((Mark("let go", 50.0),))[0] == Mark("after 12 s", 12.0)


def test_curves_that_differ_only_in_their_band_are_two() -> None:
    """Only what is alike in every shop is drawn as one."""
    times = np.outer(np.linspace(0.0, 1.0, 11), np.full(65, 100.0))
    wide = 300.0 + times
    wide[:, 1:] += np.linspace(-5.0, 5.0, 64)
    curves = pictures.over_time("a", "", times, {"one": 300.0 + times, "two": wide, "three": 300.0 + times})
    assert [s.name for s in curves.series] == ["one, three", "two"]
    assert all(isinstance(s, Series) for s in curves.series)
