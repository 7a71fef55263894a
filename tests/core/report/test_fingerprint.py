"""A finding is known again after an edit elsewhere, and never taken for another."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from recipes_core.app import lint_document
from recipes_core.document import read
from recipes_core.findings import Finding, Kind, Level
from recipes_core.report.fingerprint import data_of, fingerprints, steady

if TYPE_CHECKING:
    from recipes_core.shelf import Shelf

COAT_HOOK = (Path(__file__).parents[2] / "recipes" / "coat-hook.yaml").read_text("utf-8")
BROKEN = COAT_HOOK.replace("at_least: 20 min", "at_least: 12 min").replace("colour: natural", "colour: beige")
DATA = {
    "procedure": [{"id": "melt"}, {"process": "fold"}, "x"],
    "formula": {"feedstock": [{"lot": "blue lids", "resin": "hdpe"}, {"resin": "pp"}]},
    "part": {"use": ["fitting"]},
}


@pytest.mark.parametrize(
    ("path", "names"),
    [
        (("procedure", 0, "oven"), ("procedure", "melt", "oven")),
        (("procedure", 1, "layers"), ("procedure", "1", "layers")),
        (("formula", "feedstock", 0, "colour"), ("formula", "feedstock", "blue lids", "colour")),
        (("formula", "feedstock", 1), ("formula", "feedstock", "1")),
        (("part", "use", 0), ("part", "use", "fitting")),
        (("procedure", 9, "oven"), ("procedure", "9", "oven")),
        (("hdpe sheet", 0, "cap"), ("hdpe sheet", "0", "cap")),
        ((), ()),
    ],
)
def test_names_in_the_place_of_numbers(path: tuple[str | int, ...], names: tuple[str, ...]) -> None:
    """Of steps, lots and the words of a list; a number where there is no name, or no such place."""
    assert steady(path, DATA) == names


def known_by(text: str, stock: Shelf) -> list[str]:
    """The fingerprints of the findings on a recipe."""
    linted = lint_document(read(text, "a.yaml"), date(2026, 11, 25), stock)
    assert linted.findings
    return sorted(fingerprints(linted.findings, data_of(text)))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("procedure:\n", "# a comment\n\n# another\nprocedure:\n"),
        ("    oven_start: hot\n    at_least: 12 min\n", "    at_least: 12 min\n    oven_start: hot\n"),
        ("use: [indoor fitting]", "use:   [indoor fitting]   # not outdoors"),
        ("\n", "\r\n"),
    ],
)
def test_a_finding_is_known_again(old: str, new: str, stock: Shelf) -> None:
    """After an inserted comment, with a moved key, with other spaces or line ends."""
    assert old in BROKEN
    assert known_by(BROKEN.replace(old, new), stock) == known_by(BROKEN, stock)


def test_a_step_that_moves_keeps_its_findings(stock: Shelf) -> None:
    """It has its own name; here the step before it is gone."""
    moved = BROKEN.replace("  - {id: weigh, process: weigh, scale: {resolution: 1 g, capacity: 5 kg}}\n", "")
    assert moved != BROKEN

    def of_melt(text: str) -> set[str]:
        linted = lint_document(read(text, "a.yaml"), date(2026, 11, 25), stock)
        data = data_of(text)
        pairs = zip(linted.findings, fingerprints(linted.findings, data), strict=True)
        return {print_ for f, print_ in pairs if f.rule == "melt-cut-short" and steady(f.path, data)[1:2] == ("melt",)}

    assert len(of_melt(BROKEN)) == 1
    assert of_melt(moved) == of_melt(BROKEN)


def test_other_findings_are_other_findings(stock: Shelf) -> None:
    """Another value, another rule or another place; and no two in one recipe are alike."""
    base = Finding("too-hot", Level.ERROR, Kind.FAIL, "Hot.", path=("procedure", 0, "oven"), found="250 °C")
    others = [
        Finding("too-hot", Level.ERROR, Kind.FAIL, "Hot.", path=("procedure", 0, "oven"), found="260 °C"),
        Finding("too-hot", Level.ERROR, Kind.FAIL, "Hot.", path=("procedure", 1, "oven"), found="250 °C"),
        Finding("too-cold", Level.ERROR, Kind.FAIL, "Hot.", path=("procedure", 0, "oven"), found="250 °C"),
        base,
    ]
    assert len(set(fingerprints([base, *others], DATA))) == 5
    assert len(set(known_by(BROKEN, stock))) == len(known_by(BROKEN, stock))


def test_checks_that_did_not_run_are_told_apart() -> None:
    """They stand at the same place, and nothing was found."""
    one, other = (
        Finding("check-did-not-run", Level.ERROR, Kind.REVIEW, f"The check {name} did not run.", path=("procedure", 0))
        for name in ("a", "b")
    )
    assert len(set(fingerprints([one, other], DATA))) == 2
    assert list(fingerprints([other, one], DATA)) == list(fingerprints([one, other], DATA))[::-1]


def test_a_file_that_cannot_be_read(stock: Shelf) -> None:
    """Its problems name lines; those do not count."""
    text = "format: recipe/1\nheader: {id: a}\nheader: {id: b}\n"
    later = "# a comment\n" + text
    found = []
    for source in (text, later):
        assert data_of(source) == {}
        problem = Finding("key-twice", Level.ERROR, Kind.FAIL, f"here and on line {2 if source == text else 3}")
        found.append(list(fingerprints([problem], {})))
    assert found[0] == found[1]
