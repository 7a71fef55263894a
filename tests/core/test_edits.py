"""A change of a recipe is a change of one stretch of its text, or none is made."""

from __future__ import annotations

import pytest

from recipes_core.document import read
from recipes_core.edits import edited, stretch
from recipes_core.findings import Change

TEXT = "melt: 10 min  # hot\ncool: {for: '20 min', \"at\": x}\nnote: |\n  5 min\nlong: 5\n  min\nuse: [a b]\n"
FOR = ("cool", "for")


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_an_edit_replaces_its_stretch_and_nothing_else(ends: str) -> None:
    """Values and keys, in block and flow style, quoted and plain, over two lines; comments and line ends stay."""
    text = TEXT.replace("\n", ends)
    changes = [
        Change(("melt",), "melted", key=True),
        Change(("melt",), "9 min"),
        Change(FOR, "100 min"),
        Change(("cool", "at"), "until", key=True),
        Change(("long",), "7 min"),
        Change(("use", 0), "½ in"),
    ]
    copy = edited(read(text), changes)
    assert copy is not None
    after = "melted: 9 min  # hot\ncool: {for: '100 min', \"until\": x}\nnote: |\n  5 min\nlong: 7 min\nuse: [½ in]\n"
    assert copy.text == after.replace("\n", ends)


def test_a_list_takes_the_place_of_a_word() -> None:
    """Also of a quoted one."""
    copy = edited(read(TEXT), [Change(FOR, "[20 min]")])
    assert copy is not None
    assert copy.data["cool"]["for"] == ["20 min"]


@pytest.mark.parametrize(
    "change",
    [
        Change(("freeze",), "9 min"),
        Change(("use", 0), "a", key=True),
        Change(("note",), "5 s"),
        Change(("melt",), "9 min # quick"),
        Change(("melt",), "{a: b}"),
        Change(("melt",), "9 min\nnew: key"),
        Change(("melt",), "'9 min"),
        Change(("melt",), "- 9"),
        Change(("melt",), "&a 9"),
        Change(("melt",), "a\u2028b"),
        Change(("melt",), "a "),
        Change(("melt",), ""),
        Change(("melt",), "[a]", key=True),
        Change(("melt",), "[a, *b]"),
    ],
)
def test_what_would_have_to_be_laid_out_anew_is_not_done(change: Change) -> None:
    """A place that is not there, a block text, or a text that YAML would read as something else."""
    document = read(TEXT)
    assert stretch(document, change) is None
    assert edited(document, [change]) is None
    assert edited(document, [Change(FOR, "1 min"), change]) is None
