"""An SVG that goes into any page: ids of its own, nothing that reaches out of it or runs, words that are text."""

from __future__ import annotations

from xml.etree import ElementTree as Xml

from recipes_core.report.svg import SVG, fit
from tests.core.report.curves import HOSTILE

DRAWN = """<?xml version="1.0" encoding="utf-8" standalone="no"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<svg xmlns:xlink="http://www.w3.org/1999/xlink" width="100pt" height="50pt" viewBox="0 0 100 50"
 xmlns="http://www.w3.org/2000/svg" version="1.1">
 <metadata><date>2020</date></metadata>
 <defs><style type="text/css">*{stroke-linejoin: round}</style></defs>
 <!-- a comment -->
 <g id="a" clip-path="url(#p1)"><use xlink:href="#b" x="1"/><path id="b" style="fill: url(#h1); stroke: #000000"/></g>
 <defs><clipPath id="p1"/><pattern id="h1"/></defs>
</svg>"""


def test_ids_and_what_points_to_them_bear_the_name() -> None:
    """Two drawings in one page share no id; a colour is no id."""
    one, other = (Xml.fromstring(fit(DRAWN, name, "t", "w", (180.0, 90.0))) for name in ("one", "other"))
    ids = [{e.get("id") for e in root.iter() if e.get("id")} for root in (one, other)]
    assert ids[0] == {"one-title", "one-words", "one-a", "one-b", "one-p1", "one-h1"}
    assert ids[0] & ids[1] == set()
    text = fit(DRAWN, "one", "t", "w", (180.0, 90.0))
    for pointer in ("url(#one-p1)", '"#one-b"', "url(#one-h1)", "stroke: #000000"):
        assert pointer in text


def test_what_a_page_must_not_have_is_gone() -> None:
    """No document type, metadata, comment or style sheet; what the style sheet said is said for this drawing alone."""
    text = fit(DRAWN, "one", "t", "w", (180.0, 90.0))
    assert text.startswith("<svg ")
    for gone in ("DOCTYPE", "<?xml", "metadata", "<!--", "<style", "2020"):
        assert gone not in text
    root = Xml.fromstring(text)
    assert root.get("stroke-linejoin") == "round"
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("180mm", "90mm", "0 0 100 50")


def test_it_is_an_image_with_a_title() -> None:
    """Read aloud by its title and its words, which stand first."""
    root = Xml.fromstring(fit(DRAWN, "one", "the title", "the words", (180.0, 90.0)))
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "one-title one-words"
    assert [(e.tag, e.text) for e in list(root)[:2]] == [
        (f"{{{SVG}}}title", "the title"),
        (f"{{{SVG}}}desc", "the words"),
    ]


def test_words_are_text_whatever_they_are() -> None:
    """They end no element and start none."""
    words = "".join(c for c in HOSTILE if c.isprintable())
    root = Xml.fromstring(fit(DRAWN, "one", words, words, (180.0, 90.0)))
    assert [e.text for e in list(root)[:2]] == [words, words]
    assert {e.tag.rpartition("}")[2] for e in root.iter()} == {
        "svg", "title", "desc", "defs", "g", "use", "path", "clipPath", "pattern",
    }  # fmt: skip
