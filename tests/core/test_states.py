"""States of a plastic: the same question to a sheet of either kind, and always the cautious end."""

from __future__ import annotations

import pytest

from recipes_core.document import read
from recipes_core.facts import Given, Open
from recipes_core.sheets import Sheet, load_sheet
from recipes_core.sheets.states import HEAT_CAP, STATES, state

CRYSTALS = """
  melting peak: {value: 112 °C, basis: memory}
  melting end: {value: 117 °C, basis: memory}
  freezing start: {value: 102 °C, basis: memory}
  freezing peak: {value: 96 °C, basis: memory}
  freezing end: {value: 75 °C, basis: memory}
"""
GLASS = """
  glass transition: {value: 95 °C, basis: memory}
  window foot: {value: 150 °C, basis: memory}
  forming foot: {value: 127 °C, basis: memory}
"""
SHIFTS = """
  melting shift: {value: 0 K, range: -5 - 3 K, basis: judgement, note: ours}
  freezing shift: {value: 0 K, range: -4 - 6 K, basis: judgement, note: ours}
"""


def sheet(kind: str, values: str) -> Sheet:
    """A resin sheet with these values."""
    text = f"format: resin/1\nid: demo\nname: Demo\nsymbol: D\nkind: {kind}\nfamily: demo\nvalues:{values}"
    return load_sheet(read(text.encode()))


def celsius(asked: Sheet, name: str) -> float:
    """A state in °C."""
    found = state(asked, name)
    assert isinstance(found, Given)
    return float(found.value) - 273.15


@pytest.mark.parametrize(
    ("name", "crystals", "glass"),
    [
        ("surface melted", 112, 150),
        ("melted", 117, 150),
        ("stiffening", 102, 127),
        ("set", 96, 95),
        ("solid", 75, 85),
    ],
)
def test_either_kind_has_every_state(name: str, crystals: float, glass: float) -> None:
    """Melting and freezing for the one, the glass transition and what it fuses at for the other."""
    assert celsius(sheet("semicrystalline", CRYSTALS), name) == pytest.approx(crystals)
    assert celsius(sheet("amorphous", GLASS), name) == pytest.approx(glass)


def test_where_the_range_is_doubtful_the_cautious_end_counts() -> None:
    """Melted is later than the sheet's best guess, and set and solid are colder."""
    doubtful = sheet("semicrystalline", CRYSTALS + SHIFTS)
    assert celsius(doubtful, "melted") == pytest.approx(120)
    assert celsius(doubtful, "surface melted") == pytest.approx(115)
    assert celsius(doubtful, "set") == pytest.approx(92)
    assert celsius(doubtful, "solid") == pytest.approx(71)


@pytest.mark.parametrize("name", STATES)
def test_what_the_sheet_does_not_say_is_open(name: str) -> None:
    """No value, or no kind: a question, never a default."""
    bare = "\n  density solid: {value: 1000 kg/m³, basis: memory}\n"
    for kind in ("semicrystalline", "amorphous", "unknown"):
        assert isinstance(state(sheet(kind, bare), name), Open)


def test_the_cap_of_a_plastic_that_is_only_bent_is_its_bending_line() -> None:
    """A cap for melting wins where there is no bending line; with neither it is open."""
    bent = sheet("amorphous", GLASS + "  bending line: {value: 190 °C, basis: judgement, note: ours}\n")
    melted = sheet("amorphous", GLASS + "  oven-air cap: {value: 230 °C, basis: judgement, note: ours}\n")
    assert celsius(bent, HEAT_CAP) == pytest.approx(190)
    assert celsius(melted, HEAT_CAP) == pytest.approx(230)
    assert isinstance(state(sheet("amorphous", GLASS), HEAT_CAP), Open)
