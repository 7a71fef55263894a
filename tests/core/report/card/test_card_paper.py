"""The printed card: pages, sizes of type, faces and tags, read back from the PDF; nothing clipped, nothing parted."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdf
import pytest

from recipes_core.errors import UsageError
from recipes_core.fonts import FAMILY
from recipes_core.report.card.content import Card
from recipes_core.report.card.page import LARGE, NORMAL, Sizes, render
from recipes_core.report.card.paper import pdf
from recipes_core.report.visible import printable
from tests.core.report.card.conftest import NOT_YET, RECIPES, REFUSED, Make, steps
from tests.core.report.card.test_card_page import HOSTILE, spoilt
from tests.tools import printer

MM = 72.0 / 25.4
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
ROUNDING = 0.1
"""Points; sizes in a PDF are written with few digits."""


@pytest.fixture(scope="module", autouse=True)
def weasyprint() -> Any:
    """The extra, and the system's library that it needs."""
    return printer()


_READ: dict[tuple[Card, str, Sizes], pypdf.PdfReader] = {}


def read(card: Card, paper: str = "a4", sizes: Sizes = NORMAL) -> pypdf.PdfReader:
    """The PDF of a card; one that was made before is not made again."""
    key = (card, paper, sizes)
    if key not in _READ:
        _READ[key] = pypdf.PdfReader(io.BytesIO(pdf(render(card, paper, sizes))))
    return _READ[key]


def words(page: pypdf.PageObject) -> str:
    """The text of a page with single spaces."""
    return " ".join(page.extract_text().split())


def sizes_of(page: pypdf.PageObject) -> Iterator[tuple[str, float]]:
    """Pieces of text with their size in points, all scaling done."""
    found: list[tuple[str, float]] = []

    def visit(text: str, cm: list[float], tm: list[float], font: Any, size: float) -> None:
        if text.strip():
            found.append((" ".join(text.split()), abs(size * tm[3] * cm[3])))

    page.extract_text(visitor_text=visit)
    return iter(found)


@pytest.mark.parametrize("paper", PAPERS)
def test_nine_steps_take_two_pages(make: Make, paper: str) -> None:
    """Of the size that was asked for."""
    found = read(make(), paper)
    assert len(found.pages) == 2
    width, height = (float(side) / MM for side in found.pages[0].mediabox[2:])
    assert (width, height) == pytest.approx(PAPERS[paper], abs=0.1)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(
    "step", ["until: no white or grainy core when folded", "until: skin glossy again", "repress_every: 90 s"]
)
def test_one_more_caution_line_costs_no_page(make: Make, paper: str, step: str) -> None:
    """On whichever page it falls."""
    own = "\n    hazards: [{hazard: low beam over the press, injury: slight, signal: CAUTION, "
    own += "controls: [{level: engineer, do: foam on the beam}]}]"
    card = make("hdpe/coat-hook", (step, f"{step}{own}"))
    assert sum(len(s.own) for s in steps(card)) == sum(len(s.own) for s in steps(make())) + 1
    assert len(read(card, paper).pages) == 2


CARDS = [
    ("hdpe/coat-hook", ()),
    ("pmma/leaflet-stand", ()),
    ("hdpe/glue-paddle", ()),
    ("hdpe/planed-block", ()),
    ("hdpe/coat-hook", (REFUSED,)),
    ("hdpe/coat-hook", (NOT_YET,)),
]
NAMES = ["nine steps", "thin and bent", "wooden mould", "longest", "refused", "not yet"]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("name", "changes"), CARDS, ids=NAMES)
def test_no_caution_is_parted_from_its_step(make: Make, paper: str, name: str, changes: Any) -> None:
    """Caution, action and end test of each step stand on one page, in this order."""
    card = make(name, *changes)
    pages = [words(page).replace(" ", "") for page in read(card, paper).pages]  # a line may end behind a hyphen
    for step in steps(card):
        wanted = [text.replace(" ", "") for text in (step.caution, step.action, f"until:{step.until}")]
        on = [text for text in pages if all(words in text for words in wanted)]
        assert on, f"{step.id}: {step.caution}"
        places = [on[0].find(words) for words in wanted]
        assert places == sorted(places)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("name", "changes"), CARDS, ids=NAMES)
def test_every_page_says_what_it_belongs_to(make: Make, paper: str, name: str, changes: Any) -> None:
    """Title, revision, digest and id, the page of how many; a recipe not to be tried says so on each."""
    card = make(name, *changes)
    pages = read(card, paper).pages
    for number, page in enumerate(pages, start=1):
        text = words(page)
        assert card.title[:30] in text
        assert card.digest[:8] in text
        assert f"{number} of {len(pages)}" in text
        assert (card.banner or card.id) in text


def test_the_sizes_are_those_stated(make: Make) -> None:
    """Read back from the PDF: the charge, cautions, actions and numbers, and nothing below 8.5 pt."""
    card = make()
    found = [piece for page in read(card).pages for piece in sizes_of(page)]
    by_text: dict[str, set[float]] = {}
    for text, size in found:
        by_text.setdefault(text, set()).add(round(size, 1))
    card_owns = [own for step in steps(card) for own in step.own]
    assert NORMAL.large in by_text["78 g"]
    assert by_text["177 °C"] == {NORMAL.number}
    assert by_text["Leave it shut by the clock and until the end test"] == {NORMAL.action}
    framed = {f"{step.signal}: {step.caution}"[:40] for step in steps(card)}
    cautions = {s for text, sizes in by_text.items() if text[:40] in framed for s in sizes}
    assert cautions == {NORMAL.caution}
    others = {s for text, sizes in by_text.items() if any(text[:40] == own[:40] for own in card_owns) for s in sizes}
    assert others == {NORMAL.text}
    assert min(size for _, size in found) >= 9.0 - ROUNDING
    assert NORMAL.caution >= 16.0
    assert NORMAL.action >= 14.0
    assert NORMAL.text >= 12.0


def test_large_print_is_larger_and_takes_the_pages_it_needs(make: Make) -> None:
    """Nothing is left out for it."""
    card = make()
    large = read(card, "a4", LARGE)
    assert len(large.pages) > 2
    whole = " ".join(words(page) for page in large.pages)
    assert all(step.caution in whole or step.caution.replace(" ", "") in whole.replace(" ", "") for step in steps(card))
    sizes = {text: size for page in large.pages for text, size in sizes_of(page)}
    assert sizes["177 °C"] == pytest.approx(LARGE.number, abs=ROUNDING)
    assert LARGE.caution >= 22.0
    assert LARGE.action >= 18.0


def test_only_the_bundled_faces_are_in_it(make: Make) -> None:
    """Both are embedded; a machine's own typefaces are not asked."""
    names = set()
    for page in read(make()).pages:
        resources: Any = page["/Resources"]
        for font in resources["/Font"].values():
            base = font.get_object()
            names.add(str(base["/BaseFont"]).partition("+")[2])
            descendant = base["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in descendant["/FontDescriptor"].get_object()
    assert {name.removesuffix("-Bold") for name in names} == {FAMILY.replace(" ", "-")}


def test_it_is_tagged(make: Make) -> None:
    """For screen readers: a tree of tags, a language and a title, as PDF/UA-1 asks."""
    found = read(make())
    root: Any = found.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/StructTreeRoot"]["/K"]
    assert root["/Lang"] == "en"
    assert found.metadata is not None
    assert found.metadata.title == make().title
    assert b"pdfuaid" in root["/Metadata"].get_data()


def test_the_same_card_gives_the_same_bytes(make: Make) -> None:
    """Two runs, byte for byte."""
    page = render(make())
    assert pdf(page) == pdf(page)


def _is_line(box: Any) -> bool:
    return type(box).__name__ == "LineBox"


def overflowing(page: str, weasyprint: Any) -> Iterator[str]:
    """Lines of text that are wider than the box that holds them, or stand outside the page."""
    for sheet in weasyprint.HTML(string=page).render().pages:
        box = sheet._page_box
        for parent in box.descendants():
            for child in getattr(parent, "children", ()):
                pieces = [t for t in child.descendants() if hasattr(t, "text")] if _is_line(child) else []
                if not pieces:
                    continue
                text = "".join(piece.text for piece in pieces)
                right = max(piece.position_x + piece.width for piece in pieces)
                if right > parent.content_box_x() + parent.width + 1.0 or right > box.margin_width():
                    yield f"{text!r} is {right - parent.content_box_x() - parent.width:.1f} px too wide"
                if child.position_y + child.height > box.margin_height():
                    yield f"{text!r} stands below the page"


SHIPPED = [(file, NORMAL) for file in sorted(RECIPES.glob("*/*.yaml"))]
LARGELY = [(RECIPES / f"{name}.yaml", LARGE) for name in ("hdpe/coat-hook", "hdpe/planed-block", "pla/luggage-tag")]


@pytest.mark.parametrize(
    ("file", "sizes"), [*SHIPPED, *LARGELY], ids=lambda v: v.stem if isinstance(v, Path) else f"{v.caution:g} pt"
)
def test_nothing_is_clipped(make: Make, weasyprint: Any, file: Any, sizes: Sizes) -> None:
    """In no box of any shipped recipe's card."""
    page = render(make(f"{file.parent.name}/{file.stem}"), "letter", sizes)
    assert list(overflowing(page, weasyprint)) == []


def test_a_text_that_is_too_wide_would_be_seen(make: Make, weasyprint: Any) -> None:
    """The search itself."""
    page = render(make()).replace("OUT under", "OUT OF THE OVEN FOR under")
    assert any("OUT OF THE OVEN" in line for line in overflowing(page, weasyprint))


def test_without_the_extra_there_is_a_way_out(make: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    """One sentence: what to install, or how to print without it."""
    monkeypatch.setitem(__import__("sys").modules, "weasyprint", None)
    with pytest.raises(UsageError, match=r"pip install 'meltbook\[pdf\]'.*browser"):
        pdf(render(make()))


def test_hostile_text_is_text_on_paper(make: Make) -> None:
    """It can be seen on the page, and the PDF holds nothing that acts."""
    bad = spoilt(make())
    page = pdf(render(bad))
    told = "".join(words(p) for p in pypdf.PdfReader(io.BytesIO(page)).pages).replace(" ", "")
    assert printable(HOSTILE).replace(" ", "")[:40] in told
    assert not any(act in page for act in (b"/JavaScript", b"/OpenAction", b"/Launch", b"/URI"))
