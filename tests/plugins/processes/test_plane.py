"""Planing: marks, passes, thickness and chips by hand; what the sheet of the resin does not say is asked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from recipes_plugins.processes.plane.rules import RULES

from recipes_core.document import read
from recipes_core.facts import Open
from recipes_core.rules.engine import judge
from recipes_core.sheets import load_sheet
from tests.plugins.processes.cut import MACHINES, PLANE, sheet

if TYPE_CHECKING:
    from tests.conftest import Shop

SOFT = """\
format: resin/1
id: soft-pe
name: A plastic that nobody has planed
kind: semicrystalline
family: polyolefin
values: {}
"""


def test_by_hand(shop: Shop) -> None:
    """6 m/min under two knives at 6000 rpm; 20 mm to 18.2 mm in cuts of 0.5 mm, off 400 × 100 mm at 950 kg/m³."""
    facts = shop.facts(sheet(PLANE))["plane"]
    known = {name: fact for name, fact in facts.items() if fact.dimension != "record"}
    numbers = {name: fact.nominal for name, fact in known.items() if not isinstance(fact.value, Open)}
    assert numbers["feed per tooth"] == pytest.approx(0.5e-3)
    assert numbers["mark pitch"] == pytest.approx(1e-3)
    assert numbers["marks to the inch"] == pytest.approx(25.4)
    assert numbers["scallop"] == pytest.approx(1e-6 / (4 * 0.05))
    assert numbers["taken off"] == pytest.approx(1.8e-3)
    assert numbers["passes"] == 4
    assert numbers["thickness left"] == pytest.approx(18.2e-3)
    assert numbers["yield"] == pytest.approx(0.91)
    assert numbers["chips"] == pytest.approx(0.0684)


def test_jointed_knives_all_leave_their_mark(shop: Shop) -> None:
    """Half the pitch with two; the feed per tooth is the same either way; nobody knows, nobody computes."""
    for jointed, pitch in (("yes", 0.5e-3), ("no", 1e-3)):
        facts = shop.facts(sheet(PLANE, equipment={"planer": {**MACHINES["planer"], "jointed": jointed}}))["plane"]
        assert facts["mark pitch"].nominal == pytest.approx(pitch)
        assert facts["feed per tooth"].nominal == pytest.approx(0.5e-3)
    unsure = shop.facts(sheet(PLANE, equipment={"planer": {**MACHINES["planer"], "jointed": "unknown"}}))["plane"]
    assert isinstance(unsure["mark pitch"].value, Open)
    assert not isinstance(unsure["feed per tooth"].value, Open)


@pytest.mark.parametrize(
    ("faces", "more", "millimetre"),
    [
        ("one", {}, 1.8),
        ("both", {"second_face": "0.9 mm"}, 0.0),
        ("both", {"second_face": "0.2 mm"}, 1.4),
        ("alternating", {}, 0.2),  # 0.5 + 0.5 against 0.5 + 0.3
        ("alternating", {"cut": "0.9 mm"}, 0.0),  # 0.9 against 0.9
        ("alternating", {"cut": "0.8 mm"}, 0.2),  # 0.8 + 0.2 against 0.8
        ("alternating", {"to": "20 mm"}, 0.0),  # nothing to do
    ],
)
def test_more_off_one_face(shop: Shop, faces: str, more: dict[str, str], millimetre: float) -> None:
    """What the passes take off either face, added up by hand."""
    facts = shop.facts(sheet({**PLANE, "faces": faces, **more}))["plane"]
    assert facts["more off one face"].nominal * 1e3 == pytest.approx(millimetre, abs=1e-9)


def test_planing_adds_nothing(shop: Shop) -> None:
    """A piece thinner than it shall be stays as it is: no passes, no chips."""
    facts = shop.facts(sheet({**PLANE, "to": "22 mm"}))["plane"]
    assert [facts[n].nominal for n in ("taken off", "passes", "chips")] == [0.0, 0.0, 0.0]
    assert facts["thickness left"].nominal == pytest.approx(0.020)


def test_it_hands_on_a_thinner_piece_of_the_same_form(shop: Shop) -> None:
    """And how warm it is, which the next step need not be told again."""
    (work,) = shop.walk(sheet(PLANE)).after
    assert work.form == "sheet"
    assert work.thickness.nominal == pytest.approx(18.2e-3)  # type: ignore[union-attr]
    assert work.left_warm.nominal == pytest.approx(293.15)  # type: ignore[union-attr]


def _judged(shop: Shop, changes: dict[str, Any], rule: str) -> Any:
    case = shop.walk(changes).cases[0]
    return judge([r for r in RULES if r.id == rule], [case], {"plane": frozenset({"plane"})}, date(2026, 6, 1))


def test_a_sheet_that_gives_no_cut_is_asked(shop: Shop) -> None:
    """Not passed and not failed: an open question at the sheet, as for soft or thin plastics."""
    made = replace(shop.shelf.library, resins={"hdpe": load_sheet(read(SOFT, "soft-pe.yaml"))})
    soft = type(shop)(replace(shop.shelf, library=made))
    asked = _judged(soft, sheet(PLANE), "cut-too-deep")
    assert set(asked.questions) == {("resin sheet", "soft-pe", "planing cut")}
    assert asked.passed == []
    assert _judged(shop, sheet(PLANE), "cut-too-deep").passed == ["cut-too-deep@plane"]


def test_a_thin_sheet_does_not_go_through_a_planer(shop: Shop) -> None:
    """3 mm, under rollers without a carrier board (common practice; makers' manuals give about 6 mm)."""
    thin = sheet({**PLANE, "to": "3 mm"})
    found = _judged(shop, thin, "piece-too-small").findings
    assert [(f.found, f.level.value) for f in found] == [("3 mm (0.12 in)", "error")]


def test_warmth_that_nobody_knows_is_asked(shop: Shop) -> None:
    """Neither the step nor one before it says it."""
    silent = sheet({k: v for k, v in PLANE.items() if k != "part_at"})
    asked = _judged(shop, silent, "machined-warm")
    assert set(asked.questions) == {("procedure", 0, "part_at")}
    assert asked.passed == []
