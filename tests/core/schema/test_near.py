"""The nearest known name."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.schema.near import certain, distance, near

WORDS = st.text("abcd -", max_size=8)


@pytest.mark.parametrize(
    ("a", "b", "slips"),
    [
        ("", "", 0),
        ("press", "press", 0),
        ("pres", "press", 1),
        ("perss", "press", 1),
        ("kitten", "sitting", 3),
    ],
)
def test_slips_are_counted(a: str, b: str, slips: int) -> None:
    """Adding, dropping, changing and swapping count one each; kitten and sitting are the textbook pair."""
    assert distance(a, b) == slips


@given(WORDS, WORDS)
def test_distance_is_the_same_both_ways(a: str, b: str) -> None:
    """It is symmetric, and zero only for the same word."""
    assert distance(a, b) == distance(b, a)
    assert (distance(a, b) == 0) == (a == b)


@pytest.mark.parametrize(
    ("word", "name"),
    [("thikness", "thickness"), ("At-Least", "at_least"), ("proces", "process"), ("idd", "id")],
)
def test_a_slip_is_recognised(word: str, name: str) -> None:
    """Letters off by one or two, capitals, hyphens and underscores do not hide what was meant."""
    assert near(word, ["id", "at_least", "thickness", "process"]) == name


@pytest.mark.parametrize("word", ["bend", "x", "while not hot"])
def test_another_word_is_no_slip(word: str) -> None:
    """A word that says something else is not taken for a name, least of all for its opposite."""
    assert near(word, ["id", "thickness", "while hot", "A"]) is None


def test_only_a_small_slip_is_certain() -> None:
    """One letter in a word of four or more, or capitals and hyphens, can be mended without asking."""
    assert certain("thikness", "thickness")
    assert certain("co2", "CO2")
    assert not certain("on", "no")
    assert not certain("thiknes", "thickness")


def test_a_slip_for_two_names_is_not_certain() -> None:
    """As near to one as to the other; a name that is farther off does not matter."""
    for word, names in (("fom", ["form", "from"]), ("flade", ["blade", "flame"]), ("prcess", ["press", "process"])):
        for name in names:
            assert certain(word, name)
            assert not certain(word, name, names)
    assert certain("form", "form", ["form", "from"])
    assert certain("thikness", "thickness", ["thickest", "thickness"])
