"""A blend reads like one sheet: its strictest part where people are at stake, the mean where heat and flow are."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.document import read
from recipes_core.facts import Given, Open, missing
from recipes_core.sheets import Sheet, load_sheet
from recipes_core.sheets.blend import Blend, Part

RUNNY = """
  oven-air cap: {value: 220 °C, basis: memory}
  window low: {value: 150 °C, basis: memory}
  window high: {value: 180 °C, basis: memory}
  density solid: {value: 900 kg/m³, range: 890 - 910 kg/m³, basis: memory}
  heat capacity melt: {value: 2000 J/(kg K), basis: memory}
  latent heat: {value: 100 kJ/kg, basis: memory}
  melting curve: {table: {100 °C: 0 %, 110 °C: 100 %}, basis: memory}
  melting end: {value: 110 °C, basis: memory}
  freezing end: {value: 80 °C, basis: memory}
  melt flow: {by: {bottle: {value: 1 g/10 min, basis: memory}, injection: {value: 2 g/10 min, basis: memory}}}
  carries itself: {value: no, basis: memory}
"""
STIFF = """
  oven-air cap: {value: 240 °C, basis: memory}
  window low: {value: 170 °C, basis: memory}
  window high: {value: 200 °C, basis: memory}
  density solid: {value: 1000 kg/m³, range: 980 - 1020 kg/m³, basis: memory}
  heat capacity melt: {value: 3000 J/(kg K), basis: memory}
  latent heat: {value: 200 kJ/kg, basis: memory}
  melting curve: {table: {120 °C: 0 %, 130 °C: 100 %}, basis: memory}
  melting end: {value: 130 °C, basis: memory}
  freezing end: {value: 90 °C, basis: memory}
  melt flow: {value: 4 g/10 min, basis: memory}
  carries itself: {value: yes, basis: memory}
"""
GLASSY = """
  glass transition: {value: 95 °C, basis: memory}
  window foot: {value: 150 °C, basis: memory}
  heat capacity melt: {value: 2100 J/(kg K), basis: memory}
"""


def sheet(id_: str, values: str, kind: str = "semicrystalline", family: str = "demo") -> Sheet:
    """A resin sheet with these values."""
    head = f"format: resin/1\nid: {id_}\nname: {id_}\nsymbol: {id_.upper()}\nkind: {kind}\nfamily: {family}\n"
    return load_sheet(read(f"{head}values:{values}".encode()))


def grade(name: str) -> Given:
    """A grade as a lot names it."""
    return Given(name, name, missing_origin())


def missing_origin() -> Any:
    """Any origin will do here."""
    value = sheet("x", RUNNY).get("id")
    assert isinstance(value, Given)
    return value.origin


def blend(runny: float = 0.5, named: str | None = "bottle") -> Blend:
    """The two demo resins."""
    lot = grade(named) if named else missing(("formula", "feedstock", 0, "grade"), "Which grade?")
    return Blend((Part(sheet("runny", RUNNY), runny, lot), Part(sheet("stiff", STIFF), 1.0 - runny)))


def value(asked: Blend, name: str) -> Any:
    """A value that must be there."""
    found = asked.get(name)
    assert isinstance(found, Given), found
    return found.value


@pytest.mark.parametrize(
    ("name", "celsius"),
    [
        ("oven-air cap", 220),
        ("heat cap", 220),
        ("window low", 170),
        ("window high", 180),
        ("melted", 130),
        ("solid", 80),
    ],
)
def test_the_strictest_part_sets_each_limit(name: str, celsius: float) -> None:
    """The lowest cap and top, the highest foot; melted when the last is, solid when the last is."""
    assert value(blend(0.2), name) == pytest.approx(celsius + 273.15)
    assert value(blend(0.8), name) == pytest.approx(celsius + 273.15)


def test_heat_sees_the_mean_by_mass_and_density_that_by_volume() -> None:
    """1 kg and 3 kg: 2750 J/(kg K); 4 kg fill 1/900 + 3/1000 m3."""
    assert value(blend(0.25), "heat capacity melt") == pytest.approx(2750.0)
    assert value(blend(0.25), "density solid") == pytest.approx(4.0 / (1.0 / 900.0 + 3.0 / 1000.0))
    ends = blend(0.25).range("density solid")
    assert isinstance(ends, Given)
    assert ends.value[0] < value(blend(0.25), "density solid") < ends.value[1]


def test_each_part_melts_with_its_own_heat() -> None:
    """Half and half: the one brings 50, the other 100 kJ/kg; a third of the latent heat is in by 110 °C."""
    assert value(blend(), "latent heat") == pytest.approx(150e3)
    points, shares = value(blend(), "melting curve")
    assert points == pytest.approx([c + 273.15 for c in (100, 110, 120, 130)])
    assert shares == pytest.approx([0.0, 1.0 / 3.0, 1.0 / 3.0, 1.0])


@pytest.mark.parametrize(("share", "flow"), [(0.5, 2.0), (1.0, 1.0)])
def test_melt_flow_by_the_rule_of_the_logarithms(share: float, flow: float) -> None:
    """Half 1 and half 4 flow as 2; 1 and 2 give 1.414 (a packaging-film note after Nielsen 1977)."""
    parts = (Part(sheet("runny", RUNNY), share, grade("bottle")), Part(sheet("stiff", STIFF), 1.0 - share))
    assert 600_000 * value(Blend(parts), "melt flow") == pytest.approx(flow)
    grades = (Part(sheet("r", RUNNY), 0.5, grade("bottle")), Part(sheet("r", RUNNY), 0.5, grade("injection")))
    assert 600_000 * value(Blend(grades), "melt flow") == pytest.approx(1.414, abs=0.001)


def test_a_lot_that_does_not_say_its_grade_is_asked() -> None:
    """The question is the lot's, not the sheet's."""
    found = blend(named=None).get("melt flow")
    assert isinstance(found, Open)
    assert found == missing(("formula", "feedstock", 0, "grade"), "Which grade?")


def test_what_one_part_lacks_is_open() -> None:
    """No mean of a value and of nothing."""
    found = blend().get("glass transition")
    assert isinstance(found, Open)


def test_words_hold_where_all_agree() -> None:
    """One that hangs by itself and one that does not: nobody knows."""
    assert value(blend(), "family") == "demo"
    assert isinstance(blend().get("carries itself"), Open)
    assert value(blend(0.3), "id") == "stiff + runny"


def test_a_little_glass_in_crystals() -> None:
    """It has no latent heat of its own; the whole melts and freezes as the other does."""
    parts = (Part(sheet("stiff", STIFF), 0.9), Part(sheet("glassy", GLASSY, "amorphous"), 0.1))
    mixed = Blend(parts)
    assert value(mixed, "kind") == "semicrystalline"
    assert value(mixed, "latent heat") == pytest.approx(180e3)
    points, shares = value(mixed, "melting curve")
    assert dict(zip(points, shares, strict=True))[403.15] == pytest.approx(1.0)
    assert value(mixed, "melted") == pytest.approx(150 + 273.15)


@given(st.floats(0.01, 0.99))
def test_a_mean_lies_between_its_parts(share: float) -> None:
    """For every share, in the order of the parts or the other."""
    for name in ("heat capacity melt", "density solid", "latent heat", "melt flow"):
        alone = [value(Blend((part,)), name) for part in blend().parts]
        assert min(alone) <= value(blend(share), name) * (1 + 1e-12)
        assert value(blend(share), name) <= max(alone) * (1 + 1e-12)
        turned = Blend(blend(share).parts[::-1])
        assert value(turned, name) == pytest.approx(value(blend(share), name))
