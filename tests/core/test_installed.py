"""Entry points are found wherever the import system would find the distribution, and nowhere else."""

from __future__ import annotations

import zipfile
from importlib.metadata import distributions
from pathlib import Path

import pytest

from recipes_core.installed import EntryPoint, entry_points

GROUP = "demo.group"


def make(folder: Path, stem: str, listed: str, headers: str = "Name: Demo.Pkg\nVersion: 1.2\n") -> Path:
    """A metadata folder such as ``demo_pkg-1.2.dist-info``."""
    info = folder / stem
    info.mkdir(parents=True)
    file = "METADATA" if stem.endswith(".dist-info") else "PKG-INFO"
    (info / file).write_text(f"Metadata-Version: 2.1\n{headers}\nName: not this one\n", "utf-8")
    (info / "entry_points.txt").write_text(listed, "utf-8")
    return info


def found(*places: Path | str) -> list[EntryPoint]:
    """The entry points of the demo group on a path."""
    return entry_points(GROUP, [str(place) for place in places])


def test_wheel_metadata_is_read(tmp_path: Path) -> None:
    """Other groups, comments, blank lines and spaces are passed over."""
    make(
        tmp_path,
        "demo_pkg-1.2.dist-info",
        f"[x]\na = b\n[{GROUP}]\n# c = d\n\n one=pkg.one\n two = pkg.two\n[y]\ne=f\n",
    )
    assert found(tmp_path) == [
        EntryPoint("Demo.Pkg", "one", "pkg.one", "1.2"),
        EntryPoint("Demo.Pkg", "two", "pkg.two", "1.2"),
    ]


def test_a_development_checkout_is_read(tmp_path: Path) -> None:
    """An egg-info folder beside a package carries no version in its name; it is in the file."""
    make(tmp_path, "demo_pkg.egg-info", f"[{GROUP}]\none = pkg\n")
    assert found(tmp_path) == [EntryPoint("Demo.Pkg", "one", "pkg", "1.2")]


def test_a_zip_on_the_path_is_read(tmp_path: Path) -> None:
    """A zip is left to the standard library."""
    info = make(tmp_path, "demo_pkg-1.2.dist-info", f"[{GROUP}]\none = pkg\n")
    with zipfile.ZipFile(tmp_path / "demo.zip", "w") as archive:
        for file in info.iterdir():
            archive.write(file, f"{info.name}/{file.name}")
    assert found(tmp_path / "demo.zip") == [EntryPoint("Demo.Pkg", "one", "pkg", "1.2")]


@pytest.mark.parametrize("first_listed", [f"[{GROUP}]\none = first\n", ""])
def test_the_first_on_the_path_hides_later_ones(tmp_path: Path, first_listed: str) -> None:
    """Also when the first lists nothing, and whatever spelling of the name the folders use."""
    make(tmp_path / "a", "Demo.Pkg-2.dist-info", first_listed)
    make(tmp_path / "b", "demo_pkg-1.2.dist-info", f"[{GROUP}]\none = second\n")
    assert [entry.module for entry in found(tmp_path / "a", tmp_path / "b")] == ["first"] * bool(first_listed)


def test_what_is_not_installed_is_not_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An interactive session's folder, leftovers of an upgrade and missing folders count for nothing."""
    make(tmp_path, "demo_pkg.egg-info", f"[{GROUP}]\none = pkg\n")
    make(tmp_path / "site", "~emo_pkg-1.2.dist-info", f"[{GROUP}]\none = pkg\n")
    monkeypatch.chdir(tmp_path)
    assert found("", tmp_path / "site", tmp_path / "missing") == []


def test_a_damaged_distribution_hides_no_other(tmp_path: Path) -> None:
    """A metadata folder that is empty, or a file, is passed over."""
    (tmp_path / "broken-1.dist-info").mkdir()
    (tmp_path / "file-1.egg-info").write_text("Name: file\n", "utf-8")
    make(tmp_path, "demo_pkg-1.2.dist-info", f"[{GROUP}]\none = pkg\n")
    assert [entry.module for entry in found(tmp_path)] == ["pkg"]


@pytest.mark.parametrize("group", ["console_scripts", "pytest11", "recipes_core.plugins"])
def test_the_standard_library_finds_the_same_here(group: str) -> None:
    """Outside check: `importlib.metadata` over everything that is installed where the tests run."""
    theirs = set()
    seen = set()
    for distribution in distributions():
        name = distribution.name.lower().replace("-", "_").replace(".", "_")
        if name not in seen:
            seen.add(name)
            theirs |= {
                EntryPoint(distribution.name, e.name, e.value, distribution.version)
                for e in distribution.entry_points
                if e.group == group
            }
    assert set(entry_points(group)) == theirs
