"""Drawings: the same bytes every time, in our typeface and style alone, with every text as text."""

from __future__ import annotations

import re
import sys
import warnings
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as Xml

import matplotlib
import numpy as np
import pytest
from PIL import Image

from recipes_core.errors import UsageError
from recipes_core.facts import missing
from recipes_core.fonts import FAMILY
from recipes_core.report.plots import DOTS, HIGH, INCH, WIDE, Drawing, drawings, drawn, image_of, in_font, style
from recipes_core.rules.verdict import Verdict
from tests.core.report.curves import CUT, HOSTILE, SHARE, WARM, picture, walk_of

if TYPE_CHECKING:
    from tests.conftest import Shop

    Made = Callable[..., list[Drawing]]


@pytest.fixture
def made(shop: Shop) -> Made:
    """The drawings of a step with these curves."""

    def make(
        *values: Any,
        form: str = "svg",
        step: str = "melt",
        only: str | None = None,
        verdict: Verdict = Verdict.NOTHING_FOUND,
    ) -> list[Drawing]:
        return list(drawings(walk_of(shop.case(step="melt"), *values, step=step), verdict, form, only))

    return make


def test_a_drawing_of_each_picture(made: Made) -> None:
    """Named by number, step and title; what cannot be drawn has its words and no image."""
    found = made(WARM, missing(("a",), "How hot?"), CUT)
    assert [d.name for d in found] == ["01-melt-temperature-in-the-layer", "02-melt-cut", "03-melt"]
    assert [d.image is None for d in found] == [False, False, True]
    assert found[2].words.endswith("How hot?")
    assert found[0].words in str(found[0].image)


@pytest.mark.parametrize("verdict", Verdict)
def test_a_picture_of_what_must_not_be_tried_says_so_in_itself(made: Made, verdict: Verdict) -> None:
    """Its file may be printed, or sent on, without a word."""
    (drawing,) = made(WARM, verdict=verdict)
    assert drawing.title.startswith(f"{verdict.words.upper()} · ") == bool(verdict.exit_status)
    assert f">{drawing.title}<" in str(drawing.image)


def test_a_picture_says_which_recipe_it_is_of(made: Made, shop: Shop) -> None:
    """It goes from hand to hand alone; the name of its file stays short."""
    (drawing,) = made(WARM)
    assert drawing.title == f"melt: temperature in the layer · {shop.case(step='melt').recipe.id}"
    assert drawing.name == "01-melt-temperature-in-the-layer"


def test_only_one_step(made: Made) -> None:
    """By its id."""
    assert len(made(WARM, only="melt")) == 1
    assert made(WARM, only="press") == []


@pytest.mark.parametrize("curves", [WARM, SHARE, CUT], ids=["time", "share", "cut"])
@pytest.mark.parametrize("form", ["svg", "png"])
def test_the_same_bytes_every_time(curves: Any, form: str) -> None:
    """No date, no random id."""
    one, other = (image_of(picture(curves), "a", form) for _ in range(2))
    assert one == other


def test_ids_differ_between_drawings_and_nothing_reaches_out(made: Made) -> None:
    """All of them may go into one page."""
    ids: list[str] = []
    for drawing in made(WARM, WARM, CUT):
        assert isinstance(drawing.image, str)
        root = Xml.fromstring(drawing.image)
        own = [e.get("id", "") for e in root.iter() if e.get("id")]
        assert len(own) == len(set(own))
        assert all(name.startswith(f"picture-{drawing.name}-") for name in own)
        ids += own
        for element in root.iter():
            assert not element.tag.endswith(("script", "style", "image", "foreignObject"))
            for key, value in element.attrib.items():
                assert not key.startswith("on")
                if key.endswith("href"):
                    assert value[1:] in own
                for target in re.findall(r"url\(([^)]*)\)", value):
                    assert target[1:] in own
        assert "font-family" not in drawing.image
    assert len(ids) == len(set(ids))


def test_the_size() -> None:
    """As wide as a page's text, in both forms."""
    root = Xml.fromstring(str(image_of(picture(WARM), "a", "svg")))
    assert (root.get("width"), root.get("height")) == ("180mm", "100mm")
    dots = image_of(picture(WARM), "a", "png")
    assert isinstance(dots, bytes)
    image = Image.open(BytesIO(dots))
    assert image.size == pytest.approx((WIDE / INCH * DOTS, HIGH / INCH * DOTS), abs=1)
    assert image.info.keys() <= {"dpi"}


def test_a_png_is_grey() -> None:
    """A printer without colour loses nothing."""
    dots = image_of(picture(WARM), "a", "png")
    assert isinstance(dots, bytes)
    pixels = np.asarray(Image.open(BytesIO(dots)).convert("RGB"))
    assert len(np.unique(pixels)) > 10
    assert np.all(pixels == pixels[:, :, :1])


def test_hostile_text_is_text(made: Made) -> None:
    """No formula, no markup, no character that the typeface lacks, and no warning about one."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        (svg,) = made(replace(WARM, title=HOSTILE), step=HOSTILE)
        (png,) = made(replace(WARM, title=HOSTILE), step=HOSTILE, form="png")
    assert isinstance(svg.image, str)
    assert isinstance(png.image, bytes)
    assert re.fullmatch("[a-z0-9-]+", svg.name)
    root = Xml.fromstring(svg.image)
    assert "script" not in {e.tag.rpartition("}")[2] for e in root.iter()}
    with style("a"):
        title = drawn(picture(WARM, step="a $\\frac{1}{2}$ 漢")).texts[0]
        assert title.get_text() == "a $\\frac{1}{2}$ \\u6f22: temperature in the layer"
        assert not title.get_parse_math()


def test_text_is_in_the_bundled_typeface() -> None:
    """Titles, labels and numbers; nothing falls back to what the machine has."""
    with style("a"):
        figure = drawn(picture(WARM))
        axes = figure.axes[0]
        for text in [*figure.texts, *axes.texts, *axes.get_xticklabels(), axes.xaxis.label]:
            assert text.get_fontfamily() == [FAMILY]
            from matplotlib.font_manager import findfont

            assert Path(findfont(text.get_fontproperties(), fallback_to_default=False)).name in (
                "regular.ttf",
                "bold.ttf",
            )


def test_what_the_typeface_lacks() -> None:
    """Is shown as an escape; what it has stays."""
    assert in_font("°C × – é ½") == "°C × – é ½"
    assert in_font("漢") == "\\u6f22"


def test_settings_of_the_machine_change_nothing() -> None:
    """Whatever a settings file says; and what was set before is set again afterwards."""
    usual = image_of(picture(WARM), "a", "svg")
    odd: Any = {"axes.facecolor": "red", "font.size": 30.0, "svg.fonttype": "none", "text.usetex": True}
    with matplotlib.rc_context(odd):
        assert image_of(picture(WARM), "a", "svg") == usual
        assert matplotlib.rcParams["font.size"] == 30.0


def test_without_matplotlib(made: Made, monkeypatch: pytest.MonkeyPatch) -> None:
    """One sentence that says what to do."""
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    with pytest.raises(UsageError, match=r"matplotlib, which is not installed: pip install 'meltbook\[plots\]'"):
        made(WARM)


def test_nothing_to_draw_is_a_mistake_of_the_caller() -> None:
    """It is asked for before."""
    with style("a"), pytest.raises(LookupError, match="nothing to draw"):
        drawn(replace(picture(WARM), curves=None))
