"""Which lots get on in one melt: every lot against the main resin, and lots of one resin against each other."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from recipes_core.case import Case, Library
from recipes_core.document import read
from recipes_core.facts import Open
from recipes_core.mixing import Relation, melt_flow_ratio, pairs, relation
from recipes_core.sheets import Sheet, load_sheet
from tests.conftest import Shop

MAIN = """
  tolerated: {by: {near: {value: 20 %, basis: memory}, far: {value: 0 %, basis: memory}}}
  separates: {value: [heavy], basis: memory}
  melt flow: {by: {bottle: {value: 0.4 g/10 min, basis: memory}, injection: {value: 8 g/10 min, basis: memory}}}
"""


def sheet(id_: str, values: str = "\n  density solid: {value: 950 kg/m³, basis: memory}") -> Sheet:
    """A resin sheet with these values."""
    head = f"format: resin/1\nid: {id_}\nname: {id_}\nsymbol: {id_}\nkind: semicrystalline\nfamily: demo\n"
    return load_sheet(read(f"{head}values:{values}".encode()))


def seen(shop: Shop, *lots: dict[str, Any]) -> Case:
    """A recipe with these lots, in a library of five invented resins."""
    sheets = {name: sheet(name) for name in ("near", "far", "heavy", "strange")}
    recipe = shop.recipe({"formula.feedstock": list(lots)})
    return Case(recipe, replace(shop.shelf.library, resins={"main": sheet("main", MAIN), **sheets}))


def lot(resin: str, share: str, **more: Any) -> dict[str, Any]:
    """One lot."""
    return {"resin": resin, "share": share, **more}


@pytest.mark.parametrize(
    ("other", "how"),
    [
        ("main", Relation.SAME),
        ("near", Relation.TOLERATED),
        ("far", Relation.NEVER),
        ("heavy", Relation.SEPARATES),
        ("strange", Relation.NEVER),
    ],
)
def test_every_pair_has_a_relation(other: str, how: Relation) -> None:
    """A pair that nobody lists is never mixed."""
    assert relation(sheet("main", MAIN), other)[0] is how


def test_lots_beside_the_main_one(shop: Shop) -> None:
    """The largest share is the main resin, whatever the order; shares of one resin add up."""
    case = seen(shop, lot("near", "10 %"), lot("main", "75 %"), lot("near", "15 %"))
    found = pairs(case.recipe, case)
    assert not isinstance(found, Open)
    assert [(p.path[-1], p.minor, p.main) for p in found] == [(0, "near", "main"), (2, "near", "main")]
    assert [p.share for p in found] == pytest.approx([0.25, 0.25])


@pytest.mark.parametrize("second", [lot("unknown", "10 %"), lot("near", "unknown"), {"resin": "near"}])
def test_what_is_not_known_is_open(shop: Shop, second: dict[str, str]) -> None:
    """A resin or a share that nobody knows."""
    case = seen(shop, lot("main", "90 %"), second)
    assert isinstance(pairs(case.recipe, case), Open)


def test_one_resin_has_no_pairs(shop: Shop) -> None:
    """Nor has an empty recipe."""
    for lots in ([lot("main", "100 %")], [lot("main", "50 %"), lot("main", "50 %")], []):
        case = seen(shop, *lots)
        assert pairs(case.recipe, case) == ()


def ratio(case: Case) -> tuple[Any, Any]:
    """The lot and the ratio, which must be known."""
    found = melt_flow_ratio(case.recipe, case)
    assert not isinstance(found, Open)
    return found[0][-1], found[1]


def test_melt_flows_of_one_resin_are_compared(shop: Shop) -> None:
    """Bottle and cap flake, 0.4 and 8 g/10 min: 20 to 1, at the runny lot; another resin is tested hotter."""
    bottle, caps = lot("main", "50 %", grade="bottle"), lot("main", "40 %", grade="injection")
    case = seen(shop, bottle, caps, lot("near", "10 %", melt_flow={"value": "900 g/10 min"}))
    assert ratio(case) == (1, pytest.approx(20.0))
    measured = {**caps, "melt_flow": {"value": "1.2 g/10 min"}}
    case = seen(shop, bottle, measured)
    assert ratio(case) == (1, pytest.approx(3.0))


def test_a_lot_without_a_grade_is_asked(shop: Shop) -> None:
    """One lot alone is not."""
    case = seen(shop, lot("main", "50 %", grade="bottle"), lot("main", "50 %"))
    found = melt_flow_ratio(case.recipe, case)
    assert isinstance(found, Open)
    assert {path for path, _ in found.needs} == {("formula", "feedstock", 1, "grade")}
    case = seen(shop, lot("main", "100 %"))
    alone = melt_flow_ratio(case.recipe, case)
    assert isinstance(alone, Open)
    assert [text for _, text in alone.needs] == [""]


def test_the_library_is_only_asked_for_what_it_has(shop: Shop) -> None:
    """No sheet for the main resin: another question asks which it is."""
    case = seen(shop, lot("nowhere", "90 %"), lot("near", "10 %"))
    assert pairs(case.recipe, case) == ()
    assert isinstance(case.library, Library)
