"""The page needs nothing from outside, and whatever stands in a recipe comes out as text that can be seen."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass, replace
from html.parser import HTMLParser
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.report.card.content import Card
from recipes_core.report.card.page import LARGE, LONGEST_STRIP, css_text, render
from recipes_core.report.card.text import render as plain
from recipes_core.report.visible import printable, shortened
from tests.core.report.card.conftest import Make

HOSTILE = "</style><script>alert(1)</script><!-- {{ 7*7 }} \"'>&amp; ]]> \x1b[31m\x9b2J\u202e\u2066\x07\u2028\\\n}"
"""Markup, script, the end of a style, a template's brackets, terminal escapes, turned direction, new lines."""


class Seen(HTMLParser):
    """Collects the tags of a page, what its attributes ask for, and the text that a reader sees."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.links: list[str] = []
        self.text: list[str] = []
        self.style: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag, and every attribute that could fetch something."""
        self.tags.append(tag)
        self.links += [value or "" for name, value in attrs if name in ("src", "href", "action", "srcset", "data")]

    def handle_data(self, data: str) -> None:
        """Note text, of the style apart."""
        (self.style if self.tags[-1:] == ["style"] else self.text).append(data)


def seen(page: str) -> Seen:
    """A page as a browser reads it."""
    parser = Seen()
    parser.feed(page)
    return parser


def spoilt(value: Any) -> Any:
    """The same record with hostile text wherever there was text."""
    if isinstance(value, str):
        return HOSTILE
    if isinstance(value, tuple):
        return tuple(spoilt(item) for item in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: spoilt(getattr(value, f.name)) for f in fields(value)})
    return value


def test_the_page_asks_for_nothing(make: Make) -> None:
    """No script, no link; its two faces are in it."""
    page = seen(render(make()))
    assert "script" not in page.tags
    assert page.links == []
    sources = re.findall(r"url\(\"?([^)\"]{1,20})", "".join(page.style))
    assert len(sources) == 2
    assert all(source.startswith("data:font/ttf") for source in sources)


def test_what_is_on_the_card_is_on_the_page(make: Make) -> None:
    """Every text of the record, in its order of reading."""
    card = make()
    text = " ".join("".join(seen(render(card)).text).split())
    at = 0
    for block in card.blocks:
        for step in block.steps:
            for words in (f"{step.signal}: {step.caution}", step.action, step.until):
                found = text.find(words, at)
                assert found >= 0, words
                at = found


def test_hostile_text_is_text(make: Make) -> None:
    """It adds no tag and ends no style; every control is an escape that can be seen."""
    usual, bad = seen(render(make())), seen(render(spoilt(make())))
    assert "script" not in bad.tags
    assert set(bad.tags) <= set(usual.tags) | {"div", "ul", "li"}
    shown = "".join(bad.text)
    assert printable(HOSTILE) in shown
    assert "{{ 7*7 }}" in shown
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u202a-\u202e\u2066-\u2069]", shown)
    assert "".join(bad.style).count("@page") == 1


def test_hostile_text_is_text_in_plain_words_too(make: Make) -> None:
    """And starts no line of its own."""
    card = spoilt(make())
    assert isinstance(card, Card)
    lines = plain(card)
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u202a-\u202e\u2066-\u2069]", lines)
    assert "\\x1b[31m" in lines


@given(st.text())
def test_a_string_of_css_reads_back(text: str) -> None:
    """By the rules of CSS Syntax Level 3, section 4.3.7: a backslash, up to six hex digits, one space."""
    quoted = css_text(text)
    assert not set(quoted) & set("\"'<>\n\r\f&")
    read = re.sub(r"\\([0-9a-f]{1,6}) ", lambda m: chr(int(m[1], 16)), quoted)
    assert read == printable(text)


@pytest.mark.parametrize("length", [LONGEST_STRIP, LONGEST_STRIP + 1])
def test_a_long_title_is_cut_in_the_strip(make: Make, length: int) -> None:
    """It stands whole at the head of the card."""
    page = render(replace(make(), title="x" * length))
    (cut,) = re.findall(r'@top-left \{ content: "(x+)(?:\\2026 )? \\b7 ', page)
    assert len(cut) == (LONGEST_STRIP if length == LONGEST_STRIP else LONGEST_STRIP - 1)
    assert f"<h1>{'x' * length}</h1>" in page


@pytest.mark.parametrize("length", [LONGEST_STRIP, LONGEST_STRIP + 1])
def test_a_cut_text_is_as_long_as_it_may_be(length: int) -> None:
    """With its mark."""
    cut = shortened("x" * length, LONGEST_STRIP)
    assert len(cut) == LONGEST_STRIP
    assert cut.endswith("…") == (length > LONGEST_STRIP)


def test_the_same_card_gives_the_same_bytes(make: Make) -> None:
    """So that two can be compared."""
    assert render(make()) == render(make())
    assert render(make(), "letter") != render(make(), "a4") != render(make(), "a4", LARGE)
