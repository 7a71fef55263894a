"""What proofs leave of the shipped plastics: windows against published tables, marks as they are moulded."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.errors import DataError
from recipes_core.identity import Kind, beside, evidence, evidence_of_lots, gap, kinds_of, splits
from recipes_core.shelf import shelf

if TYPE_CHECKING:
    from tests.conftest import Shop

KINDS = kinds_of(shelf().library)


def left(shop: Shop, **lot: Any) -> dict[str, set[str]]:
    """What each proof of a lot leaves of the shipped plastics; unread ones are not there."""
    case = shop.case({"formula.feedstock": [{"form": "item", **lot}]}, lot=0)
    return {proof.name: set(proof.left) for proof in evidence(case, KINDS).proofs if proof.left is not None}


def test_what_floats_in_water() -> None:
    """Polyethylene and polypropylene alone of the fifteen: common practice, and every published density beside them."""
    assert {name for name, kind in KINDS.items() if kind.floats} == {"hdpe", "ldpe", "pp"}
    assert len(KINDS) == 15, "the plastic without a name is no candidate"
    assert all(kind.high < 998 or kind.low > 998 for kind in KINDS.values()), "none may do either"


@pytest.mark.parametrize(
    ("name", "published"),
    [
        ("hdpe", 955), ("ldpe", 917), ("ldpe", 925), ("pp", 905), ("ps", 1050), ("hips", 1040), ("abs", 1050),
        ("pet", 1360), ("petg", 1270), ("pvc", 1400), ("pvc", 1390), ("pc", 1200), ("pa6", 1120), ("pa6", 1150),
        ("pa66", 1140), ("pmma", 1180), ("pom", 1410), ("pom", 1420),
    ],
)  # fmt: skip
def test_published_densities_lie_in_the_windows(name: str, published: float) -> None:
    """Published for each plastic: Crawford, Plastics Engineering (PP, PS, PET, PVC, PA66, PMMA, POM); EN 12524 as the
    library ht carries it (PVC 1390); the survey of recycled bottles (HDPE); suppliers' pages named in the sheets."""
    assert KINDS[name].low <= published <= KINDS[name].high


@pytest.mark.parametrize(
    ("mark", "names"),
    [
        ("2", {"hdpe"}), ("02", {"hdpe"}), (">PE-HD<", {"hdpe"}), ("HDPE", {"hdpe"}), ("PE", {"hdpe", "ldpe"}),
        (">PE-HD(REC100)<", {"hdpe"}), (">PP-MD30<", {"pp"}), ("6 PS", {"ps", "hips"}), (">PS-HI<", {"ps", "hips"}),
        (">PS-I<", {"hips"}), ("1 PETE", {"pet"}), ("PETE", {"pet"}), ("V", {"pvc"}), ("3 PVC", {"pvc"}),
        ("PETG", {"petg"}),
        ("PET", {"pet", "petg"}), ("9 ABS", {"abs"}), (">PA6-GF30<", {"pa6"}), ("PA", {"pa6", "pa66"}), ("2 PP", set()),
        ("none", set()), (">PTFE<", set()),
        ("a triangle", set(KINDS)), ("made by hand", set(KINDS)),
    ],
)  # fmt: skip
def test_what_a_mark_can_mean(shop: Shop, mark: str, names: set[str]) -> None:
    """Numbers of ASTM D7611, symbols of ISO 1043-1; signs that contradict each other leave nothing, mere words all."""
    assert left(shop, resin="hdpe", mark_seen=mark, identified_by=["moulded mark"]) == {"moulded mark": names}


def test_seven_stands_for_the_rest(shop: Shop) -> None:
    """It names nothing by itself."""
    other = left(shop, resin="pla", mark_seen="7", identified_by=["moulded mark"])["moulded mark"]
    assert {"pla", "pc", "pa6", "pmma", "abs"} <= other
    assert not other & {"hdpe", "pvc", "pet"}


def test_the_second_liquid_says_what_the_named_plastic_must_do_in_it(shop: Shop) -> None:
    """At 925 kg/m³ polyethylene of high density sinks, the light one does either; at 950 nothing is told."""
    liquid = {"identified_by": ["float in second liquid"]}
    sank = left(shop, resin="hdpe", pair_floats="925 kg/m³", **liquid)["float in second liquid"]
    assert "pp" not in sank
    assert {"hdpe", "ldpe", "ps"} <= sank
    near = left(shop, resin="hdpe", pair_floats="936 kg/m³", **liquid)["float in second liquid"]
    assert "ldpe" in near, "932 may sink in 936, which may be 1 % less"
    assert "pp" not in near
    assert left(shop, resin="pp", pair_floats="925 kg/m³", **liquid)["float in second liquid"] == {"pp", "ldpe"}
    assert left(shop, resin="hdpe", pair_floats="950 kg/m³", **liquid)["float in second liquid"] == set(KINDS)
    assert left(shop, resin="unknown", pair_floats="925 kg/m³", **liquid) == {}


def test_a_reading_counts_without_being_called_a_proof(shop: Shop) -> None:
    """A density and a mark that somebody wrote down speak; what nobody wrote down does not."""
    assert left(shop, resin="hdpe", density="1.41 g/cm³", mark_seen="5") == {
        "moulded mark": {"pp"},
        "weighed density": {"pet", "pla", "pvc", "pom"},
    }
    assert left(shop, resin="hdpe", identified_by=["moulded mark", "weighed density"]) == {}
    assert left(shop, resin="hdpe", density="0.98 g/cm³") == {"weighed density": set()}
    assert left(shop, resin="hdpe", density="0.93 - 0.95 g/cm³") == {"weighed density": {"hdpe", "ldpe"}}


def test_a_weighing_may_be_a_hundredth_off(shop: Shop) -> None:
    """912 kg/m³ may be 910 of polypropylene, 919.2 as well; 919.3 may be 910.1 at the least."""
    assert left(shop, resin="pp", density="912 kg/m³") == {"weighed density": {"pp", "ldpe"}}
    assert "pp" in left(shop, resin="pp", density="919.2 kg/m³")["weighed density"]
    assert "pp" not in left(shop, resin="pp", density="919.3 kg/m³")["weighed density"]


@pytest.mark.parametrize(
    ("lot", "alone"),
    [
        ({"identified_by": ["moulded mark", "infrared"]}, True),
        ({"mark_seen": "2 HDPE", "density": "950 kg/m³", "identified_by": ["float in water"]}, True),
        ({"resin": "unknown", "density": "1.4 g/cm³"}, True),
        ({"mark_seen": "2 PP"}, False),
        ({"mark_seen": "made by hand"}, False),
        ({"resin": "ps", "mark_seen": "PS-I"}, False),
        ({"density": "1.4 g/cm³"}, False),
        ({"density": "800 - 2000 kg/m³"}, False),
        ({"density": "1.4 g/cm³", "filled": "mineral"}, False),
        ({"pair_floats": "925 kg/m³"}, False),
        ({"resin": "pvc", "identified_by": ["float in water"]}, False),
    ],
)  # fmt: skip
def test_other_sheets_are_read_where_the_own_one_does_not_settle_it(
    shop: Shop, lot: dict[str, Any], alone: bool
) -> None:
    """What agrees is the same as when all are asked; where a step sorts, all are."""
    library = shelf().library
    case = replace(shop.case({"formula.feedstock": [{"form": "item", "resin": "hdpe", **lot}]}), library=library)
    (found,) = evidence_of_lots(case, sorts=False)
    assert found.alone is alone
    own = {found.claim.name} if found.claim else set()
    assert set(library.resins._read) == (own if alone else set(library.resins))  # type: ignore[attr-defined]
    (full,) = evidence_of_lots(case)
    assert not full.alone
    assert set(full.kinds) == set(KINDS)
    assert [found.agrees(proof) for proof in found.proofs] == [full.agrees(proof) for proof in full.proofs]


def test_gap_and_neighbours() -> None:
    """Between the two floaters of a kitchen lie 30 kg/m³; where windows overlap there is no liquid."""
    assert gap(KINDS["hdpe"], [KINDS["pp"]]) == gap(KINDS["pp"], [KINDS["hdpe"]]) == pytest.approx((910, 940))
    assert gap(KINDS["ps"], [KINDS["hips"]]) is None
    assert gap(KINDS["ldpe"], [KINDS["pp"], KINDS["hdpe"]]) == pytest.approx((932, 940))
    assert {k.name for k in beside(KINDS["pp"], KINDS.values())} == {"hdpe", "ldpe"}


def test_a_liquid_splits_what_wholly_floats_from_what_wholly_sinks() -> None:
    """Both ends of the gap do."""
    pp, hdpe = KINDS["pp"], [KINDS["hdpe"]]
    assert all(splits((liquid, liquid), pp, hdpe) for liquid in (910, 925, 940))
    assert not any(splits((liquid, liquid), pp, hdpe) for liquid in (909, 941, 1000))
    assert not splits((905, 925), pp, hdpe)


def test_a_sheet_that_cannot_be_read_is_no_candidate() -> None:
    """It is told of where it is needed."""

    class Broken(dict[str, Kind]):
        def __getitem__(self, name: str) -> Any:
            raise DataError("broken", file="x.yaml")

    class Library:
        resins = Broken.fromkeys(["x"])

    assert kinds_of(Library()) == {}  # type: ignore[arg-type]
