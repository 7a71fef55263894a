"""The water of a plastic that is bent, which no shipped case reaches: another limit, and what is asked for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.facts import Fact
from recipes_core.findings import Kind
from recipes_core.rules.engine import Judgement, judge
from recipes_core.rules.moisture import RULES
from tests.conftest import Shop
from tests.trials import TRIALS, stocked

if TYPE_CHECKING:
    from recipes_core.findings import Path

TODAY = date(2026, 6, 1)
MELTED: tuple[Path, bool] = (("procedure", 1), False)
BENT: tuple[Path, bool] = (("procedure", 1), True)


def judged(
    shop: Shop, *steps: tuple[Path, bool, Any], resin: str = "trial-thirsty", moisture: str = "0.3 %", proof: str = ""
) -> Judgement:
    """The judgement over one lot, where these steps melt (False) or bend (True) and find this water."""
    lot = {"formula.feedstock.0.resin": resin, "formula.feedstock.0.moisture": moisture}
    case = shop.case({**lot, "formula.feedstock.0.moisture_proof": proof or None}, lot=0)
    found = Fact("water when heated", "record", list(steps), "")
    return judge(RULES, [replace(case, facts={"water when heated": found})], {}, TODAY)


def fails(judgement: Judgement) -> list[tuple[str, str]]:
    """What was found, and the limit."""
    return [(f.found, f.limit) for f in judgement.findings if f.kind is Kind.FAIL]


def test_a_sheet_may_hold_more_when_it_is_bent(shop: Shop) -> None:
    """0.3 % is under the 0.4 % for bending, and over the 0.2 % for melting."""
    assert fails(judged(shop, (*BENT, None), proof="meter")) == []
    assert [limit for _, limit in fails(judged(shop, (*MELTED, None), proof="meter"))] == ["0.2 % at most"]
    assert len(fails(judged(shop, (*BENT, None), proof="meter", moisture="0.41 %"))) == 1


def test_without_a_limit_for_bending_that_for_melting_holds(shop: Shop) -> None:
    """The stricter one of the two."""
    bare = Shop(stocked(shop.shelf, {"trial-thirsty": {**TRIALS["trial-thirsty"], "bending moisture": None}}))
    assert [limit for _, limit in fails(judged(bare, (*BENT, None), proof="meter"))] == ["0.2 % at most"]


def test_a_step_that_dried_it_is_the_proof(shop: Shop) -> None:
    """The lot's own word no longer counts, and its proof is not asked for."""
    after = judged(shop, (*MELTED, 0.002), moisture="wet")
    assert (fails(after), after.questions) == ([], {})
    assert fails(judged(shop, (*MELTED, 0.003), moisture="dry to touch")) == [("0.3 %", "0.2 % at most")]


@pytest.mark.parametrize(
    ("resin", "moisture", "asked"),
    [
        ("trial-thirsty", "0.1 %", {"moisture_proof"}),
        ("trial-thirsty", "unknown", {"moisture", "moisture_proof"}),
        ("trial-thirsty", "wet", set()),
        ("trial-surface", "dry to touch", set()),
        ("trial-surface", "unknown", {"moisture"}),
    ],
)
def test_what_is_asked_for(shop: Shop, resin: str, moisture: str, asked: set[str]) -> None:
    """A proof only where water goes in, and never of what is wet anyway."""
    assert {path[-1] for path in judged(shop, (*MELTED, None), resin=resin, moisture=moisture).questions} == asked


def test_a_sheet_that_does_not_say_whether_water_goes_in_is_asked(shop: Shop) -> None:
    """Unless it says that dry to touch is dry enough."""
    thirsty = {**TRIALS["trial-thirsty"], "takes up water": None}
    silent = Shop(stocked(shop.shelf, {"trial-thirsty": thirsty}))
    assert ("resin sheet", "trial-thirsty", "takes up water") in judged(
        silent, (*MELTED, None), proof="meter"
    ).questions
    words = {**thirsty, "moisture": {"value": "dry to touch", "basis": "memory"}}
    told = Shop(stocked(shop.shelf, {"trial-thirsty": words}))
    assert judged(told, (*MELTED, None), moisture="dry to touch").passed == ["wet-when-heated"]


def test_a_recipe_that_melts_nothing_is_not_judged(shop: Shop) -> None:
    """Flake may be dried and kept however wet it came in."""
    assert judged(shop, moisture="wet").not_applicable == ["wet-when-heated"]
