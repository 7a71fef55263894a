"""``meltbook card``: three forms, and an exit status that says what the recipe's judgement is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from recipes_core.cli import main
from tests.core.report.card.conftest import COAT_HOOK, NOT_YET, REFUSED
from tests.tools import printer


def test_text_is_shown(capsys: pytest.CaptureFixture[str]) -> None:
    """Where no file is named."""
    assert main(["card", str(COAT_HOOK)]) == 0
    shown = capsys.readouterr()
    assert "Coat hook" in shown.out
    assert shown.err == ""


@pytest.mark.parametrize(("form", "begins"), [("html", b"<!DOCTYPE html>"), ("txt", b"Coat hook"), ("PDF", b"%PDF-")])
def test_the_ending_says_the_form(tmp_path: Path, form: str, begins: bytes) -> None:
    """In capitals too; the file is written whole."""
    if form == "PDF":
        printer()
    file = tmp_path / f"card.{form}"
    assert main(["card", str(COAT_HOOK), "-o", str(file)]) == 0
    assert file.read_bytes().startswith(begins)
    assert [f.name for f in tmp_path.iterdir()] == [file.name]


def test_paper_and_large_print(tmp_path: Path) -> None:
    """Both change the page."""
    pages = []
    for words in ([], ["--paper", "letter"], ["--large"]):
        file = tmp_path / "card.html"
        assert main(["card", str(COAT_HOOK), "-o", str(file), *words]) == 0
        pages.append(file.read_text("utf-8"))
    assert len(set(pages)) == 3
    assert "size: Letter" in pages[1]


def test_pictures_stand_behind_the_card(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each with its sentence; plain text has room for none."""
    file = tmp_path / "card.html"
    assert main(["card", str(COAT_HOOK), "-o", str(file), "--pictures"]) == 0
    page = file.read_text("utf-8")
    assert page.count('<div class="picture">') == page.count('<svg xmlns="http://www.w3.org/2000/svg"') >= 5
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for words in ("--pictures", "--large"):
        assert main(["card", str(COAT_HOOK), words]) == 2
        assert ".html or .pdf" in capsys.readouterr().err


@pytest.mark.parametrize(("change", "status"), [(REFUSED, 1), (NOT_YET, 3)])
def test_the_status_is_that_of_the_judgement(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], change: tuple[str, str], status: int
) -> None:
    """The card is written all the same: somebody may need to see why not; the screen says so too."""
    recipe, card = tmp_path / "hook.yaml", tmp_path / "card.html"
    recipe.write_text(COAT_HOOK.read_text("utf-8").replace(*change), encoding="utf-8")
    assert main(["card", str(recipe), "-o", str(card)]) == status
    assert "DO NOT TRY" in card.read_text("utf-8")
    assert capsys.readouterr().out.startswith("do not try")


@pytest.mark.parametrize(
    ("recipe", "output", "says"),
    [
        ("format: recipe/1\nprocedure: [\n", "card.html", "line"),
        ("format: recipe/1\nprocedure: [\n", "card.pdf", "line"),
        ("format: library/1\n", "card.html", "library"),
        ("format: recipe/1\n", "card.docx", "ends in none of them"),
        ("format: recipe/1\n", "hook.txt", "written over the recipe"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], recipe: str, output: str, says: str
) -> None:
    """Status 2, and nothing written."""
    file = tmp_path / "hook.txt"
    file.write_text(recipe, encoding="utf-8")
    assert main(["card", str(file), "-o", str(tmp_path / output)]) == 2
    shown = capsys.readouterr()
    assert says in shown.err
    assert shown.err.count("\n") == 1
    assert [f.name for f in tmp_path.iterdir()] == ["hook.txt"]
    assert file.read_text("utf-8") == recipe
