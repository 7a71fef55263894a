"""The command line imports only the command called, and turns errors into sentences and statuses."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

import recipes_core.cli
from recipes_core.cli import COMMANDS, main
from recipes_core.errors import MeltbookError, PluginError, UsageError


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    """``meltbook --help`` lists the commands with what each is for, and is a success."""
    with pytest.raises(SystemExit) as stop:
        main(["--help"])
    assert stop.value.code == 0
    shown = capsys.readouterr().out
    assert all(name in shown and summary in shown for name, summary in COMMANDS.items())


@pytest.mark.parametrize("words", [[], ["melt"], ["plugins", "--colour"]])
def test_a_call_that_makes_no_sense_is_a_usage_error(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Status 2, and the usage on the error stream."""
    with pytest.raises(SystemExit) as stop:
        main(words)
    assert stop.value.code == 2
    assert "usage: meltbook" in capsys.readouterr().err


@pytest.mark.parametrize("error", [UsageError("No such file."), PluginError("Broken."), MeltbookError("Wrong.")])
def test_an_error_becomes_its_sentence_and_status(
    error: MeltbookError, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A person sees one sentence, never a traceback."""

    def run(_: object) -> int:
        raise error

    command = SimpleNamespace(add_arguments=lambda parser: None, run=run)
    monkeypatch.setattr(recipes_core.cli, "import_module", lambda name: command)
    assert main(["plugins"]) == error.exit_status
    assert capsys.readouterr().err == f"meltbook: {error}\n"


def test_a_reader_that_leaves_early_causes_no_traceback() -> None:
    """``meltbook plugins | head -0`` ends quietly."""
    run = "import sys; from recipes_core.cli import main; sys.exit(main(['plugins']))"
    process = subprocess.Popen(
        [sys.executable, "-P", "-c", run], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    assert process.stderr.read() == ""
    process.stderr.close()
    assert process.wait() == 1


def test_the_working_folder_is_not_on_the_import_path(tmp_path: Path) -> None:
    """Called as a module from inside a stranger's bundle, meltbook imports none of the Python files there."""
    (tmp_path / "argparse.py").write_text("print('stranger')", "utf-8")
    (tmp_path / "evil.py").write_text("print('stranger')", "utf-8")
    info = tmp_path / "evil.egg-info"
    info.mkdir()
    (info / "entry_points.txt").write_text("[recipes_core.plugins]\nevil = evil\n", "utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "recipes_core", "plugins"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert "stranger" not in done.stdout
    assert "evil" not in done.stdout
    assert "resins" in done.stdout
