"""Free words in clauses: where a sentence ends, and what turns a verb round."""

from __future__ import annotations

import pytest

from recipes_core.rules.clauses import clauses, negated, sentences


def test_sentences() -> None:
    """A line that goes on in small letters goes on with its sentence."""
    text = "Press it.\nHold it\nfor long; open\n- Lift"
    assert [s.strip() for s in sentences(text) if s.strip()] == ["Press it", "Hold it\nfor long", "open", "- Lift"]


def test_clauses_are_quoted_as_they_stand_and_searched_in_small_letters() -> None:
    """Without the spaces and line breaks between."""
    assert list(clauses("It’s hot: Wait\n a bit, and Go")) == [
        ("It’s hot", "it's hot"),
        ("Wait a bit", "wait a bit"),
        ("Go", "go"),
    ]


@pytest.mark.parametrize("before", ["never ", "do not ", "don't ", "never tape, wedge or ", "without ", "instead of "])
def test_what_is_forbidden(before: str) -> None:
    """In one part, or in a list."""
    assert negated(before)


@pytest.mark.parametrize("before", ["", "please ", "never open the lid, ", "nothing else works, so "])
def test_what_is_not(before: str) -> None:
    """A comma ends the part that the negation is for."""
    assert not negated(before)


def test_an_if_is_a_condition_or_a_case() -> None:
    """It turns round what may happen, but not what is to be done then."""
    assert negated("if you ")
    assert not negated("if it smokes ", supposed=False)
