"""The mark on the part: symbols in order of mass, the recycled share never rounded up, none where somebody guesses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.case import Case
from recipes_core.marking import mark, mark_of
from tests.conftest import Shop


@pytest.mark.parametrize(
    ("parts", "recycled", "marked"),
    [
        ([("ABS", 1.0)], 0.0, ">ABS<"),
        ([("PE-HD", 1.0)], 1.0, ">PE-HD(REC100)<"),
        ([("PC", 0.6), ("ABS", 0.4)], 0.0, ">PC+ABS<"),
        ([("ABS", 0.4), ("PC", 0.6)], 0.3, ">PC+ABS(REC30)<"),
        ([("PP", 1.0)], 0.999, ">PP(REC99)<"),
        ([("PP", 0.5), ("PP", 0.5)], 0.5, ">PP(REC50)<"),
    ],
)
def test_marks(parts: list[tuple[str, float]], recycled: float, marked: str) -> None:
    """The form of ISO 11469 with the symbols of ISO 1043-1, the main plastic first; REC is a minimum by mass."""
    assert mark(parts, recycled) == marked


@given(st.floats(0.0, 1.0))
def test_the_mark_never_promises_more_than_there_is(recycled: float) -> None:
    """Rounded down to whole per cent."""
    text = mark([("PP", 1.0)], recycled)
    promised = float(text.removeprefix(">PP(REC").removesuffix(")<")) if "REC" in text else 0.0
    assert promised <= 100.0 * recycled + 1e-6
    assert promised > 100.0 * recycled - 1.0 - 1e-6


LOT = {"resin": "hdpe", "share": "100 %", "origin": "post-consumer"}


@pytest.mark.parametrize(
    ("change", "marked", "why"),
    [
        ({}, ">PE-HD(REC100)<", ""),
        ({"origin": "virgin"}, ">PE-HD<", ""),
        ({"origin": "own regrind"}, ">PE-HD<", ""),
        ({"resin": "unknown"}, "", "its plastic"),
        ({"resin": "mixed"}, "", "its plastic"),
        ({"share": "unknown"}, "", "its share"),
        ({"origin": "unknown"}, "", "where it comes from"),
        ({"filled": "mineral"}, "", "filler"),
        ({"filled": "not seen"}, ">PE-HD(REC100)<", ""),
        ({"parents": [{"lot": "a", "share": "40 %"}, {"share": "60 %"}]}, "", "blended from"),
        ({"parents": "unknown"}, "", "blended from"),
        ({"parents": [{"lot": "a", "share": "40 %"}, {"lot": "b", "share": "60 %"}]}, ">PE-HD(REC100)<", ""),
    ],
)
def test_a_lot_nobody_can_vouch_for_gets_no_mark(shop: Shop, change: dict[str, object], marked: str, why: str) -> None:
    """And the reason names the lot."""
    recipe = shop.recipe({"formula.feedstock": [{**LOT, **change}]})
    found, unknown = mark_of(recipe, Case(recipe, shop.shelf.library))
    assert found == marked
    assert all(reason.startswith("lot 1: ") and why in reason for reason in unknown)
    assert bool(unknown) != bool(marked)


def test_no_lot_no_mark(shop: Shop) -> None:
    """A recipe without feedstock."""
    recipe = shop.recipe({"formula.feedstock": []})
    assert mark_of(recipe, Case(recipe, shop.shelf.library)) == ("", ("no lot is described",))
