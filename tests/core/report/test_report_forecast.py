"""The forecast's report: each step with its numbers and bands, what is not known, and what it all rests on."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from recipes_core.facts import Fact, calc, missing
from recipes_core.findings import Finding, Kind, Level
from recipes_core.forecast import Walk
from recipes_core.report.forecast import FORMAT, render, render_json
from recipes_core.report.page import WIDTH
from recipes_core.report.text import CLOSING
from recipes_core.rules.verdict import Verdict
from recipes_core.work import Table, Work

if TYPE_CHECKING:
    from tests.conftest import Shop

FINE = Verdict.NOTHING_FOUND


@pytest.fixture(scope="module")
def walked(shop: Shop) -> Walk:
    """The trial recipe."""
    return shop.walk()


@pytest.fixture(scope="module")
def shown(walked: Walk) -> str:
    """Its report."""
    return render(walked, FINE, {"flake-melt": ("WARNING: Hot tray.",)})


def made(shop: Shop, *facts: Fact, tables: tuple[Table, ...] = (), problems: tuple[Finding, ...] = ()) -> Walk:
    """A walk of one step with these facts."""
    case = shop.case(step="melt")
    makers = tuple((lambda table=table: table) for table in tables)
    own = type(case)(case.recipe, case.library, case.step, facts={f.name: f for f in facts}, tables=makers)
    return Walk((own,), (Work("melt"),), {}, problems)


def fact(name: str, *values: float, dimension: str = "time") -> Fact:
    """A computed value."""
    return Fact(name, dimension, np.array(values), "")


def test_steps_in_order_with_the_cautions_of_their_process(shown: str) -> None:
    """Numbered from one, by their own names; a caution stands between the name and the numbers."""
    heads = [line for line in shown.splitlines() if line[:1].isdigit()]
    assert heads == [
        "1  weigh (weigh)",
        "2  melt (flake-melt)",
        "3  preheat (mould-preheat)",
        "4  fold (fold)",
        "5  press (mould-press)",
        "6  cool (cool)",
        "7  demould (demould)",
    ]
    lines = shown.splitlines()
    assert "Hot tray." in lines[lines.index("2  melt (flake-melt)") + 1]
    assert shown.count("Hot tray.") == 1


def test_100_columns_and_the_closing_line(shown: str) -> None:
    """As the report of the linter."""
    assert max(len(line) for line in shown.splitlines() if line != CLOSING) <= WIDTH
    assert shown.endswith(f"\n{CLOSING}\n")


def test_a_value_with_its_band_and_one_without(shop: Shop) -> None:
    """The nominal value first; no band where no shop differs; never for what is never reached."""
    band = fact("through", 1020.0, *np.linspace(780.0, 1560.0, 64))
    lines = render(
        made(shop, band, fact("floor", 60.0), fact("late", np.inf, *[900.0] * 32, *[np.inf] * 32)), FINE, {}
    ).splitlines()
    shown = [" ".join(line.split()) for line in lines]
    assert "through 17 min 14 min to 25 min" in shown
    assert "floor 60 s" in shown
    assert "late never 15 min to never" in shown


def test_what_is_open_is_a_question_once(shop: Shop) -> None:
    """However many values wait for it; what needs no question is not mentioned; nothing is shown as a number."""
    ask = missing(("equipment", "tray", "thickness"), "How thick is the tray?")
    facts = [calc(name, "time", "", lambda **_: [0.0], tray=ask) for name in ("one", "two")]
    report = render(made(shop, *facts, calc("three", "time", "", lambda **_: [0.0], x=None)), FINE, {})
    assert report.count("How thick is the tray?") == 1
    assert "   one" not in report
    assert "   three" not in report


def test_tables_line_up(shop: Shop) -> None:
    """Under their headings, with their note."""
    table = Table(
        "other layers", (("layer", "areal_mass"), ("time", "time")), ((5.0, 600.0), (10.0, 1300.0)), "Why so."
    )
    lines = render(made(shop, tables=(table,)), FINE, {}).splitlines()
    head = lines.index("   other layers") + 1
    column = lines[head].index("time")
    assert lines[head + 1][column:].startswith("10 min")
    assert lines[head + 2][column:].startswith("22 min")
    assert "   Why so." in lines


def test_what_it_rests_on(shown: str, walked: Walk) -> None:
    """By who gave it, each value once; a step's value under its own step, sheets and defaults with their basis."""
    rests = shown[shown.index("What it rests on") :]
    recipe, sheets = rests.index("   the recipe"), rests.index("   the data sheets")
    assert recipe < sheets < rests.index("   taken by default")
    assert rests.count("melt: oven 177 °C") == 1
    assert rests.count("preheat: oven 177 °C") == 1
    assert "press: oven" not in rests
    assert "cool: at least 20 min" not in rests
    assert "hdpe sheet: melting peak 130 °C (published)" in rests
    assert "hdpe sheet: melting end 136 °C (commonly quoted)" in rests
    assert "± 20 K, as the oven was not measured (judgement)" in rests
    lines = [line.strip() for line in rests.splitlines()]
    assert len([x for x in lines if x.startswith("hdpe sheet: latent heat")]) == 1


def test_a_forecast_that_did_not_run_is_told(shop: Shop) -> None:
    """In both forms."""
    problem = Finding("forecast-did-not-run", Level.ERROR, Kind.REVIEW, "The forecast of step melt did not run: X.")
    walked = made(shop, problems=(problem,))
    assert problem.message in render(walked, FINE, {})
    assert json.loads(render_json(walked, FINE))["problems"] == [problem.message]


def test_hostile_text_is_shown_escaped(shop: Shop) -> None:
    """A question, a problem or a value's own words."""
    hostile = "a\x1b[2Jb\u202ec"
    ask = Fact("one", "time", missing(("x",), hostile), "")
    problem = Finding("x", Level.ERROR, Kind.REVIEW, hostile)
    shown = render(made(shop, ask, problems=(problem,)), FINE, {})
    assert all(c.isprintable() or c == "\n" for c in shown)
    assert shown.count("\\x1b[2Jb\\u202ec") == 2


def test_json(walked: Walk) -> None:
    """SI numbers with their ends in order, open values with their questions, tables as rows; no infinity."""
    data: dict[str, Any] = json.loads(render_json(walked, FINE), parse_constant=pytest.fail)
    assert data["format"] == FORMAT
    assert [step["id"] for step in data["steps"]] == ["weigh", "melt", "preheat", "fold", "press", "cool", "demould"]
    melt = data["steps"][1]
    through = melt["facts"]["melted through after"]
    own = walked.cases[1].facts["melted through after"]
    assert through["dimension"] == "time"
    assert through["nominal"] == pytest.approx(own.nominal, rel=1e-5)
    assert through["low"] < through["nominal"] < through["high"]
    assert "melting" not in melt["facts"]
    table, air = melt["tables"]
    assert air["title"].startswith("the air that a room")
    assert len(table["rows"][0]) == len(table["columns"]) == 6
    assert "melt: oven 177 °C" in data["assumptions"]["the recipe"]


def test_what_is_open_is_told_in_json(shop: Shop) -> None:
    """By its questions, and with no number."""
    ask = missing(("equipment", "tray", "thickness"), "How thick is the tray?")
    data = json.loads(render_json(made(shop, Fact("one", "time", ask, "")), FINE))
    assert data["steps"][0]["facts"]["one"] == {"open": ["How thick is the tray?"]}


def test_never_is_null_in_json(shop: Shop) -> None:
    """JSON has no infinity."""
    data = json.loads(render_json(made(shop, fact("late", np.inf, *[np.inf] * 64)), FINE), parse_constant=pytest.fail)
    assert data["steps"][0]["facts"]["late"]["nominal"] is None


def test_the_same_every_time(shop: Shop, shown: str, walked: Walk) -> None:
    """Walked anew, byte for byte."""
    again = shop.walk()
    assert render(again, FINE, {"flake-melt": ("WARNING: Hot tray.",)}) == shown
    assert render_json(again, FINE) == render_json(walked, FINE)


def test_a_recipe_without_steps_has_a_report(shop: Shop) -> None:
    """Short, and whole."""
    empty = shop.walk({}, ("none",))
    assert CLOSING in render(empty, FINE, {})
    assert json.loads(render_json(empty, FINE))["steps"] == []


@pytest.mark.parametrize("verdict", Verdict)
def test_a_recipe_that_must_not_be_tried_is_called_so_before_its_numbers(walked: Walk, verdict: Verdict) -> None:
    """Above the first step; nothing is said of one that may be tried, and the JSON always tells."""
    shown = render(walked, verdict, {})
    called = shown.find(f"{verdict.words.upper()}: meltbook lint says why.")
    assert (0 <= called < shown.index("1  ")) == bool(verdict.exit_status)
    assert json.loads(render_json(walked, verdict))["verdict"] == verdict.words
