"""``meltbook lint --fix``: shows each change, writes whole files, and judges what it has written."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from recipes_core.cli import main, mending
from recipes_core.document import Document
from recipes_core.mend import mended
from recipes_core.schema.compose import Schemas

BASE = (Path(__file__).parents[2] / "cases" / "base.yaml").read_text("utf-8")
SLIPS = BASE.replace("at_least:", "at_lest:", 1).replace(" °C", " degC", 1)


@pytest.fixture
def slips(tmp_path: Path) -> Path:
    """A recipe with a slip in a key and a unit in another spelling."""
    file = tmp_path / "slips.yaml"
    file.write_bytes(SLIPS.encode())
    return file


def test_slips_are_mended_and_the_rest_is_judged(slips: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is found against what is written; the change is shown beside the report."""
    assert main(["lint", str(slips)]) == 1
    assert slips.read_bytes() == SLIPS.encode()
    capsys.readouterr()
    assert main(["lint", "--fix", str(slips)]) == 0
    shown = capsys.readouterr()
    assert slips.read_bytes() == BASE.encode()
    assert "nothing found against it" in shown.out
    assert shown.err.startswith(f"--- {slips}\n+++ {slips}\n@@ -")
    removed, added = ([x for x in shown.err.splitlines() if x.startswith(sign) and x[1] == " "] for sign in "-+")
    removed = [x for x in removed if not x.startswith("---")]
    assert len(removed) == len(added) == 2
    assert "at_lest" in "".join(removed)
    assert "at_least" in "".join(added)
    assert shown.err.endswith("meltbook: mended 1 of 1 file\n")


def test_a_second_time_there_is_nothing_to_mend(slips: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """And nothing is written."""
    main(["lint", "--fix", str(slips)])
    before = slips.stat()
    capsys.readouterr()
    main(["lint", "--fix", str(slips)])
    assert capsys.readouterr().err == "meltbook: nothing to mend\n"
    assert (slips.stat().st_mtime_ns, slips.stat().st_ino) == (before.st_mtime_ns, before.st_ino)


def test_what_is_shown_is_not_in_the_report(slips: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Programs read the report from a pipe."""
    main(["lint", "--fix", "--format", "json", str(slips)])
    assert json.loads(capsys.readouterr().out)["recipes"][0]["findings"] == []


def test_bytes_that_are_not_mended_stay(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A byte order mark, line ends of any kind, comments, rights; a file beside it is not touched."""
    file, other = tmp_path / "a.yaml", tmp_path / "b.yaml"
    mark = b"\xef\xbb\xbf"
    file.write_bytes(mark + (SLIPS.replace("\n", "\r\n") + "# 350 degF\r# end").encode())
    file.chmod(0o640)
    other.write_text(BASE, "utf-8")
    before = other.stat()
    main(["lint", "--fix", str(tmp_path)])
    assert file.read_bytes() == mark + (BASE.replace("\n", "\r\n") + "# 350 degF\r# end").encode()
    assert file.stat().st_mode & 0o777 == 0o640
    assert (other.stat().st_mtime_ns, other.stat().st_ino) == (before.st_mtime_ns, before.st_ino)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["a.yaml", "b.yaml"]
    assert "mended 1 of 2 files" in capsys.readouterr().err


def test_a_file_that_cannot_be_read_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The report says what is wrong with it."""
    file = tmp_path / "a.yaml"
    file.write_text("a: [\n", "utf-8")
    assert main(["lint", "--fix", str(file)]) == 2
    shown = capsys.readouterr()
    assert file.read_text("utf-8") == "a: [\n"
    assert "cannot be read" in shown.out
    assert shown.err == "meltbook: nothing to mend\n"


def test_a_link_is_left_alone(slips: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A stranger's folder must not lead to a file of one's own."""
    folder = tmp_path / "strange"
    folder.mkdir()
    (folder / "a.yaml").symlink_to(slips)
    main(["lint", "--fix", str(folder)])
    assert slips.read_bytes() == SLIPS.encode()
    assert (folder / "a.yaml").is_symlink()
    assert "is a link and was left as it is" in capsys.readouterr().err


def test_a_file_that_changed_meanwhile_is_not_written(
    slips: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody saved it in an editor while it was being mended."""

    def slow(document: Document, schemas: Schemas) -> Document:
        after = mended(document, schemas)
        slips.write_text(f"{SLIPS}# saved\n", "utf-8")
        return after

    monkeypatch.setattr(mending, "mended", slow)
    assert main(["lint", "--fix", str(slips)]) == 2
    assert slips.read_text("utf-8") == f"{SLIPS}# saved\n"
    assert "was changed by somebody else meanwhile" in capsys.readouterr().err


def test_a_disk_that_is_full_changes_nothing(
    slips: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file is as it was, and nothing lies beside it."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert main(["lint", "--fix", str(slips)]) == 2
    assert slips.read_bytes() == SLIPS.encode()
    assert os.listdir(slips.parent) == ["slips.yaml"]
    assert "No space left" in capsys.readouterr().err


def test_hostile_text_around_a_change_is_shown(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In the name of the file and in the lines around."""
    file = tmp_path / "a\x1b[31m\u202e.yaml"
    file.write_text(SLIPS.replace("at_lest:", 'x-note: "\u200b"\n    at_lest:', 1), "utf-8")
    main(["lint", "--fix", str(file)])
    shown = capsys.readouterr().err
    assert all(c.isprintable() or c == "\n" for c in shown)
    assert "+++ " in shown
    assert "\\x1b[31m\\u202e" in shown
