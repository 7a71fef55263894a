"""Pictures of what the plastic does, as SVG or PNG: legible in black and white, in both unit systems, printed or not.

Nothing is told by colour: curves differ by their dashes, bands by their hatching, and every line bears its name.
Letters are drawn as outlines, so that a picture looks the same in any page and any reader; its words are in it too.
matplotlib is imported here, when something is drawn, and nowhere else.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from io import BytesIO, StringIO
from typing import TYPE_CHECKING, Any

from recipes_core.errors import UsageError
from recipes_core.fonts import BOLD, FAMILY, REGULAR
from recipes_core.report import svg
from recipes_core.report.pictures import Picture, pictures
from recipes_core.report.visible import escaped, printable, shortened

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from recipes_core.forecast import Walk
    from recipes_core.rules.verdict import Verdict

WIDE, HIGH = 180.0, 100.0
"""The size of a picture, mm: as wide as the type area of a sheet of A4 or letter."""
INCH = 25.4
DOTS = 200
"""Dots per inch of a PNG."""
LONGEST_ID = 40
"""Characters of a recipe's id that are shown over a picture."""
NOT_INSTALLED = "pictures need matplotlib, which is not installed: pip install 'meltbook[plots]' adds it"
_STYLE: Any = {
    "font.family": FAMILY,
    "font.size": 8.5,
    "text.parse_math": False,  # a $ in somebody's words is a $
    "axes.formatter.use_mathtext": False,
    "axes.linewidth": 0.6,
    "hatch.linewidth": 0.35,
    "text.hinting": "no_hinting",  # letters are as wide at any size
    "path.simplify": False,  # every point that was computed is drawn
    "svg.fonttype": "path",
}


@dataclass(frozen=True)
class Drawing:
    """A picture of a step: its ``name`` is fit for a file and for ids, ``words`` tell in a sentence what it shows.

    ``image`` is the text of an SVG or the bytes of a PNG; None where nothing can be drawn, and ``words`` say why.
    ``broken`` is set where that is the mistake of a plugin.
    """

    name: str
    step: str
    title: str
    words: str
    image: str | bytes | None
    broken: bool = False


def drawings(walked: Walk, verdict: Verdict, form: str = "svg", step: str | None = None) -> Iterator[Drawing]:
    """The pictures of a forecast in order, or those of one step, each drawn when it is asked for, as svg or png.

    Over each stands which recipe it is of, and of one that must not be tried, that it must not.
    A picture has the same name whether or not the others are drawn. UsageError where matplotlib is not installed.
    """
    of = "".join(f" · {word}" for word in _recipe(walked))
    warning = f"{verdict.words.upper()} · " if verdict.exit_status else ""
    for number, made in enumerate(pictures(walked), start=1):
        if step is not None and step != made.step:
            continue
        name = f"{number:02d}-{_slug(made.title)}"
        picture = replace(made, title=f"{warning}{made.title}{of}")
        image = None if picture.curves is None else image_of(picture, name, form)
        yield Drawing(name, picture.step, picture.title, picture.words, image, picture.broken)


def _recipe(walked: Walk) -> Iterator[str]:
    """The recipe's id and revision, as a picture goes from hand to hand alone."""
    for case in walked.cases[:1]:
        told = [case.recipe.raw(("header", key)) for key in ("id", "revision")]
        yield from (printable(shortened(word, LONGEST_ID)) for word in told if isinstance(word, str))


def image_of(picture: Picture, name: str, form: str) -> str | bytes:
    """The SVG (text) or PNG (bytes) of a picture that has curves; ids in it start with ``picture-`` and ``name``."""
    with style(name):
        figure = drawn(picture)
        if form == "png":
            dots = BytesIO()
            figure.savefig(dots, format="png", dpi=DOTS, metadata={"Software": None})
            return dots.getvalue()
        text = StringIO()
        figure.savefig(text, format="svg")
        return svg.fit(text.getvalue(), f"picture-{name}", picture.title, picture.words, (WIDE, HIGH))


def drawn(picture: Picture) -> Figure:
    """The figure of a picture that has curves; to be called and saved within `style`."""
    from recipes_core.report.axes import fill

    if picture.curves is None:
        raise LookupError(f"there is nothing to draw: {picture.words}")
    from matplotlib.figure import Figure

    figure = Figure(figsize=(WIDE / INCH, HIGH / INCH), dpi=72, facecolor="white")
    fill(figure, in_font(picture.title), picture.curves)
    return figure


@contextmanager
def style(name: str) -> Iterator[None]:
    """matplotlib with our typeface and nothing that a settings file of the machine says; ids are made from ``name``."""
    try:
        import matplotlib
        from matplotlib import font_manager
    except ImportError as error:
        raise UsageError(NOT_INSTALLED) from error
    if FAMILY not in {font.name for font in font_manager.fontManager.ttflist}:
        for face in (REGULAR, BOLD):
            font_manager.fontManager.addfont(face)
    with matplotlib.rc_context(), warnings.catch_warnings():
        warnings.simplefilter("ignore", matplotlib.MatplotlibDeprecationWarning)
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(_STYLE | {"svg.hashsalt": name})
        yield


def in_font(text: str) -> str:
    """The text with every character that the typeface lacks shown as an escape: no other typeface is used."""
    return escaped(text, lambda character: ord(character) in _characters())


@cache
def _characters() -> Any:
    from matplotlib.ft2font import FT2Font

    return FT2Font(str(REGULAR)).get_charmap().keys()


def _slug(title: str) -> str:
    """Small letters, digits and hyphens: what no file system and no page can misread."""
    return re.sub(r"[^a-z0-9]+", "-", title.lower())[:60].strip("-")
