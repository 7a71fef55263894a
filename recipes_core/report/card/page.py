"""The card as one HTML page that needs nothing else: for the screen, for a browser's print, and for the PDF."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from string import Template
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from recipes_core.fonts import BOLD, FAMILY, REGULAR
from recipes_core.report.visible import printable, shortened

if TYPE_CHECKING:
    from recipes_core.report.card.content import Card
    from recipes_core.report.plots import Drawing

HERE = Path(__file__).parent
PAPERS = {"a4": ("A4", 10.0), "letter": ("Letter", 15.9)}
"""Name in CSS and right margin, mm, beside 20 mm for the holes and 180 mm of print."""

LONGEST_STRIP = 38
"""Characters of the title that fit the strip at the top of a page (judgement)."""


@dataclass(frozen=True)
class Sizes:
    """Sizes of type, in points, and the layout that goes with them."""

    title: float = 17.0
    large: float = 27.0
    caution: float = 16.0
    action: float = 14.0
    number: float = 16.0
    text: float = 12.0
    note: float = 11.0
    label: float = 10.0
    stacked: bool = False
    """Numbers and times below the end test, not beside it."""


NORMAL = Sizes()
LARGE = Sizes(26.0, 40.0, 22.0, 18.0, 20.0, 18.0, 16.0, 12.0, stacked=True)
"""Large print takes the pages that it needs."""


def render(card: Card, paper: str = "a4", sizes: Sizes = NORMAL, pictures: Iterable[Drawing] = ()) -> str:
    """The page, with ``pictures`` (drawn as SVG) on sheets of their own behind the card.

    Whatever stands in a recipe comes out as visible text, never as markup, style or script.
    """
    loader = FileSystemLoader(HERE)
    env = Environment(loader=loader, autoescape=True, undefined=StrictUndefined, finalize=_visible, trim_blocks=True)
    drawn = [(picture.title, picture.words, Markup(picture.image or "")) for picture in pictures]
    css = Markup(style(card, paper, sizes))
    return env.get_template("card.html").render(card=card, css=css, pictures=drawn)


def style(card: Card, paper: str, sizes: Sizes) -> str:
    """The style sheet, with the strip of every page in it and with both faces."""
    stacked = (HERE / "stacked.css").read_text("utf-8") if sizes.stacked else ""
    return Template((HERE / "card.css").read_text("utf-8")).substitute(
        vars(sizes),
        blank=2.0 * sizes.number,
        stacked=stacked,
        family=FAMILY,
        regular=_encoded(REGULAR),
        bold=_encoded(BOLD),
        paper=PAPERS[paper][0],
        right=PAPERS[paper][1],
        strip=css_text(f"{shortened(card.title, LONGEST_STRIP)} · {card.revision} · {card.digest[:8]}"),
        foot=css_text(card.banner or card.id),
        weight=700 if card.banner else 400,
        foot_size=14.0 if card.banner else 9.5,
    )


def css_text(text: str) -> str:
    """Text for a string in CSS: everything but plain letters, digits and spaces as its code point."""
    return "".join(c if c.isascii() and (c.isalnum() or c == " ") else f"\\{ord(c):x} " for c in printable(text))


def _visible(value: Any) -> Any:
    return printable(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _encoded(font: Path) -> str:
    return b64encode(font.read_bytes()).decode("ascii")
