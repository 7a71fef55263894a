"""The bundled typeface: look-alikes differ, and the words that meltbook itself prints are all in it."""

from __future__ import annotations

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from recipes_core.fonts import BOLD, FAMILY, REGULAR
from recipes_core.shelf import Shelf, shelf


@pytest.fixture(params=[REGULAR, BOLD], ids=["regular", "bold"])
def face(request: pytest.FixtureRequest) -> TTFont:
    """One face, opened."""
    return TTFont(request.param)


def drawn(face: TTFont, character: str) -> list[tuple[str, tuple]]:
    """The outline of one character."""
    glyphs = face.getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    glyphs[face.getBestCmap()[ord(character)]].draw(pen)
    return pen.value


def test_the_family_is_named_as_in_its_files(face: TTFont) -> None:
    """Pages and pictures ask for it by this name."""
    assert face["name"].getBestFamilyName() == FAMILY


@pytest.mark.parametrize("alike", ["1lI|", "0OoQ", "5S", "8B", "2Z", "6b"])
def test_characters_that_look_alike_elsewhere_are_drawn_differently_here(face: TTFont, alike: str) -> None:
    """The zero has an inner stroke, the small l a tail, the capital I bars."""
    outlines = [drawn(face, character) for character in alike]
    assert all(one != other for i, one in enumerate(outlines) for other in outlines[:i])
    inner = [sum(op == "closePath" for op, _ in drawn(face, character)) for character in "0O"]
    assert inner[0] > inner[1], "a zero must not differ from an O by its width alone"


def test_the_cautions_are_in_it(face: TTFont) -> None:
    """With both units' signs; nothing falls back to whatever typeface a machine happens to have."""
    having: Shelf = shelf()
    told = {h.caution for process in having.plugins.processes.values() for h in process.hazards() if h.caution}
    wanted = set("".join(told) + "°²³×±−–·½")
    assert {c for c in wanted if ord(c) not in face.getBestCmap()} == set()
