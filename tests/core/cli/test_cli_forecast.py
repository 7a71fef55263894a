"""``meltbook forecast``: both formats, output files, and what cannot be computed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from recipes_core import app
from recipes_core.cli import main

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def trial(shop: Shop, tmp_path: Path) -> str:
    """The trial recipe in a file."""
    file = tmp_path / "trial.yaml"
    file.write_text(shop.text(), "utf-8")
    return str(file)


def test_text_and_json(trial: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 0; each step in both."""
    assert main(["forecast", trial]) == 0
    shown = capsys.readouterr()
    assert "melted through after" in shown.out
    assert shown.err == ""
    assert main(["forecast", "--format", "json", trial]) == 0
    assert len(json.loads(capsys.readouterr().out)["steps"]) == 7


def test_the_cautions_of_a_process_stand_before_its_numbers(
    trial: str, shop: Shop, capsys: pytest.CaptureFixture[str]
) -> None:
    """Everybody who reads the numbers reads them."""
    main(["forecast", trial])
    shown = capsys.readouterr().out
    cautions = app.cautions(shop.shelf)
    for step in shop.recipe().steps:
        assert cautions[step.process]
        assert all(text in shown for text in cautions[step.process])


def test_an_output_file(trial: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Holds what would have been shown, and nothing is shown."""
    main(["forecast", trial])
    shown = capsys.readouterr().out
    assert main(["forecast", "-o", str(tmp_path / "out"), trial]) == 0
    assert capsys.readouterr().out == ""
    assert (tmp_path / "out").read_text("utf-8") == shown


def test_a_forecast_that_did_not_run(
    shop: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Status 3, and the report says which."""

    def lost(*_: object) -> None:
        raise ArithmeticError("lost")

    monkeypatch.setattr("recipes_plugins.processes.flake_melt.forecast.forecast", lost)
    file = tmp_path / "plate.yaml"
    file.write_text(shop.text(), "utf-8")
    assert main(["forecast", str(file)]) == 3
    assert "The forecast of step melt (flake-melt) did not run" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("name", ["none.yaml", "broken.yaml", "."])
def test_a_file_that_cannot_be_read(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 2 and a sentence, never a traceback, for a missing one, a broken one and a folder."""
    (tmp_path / "broken.yaml").write_text("a: [\n", "utf-8")
    assert main(["forecast", str(tmp_path / name)]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith("meltbook: ")
