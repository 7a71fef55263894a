"""A reading lets a rule see what it said it reads, and nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.case import Case
from recipes_core.facts import Fact, Given, missing
from recipes_core.findings import Level
from recipes_core.rules.reading import Reading
from recipes_core.rules.rule import Rule, Scope

if TYPE_CHECKING:
    from tests.conftest import Shop

FACTS = {"through": Fact("through", "time", [1.0], ""), "lost": Fact("lost", "time", missing((), ""), "")}


def reading(shop: Shop, *reads: str, may: tuple[str, ...] = (), changes: Mapping[str, Any] | None = None) -> Reading:
    """A reading of the melt step by a rule with these names."""
    rule = Rule(
        "some-rule", Level.ERROR, Scope.STEP, "m", "c", "w", "d", ("judgement",), reads, lambda r: (), ("flake-melt",),
        may_read=may,
    )  # fmt: skip
    case = shop.case(changes, "melt")
    return Reading(Case(case.recipe, case.library, case.step, facts=FACTS), rule, date(2026, 6, 1))


def test_numbers_words_and_paths(shop: Shop) -> None:
    """One value as a number, at both ends, in words, and where it stands."""
    r = reading(
        shop, "oven", "equipment.oven.type", "part.use", changes={"melt.oven": "170 - 180 °C", "part.use": ["seat"]}
    )
    assert (r.si("oven"), r.upper("oven")) == pytest.approx((443.15, 453.15))
    assert r.text("oven") == "170 - 180 °C"
    assert r.word("equipment.oven.type") == "static"
    assert r.words("equipment.oven.type") == ("static",)
    assert r.words("part.use") == ("seat",)
    assert r.word("part.use") == ""
    assert r.path("oven") == ("procedure", 1, "oven")


def test_what_was_not_declared_cannot_be_read(shop: Shop) -> None:
    """The error names rule and field; so no rule can rest on what its questions and origins do not show."""
    r = reading(shop, "oven")
    for read in (r.raw, r.si, r.word, r.words, r.text, r.known):
        with pytest.raises(LookupError, match="rule some-rule does not say that it reads 'at_least'"):
            read("at_least")
    with pytest.raises(LookupError, match="fact:through"):
        r.fact("through")


def test_optional_values_can_be_known_or_not(shop: Shop) -> None:
    """Unknown, unsaid, not computed and open are all not known, and read as no words."""
    names = ("oven", "equipment.oven.cord", "site.capture", "fact:through", "fact:lost")
    r = reading(shop, may=names)
    assert [r.known(name) for name in names] == [True, False, False, True, False]
    assert (r.word("site.capture"), r.words("site.capture"), r.text("site.capture")) == ("", (), "")
    with pytest.raises(LookupError, match="open"):
        r.si("site.capture")


def test_facts(shop: Shop) -> None:
    """By their own name; a field of that name is no fact."""
    assert reading(shop, "fact:through").fact("through") is FACTS["through"]


def test_a_value_is_looked_up_once(shop: Shop) -> None:
    """So that what was tested and what the finding shows is one value."""
    r = reading(shop, "oven")
    assert isinstance(r.raw("oven"), Given)
    assert r.raw("oven") is r.raw("oven")


def test_what_the_process_of_the_step_does(shop: Shop) -> None:
    """A mark of the process; a case that was never walked has none."""
    walked = {case.step.id: case for case in shop.walk(only=("weigh", "melt")).cases if case.step}
    rule = reading(shop).rule
    does = {name: Reading(case, rule, date(2026, 6, 1)).does("melts") for name, case in walked.items()}
    assert does == {"weigh": False, "melt": True}
    assert not reading(shop).does("melts")
