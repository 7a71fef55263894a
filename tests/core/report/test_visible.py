"""Whatever nobody can see is shown; whatever anybody can read stays as it is."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.report.visible import json_text, printable

UNSEEN = "\x00\x1b\x9b\x7f\u202e\u2066\u2028\u200b\ufeff\ud800\U000e0041"


def test_printable() -> None:
    """Controls, marks of direction and line breaks of any kind as escapes; letters of all scripts as they are."""
    assert printable("é 漢字 °C ½ – …") == "é 漢字 °C ½ – …"
    assert printable("\x1b\x9b\u202e\u2066\u2028\n\t\x7f") == "\\x1b\\x9b\\u202e\\u2066\\u2028\\n\\t\\x7f"


@given(st.text())
def test_all_that_is_printable_can_be_printed(text: str) -> None:
    """Any text at all becomes one line, and one that can be written to any file."""
    shown = printable(text)
    assert shown.isprintable()
    shown.encode("utf-8")


@given(st.recursive(st.text(), lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=5))
def test_json_hides_nothing_and_loses_nothing(data: object) -> None:
    """The file shows all that is in it, and programs read back the very text."""
    shown = json_text(data)
    assert all(c.isprintable() or c == "\n" for c in shown)
    assert json.loads(shown) == data
    shown.encode("utf-8")


@pytest.mark.parametrize("unseen", UNSEEN)
def test_each_kind_of_unseen_character(unseen: str) -> None:
    """In JSON by its number or numbers, in a line by its escape."""
    assert json.loads(json_text([unseen])) == [unseen]
    assert unseen not in json_text([unseen])
    assert printable(unseen).startswith("\\")


def test_what_can_be_read_is_not_escaped() -> None:
    """Degrees are degrees in the file too."""
    assert json_text({"a": "177 °C, 漢字"}) == '{\n "a": "177 °C, 漢字"\n}\n'
