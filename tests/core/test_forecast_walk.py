"""The walk: steps in order, forms that join or do not, foreign forecasts contained, facts of the whole recipe."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.case import Case
from recipes_core.facts import Fact, Open, calc
from recipes_core.findings import Kind, Level
from recipes_core.forecast import DID_NOT_RUN, Kindred, Walk, walk
from recipes_core.work import Outcome, Table, Work

if TYPE_CHECKING:
    from tests.conftest import Shop

KINDS = ("weigh", "flake-melt", "mould-preheat", "fold", "mould-press", "cool", "demould")
CHAIN = ("flake", "charge", "melt", "melt", "folded melt", "pressed hot", "part", "part")


def hands_on(form: str) -> Callable[[Case, Work], Outcome]:
    """A forecast that counts the steps before it and hands on ``form``."""

    def forecast(case: Case, work: Work) -> Outcome:
        seen = Fact("melts before", "record", work.melts, "")
        return Outcome(work.after(form or work.form, melts=work.melts + 1), {"melts before": seen})

    return forecast


def kinds(**changed: Kindred) -> dict[str, Kindred]:
    """A chain of seven processes, each taking what the one before it yields."""
    chain = {
        name: Kindred((takes,), yields, frozenset({name}), hands_on(yields))
        for name, takes, yields in zip(KINDS, CHAIN[:-1], CHAIN[1:], strict=True)
    }
    return {**chain, **{name.replace("_", "-"): kind for name, kind in changed.items()}}


def walked(
    shop: Shop, changes: Mapping[str, Any] | None = None, only: tuple[str, ...] = (), **changed: Kindred
) -> Walk:
    """The walk of the trial recipe with these kinds."""
    recipe = shop.recipe(changes, only)
    return walk(recipe, Case(recipe, shop.shelf.library), kinds(**changed))


def breaks(case: Case, work: Work) -> Outcome:
    """A forecast with a mistake in it."""
    raise ZeroDivisionError("area is 0")


def test_each_step_gets_what_the_one_before_left(shop: Shop) -> None:
    """In order, once each; the facts of one step are not those of another."""
    found = walked(shop)
    assert [case.step.id for case in found.cases if case.step] == [
        "weigh", "melt", "preheat", "fold", "press", "cool", "demould",
    ]  # fmt: skip
    assert [case.facts["melts before"].value for case in found.cases] == list(range(7))
    assert [work.form for work in found.after] == list(CHAIN[1:])
    assert found.problems == ()
    assert found.whole["broken joins"].value == []


def test_a_form_that_does_not_join_is_noted_and_the_forecast_goes_on(shop: Shop) -> None:
    """Cold flake into the press: the place, what was there and what was wanted; later steps still run."""
    found = walked(shop, only=("press", "cool"))
    assert found.whole["broken joins"].value == [(("procedure", 0, "process"), "flake", ("folded melt",))]
    assert len(found.cases) == 2
    assert found.problems == ()


def test_what_a_step_lacks_for_a_broken_join_is_open_without_a_question(shop: Shop) -> None:
    """The rule on joins says what is wrong; nobody is asked for a profile, and nothing is computed from air."""
    facts = shop.facts(only=("press", "cool"))
    for name in ("core set after", "skin at full force", "core when the force ends"):
        value = facts["press"][name].value
        assert isinstance(value, Open)
        assert {question for _, question in value.needs} == {""}
    assert facts["press"]["pressure"].nominal > 0.0


@pytest.mark.parametrize(
    ("forms", "first"),
    [
        (["flake"], "flake"),
        (["regrind", "shavings"], "flake"),
        ([None], "flake"),
        (["unknown"], "flake"),
        (["sheet"], "sheet"),
        (["sheet", "flake"], "item"),
    ],
)
def test_the_form_that_work_starts_in(shop: Shop, forms: list[str | None], first: str) -> None:
    """Whatever is cut small is flake; an unknown form is asked about elsewhere; unlike forms are only items."""
    lots = [{"resin": "hdpe", **({"form": form} if form else {})} for form in forms]
    start = Kindred(("nothing",), "charge", frozenset(), hands_on("charge"))
    found = walked(shop, {"formula.feedstock": lots}, ("weigh",), weigh=start)
    assert found.whole["broken joins"].value[0][1] == first


def test_a_forecast_that_raises_is_contained_and_named(shop: Shop) -> None:
    """One finding names step, process and error; the others run; its own facts are not there."""
    found = walked(shop, fold=Kindred(("melt",), "folded melt", frozenset(), breaks))
    (problem,) = found.problems
    assert (problem.rule, problem.level, problem.kind, problem.absolute) == (
        DID_NOT_RUN,
        Level.ERROR,
        Kind.REVIEW,
        True,
    )
    assert "fold (fold)" in problem.message
    assert "ZeroDivisionError: area is 0" in problem.message
    assert problem.span is not None
    fold, press = found.cases[3], found.cases[4]
    assert fold.failed
    assert "melts before" not in fold.facts
    assert press.facts["melts before"].value == 3  # how often it was melted does not depend on the failed forecast
    assert found.after[3].form == "folded melt"
    assert found.whole["broken joins"].value == []


def test_a_forecast_that_yields_nothing_leaves_the_form(shop: Shop) -> None:
    """A mould that fails to be preheated leaves the melt a melt."""
    found = walked(shop, mould_preheat=Kindred((), "", frozenset(), breaks))
    assert found.after[2].form == "melt"


def test_a_process_that_is_not_installed_is_passed_over(shop: Shop) -> None:
    """It is no case of any rule; that it is unknown is the schema's finding."""
    found = walked(shop, {"fold.process": "knead"})
    assert [case.step.id for case in found.cases if case.step] == [
        "weigh",
        "melt",
        "preheat",
        "press",
        "cool",
        "demould",
    ]


def test_facts_of_the_whole_recipe_are_in_every_case(shop: Shop) -> None:
    """Rules on a step may ask for them too."""
    heats = Kindred(("charge",), "melt", frozenset({"heats", "melts"}), hands_on("melt"))
    found = walked(shop, flake_melt=heats)
    for name, value in (("heating steps", ("melt",)), ("melts", 1), ("hottest setting", pytest.approx(450.15))):
        assert found.whole[name].value == value
        assert all(case.facts[name] is found.whole[name] for case in found.cases)


@pytest.mark.parametrize(
    ("shares", "total"),
    [(["100 %"], 1.0), (["60 %", "40 %"], 1.0), (["60 %", "30 %"], 0.9), ([], 1.0), (["60 %", None], None)],
)
def test_shares_add_up(shop: Shop, shares: list[str | None], total: float | None) -> None:
    """A lot without a share opens the sum; no lots at all leave it whole, since they are asked for elsewhere."""
    lots = [{"resin": "hdpe", **({"share": share} if share else {})} for share in shares]
    fact = walked(shop, {"formula.feedstock": lots}).whole["sum of shares"]
    assert isinstance(fact.value, Open) if total is None else fact.value == pytest.approx(total)


def test_tools_that_steps_name_and_nobody_describes(shop: Shop) -> None:
    """The step's place and the tool; a described tool and an unknown one are not missing."""
    changes = {"preheat.tool": "mould", "press.tool": "former", "cool.tool": "unknown"}
    assert walked(shop, changes).whole["missing tools"].value == [(("procedure", 4, "tool"), "former")]


@pytest.mark.parametrize(
    ("changes", "clashes"),
    [
        ({"preheat.alongside": "melt"}, [(("procedure", 2, "oven"), 450.15, 450.15)]),
        ({"preheat.alongside": "melt", "preheat.oven": "120 °C"}, [(("procedure", 2, "oven"), 393.15, 450.15)]),
        ({}, []),
        ({"preheat.alongside": "nothing"}, []),
        ({"fold.alongside": "melt"}, []),
        ({"preheat.alongside": "melt", "preheat.oven": "unknown"}, []),
    ],
)
def test_steps_that_share_the_oven(shop: Shop, changes: dict[str, str], clashes: list[Any]) -> None:
    """Both settings of heating steps alongside each other, for the rule that compares them."""
    heats = {
        "flake_melt": Kindred(("charge",), "melt", frozenset({"heats"}), hands_on("melt")),
        "mould_preheat": Kindred((), "", frozenset({"heats"}), hands_on("")),
    }
    found = walked(shop, changes, (), **heats).whole["oven clashes"].value
    assert found == [(path, pytest.approx(mine), pytest.approx(theirs)) for path, mine, theirs in clashes]


@pytest.mark.parametrize(
    ("oven", "heated_to"), [("177 °C", 450.15), ("60 - 65 °C", 338.15), ("unknown", float("inf")), (None, float("inf"))]
)
def test_how_hot_the_plastic_gets_and_not_the_empty_mould(shop: Shop, oven: str | None, heated_to: float) -> None:
    """The mould is preheated at 177 °C all along; a setting that nobody knows is taken for hot."""
    whole = shop.walk({"melt.oven": oven}, ("melt", "preheat")).whole
    assert whole["plastic heated to"].value == pytest.approx(heated_to)
    assert shop.walk(only=("preheat",)).whole["plastic heated to"].value == 0.0


def test_lists_of_limits_with_their_dates(shop: Shop) -> None:
    """Where each date stands; a list without one is asked for it."""
    lists = [{"list": "a", "on": "2024-05-01"}, {"list": "b", "on": "2019-01-31"}]
    found = shop.walk({"site.limits_from": lists}).whole["limit lists"].value
    assert [(path[2], told) for path, told in found] == [(0, "2024-05-01"), (1, "2019-01-31")]
    silent = shop.walk({"site.limits_from": [{"list": "a"}]}).whole["limit lists"].value
    assert isinstance(silent, Open)
    assert [text for _, text in silent.needs] == ["What is the date of that list?"]
    assert shop.walk().whole["limit lists"].value == []


def test_open_values_travel_with_the_work(shop: Shop) -> None:
    """What one step could not compute is open in the next, with the same question."""
    facts = shop.facts({"equipment.tray.thickness": None})
    ask = facts["melt"]["melted through after"].value
    assert isinstance(ask, Open)
    for step, name in (("fold", "skin after folding"), ("press", "core set after"), ("cool", "core when opened")):
        value = facts[step][name].value
        assert isinstance(value, Open)
        assert ask.needs <= value.needs


def test_tables_are_made_only_when_asked_for(shop: Shop) -> None:
    """The walk hands them on uncalled."""

    def table() -> Table:
        return Table("t", (("a", "time"),), ((1.0,),), "")

    def forecast(case: Case, work: Work) -> Outcome:
        made = calc("a", "time", "", lambda: [1.0])
        return Outcome(work.after("charge"), {"a": made}, (table,))

    found = walked(shop, only=("weigh",), weigh=Kindred((), "charge", frozenset(), forecast))
    assert found.cases[0].tables == (table,)


def test_the_walk_remembers_the_water_that_each_heat_finds(shop: Shop) -> None:
    """None as long as no step has touched it; else what the last one left; open where that is open."""

    def wets(case: Case, work: Work) -> Outcome:
        return Outcome(work.after("charge", moisture=Fact("moisture", "record", water, "")), {})

    melt = Kindred(("charge",), "melt", frozenset({"melts"}), hands_on("melt"))
    bend = Kindred(("melt",), "folded melt", frozenset({"bends"}), hands_on("folded melt"))
    wet = Kindred(("flake",), "charge", frozenset({"weigh"}), wets)

    def found(**more: Kindred) -> Any:
        moist = {"formula.feedstock.0.moisture": "wet"}
        return walked(shop, moist, (), flake_melt=melt, fold=bend, **more).whole["water when heated"].value

    assert found() == [(("procedure", 1), False, None), (("procedure", 3), True, None)]
    water: Any = 0.001
    assert found(weigh=wet) == [(("procedure", 1), False, 0.001), (("procedure", 3), True, 0.001)]
    water = Open(frozenset({(("x",), "How wet?")}))
    assert found(weigh=wet) == water
