"""A unified diff that a standard reader takes, and that hides nothing."""

from __future__ import annotations

import difflib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.report.diff import diff

LINES = [f"line {number}" for number in range(1, 31)]


def changed(*numbers: int) -> str:
    """The lines with some of them in other words."""
    return "\n".join(f"{line} mended" if at in numbers else line for at, line in enumerate(LINES, start=1))


@pytest.mark.parametrize(
    "numbers", [(1,), (30,), (15,), (2, 3), (5, 11), (5, 12), (5, 13), (1, 8, 16, 30), range(1, 31)]
)
def test_it_is_what_the_standard_library_makes(numbers: tuple[int, ...]) -> None:
    """At the ends, near one another and far apart."""
    before, after = "\n".join(LINES), changed(*numbers)
    wanted = difflib.unified_diff(LINES, after.split("\n"), "a.yaml", "a.yaml", lineterm="")
    assert diff(before, after, "a.yaml").split("\n") == [*wanted, ""]


@given(st.lists(st.sampled_from("ab"), min_size=1, max_size=40), st.data())
def test_the_change_can_be_made_from_it(old: list[str], data: st.DataObject) -> None:
    """Whatever the lines are: taken line by line, it leads from the one text to the other."""
    new = [data.draw(st.sampled_from([line, "c"])) for line in old]
    shown = diff("\n".join(old), "\n".join(new), "a").splitlines()
    made = list(old)
    at = 0
    for line in shown[2:]:
        if line.startswith("@@"):
            at = int(line.split()[2][1:].partition(",")[0]) - 1
            removed: list[int] = []
        elif line.startswith("-"):
            assert old[at + len(removed)] == line[1:]
            removed.append(at + len(removed))
        elif line.startswith("+"):
            made[removed.pop(0)] = line[1:]
            at += 1
        else:
            assert old[at] == line[1:]
            at += 1
    assert made == new


def test_nothing_changed_is_nothing_shown() -> None:
    """Not even a heading."""
    assert diff("a\n", "a\n", "a.yaml") == ""


def test_line_ends_and_hostile_text() -> None:
    """Other line ends are no change of a line; what cannot be seen is shown."""
    shown = diff("a\r\nb\x1b[2J\r\n", "c\r\nb\x1b[2J\r\n", "x\u202e\n.yaml")
    assert shown.startswith("--- x\\u202e\\n.yaml\n")
    assert "-a\n+c\n b\\x1b[2J\n" in shown


def test_texts_of_other_lengths_are_refused() -> None:
    """An edit adds no line."""
    with pytest.raises(ValueError, match="zip"):
        diff("a", "a\nb", "a.yaml")
