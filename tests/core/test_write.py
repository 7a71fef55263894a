"""A file is written whole, or it is left as it was and nothing lies beside it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from recipes_core.errors import UsageError
from recipes_core.write import write_whole


def test_the_file_holds_the_text_as_utf8_with_plain_line_ends(tmp_path: Path) -> None:
    """Neither the locale nor the system decides."""
    write_whole(tmp_path / "report.txt", "177 °C\nok\n")
    assert (tmp_path / "report.txt").read_bytes() == "177 °C\nok\n".encode()


def test_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    """A picture is no text."""
    write_whole(tmp_path / "picture.png", b"\x89PNG\r\n\xff")
    assert (tmp_path / "picture.png").read_bytes() == b"\x89PNG\r\n\xff"


def test_an_older_file_is_replaced_at_once(tmp_path: Path) -> None:
    """Nothing of it is left, and nothing else is in the folder."""
    target = tmp_path / "report.txt"
    target.write_text("a much longer older report", "utf-8")
    write_whole(target, "new")
    assert target.read_text("utf-8") == "new"
    assert os.listdir(tmp_path) == ["report.txt"]


def test_the_rights_of_an_older_file_stay(tmp_path: Path) -> None:
    """Whoever could read it still can, and nobody else; a new file is as any other."""
    target = tmp_path / "report.txt"
    write_whole(target, "old")
    assert target.stat().st_mode & 0o777 == 0o666 & ~_mask()
    for mode in (0o600, 0o640, 0o755):
        target.chmod(mode)
        write_whole(target, "new")
        assert target.stat().st_mode & 0o777 == mode


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    """One sentence that names the file, and no folder is made."""
    with pytest.raises(UsageError, match=r"cannot write .*report\.txt"):
        write_whole(tmp_path / "none" / "report.txt", "x")
    assert os.listdir(tmp_path) == []


def test_a_folder_in_the_place_of_the_file(tmp_path: Path) -> None:
    """It stays, and the temporary file is taken away."""
    (tmp_path / "report").mkdir()
    with pytest.raises(UsageError, match="cannot write"):
        write_whole(tmp_path / "report", "x")
    assert os.listdir(tmp_path) == ["report"]


def test_a_failure_half_way_leaves_the_older_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that is full, say, when the new file would take its place."""
    target = tmp_path / "report.txt"
    target.write_text("older", "utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(UsageError, match="No space left"):
        write_whole(target, "new")
    assert target.read_text("utf-8") == "older"
    assert os.listdir(tmp_path) == ["report.txt"]


def test_a_text_that_is_no_utf8_leaves_nothing_behind(tmp_path: Path) -> None:
    """A lone surrogate cannot be written; the older file and the folder stay as they were."""
    target = tmp_path / "report.txt"
    target.write_text("older", "utf-8")
    with pytest.raises(UnicodeEncodeError):
        write_whole(target, "\ud800")
    assert target.read_text("utf-8") == "older"
    assert os.listdir(tmp_path) == ["report.txt"]
