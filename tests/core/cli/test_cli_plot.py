"""``meltbook plot``: a file for each picture, its words on the screen, and plain sentences where there is none."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from recipes_core.cli import main

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def trial(shop: Shop, tmp_path: Path) -> str:
    """The trial recipe in a file."""
    return written(shop, tmp_path)


def written(shop: Shop, folder: Path, changes: dict[str, str | None] | None = None) -> str:
    """The trial recipe, with changes, in a file."""
    file = folder / "trial.yaml"
    file.write_text(shop.text(changes), "utf-8")
    return str(file)


def test_a_file_for_each_picture(trial: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In a folder that is made; each is named on the screen and told in a sentence."""
    folder = tmp_path / "new" / "pictures"
    assert main(["plot", trial, "-o", str(folder)]) == 0
    shown = capsys.readouterr()
    files = sorted(folder.iterdir())
    assert [f.name for f in files] == [
        "trial-01-melt-temperature-in-the-layer.svg",
        "trial-02-melt-molten-share-of-the-layer.svg",
        "trial-03-melt-cut-through-the-plastic.svg",
        "trial-04-preheat-temperature-of-the-mould.svg",
        "trial-05-cool-core-and-tool.svg",
        "trial-06-cool-cut-through-the-plastic.svg",
    ]
    called, *named = [line for line in shown.out.splitlines() if not line.startswith("  ")]
    assert called.startswith("DO NOT TRY: "), "the trial recipe is one to be refused"
    assert named == [str(f) for f in files]
    assert "  melt, temperature in the layer since the tray went into the hot oven: coldest inside" in shown.out
    assert shown.err == ""
    assert files[0].read_text("utf-8").startswith("<svg ")


def test_one_step_as_png_in_this_folder(trial: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The names are those that the pictures have among all."""
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    assert main(["plot", trial, "--step", "preheat", "--format", "png"]) == 0
    assert os.listdir() == ["trial-04-preheat-temperature-of-the-mould.png"]
    assert Path(os.listdir()[0]).read_bytes().startswith(b"\x89PNG")


def test_what_nobody_gave_is_asked(shop: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is drawn of it, the rest is; that is no failure."""
    file = written(shop, tmp_path, {"equipment.mould.wall": None})
    assert main(["plot", file, "-o", str(tmp_path / "out")]) == 0
    shown = capsys.readouterr().out
    assert "Not all of preheat can be drawn until this is answered: " in shown
    assert {name.split("-")[2] for name in os.listdir(tmp_path / "out")} == {"melt"}


def test_a_step_that_is_not_there(trial: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 2, with those that are; nothing is written."""
    assert main(["plot", trial, "--step", "me\x1blt", "-o", str(tmp_path / "out")]) == 2
    shown = capsys.readouterr()
    assert "the recipe has no step me\\x1blt; it has weigh, melt, preheat" in shown.err
    assert not (tmp_path / "out").exists()


def test_a_forecast_that_did_not_run(
    trial: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Status 3, and the others are drawn."""

    def lost(*_: object) -> None:
        raise ArithmeticError("lost")

    monkeypatch.setattr("recipes_plugins.processes.flake_melt.forecast.forecast", lost)
    assert main(["plot", trial, "-o", str(tmp_path / "out")]) == 3
    assert "The forecast of step melt (flake-melt) did not run" in capsys.readouterr().out
    assert os.listdir(tmp_path / "out") == ["trial-01-preheat-temperature-of-the-mould.svg"]


def test_curves_that_could_not_be_made(
    trial: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Status 3, as something that a plugin owes is not there."""

    def lost(*_: object, **__: object) -> None:
        raise ArithmeticError("lost")

    monkeypatch.setattr("recipes_plugins.pictures.over_time", lost)
    assert main(["plot", trial, "-o", str(tmp_path / "out"), "--step", "preheat"]) == 3
    assert "The curves of preheat could not be made: ArithmeticError: lost." in capsys.readouterr().out


@pytest.mark.parametrize("name", ["none.yaml", "broken.yaml", "."])
def test_a_file_that_cannot_be_read(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 2 and a sentence."""
    (tmp_path / "broken.yaml").write_text("a: [\n", "utf-8")
    assert main(["plot", str(tmp_path / name)]) == 2
    assert capsys.readouterr().err.startswith("meltbook: ")


def test_a_file_in_the_place_of_the_folder(trial: str, capsys: pytest.CaptureFixture[str]) -> None:
    """It stays."""
    before = Path(trial).read_bytes()
    assert main(["plot", trial, "-o", trial]) == 2
    assert "cannot make the folder" in capsys.readouterr().err
    assert Path(trial).read_bytes() == before


def test_without_matplotlib(trial: str, tmp_path: Path) -> None:
    """One sentence and status 2, no traceback and no file."""
    run = (
        "import sys; sys.modules['matplotlib'] = None; from recipes_core.cli import main; sys.exit(main(sys.argv[1:]))"
    )
    command = [sys.executable, "-P", "-c", run, "plot", trial, "-o", str(tmp_path / "out")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("meltbook: pictures need matplotlib")
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_a_recipe_that_may_be_tried_is_not_called_anything(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its pictures come first."""
    recipe = Path(__file__).parents[3] / "recipes" / "hdpe" / "coat-hook.yaml"
    assert main(["plot", str(recipe), "--step", "preheat", "-o", str(tmp_path)]) == 0
    assert capsys.readouterr().out.startswith(str(tmp_path))


def test_a_picture_bears_the_recipe_and_its_revision(tmp_path: Path) -> None:
    """And of one that must not be tried, that it must not."""
    recipe = Path(__file__).parents[3] / "recipes" / "hdpe" / "coat-hook.yaml"
    broken = tmp_path / "coat-hook.yaml"
    broken.write_text(recipe.read_text("utf-8").replace("oven: 177 °C", "oven: 300 °C"), "utf-8")
    for file, called in ((recipe, ""), (broken, "DO NOT TRY · ")):
        assert main(["plot", str(file), "--step", "preheat", "-o", str(tmp_path)]) == 0
        drawn = (tmp_path / "coat-hook-04-preheat-temperature-of-the-mould.svg").read_text("utf-8")
        assert f">{called}preheat: temperature of the mould · hdpe-coat-hook · 1.0.0</title>" in drawn
