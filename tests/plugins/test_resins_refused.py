"""What the sheets of bent, cut and stored resins allow and refuse, and that their lines stand in order.

PLA and PETG are melted, pressed and bent; PMMA, PET and PC only bent; the polyamides only cut; PVC and POM only cut
cold; a plastic that nobody has named is only stored.
"""

from __future__ import annotations

from importlib.resources import files
from typing import Any

import pytest

from recipes_core.document import read
from recipes_core.facts import Given
from recipes_core.sheets import Sheet, load_sheet

ICE = 273.15


def _load(name: str) -> Sheet:
    return load_sheet(read((files("recipes_plugins.resins") / f"{name}.yaml").read_bytes(), f"{name}.yaml"))


BENT = ("pmma", "pet", "pc")
MELTED = ("pla", "petg")
AMORPHOUS = (*MELTED, *BENT)
CUT = ("pa6", "pa66", "pvc", "pom")
SHEETS = {name: _load(name) for name in (*AMORPHOUS, *CUT, "unknown")}
IDS = [file.name.removesuffix(".yaml") for file in files("recipes_plugins.resins").iterdir() if ".yaml" in file.name]
SHIPPED = {name: _load(name) for name in IDS}


def value(name: str, entry: str) -> Any:
    """A value that must be there, in SI."""
    found = SHEETS[name].get(entry)
    assert isinstance(found, Given), f"{name}: {entry}"
    return found.value


def ends(sheet: Sheet, entry: str) -> tuple[float, float]:
    """A range that must be there, in SI."""
    found = sheet.range(entry)
    assert isinstance(found, Given), f"{sheet.id}: {entry}"
    low, high = found.value
    return float(low), float(high)


@pytest.mark.parametrize("name", [*BENT, *CUT, "unknown"])
def test_no_cap_and_no_window_where_melting_is_refused(name: str) -> None:
    """A sheet without a cap is what makes melting a matter for specialists; no window may contradict it."""
    given = set(SHEETS[name].names())
    assert not given & {"oven-air cap", "window low", "window high", "window foot", "bed conductivity"}


@pytest.mark.parametrize("name", [*CUT, "unknown"])
def test_no_forming_heat_where_bending_is_refused(name: str) -> None:
    """Polyamide bends within 5 K of its melting point, PVC and POM never meet heat, the unnamed neither."""
    assert not [entry for entry in SHEETS[name].names() if entry.startswith(("forming", "bend", "cold bend"))]


@pytest.mark.parametrize(("name", "cap"), [("pla", 210), ("petg", 220)])
def test_caps_of_the_melted_ones(name: str, cap: float) -> None:
    """The lowest of ignition - 100 K, breakdown - 60 K and usual upper melt + 20 K (200 and 210 °C, memory),
    to 5 K, as it is for every shipped cap.
    """
    usual = {"pla": 200, "petg": 210}[name] + ICE
    formula = min(value(name, "flash ignition") - 100, value(name, "decomposition start") - 60, usual + 20)
    assert value(name, "oven-air cap") == pytest.approx(cap + ICE)
    assert 0 <= formula - value(name, "oven-air cap") < 5


@pytest.mark.parametrize(("name", "celsius"), [("pmma", 190), ("pet", 130), ("pc", 204)])
def test_bending_lines(name: str, celsius: float) -> None:
    """The lines that were settled for bending in an oven."""
    assert value(name, "bending line") == pytest.approx(celsius + ICE)


NOT_FOR = {
    "pla": "",
    "petg": "",
    "pmma": "shred weigh mould-preheat cool demould",
    "pet": "shred weigh mould-preheat cool demould",
    "pc": "shred weigh mould-preheat cool demould",
    "pa6": "dry shred weigh mould-preheat cool demould",
    "pa66": "dry shred weigh mould-preheat cool demould",
    "pvc": "weigh mould-preheat cool demould",
    "pom": "weigh mould-preheat cool demould",
    "unknown": "mould-preheat cool demould",
}
"""Which processes do not apply to a resin: judged neither good nor bad, but said in a sentence."""


@pytest.mark.parametrize("name", SHEETS)
def test_processes_that_do_not_apply(name: str) -> None:
    """Just these, and each in one sentence that can stand behind the resin's name and a colon."""
    said = {entry.partition(", ")[2] for entry in SHEETS[name].names() if entry.startswith("not for")}
    assert said == set(NOT_FOR[name].split())
    for process in said:
        sentence = value(name, f"not for, {process}")
        assert sentence.endswith(".")
        assert ". " not in sentence
        assert len(sentence) <= 52  # a line of the list of its values


OTHERS = tuple("hdpe ldpe pp ps hips abs pla petg pmma pet pc pa6 pa66 pvc pom".split())  # noqa: SIM905


@pytest.mark.parametrize("name", [*AMORPHOUS, *CUT])
def test_every_pair_has_a_share_and_pvc_and_pom_none(name: str) -> None:
    """Each other resin is tolerated to a stated share, which for PVC and POM is nothing."""
    shares = {other: value(name, f"tolerated, {other}") for other in OTHERS if other != name}
    assert [other for other in ("pvc", "pom") if shares.get(other, 0) != 0] == []
    assert {other for other, share in shares.items() if share} == ({"petg"} if name == "pet" else set())
    assert f"tolerated, {name}" not in set(SHEETS[name].names())


@pytest.mark.parametrize("name", [*AMORPHOUS, *CUT])
def test_water_parts_it_from_what_floats(name: str) -> None:
    """Denser than water throughout its range; what it parts from is lighter than water where it ships."""
    assert ends(SHEETS[name], "density solid")[0] > 1000
    assert value(name, "separates") == ("hdpe", "ldpe", "pp")
    for other in set(value(name, "separates")) & set(SHIPPED):
        assert ends(SHIPPED[other], "density solid")[1] < 1000


def test_a_plastic_without_a_name_may_only_be_stored() -> None:
    """Its densities span those of every shipped resin, and it has no value of heat or cutting."""
    plain = {entry for entry in SHEETS["unknown"].names() if not entry.startswith("not for")}
    assert plain == {"density solid", "bulk density", "code"}
    for entry in ("density solid", "bulk density"):
        low, high = value("unknown", entry)
        for sheet in (sheet for sheet in SHIPPED.values() if sheet.id != "unknown" and entry in sheet.values):
            assert low <= ends(sheet, entry)[0] <= ends(sheet, entry)[1] <= high, sheet.id


@pytest.mark.parametrize("name", [*AMORPHOUS, *CUT])
def test_families_and_codes(name: str) -> None:
    """Codes 1 to 7 of ASTM D7611; the families that rules refuse by."""
    family = {
        "pmma": "acrylic",
        "pc": "polycarbonate",
        "pvc": "chlorinated",
        "pom": "acetal",
        "pa6": "polyamide",
        "pa66": "polyamide",
    }
    assert value(name, "family") == family.get(name, "polyester")
    assert value(name, "code") == {"pet": "1", "pvc": "3"}.get(name, "7")


@pytest.mark.parametrize("name", AMORPHOUS)
def test_bending_temperatures_stand_in_order(name: str) -> None:
    """Let go below the glass transition, formed above it, the best inside, nothing over the lines of heat."""
    top = "bending line" if name in BENT else "oven-air cap"
    order = ("bend set", "glass transition", "forming foot", "forming best", "forming top", top)
    lines = [value(name, entry) for entry in order]
    assert lines == sorted(lines)
    assert lines[-1] < min(value(name, "decomposition start"), value(name, "flash ignition"))


@pytest.mark.parametrize("name", MELTED)
def test_melting_temperatures_stand_in_order(name: str) -> None:
    """Out of the mould below the glass transition; foot, window, ceiling, cap."""
    order = "demould temperature,glass transition,window foot,window low,window high,surface ceiling,oven-air cap"
    lines = [value(name, entry) for entry in order.split(",")]
    assert lines == sorted(lines)


def test_softening_line_is_the_low_end_of_heat_deflection() -> None:
    """PLA 49, PMMA 79, PC 138, PA6 160 °C and the others: never above the heat deflection temperature."""
    for name in (*AMORPHOUS, *CUT):
        assert value(name, "softening temperature") == ends(SHEETS[name], "heat deflection")[0], name
