"""Shredding: reach against the published table, the room that flake takes, what is cut with what."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from recipes_plugins.processes.shred.reach import COLUMNS, distance

from recipes_core.facts import Open

if TYPE_CHECKING:
    from tests.conftest import Shop

MM = 0.001
SHREDDER = {"opening": {"shape": "slot", "size": "12 mm", "length": "300 mm"}, "reach": "100 mm"}


def facts(shop: Shop, **changes: Any) -> Any:
    """The facts of one shredding step."""
    step = {"id": "shred", "process": "shred", "flake_size": "8 mm"}
    own = {key.replace("__", "."): value for key, value in changes.items()}
    return shop.facts({"procedure": [step], "formula.feedstock.0.form": "item", "equipment.shredder": SHREDDER} | own)[
        "shred"
    ]


@pytest.mark.parametrize(
    ("size", "slot", "square", "round_"),
    [
        (4, 2, 2, 2), (6, 10, 5, 5), (8, 20, 15, 5), (10, 80, 25, 20), (12, 100, 80, 80), (20, 120, 120, 120),
        (30, 850, 120, 120), (40, 850, 200, 120), (120, 850, 850, 850),
    ],
)  # fmt: skip
def test_every_line_of_the_table(size: float, slot: float, square: float, round_: float) -> None:
    """ISO 13857:2019, Table 4 (14 years and over), as an engineering consultant's page reproduces it."""
    found = [distance(shape, size * MM) / MM for shape in ("slot", "square", "round")]
    assert found == pytest.approx([slot, square, round_])
    wider = [distance(shape, (size + 0.1 if size < 100 else size + 1) * MM) for shape in COLUMNS]
    assert all(more >= less * MM for more, less in zip(wider, (slot, square, round_), strict=True))
    assert any(more > less * MM for more, less in zip(wider, (slot, square, round_), strict=True))


def test_the_hopper_rule_of_thumb() -> None:
    """Over 20 mm a long slot, over 40 mm a square or round opening needs 850 mm; up to there 200 mm do."""
    assert distance("slot", 20.1 * MM) == distance("square", 40.1 * MM) == distance("round", 40.1 * MM) == 850 * MM
    assert max(distance("slot", 20 * MM), distance("square", 40 * MM), distance("round", 40 * MM)) == 200 * MM


def test_a_short_slot_stops_the_hand() -> None:
    """Up to 30 mm wide and 65 mm long; a millimetre more of either, or an unknown length, is a long slot."""
    assert distance("slot", 30 * MM, 65 * MM) == 200 * MM
    assert distance("slot", 20 * MM, 65 * MM) == 120 * MM
    assert {distance("slot", 30 * MM, 66 * MM), distance("slot", 30 * MM), distance("slot", 31 * MM, 65 * MM)} == {0.85}


def test_where_the_table_ends_no_distance_is_enough() -> None:
    """Over 120 mm other tables and a competent person decide."""
    assert {distance(shape, 121 * MM) for shape in COLUMNS} == {inf}


@given(shape=st.sampled_from(sorted(COLUMNS)), size=st.floats(1.0, 130.0), more=st.floats(0.0, 60.0))
def test_a_wider_opening_never_needs_less(shape: str, size: float, more: float) -> None:
    """And a slot of a given width never less than a round hole of it."""
    assert distance(shape, (size + more) * MM) >= distance(shape, size * MM)
    assert distance("slot", size * MM) >= distance("square", size * MM) >= distance("round", size * MM)


def test_the_reach_of_the_recipe(shop: Shop) -> None:
    """A slot of 12 mm needs 100 mm."""
    assert facts(shop)["reach needed"].nominal == pytest.approx(0.1)
    missing = facts(shop, equipment__shredder__opening__size=None)["reach needed"].value
    assert isinstance(missing, Open)
    assert [path[-1] for path, _ in missing.needs] == ["size"]


def test_loose_flake_takes_room_by_its_bulk_density(shop: Shop) -> None:
    """A kilogram at 330 kg/m³ fills 3.03 l, 375 g of it 1.14 l; a lighter flake fills more."""
    found = facts(shop)
    assert found["room for a kilogram"].nominal == pytest.approx(1 / 330)
    assert found["room for the charge"].nominal == pytest.approx(0.375 / 330)
    assert isinstance(facts(shop, formula__charge=None)["room for the charge"].value, Open)
    assert "bulk" in found["room for a kilogram"].inputs


def test_the_flake_of_the_step_comes_before_that_of_the_lot(shop: Shop) -> None:
    """The lot's size is what went in; where the step says nothing, the largest of the lots counts."""
    assert facts(shop, formula__feedstock__0__flake_size="3 mm")["flake size"].nominal == pytest.approx(0.008)
    unsaid = {"procedure": [{"id": "shred", "process": "shred"}]}
    lots = [{"resin": "hdpe", "form": "item", "flake_size": f"{size} mm"} for size in (3, 5)]
    assert facts(shop, **unsaid, formula__feedstock=lots)["flake size"].nominal == pytest.approx(0.005)


def test_the_thinner_of_part_and_bed_decides(shop: Shop) -> None:
    """375 g on 0.1 m² lie 11.4 mm deep; the part is 12 mm thick, or 5 mm."""
    assert facts(shop)["coarsest flake"].nominal == pytest.approx(0.375 / 330 / 0.1)
    assert facts(shop, part__thickness="5 mm")["coarsest flake"].nominal == pytest.approx(0.005)
    custom = {"shape": "custom", "thickest": "7 mm"}
    assert facts(shop, part=custom)["coarsest flake"].nominal == pytest.approx(0.007)


def test_every_lot_is_named_with_its_family(shop: Shop) -> None:
    """An unknown or mixed one has neither; a name without a sheet is asked about."""
    lots = [{"resin": name, "form": "item"} for name in ("hdpe", "unknown", "mixed", "trial-vinyl")]
    assert facts(shop, formula__feedstock=lots)["plastics shredded"].value == [
        (0, "hdpe", "polyolefin"), (1, "", ""), (2, "", ""), (3, "trial-vinyl", "chlorinated"),
    ]  # fmt: skip
    strange = facts(shop, formula__feedstock=[{"resin": "dunno", "form": "item"}])["plastics shredded"].value
    assert isinstance(strange, Open)


def test_items_become_flake(shop: Shop) -> None:
    """Whatever their number."""
    work = shop.walk({"procedure": [{"id": "shred", "process": "shred"}], "formula.feedstock.0.form": "item"}).after[0]
    assert work.form == "flake"
