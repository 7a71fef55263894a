"""What a charge may give off: the table against an open data library, the oven and the room against worked cases."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

import pytest
from recipes_plugins.processes.flake_melt.vapour import VAPOURS

from recipes_core.facts import Open
from recipes_core.physics.ventilation import concentration

if TYPE_CHECKING:
    from recipes_core.work import Table
    from tests.conftest import Shop

CAS = {"styrenic": "100-42-5", "polyolefin": "109-66-0", "polyester": "75-07-0"}
CLOSED = {"equipment.oven.vented": "no", "equipment.oven.cavity": "50 l"}


def table(shop: Shop, changes: dict[str, Any]) -> Table | None:
    """The table of the air that a room would need, where the forecast has one."""
    made = [make() for make in shop.walk(changes).cases[1].tables]
    return next((t for t in made if t.title.startswith("the air that a room")), None)


@pytest.mark.parametrize("family", VAPOURS)
def test_flammable_limits_are_the_lower_of_two_lists(family: str) -> None:
    """IEC 60079-20-1 (2010) and NFPA 497 (2008) as `chemicals` carries them; the oven is hotter than what lights
    acetaldehyde by itself, so that only little of it is a barrier.
    """
    chemicals = import_module("chemicals")
    safety, cas, vapour = chemicals.safety, CAS[family], VAPOURS[family]
    lists = ("IEC 60079-20-1 (2010)", "NFPA 497 (2008)")
    limits = [safety.LFL(CASRN=cas, method=method) for method in lists]  # its first place is a heat of combustion
    assert vapour.flammable == pytest.approx(min(limits))
    assert vapour.molar_mass == pytest.approx(chemicals.identifiers.MW(cas) / 1e3, rel=1e-3)
    if family == "polyester":
        assert min(safety.T_autoignition(cas, method=method) for method in lists) < 453.15


@pytest.mark.parametrize(
    ("cas", "hours", "short", "never"),
    [
        ("100-42-5", 35, 100, None),
        ("71-43-2", 0.5, 2.5, None),
        ("50-00-0", None, 1.0, 1.5),
        ("75-07-0", None, None, 25),
        ("107-13-1", 2, None, 10),
        ("107-02-8", None, None, 0.1),
        ("7647-01-0", None, None, 2),
        ("630-08-0", 25, None, None),
    ],
)
def test_exposure_limits_that_the_texts_lean_on(
    cas: str, hours: float | None, short: float | None, never: float | None
) -> None:
    """ppm of the one list that `chemicals` has, Ontario's; None there means not in the list, never no limit."""
    safety = import_module("chemicals").safety
    for found, told in ((safety.TWA(cas), hours), (safety.STEL(cas), short), (safety.Ceiling(cas), never)):
        number = found[0] if isinstance(found, tuple) else found
        assert number == (None if told is None else pytest.approx(told, rel=0.01))


def test_targets_are_what_their_words_say() -> None:
    """2 ppm of styrene, 2.5 ppm of acetaldehyde."""
    for family, ppm in (("styrenic", 2.0), ("polyester", 2.5)):
        vapour = VAPOURS[family]
        assert vapour.target == pytest.approx(float(concentration(ppm * 1e-6, vapour.molar_mass)), rel=1e-3)


def test_a_closed_oven_holds_ten_times_as_much_at_ten_times_the_guess(shop: Shop) -> None:
    """375 g in 50 l at 177 °C: 37.5 mg of pentane are 0.0385 % by volume, 4.0 % of a hot limit of 0.97 % (derived)."""
    facts = shop.facts(CLOSED)["melt"]
    told = [facts[f"vapour at {guess} µg/g"].nominal for guess in (10, 100, 1000)]
    assert told == pytest.approx([0.0040, 0.040, 0.40], rel=0.02)


def test_what_is_not_said_of_the_oven_is_asked(shop: Shop) -> None:
    """Neither vents nor volume are guessed; a vented oven is not asked for its volume."""
    silent = shop.facts()["melt"]["vapour at 100 µg/g"].value
    assert isinstance(silent, Open)
    assert sorted(text for _, text in silent.needs) == ["How large is the oven inside?", "Is the oven vented?"]
    vented = shop.facts({"equipment.oven.vented": "yes"})["melt"]["vapour at 100 µg/g"].value
    assert isinstance(vented, Open)
    assert {text for _, text in vented.needs} == {""}


def test_the_air_of_a_room_is_told_in_two_digits(shop: Shop) -> None:
    """1 kg in 30 min at 10 µg/g of fume kept at 0.08 mg/m³: 20 mg/h, so 750 m³/h at K 3, 2500 at K 10, 50 changes of
    50 m³ (half of the worked case at 20 µg/g); capture is named first, and all that it rests on.
    """
    given = {"site.place": "indoors workshop", "site.room_volume": "50 m³", "formula.charge": "1 kg"}
    air = table(shop, {**given, "melt.at_least": "30 min", "melt.at_most": "40 min"})
    assert air is not None
    assert air.rows[0] == pytest.approx((10, 750, 2500, 50))
    assert air.rows[2] == pytest.approx((1000, 75_000, 250_000, 5000))
    assert air.note.startswith("Take the fume away at the oven door")
    assert all(word in air.note for word in ("1 kg", "30 min", "50 m³", "0.08 mg/m³", "three guesses"))


def test_no_room_and_no_table(shop: Shop) -> None:
    """Outdoors the wind does it; without a volume there are no air changes to tell."""
    assert table(shop, {"site.place": "outdoors"}) is None
    air = table(shop, {"site.place": "indoors workshop"})
    assert air is not None
    assert {len(row) for row in air.rows} == {3}
