"""A library's own sheets are read as data, each within bounds, and a bad one hides no other."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest

from recipes_core.findings import Finding
from recipes_core.library_folder import (
    MOST,
    NOT_READ,
    TAKEN_ID,
    find_library,
    read_sheets,
    sheet_files,
    switched_off,
)
from recipes_core.plugin_host import load
from recipes_core.rules.verdict import Verdict, verdict
from recipes_core.shelf import shelf

TODAY = date(2026, 12, 1)
HDPE = shelf().library.resins["hdpe"]


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """An empty library with a folder for sheets."""
    folder = tmp_path / "shed"
    (folder / "resins").mkdir(parents=True)
    (folder / "library.yaml").write_text("format: library/1\n", "utf-8")
    return folder


def put(library: Path, id_: str, name: str = "") -> Path:
    """A copy of the shipped sheet of HDPE under another id and symbol."""
    shipped = load().resins["hdpe"].read().decode("utf-8")
    file = library / "resins" / (name or f"{id_}.yaml")
    file.write_text(shipped.replace("id: hdpe", f"id: {id_}").replace("PE-HD\n", f"X-{id_}\n"), "utf-8")
    return file


def only(problems: tuple[Finding, ...] | list[Finding]) -> Finding:
    """The one problem; like every other here, it keeps a recipe from being called fully checked."""
    (problem,) = problems
    assert verdict([problem]) is Verdict.NOT_YET
    return problem


def test_the_nearest_folder_upwards_is_the_library(library: Path) -> None:
    """Seen from a recipe, from its folder, and from the library itself; an inner library wins."""
    inner = library / "guests" / "garden"
    inner.mkdir(parents=True)
    recipe = inner / "hook.yaml"
    recipe.write_text("format: recipe/1\n", "utf-8")
    for start in (recipe, inner, library):
        assert find_library(start) == library
    (inner / "library.yaml").write_text("format: library/1\n", "utf-8")
    assert find_library(recipe) == inner


def test_without_a_library_there_is_none(tmp_path: Path) -> None:
    """Nothing above the folder of a test holds a library.yaml."""
    assert find_library(tmp_path) is None


def test_a_dropped_in_sheet_is_read(library: Path) -> None:
    """No Python is needed, only the file."""
    put(library, "hemp")
    sheets, problems = read_sheets(library, {"hdpe": HDPE}, TODAY)
    assert problems == ()
    assert sheets["hemp"].id == "hemp"


def test_other_files_are_left_alone(library: Path) -> None:
    """Python, notes and folders in the library are never opened."""
    (library / "resins" / "evil.py").write_text("raise SystemExit", "utf-8")
    (library / "resins" / "notes.md").write_text("x", "utf-8")
    assert sheet_files(library) == ([], [])


def test_a_bad_sheet_hides_no_other(library: Path) -> None:
    """It is named with its file; its neighbours are used."""
    put(library, "hemp")
    (library / "resins" / "bad.yaml").write_text("format: resin/1\nid: [\n", "utf-8")
    (library / "resins" / "odd.yaml").write_text("format: resin/1\nid: odd\n", "utf-8")
    sheets, problems = read_sheets(library, {}, TODAY)
    assert set(sheets) == {"hemp"}
    assert [(p.rule, Path(p.file).name) for p in problems] == [(NOT_READ, "bad.yaml"), (NOT_READ, "odd.yaml")]


def test_a_sheet_with_a_mistake_is_not_used(library: Path) -> None:
    """A number that does not say how it is known is enough, wherever in the sheet it stands."""
    file = put(library, "hemp")
    file.write_text(file.read_text("utf-8") + "  most melts 2:\n    value: 3\n", "utf-8")
    sheets, problems = read_sheets(library, {}, TODAY)
    assert sheets == {}
    assert only(problems).rule == NOT_READ
    assert "most melts 2" in only(problems).message


def test_an_id_of_a_plugin_is_taken(library: Path) -> None:
    """A folder cannot change what a shipped name means."""
    put(library, "hdpe", "ours.yaml")
    sheets, problems = read_sheets(library, {"hdpe": HDPE}, TODAY)
    assert sheets == {}
    assert only(problems).rule == TAKEN_ID
    assert "ours.yaml" in only(problems).message
    assert "hdpe" in only(problems).message


def test_the_same_id_twice_names_both_files(library: Path) -> None:
    """The first by name is used."""
    put(library, "hemp", "a.yaml")
    put(library, "hemp", "b.yaml")
    sheets, problems = read_sheets(library, {}, TODAY)
    assert set(sheets) == {"hemp"}
    assert only(problems).message == "The sheet b.yaml of the library is not used: the id hemp is that of a.yaml."


def test_a_link_out_of_the_library_is_not_followed(library: Path, tmp_path: Path) -> None:
    """Neither a linked file nor anything in a linked folder; a link within the library is fine."""
    secret = tmp_path / "secret.yaml"
    secret.write_text("format: resin/1\n", "utf-8")
    (library / "resins" / "a.yaml").symlink_to(secret)
    inside = put(library, "hemp")
    (library / "resins" / "within.yaml").symlink_to(inside)
    good, problems = sheet_files(library)
    assert [file.name for file in good] == ["hemp.yaml", "within.yaml"]
    assert "leads out of the library" in only(problems).message
    other = tmp_path / "other"
    other.mkdir()
    (other / "library.yaml").write_text("format: library/1\n", "utf-8")
    (other / "resins").symlink_to(library / "resins", target_is_directory=True)
    assert sheet_files(other)[0] == []


def test_too_large_a_sheet_is_not_read(library: Path) -> None:
    """The limit of every document holds here too."""
    (library / "resins" / "big.yaml").write_bytes(b"#" * (256 * 1024 + 1))
    assert "256 KiB" in only(read_sheets(library, {}, TODAY)[1]).message


def test_what_is_no_file_is_not_opened(library: Path) -> None:
    """Reading a pipe would wait for ever."""
    os.mkfifo(library / "resins" / "pipe.yaml")
    (library / "resins" / "folder.yaml").mkdir()
    good, problems = sheet_files(library)
    assert good == []
    assert ["no ordinary file" in p.message for p in problems] == [True, True]


@pytest.mark.parametrize("count", [MOST, MOST + 1])
def test_too_many_sheets_are_said(library: Path, count: int) -> None:
    """Of more than the bound, the first in order of name are read, and the finding says so."""
    for number in range(count):
        (library / "resins" / f"r{number:03}.yaml").touch()
    good, problems = sheet_files(library)
    assert len(good) == MOST
    assert bool(problems) == (count > MOST)


OWNERS = {"pp": "plugin resins of meltbook", "cool": "plugin processes of meltbook", "parchment": "plugin liners"}


@pytest.mark.parametrize(
    ("line", "off", "said"),
    [
        ("", [], ""),
        ("off: []\n", [], ""),
        ("off: [pp]\n", ["pp"], ""),
        ("off: [pp, cool]\n", ["pp", "cool"], ""),
        ("off: [parchmant]\n", [], 'nothing goes by the name parchmant; did you mean "parchment"?'),
        ("off: pp\n", [], "off holds a list of ids"),
        ("off: [[pp]]\n", [], "off holds a list of ids"),
        ("off: [pp\n", [], "library.yaml of the library"),
    ],
)
def test_what_a_library_switches_off(library: Path, line: str, off: list[str], said: str) -> None:
    """Ids that some plugin declares; what cannot be read is a problem, never an empty list."""
    (library / "library.yaml").write_text(f"format: library/1\n{line}", "utf-8")
    found, problems = switched_off(library, OWNERS)
    assert found == {name: OWNERS[name] for name in off}
    assert bool(problems) == bool(said)
    if said:
        assert said in only(problems).message
