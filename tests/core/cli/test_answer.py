"""An answer is shown, or written whole to the file that was named."""

from __future__ import annotations

from pathlib import Path

import pytest

from recipes_core.cli.answer import give, same_file


def test_it_is_shown_where_no_file_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    """As it is, with nothing added."""
    give("so\n", None)
    assert capsys.readouterr().out == "so\n"


@pytest.mark.parametrize("answer", ["177 °C\n", b"%PDF"])
def test_it_goes_into_the_file_that_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], answer: str | bytes
) -> None:
    """Text as UTF-8, bytes as they are; nothing is shown."""
    give(answer, str(tmp_path / "answer"))
    assert (tmp_path / "answer").read_bytes() == (answer.encode() if isinstance(answer, str) else answer)
    assert capsys.readouterr().out == ""


def test_two_names_of_one_file_are_seen_through(tmp_path: Path) -> None:
    """Round about, or by a link."""
    (tmp_path / "folder").mkdir()
    (tmp_path / "link.yaml").symlink_to(tmp_path / "hook.yaml")
    assert same_file(tmp_path / "folder" / ".." / "hook.yaml", str(tmp_path / "hook.yaml"))
    assert same_file(tmp_path / "link.yaml", tmp_path / "hook.yaml")
    assert not same_file(tmp_path / "other.yaml", tmp_path / "hook.yaml")
