"""Sorting: what the proofs leave, piece of evidence by piece, and the liquid between two floaters."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.case import Library
from recipes_core.facts import Fact, Given, Open
from recipes_core.shelf import shelf
from tests.conftest import Shop
from tests.trials import made_from

if TYPE_CHECKING:
    from collections.abc import Mapping

SHIPPED = shelf()
RESINS = sorted(SHIPPED.library.resins)
BENCH = Shop(SHIPPED)


def facts(*lots: Mapping[str, Any], bench: Shop = BENCH) -> Mapping[str, Fact]:
    """The facts of one sorting step, with the shipped plastics alone."""
    told = [{"form": "item", **lot} for lot in lots]
    return bench.facts({"procedure": [{"id": "sort", "process": "sort"}], "formula.feedstock": told})["sort"]


def changed(resin: str, density: str) -> Shop:
    """The shelf with another density in one sheet."""
    sheets = {name: SHIPPED.library.resins[name] for name in RESINS}
    values = {"density solid": {"value": density, "range": density, "basis": "memory"}}
    sheets[resin] = made_from(sheets[resin], resin, values)
    return Shop(replace(SHIPPED, library=Library(sheets, SHIPPED.library.liners, SHIPPED.library.materials)))


def test_evidence_piece_by_piece() -> None:
    """Fifteen plastics; three float in water, two of them sink or may sink at 925 kg/m³, one bears a 2."""
    proofs = ["float in water", "float in second liquid", "moulded mark"]
    lot = {"resin": "hdpe", "identified_by": proofs, "pair_floats": "925 kg/m³", "mark_seen": "2"}
    found = facts(lot)
    assert found["candidates"].numbers == (
        ("float in water", ("hdpe", "ldpe", "pp")),
        ("float in second liquid", ("hdpe", "ldpe")),
        ("moulded mark", ("hdpe",)),
    )
    counts = [found[f"left after {proof}"].nominal for proof in ("water", "second liquid", "mark")]
    assert counts == [3, 2, 1]
    assert found["candidates left"].nominal == 1


def test_without_proofs_all_are_left() -> None:
    """Fifteen: the sheet of a plastic without a name is no candidate."""
    assert facts({"resin": "hdpe", "identified_by": ["none"]})["candidates left"].nominal == len(RESINS) - 1


def test_a_reading_that_nobody_wrote_down_is_asked_for() -> None:
    """The count is open, and names the field."""
    found = facts({"resin": "hdpe", "identified_by": ["float in water", "weighed density"]})
    assert found["left after water"].nominal == 3
    value = found["candidates left"].value
    assert isinstance(value, Open)
    assert [path[-1] for path, _ in value.needs] == ["density"]


@pytest.mark.parametrize(
    ("one", "other", "liquid"), [("hdpe", "pp", 925), ("hdpe", "ldpe", 936), ("ps", "pa6", 1090), ("pet", "pmma", 1240)]
)
def test_the_liquid_between_two_lots(one: str, other: str, liquid: float) -> None:
    """Common practice splits polypropylene from polyethylene in alcohol and water of 0.92 to 0.93 g/cm³."""
    found = facts({"resin": one, "identified_by": ["none"]}, {"resin": other, "identified_by": ["none"]})
    assert found["liquid that splits, lot 1"].nominal == pytest.approx(liquid)
    assert found["liquid that splits, lot 2"].nominal == pytest.approx(liquid)


def test_windows_that_overlap_have_no_liquid() -> None:
    """Polystyrene and its tough sister cannot be floated apart; nobody is asked about it."""
    found = facts({"resin": "ps", "identified_by": ["none"]}, {"resin": "hips", "identified_by": ["none"]})
    value = found["liquid that splits, lot 1"].value
    assert isinstance(value, Open)
    assert not any(question for _, question in value.needs)


def test_what_floats_without_a_name_is_split_at_the_widest_gap() -> None:
    """Between low and high density polyethylene lie 8 kg/m³, below them 2."""
    found = facts({"resin": "unknown", "identified_by": ["float in water"]})
    assert found["candidates left"].nominal == 3
    assert found["liquid that splits"].nominal == pytest.approx(936)


@pytest.mark.parametrize("resin", RESINS)
def test_every_sheet_gives_a_fact_that_changes_with_it(resin: str) -> None:
    """The lightest and the heaviest piece; the origin names the value of the sheet."""
    lot = {"resin": resin, "identified_by": ["none"]}
    found = facts(lot)["heaviest piece"]
    (given,) = found.inputs.values()
    assert isinstance(given, Given)
    assert given.origin.where == f"{resin} sheet: density solid"
    assert facts(lot)["lightest piece"].nominal <= found.nominal
    assert facts(lot, bench=changed(resin, "1111 kg/m³"))["heaviest piece"].nominal == pytest.approx(1111)
    assert found.nominal != pytest.approx(1111)


def test_a_changed_window_changes_what_is_left() -> None:
    """A polyethylene that sinks leaves two floaters."""
    lot = {"resin": "pp", "identified_by": ["float in water"]}
    assert facts(lot)["candidates left"].nominal == 3
    assert facts(lot, bench=changed("hdpe", "1010 kg/m³"))["candidates left"].nominal == 2


def test_items_stay_items() -> None:
    """Sorting cuts nothing."""
    recipe = {"procedure": [{"id": "sort", "process": "sort"}], "formula.feedstock.0.form": "item"}
    assert BENCH.walk(recipe).after[0].form == "item"
