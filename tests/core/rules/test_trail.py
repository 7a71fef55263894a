"""The trail of a number: every given value behind it, by who gave it and how it is known."""

from __future__ import annotations

from recipes_core.facts import Basis, Fact, Given, Origin, Source, assumed, calc, missing
from recipes_core.rules.trail import MOST, basis, label, leaves, origins


def said(text: str, *path: str | int) -> Given:
    """A value of the recipe."""
    return Given(1.0, text, Origin(Source.RECIPE, path=path))


def of_sheet(text: str, basis: Basis, sheet: str = "hdpe sheet", entry: str = "melting peak") -> Given:
    """A value of a data sheet."""
    return Given(1.0, text, Origin(Source.SHEET, f"{sheet}: {entry}", basis=basis))


def made(name: str, equation: str = "", **inputs: Given | Fact) -> Fact:
    """A fact from these inputs."""
    return calc(name, "time", equation, lambda **_: [1.0], **inputs)


def test_every_leaf_once_the_nearest_first() -> None:
    """Through facts of facts, however often one value is used."""
    charge, oven = said("375 g", "formula", "charge"), said("177 °C", "procedure", 1, "oven")
    loading = made("loading", charge=charge)
    melted = made("melted", loading=loading, charge=charge, oven=oven)
    assert list(leaves({"fact:melted": melted, "oven": oven})) == [("oven", oven), ("charge", charge)]


def test_open_and_unsaid_values_are_no_leaves() -> None:
    """There is nothing to tell of them; what is known beside them is told."""
    charge = said("375 g", "formula", "charge")
    half = calc("half", "time", "", lambda **_: [1.0], charge=charge, tray=missing(("x",), "?"))
    assert list(leaves({"fact:half": half, "a": None, "b": missing(("y",), "?")})) == [("charge", charge)]


def test_labels() -> None:
    """The last words of a path, the step's own field alone, or the name it went by."""
    assert label("x", said("1", "equipment", "oven", "measured", "reads")) == "measured reads"
    assert label("x", said("1", "procedure", 1, "at_least")) == "at least"
    assert label("x", said("1", "formula", "charge")) == "charge"
    assert label("resin:melting peak", of_sheet("130 °C", Basis.MEMORY)) == "melting peak"


def test_origins_leave_sheets_to_the_basis() -> None:
    """Recipe and defaults in words, with the basis of a default; a value without words is not told."""
    values = {
        "charge": said("375 g", "formula", "charge"),
        "film": assumed(5.0, "5 W/(m² K)", Basis.DERIVED),
        "resin:melting peak": of_sheet("130 °C", Basis.PUBLISHED),
        "group": said("", "equipment"),
    }
    assert origins(values) == ("charge 375 g (recipe)", "film 5 W/(m² K) (default, derived)")


def test_a_long_list_of_origins_is_cut() -> None:
    """With the number of those left out and where to find them."""
    values = {f"v{i}": said(f"{i} g", "formula", f"v{i}") for i in range(MOST + 5)}
    told = origins(values)
    assert len(told) == MOST + 1
    assert told[-1] == "and 5 more, which meltbook forecast lists"


def test_basis_counts_by_sheet_and_never_dresses_memory_up() -> None:
    """The equation, then each sheet with how many values of which kind; what is remembered is commonly quoted."""
    fact = made(
        "melted",
        "conduction",
        a=of_sheet("1", Basis.MEMORY, entry="a"),
        b=of_sheet("2", Basis.PUBLISHED, entry="b"),
        c=of_sheet("3", Basis.MEMORY, entry="c"),
        d=of_sheet("4", Basis.JUDGEMENT, "steel sheet", "d"),
    )
    told = basis({"fact:melted": fact, "oven": said("177 °C", "procedure", 1, "oven")})
    assert told == "computed: conduction; hdpe sheet: 1 published, 2 commonly quoted; steel sheet: 1 our judgement"
    assert basis({"oven": said("177 °C", "procedure", 1, "oven")}) == ""
