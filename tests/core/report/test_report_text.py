"""The text report: worst first, at most 100 columns, nothing hostile reaches the terminal, the same every time."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from itertools import permutations
from typing import TYPE_CHECKING

import pytest

from recipes_core.findings import Finding, Kind, Level, Span
from recipes_core.report.page import WIDTH, Page
from recipes_core.report.text import CLOSING, render

if TYPE_CHECKING:
    from recipes_core.app import Linted

    Linter = Callable[..., Linted]


def test_a_finding_in_full(linted: Linter, full_finding: Finding) -> None:
    """Its line with the author's words, what was found and what is needed, why, what to do, and what that rests on."""
    shown = render([linted(full_finding)])
    for part in (
        "oven: 250 °C",
        "error · too-hot",
        "It is too hot.",
        "250 °C (482 °F)",
        "240 °C (464 °F) at most",
        "10 K (18 °F) too much",
        "why     hot plastic fumes",
        "do      set it lower",
        "from    oven 250 °C (recipe)",
        "basis   hdpe sheet: 1 our judgement",
    ):
        assert part in shown
    assert shown.splitlines()[2].startswith("  6  oven: 250 °C")
    assert shown.splitlines()[2].endswith(" error · too-hot")


def test_worst_first_whatever_the_order(linted: Linter, weights: dict[str, Finding]) -> None:
    """Errors, checks that did not run, questions that must be answered, warnings, questions, notes."""
    for some in list(permutations(weights.values()))[::97]:
        shown = render([linted(*some)])
        places = [shown.index(f"     {message}\n") for message in weights]
        assert places == sorted(places)


def test_alike_findings_go_by_line(linted: Linter, full_finding: Finding) -> None:
    """From top to bottom of the file."""
    later = replace(full_finding, span=Span(7, 15, 7, 20), path=("procedure", 0, "at_least"), message="Too short.")
    shown = render([linted(later, full_finding)])
    assert shown.index("It is too hot.") < shown.index("Too short.")


def test_the_verdict_counts(linted: Linter, weights: dict[str, Finding]) -> None:
    """The words of the verdict, then each kind in the singular or plural, then the checks."""
    shown = render([linted(*weights.values(), weights["a warning"])])
    assert (
        "do not try · 1 error · 1 check did not run · 2 warnings · 2 open questions · 1 note"
        " · 7 checks passed · 2 not applicable" in shown
    )


def test_an_open_question_is_no_pass(linted: Linter, weights: dict[str, Finding]) -> None:
    """It is named a question, whether it must be answered, and what to do."""
    one = replace(weights["a question"], why="without it these cannot be judged: x", do="answer it")
    shown = render([linted(one, weights["a question that must be answered"])])
    assert "open question · must be answered" in shown
    assert "without it these cannot be judged: x" in shown
    assert "nothing found" not in shown


def test_every_report_ends_with_the_closing_line(linted: Linter, full_finding: Finding) -> None:
    """Also one on nothing found, and once for several files."""
    for items in ([linted()], [linted(full_finding), linted(file="b.yaml")]):
        shown = render(items)
        assert shown.endswith(f"\n\n{CLOSING}\n")
        assert shown.count(CLOSING) == 1
    assert "nothing found against it" in render([linted()])


def _lines(shown: str) -> list[str]:
    return [line for line in shown.split("\n") if line != CLOSING]


@pytest.mark.parametrize("length", [1, 60, 99, 100, 101, 400])
def test_no_line_is_longer_than_100_columns(linted: Linter, full_finding: Finding, length: int) -> None:
    """However long the author's line, the sentences and the numbers are."""
    words = ("word " * length)[:length].strip()
    long = replace(full_finding, message=words, found=words, limit=f"{words} at most", why=words, do=words)
    text = f"format: recipe/1\n\n\n\n\n    oven: {words}\n"
    span = Span(6, 11, 6, 11 + len(words))
    for item in (long, replace(long, span=span), replace(long, kind=Kind.OPEN), replace(long, level=Level.NOTE)):
        assert max(map(len, _lines(render([linted(item, text=text)])))) <= WIDTH


def test_hostile_text_is_shown_escaped(linted: Linter, hostile_finding: Finding) -> None:
    """In every field, in the line quoted and in the file's name: nothing but printable characters and line ends."""
    hostile = hostile_finding.message
    text = f"format: recipe/1\n\n\n\n\n    oven: {hostile.replace(chr(10), ' ')}\n"
    for item in (hostile_finding, replace(hostile_finding, kind=Kind.OPEN), replace(hostile_finding, path=())):
        shown = render([linted(item, file=f"{hostile}.yaml", text=text)])
        assert all(c.isprintable() or c == "\n" for c in shown)
        assert "\\x1b[31m" in shown
        assert "\\u202e" in shown
        assert not any(line.startswith("FORGED LINE") for line in shown.split("\n"))


def test_the_line_quoted_is_the_line_meant(linted: Linter, full_finding: Finding) -> None:
    """Also in a file that was refused for a line break that only some programs see."""
    text = "format: recipe/1\nnote: a\x0cb\u2028c\x85d\n\n\n\n    oven: 250 °C\n"
    assert "  6  oven: 250 °C" in render([linted(full_finding, text=text)])


def test_a_place_beyond_the_text_is_left_empty(linted: Linter, full_finding: Finding) -> None:
    """A file that was cut for its length is reported all the same."""
    far = replace(full_finding, span=Span(900, 1, 900, 2))
    assert "900" in render([linted(far)])


@pytest.mark.parametrize("width", [60, 80, 120])
@pytest.mark.parametrize("length", [1, 40, 60, 80, 400])
def test_no_line_is_wider_than_the_terminal(
    linted: Linter, full_finding: Finding, weights: dict[str, Finding], width: int, length: int
) -> None:
    """The closing line is folded, too, and whole."""
    words = ("word " * length)[:length].strip()
    long = replace(full_finding, message=words, found=words, limit=f"{words} at most", why=words, do=words)
    items = [linted(long, *weights.values()), linted()]
    shown = render(items, Page(width, terminal=True))
    assert max(map(len, shown.split("\n"))) <= width
    assert " ".join(CLOSING.split()) in " ".join(shown.split())


def test_colour_adds_nothing_but_colour(linted: Linter, weights: dict[str, Finding], full_finding: Finding) -> None:
    """Without its codes the report is the one without colour: the words stay, and so does every column."""
    items = [linted(*weights.values(), full_finding), linted(weights["a note"]), linted(weights["a warning"]), linted()]
    coloured = render(items, Page(80, colour=True, terminal=True))
    assert "\x1b[31;1merror · too-hot\x1b[0m" in coloured
    assert "\x1b[31;1mdo not try\x1b[0m · 2 errors" in coloured
    assert "\x1b[35;1mopen question · must be answered\x1b[0m" in coloured
    assert "\x1b[1mtry with care\x1b[0m" in coloured
    assert re.sub("\x1b\\[[0-9;]*m", "", coloured) == render(items, Page(80, terminal=True))


def test_nothing_is_green(linted: Linter) -> None:
    """Nothing found against a recipe is no promise, and no other colour says it either."""
    assert "\x1b[1ma.yaml\x1b[0m\n\nnothing found against it · 7 checks" in render([linted()], Page(80, colour=True))


def test_hostile_text_has_no_colour_of_its_own(linted: Linter, hostile_finding: Finding) -> None:
    """On a coloured terminal the only escapes are ours."""
    coloured = render([linted(hostile_finding, file=hostile_finding.message)], Page(80, colour=True, terminal=True))
    assert set(re.findall("\x1b[^m]*m", coloured)) == {"\x1b[1m", "\x1b[0m", "\x1b[31;1m"}
    assert all(c.isprintable() or c == "\n" for c in re.sub("\x1b\\[[0-9;]*m", "", coloured))
