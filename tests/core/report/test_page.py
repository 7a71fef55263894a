"""A pipe is always 100 columns without colour; a terminal has its own width, and colour unless it is not wanted."""

from __future__ import annotations

import io
import os
from collections.abc import Mapping

import pytest

from recipes_core.report.page import BAD, WIDTH, Page, page_of


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True

    def fileno(self) -> int:
        return 1


@pytest.fixture
def columns(monkeypatch: pytest.MonkeyPatch) -> object:
    """Sets how wide the terminal is."""

    def wide(number: int) -> None:
        monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((number, 40)))

    wide(80)
    return wide


def test_a_pipe_is_always_the_same() -> None:
    """Whatever the environment says."""
    assert page_of(io.StringIO(), {"TERM": "xterm", "COLUMNS": "70", "CLICOLOR_FORCE": "1"}) == Page()
    assert (Page().width, Page().colour) == (WIDTH, False) == (100, False)


@pytest.mark.parametrize(("there", "used"), [(40, 60), (60, 60), (80, 80), (120, 120), (300, 120), (0, 100)])
def test_a_terminal_has_its_width_within_reason(columns: object, there: int, used: int) -> None:
    """From 60 to 120 columns; 100 where it does not know."""
    assert callable(columns)
    columns(there)
    assert page_of(Terminal(), {}).width == used


def test_a_terminal_without_a_size(monkeypatch: pytest.MonkeyPatch) -> None:
    """Is taken to have 100 columns."""

    def unknown(_: int) -> os.terminal_size:
        raise OSError

    monkeypatch.setattr(os, "get_terminal_size", unknown)
    assert page_of(Terminal(), {}) == Page(100, True, True)


@pytest.mark.parametrize(
    ("environment", "colour"),
    [
        ({}, True),
        ({"NO_COLOR": ""}, True),
        ({"NO_COLOR": "0"}, False),
        ({"TERM": "dumb"}, False),
        ({"TERM": "vt100"}, True),
    ],
)
@pytest.mark.usefixtures("columns")
def test_colour_can_be_refused(environment: Mapping[str, str], colour: bool) -> None:
    """By NO_COLOR, with anything in it, and by a terminal that has none."""
    assert page_of(Terminal(), environment).colour is colour


def test_a_mark_adds_no_word_and_takes_none() -> None:
    """Without colour the text is the text; with it, the text still stands there whole."""
    assert Page().marked("error", BAD) == "error"
    assert Page(colour=True).marked("error", BAD) == "\x1b[31;1merror\x1b[0m"
    assert Page(colour=True).marked("note", "") == "note"


def test_folding() -> None:
    """On a terminal alone."""
    assert Page().folded("word " * 40) == "word " * 40
    assert max(map(len, Page(60, terminal=True).folded("word " * 40).split("\n"))) <= 60
