"""A sheet that tightens a shipped one narrows its limits and never widens one, whatever it says."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.document import read
from recipes_core.facts import Given
from recipes_core.findings import Finding
from recipes_core.library_folder import read_sheets
from recipes_core.sheets import Sheet, load_sheet
from recipes_core.sheets.measures import ends
from recipes_core.sheets.tighten import LOWER, STRICTER, tightened
from recipes_core.shelf import shelf

TODAY = date(2026, 11, 25)
SHIPPED = shelf().library.resins
HEAD = "format: resin/1\nid: our-hdpe\nname: Ours\ntightens: hdpe\nvalues:\n"


def sheet(values: str) -> Sheet:
    """A tightening sheet."""
    return load_sheet(read((HEAD + values).encode()))


def number(asked: Sheet, name: str) -> float:
    """A value that must be there."""
    found = asked.get(name)
    assert isinstance(found, Given)
    return float(ends(found.value)[0])


@pytest.mark.parametrize(
    ("name", "given_", "counts"),
    [
        ("oven-air cap", 220, 220),
        ("oven-air cap", 260, 240),
        ("window low", 180, 180),
        ("window low", 150, 170),
        ("surface ceiling", 220, 220),
    ],
)
def test_only_the_stricter_limit_counts(name: str, given_: int, counts: int) -> None:
    """A lower cap and a higher foot; a wider one is as if it had not been said."""
    own = sheet(f"  {name}: {{value: {given_} °C, basis: judgement, note: ours}}\n")
    assert number(tightened(SHIPPED["hdpe"], own), name) == pytest.approx(counts + 273.15)
    assert number(SHIPPED["hdpe"], name) == number(shelf().library.resins["hdpe"], name)


@given(st.sampled_from(sorted(STRICTER)), st.integers(1, 400), st.sampled_from(sorted(SHIPPED)))
def test_no_limit_of_any_resin_is_ever_loosened(name: str, value: int, resin: str) -> None:
    """Every limit of every shipped resin, against every value."""
    base = SHIPPED[resin]
    before = base.get(name)
    if not isinstance(before, Given) or "°C" not in before.text:
        return
    after = number(tightened(base, sheet(f"  {name}: {{value: {value} °C, basis: judgement, note: ours}}\n")), name)
    if STRICTER[name] == LOWER:
        assert after <= ends(before.value)[0]
    else:
        assert after >= ends(before.value)[0]


def problems(tmp_path: Path, text: str) -> tuple[dict[str, Sheet], tuple[Finding, ...]]:
    """What a library makes of one sheet."""
    (tmp_path / "library.yaml").write_text("format: library/1\n", "utf-8")
    (tmp_path / "resins").mkdir()
    (tmp_path / "resins" / "own.yaml").write_text(text, "utf-8")
    return read_sheets(tmp_path, SHIPPED, TODAY)


def test_a_library_tightens_a_shipped_resin(tmp_path: Path) -> None:
    """The recipe goes on saying hdpe, and the narrower cap counts."""
    sheets, wrong = problems(tmp_path, HEAD + "  oven-air cap: {value: 210 °C, basis: judgement, note: ours}\n")
    assert wrong == ()
    assert number(sheets["hdpe"], "oven-air cap") == pytest.approx(483.15)
    assert number(sheets["hdpe"], "density solid") == number(SHIPPED["hdpe"], "density solid")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (HEAD + "  density solid: {value: 950 kg/m³, basis: memory}\n", "density solid is no limit"),
        (
            HEAD.replace("hdpe\nvalues", "zpe\nvalues") + "  window low: {value: 180 °C, basis: memory}\n",
            "tightens zpe",
        ),
        (HEAD.replace("name: Ours\n", "") + "  window low: {value: 180 °C, basis: memory}\n", "name"),
        (HEAD.replace("values", "kind: amorphous\nvalues") + "  window low: {value: 180 °C, basis: memory}\n", "kind"),
    ],
)
def test_what_it_may_not_say(tmp_path: Path, text: str, said: str) -> None:
    """Anything but limits, another kind, a resin that nobody ships: the sheet is not used."""
    sheets, (wrong,) = problems(tmp_path, text)
    assert sheets == {}
    assert said in wrong.message
