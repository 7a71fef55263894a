"""``meltbook lint``: statuses, formats, output files, and the same bytes every time."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from recipes_core.cli import main

BASE = (Path(__file__).parents[2] / "cases" / "base.yaml").read_text("utf-8")
LOUD = BASE.replace("charge: 130 g", "charge: 500 g")
"""Far too much for the tray, the time and the mould."""


@pytest.fixture
def files(tmp_path: Path) -> dict[str, str]:
    """A file for each exit status."""
    texts = {
        "sound": BASE,
        "loud": LOUD,
        "broken": "format: recipe/1\nheader: {id: a\npart: x\n",
        "asking": BASE.replace("colour: natural", "colour: unknown"),
    }
    for name, text in texts.items():
        (tmp_path / f"{name}.yaml").write_text(text, "utf-8")
    return {name: str(tmp_path / f"{name}.yaml") for name in texts}


@pytest.mark.parametrize(
    ("names", "status"),
    [
        (["sound"], 0),
        (["loud"], 1),
        (["broken"], 2),
        (["asking"], 3),
        (["sound", "asking"], 3),
        (["asking", "loud", "sound"], 1),
        (["loud", "broken", "asking"], 2),
    ],
)
def test_statuses(files: dict[str, str], names: list[str], status: int, capsys: pytest.CaptureFixture[str]) -> None:
    """0 nothing found, 1 do not try, 3 not yet, 2 cannot be read; over several files 2, then 1, then 3."""
    assert main(["lint", *(files[name] for name in names)]) == status
    shown = capsys.readouterr()
    assert shown.err == ""
    places = [shown.out.index(f"{files[name]}\n") for name in names]
    assert places == sorted(places)


def test_a_file_that_cannot_be_read_says_where_and_why(
    files: dict[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    """The line, a sentence, the verdict, and no word of checks that passed."""
    main(["lint", files["broken"]])
    shown = capsys.readouterr().out
    assert "cannot be read · 1 error" in shown
    assert "checks passed" not in shown
    main(["lint", "--format", "json", files["broken"]])
    (recipe,) = json.loads(capsys.readouterr().out)["recipes"]
    assert recipe["findings"][0]["span"]["line"] in (2, 3)
    assert recipe["findings"][0]["message"] in " ".join(shown.split())


def test_a_missing_path_is_a_usage_error(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 2 and one sentence on the error stream; nothing on the other."""
    assert main(["lint", str(tmp_path / "none.yaml")]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith("meltbook: there is no file or folder")
    assert shown.err.count("\n") == 1


def test_an_output_file_holds_what_would_have_been_shown(
    files: dict[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """In either format, with the same status, and nothing on the screen."""
    for form in ("text", "json"):
        status = main(["lint", "--format", form, files["loud"], files["sound"]])
        shown = capsys.readouterr().out
        assert main(["lint", "--format", form, "-o", str(tmp_path / "out"), files["loud"], files["sound"]]) == status
        assert capsys.readouterr().out == ""
        assert (tmp_path / "out").read_text("utf-8") == shown


def test_an_output_file_that_cannot_be_written(
    files: dict[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, one sentence, no file."""
    before = sorted(tmp_path.iterdir())
    assert main(["lint", "-o", str(tmp_path / "none" / "out"), files["sound"]]) == 2
    assert capsys.readouterr().err.startswith("meltbook: cannot write")
    assert sorted(tmp_path.iterdir()) == before


def test_two_runs_give_the_same_bytes(files: dict[str, str]) -> None:
    """In two processes with different hash seeds, in both formats."""
    run = "import sys; from recipes_core.cli import main; sys.exit(main(sys.argv[1:]))"
    for form in ("text", "json"):
        outputs = [
            subprocess.run(
                [sys.executable, "-c", run, "lint", "--format", form, files["loud"], files["asking"]],
                capture_output=True,
                check=False,
                env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(p for p in sys.path if p), "PYTHONUTF8": "1"},
            )
            for seed in ("1", "2")
        ]
        assert outputs[0].stdout == outputs[1].stdout
        assert outputs[0].stdout
        assert {o.returncode for o in outputs} == {1}


def test_a_folder(files: dict[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every recipe in it, in the order of their names."""
    assert main(["lint", "--format", "json", str(tmp_path)]) == 2
    data = json.loads(capsys.readouterr().out)
    assert [Path(r["file"]).stem for r in data["recipes"]] == sorted(files)


def test_a_hostile_file_name_reaches_no_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A bundle may bring a file whose name colours the screen."""
    file = tmp_path / "a\x1b[31m\u202eb.yaml"
    file.write_text(BASE, "utf-8")
    main(["lint", str(tmp_path)])
    shown = capsys.readouterr()
    assert all(c.isprintable() or c == "\n" for c in shown.out + shown.err)
    assert "\\x1b[31m\\u202e" in shown.out
