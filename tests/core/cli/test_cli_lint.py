"""``meltbook lint``: statuses, formats, output files, and the same bytes every time."""

from __future__ import annotations

import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from recipes_core.cli import main
from recipes_core.cli.lint import FORMATS

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
    """In every format, with the same status, and nothing on the screen."""
    for form in FORMATS:
        status = main(["lint", "--format", form, files["asking"], files["sound"]])
        shown = capsys.readouterr().out
        assert main(["lint", "--format", form, "-o", str(tmp_path / "out"), files["asking"], files["sound"]]) == status
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
    """In two processes with different hash seeds, in every format."""
    run = (
        "import sys; from recipes_core.cli import main; "
        "print([main(['lint', '--format', *words.split()]) for words in sys.argv[1:]])"
    )
    outputs = [
        subprocess.run(
            [
                sys.executable,
                "-c",
                run,
                *(f"{form} {files['loud' if form == 'text' else 'asking']}" for form in FORMATS),
            ],
            capture_output=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(p for p in sys.path if p), "PYTHONUTF8": "1"},
        )
        for seed in ("1", "2")
    ]
    assert outputs[0].stdout == outputs[1].stdout
    assert outputs[0].stdout.endswith(b"[1, 3, 3, 3]\n")


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


def test_every_format_tells_the_same(files: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    """As many findings in each, and the same verdicts, with the same status."""
    told = {}
    for form in FORMATS:
        assert main(["lint", "--format", form, files["sound"], files["asking"], files["broken"]]) == 2
        told[form] = capsys.readouterr().out
    recipes = json.loads(told["json"])["recipes"]
    (run,) = json.loads(told["sarif"])["runs"]
    suites = ElementTree.fromstring(told["junit"]).findall("testsuite")
    number = sum(len(recipe["findings"]) for recipe in recipes)
    assert number == len(run["results"]) > 1
    assert [max(len(recipe["findings"]), 1) for recipe in recipes] == [len(s.findall("testcase")) for s in suites]
    verdicts = [recipe["verdict"] for recipe in recipes]
    assert verdicts == [artifact["properties"]["verdict"] for artifact in run["artifacts"]]
    assert verdicts == [p.get("value") for s in suites for p in s.findall("properties/property[@name='verdict']")]
    heads = "^(nothing found against it|do not try yet|cannot be read) ·"
    assert re.findall(heads, told["text"], re.MULTILINE) == verdicts


def test_a_report_is_never_written_over_a_recipe(files: dict[str, str], tmp_path: Path) -> None:
    """Not over one that is named, nor over one in a folder that is."""
    for where in (files["sound"], str(tmp_path)):
        assert main(["lint", "-o", files["sound"], where]) == 2
        assert Path(files["sound"]).read_text("utf-8") == BASE


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True

    def fileno(self) -> int:
        return 1


def terminal(monkeypatch: pytest.MonkeyPatch) -> tuple[Terminal, Terminal]:
    """Both streams of a terminal of 70 columns."""
    out, err = Terminal(), Terminal()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setattr(sys, "stderr", err)
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((70, 40)))
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("NO_COLOR", raising=False)
    return out, err


def test_a_terminal_has_colour_and_its_width(files: dict[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    """And is told how far the judging is, on a line that is wiped."""
    out, err = terminal(monkeypatch)
    main(["lint", files["loud"], files["sound"]])
    assert "\x1b[31;1mdo not try\x1b[0m" in out.getvalue()
    lines = re.sub("\x1b[^m]*m", "", out.getvalue()).split("\n")
    assert max(len(line) for line in lines if line not in files.values()) <= 70  # a path is never broken
    assert "judged 1 of 2: " in err.getvalue()
    assert "judged 2 of 2: " in err.getvalue()
    assert err.getvalue().endswith("\r\x1b[K")


def test_one_recipe_needs_no_counting(files: dict[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    """It is judged before anybody could read the line."""
    _, err = terminal(monkeypatch)
    main(["lint", files["sound"]])
    assert "judged" not in err.getvalue()


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_colour_can_be_refused(files: dict[str, str], monkeypatch: pytest.MonkeyPatch, name: str, value: str) -> None:
    """The words are the same; a terminal that knows no codes gets none at all."""
    out, err = terminal(monkeypatch)
    monkeypatch.setenv(name, value)
    main(["lint", files["loud"], files["sound"]])
    assert "\x1b" not in out.getvalue()
    assert "do not try · " in out.getvalue()
    assert ("\x1b" in err.getvalue()) is (name == "NO_COLOR")


def test_programs_get_no_colour(files: dict[str, str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Not in another format, nor in a file."""
    out, _ = terminal(monkeypatch)
    for form in ("json", "sarif", "junit"):
        main(["lint", "--format", form, files["asking"]])
    main(["lint", "-o", str(tmp_path / "out"), files["asking"]])
    assert "\x1b" not in out.getvalue()
    assert "\x1b" not in (tmp_path / "out").read_text("utf-8")


def test_a_pipe_hears_nothing_of_progress(files: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    """However many recipes are judged, and whatever the terminal would be."""
    main(["lint", files["loud"], files["sound"], files["asking"]])
    shown = capsys.readouterr()
    assert shown.err == ""
    assert "\x1b" not in shown.out
    assert "judged" not in shown.out


def test_a_hostile_name_in_a_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What cannot be done with a file is told of the file, and its name is text there too."""
    for words in (
        ["lint", "none\x1b[31m\u202e.yaml"],
        ["lint", "-o", str(tmp_path / "no\x1b[2J" / "out"), str(tmp_path)],
    ):
        (tmp_path / "a.yaml").write_text(BASE, "utf-8")
        assert main(words) == 2
        shown = capsys.readouterr().err
        assert all(c.isprintable() or c == "\n" for c in shown)
        assert shown.count("\n") == 1
        assert "\\x1b[" in shown
