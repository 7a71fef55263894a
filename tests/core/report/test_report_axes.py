"""What is drawn is what was computed: read back from the lines of the figure, and from the paths of the SVG."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from recipes_core import app
from recipes_core.curves import Curves, Line, Mark, Series
from recipes_core.report.axes import SPREAD
from recipes_core.report.pictures import Picture, pictures
from recipes_core.report.plots import drawn, image_of, style
from recipes_core.shelf import shelf
from tests.core.report.curves import CUT, ICE, SHARE, WARM, data, paths, picture

if TYPE_CHECKING:
    from matplotlib.figure import Figure
    from matplotlib.text import Text

FOLDER = Path(__file__).parents[3] / "recipes"


@pytest.fixture(autouse=True)
def styled() -> Iterator[None]:
    """Figures are made and read in the style of ours."""
    with style("test"):
        yield


def lines(figure: Figure) -> dict[str, np.ndarray]:
    """The lines of the picture by the names that the SVG gives them, as what the scales show."""
    found = {str(line.get_gid()): np.column_stack(line.get_data()) for line in figure.axes[0].lines if line.get_gid()}
    return {name: points.astype(float) for name, points in found.items()}


def shown(curves: Curves, series: Series) -> np.ndarray:
    """Minutes against degrees Celsius, or percent."""
    x = curves.x / 60.0 if curves.over == "time" else curves.x * 100.0
    up = (lambda v: v * 100.0) if curves.dimension == "share" else (lambda v: v - ICE)
    return np.column_stack([x, up(series.nominal)])


@pytest.mark.parametrize("curves", [WARM, SHARE, CUT], ids=["time", "share", "cut"])
def test_the_figure_holds_the_series(curves: Curves) -> None:
    """Every point of every series, and nothing between."""
    found = lines(drawn(picture(curves)))
    for i, series in enumerate(curves.series):
        assert found[f"curve-{i}"] == pytest.approx(shown(curves, series))
    assert sum(name.startswith("curve") for name in found) == len(curves.series)


def test_the_svg_holds_the_series_and_the_band() -> None:
    """Its paths, led back through the scales, are the forecast's numbers; the band's outline is its two ends."""
    svg = image_of(picture(WARM), "p", "svg")
    assert isinstance(svg, str)
    axes = drawn(picture(WARM)).axes[0]
    for i, series in enumerate(WARM.series):
        (points,) = paths(svg, f"curve-{i}")
        assert data(points, axes) == pytest.approx(shown(WARM, series), abs=0.01)
    outline = np.concatenate([data(points, axes) for points in paths(svg, "band-0")])
    low, high = WARM.series[0].band or ((), ())
    for x, *ends in zip(WARM.x / 60.0, np.asarray(low) - ICE, np.asarray(high) - ICE, strict=True):
        here = outline[np.abs(outline[:, 0] - x) < 0.01, 1]
        assert (here.min(), here.max()) == pytest.approx(tuple(ends), abs=0.02)


def test_no_point_of_a_long_curve_is_left_out() -> None:
    """Also where many lie nearly on a line."""
    x = np.linspace(0.0, 1800.0, 800)
    dense = replace(WARM, x=x, series=(Series("slow", 300.0 + 0.05 * x),))
    (points,) = paths(str(image_of(picture(dense), "p", "svg")), "curve-0")
    assert len(points) == 800


def test_limits_and_marks_stand_at_their_values() -> None:
    """Across and down the whole picture."""
    found = lines(drawn(picture(WARM)))
    for i, line in enumerate(WARM.lines):
        assert found[f"limit-{i}"][:, 1] == pytest.approx([line.value - ICE] * 2)
    for i, mark in enumerate(WARM.marks):
        assert found[f"mark-{i}"][:, 0] == pytest.approx([mark.time / 60.0] * 2)


def texts(figure: Figure) -> list[Text]:
    """All texts that are to be read, but for the numbers of the scales."""
    return [t for t in [*figure.texts, *figure.axes[0].texts] if t.get_text()]


def test_everything_bears_its_name_in_both_units() -> None:
    """Series in bold, limits with their value, marks with their time; two limits that are one line share a label."""
    words = [t.get_text() for t in texts(drawn(picture(WARM)))]
    assert "coldest inside" in words
    assert "top" in words
    assert "molten 136 °C (277 °F)" in words
    assert "ceiling, liner 220 °C (428 °F)" in words
    assert {"at least 15 min", "at most 25 min"} <= set(words)
    assert {"°C", "°F"} <= set(words)
    assert {"°C", "°F"} & {t.get_text() for t in texts(drawn(picture(SHARE)))} == set()


def test_the_right_scale_is_the_left_one_in_fahrenheit() -> None:
    """At both ends."""
    figure = drawn(picture(WARM))
    figure.canvas.draw()
    (other,) = figure.axes[0].child_axes
    assert np.array(other.get_ylim()) == pytest.approx(np.array(figure.axes[0].get_ylim()) * 1.8 + 32.0)


def test_the_hatching_is_explained_where_there_is_some() -> None:
    """And nowhere else."""
    bare = replace(WARM, series=tuple(replace(series, band=None) for series in WARM.series))
    assert SPREAD in drawn(picture(WARM)).axes[0].get_xlabel()
    assert drawn(picture(bare)).axes[0].get_xlabel() == "minutes since noon"


@pytest.mark.parametrize(("end", "unit", "last"), [(4 * 3600.0, "minutes", 240.0), (5 * 3600.0, "hours", 5.0)])
def test_a_long_clock_is_told_in_hours(end: float, unit: str, last: float) -> None:
    """From four hours on."""
    curves = replace(WARM, x=WARM.x * end / WARM.x[-1], marks=())
    figure = drawn(picture(curves))
    assert figure.axes[0].get_xlabel() == f"{unit} since noon · {SPREAD}"
    assert lines(figure)["curve-0"][-1, 0] == pytest.approx(last)


def test_a_mark_beyond_the_curve_is_in_the_picture() -> None:
    """The scale reaches to it, the curve does not."""
    figure = drawn(picture(replace(WARM, marks=(Mark("opened", 3600.0),))))
    assert figure.axes[0].get_xlim()[1] > 60.0
    assert lines(figure)["curve-0"][-1, 0] == pytest.approx(30.0)


def test_nothing_is_told_by_colour() -> None:
    """Black, white and grey; curves differ in their dashes, bands in their hatches."""
    many = replace(WARM, series=tuple(Series(f"s{i}", WARM.series[0].nominal + 9.0 * i, (WARM.series[0].nominal,
        WARM.series[0].nominal + 9.0 * i)) for i in range(5)))  # fmt: skip
    figure = drawn(picture(many))
    axes = figure.axes[0]
    from matplotlib.colors import to_rgb

    colours = [line.get_color() for line in axes.lines] + [t.get_color() for t in texts(figure)]
    assert all(len(set(to_rgb(colour))) == 1 for colour in colours)
    curves: Any = [line for line in axes.lines if str(line.get_gid()).startswith("curve")]
    dashes = {repr(line._dash_pattern) for line in curves}
    assert len(dashes) == 5
    assert len({band.get_hatch() for band in axes.collections}) == 5


def numbers(axis: Any) -> list[Text]:
    """The numbers of a scale that are seen: it makes some that lie beyond its ends."""
    low, high = sorted(axis.get_view_interval())
    return [tick.label1 if tick.label1.get_visible() else tick.label2 for tick in axis.get_major_ticks()
            if low <= tick.get_loc() <= high]  # fmt: skip


CHOSEN = ("hdpe/coat-hook.yaml", "hdpe/planed-block.yaml", "hips/label-sheet.yaml", "pmma/leaflet-stand.yaml")


@pytest.fixture(scope="module")
def shipped() -> list[Picture]:
    """The pictures of a bent part, a thick one, a pressed sheet and a thin bent sheet."""
    having = shelf()
    walks = [app.forecast(FOLDER / name, date(2026, 11, 26), having)[0] for name in CHOSEN]
    return [p for walk in walks for p in pictures(walk) if p.curves]


def test_no_label_lies_on_another_or_leaves_the_picture(shipped: list[Picture]) -> None:
    """Of the shipped recipes named above: titles, units, limits, curves and marks, and the numbers of both scales."""
    assert len(shipped) > 20
    for one in shipped:
        figure = drawn(one)
        figure.canvas.draw()
        axes = figure.axes[0]
        ticks = [t for a in (axes.xaxis, axes.yaxis, *(c.yaxis for c in axes.child_axes)) for t in numbers(a)]
        boxes = [(t.get_text(), t.get_window_extent()) for t in [*texts(figure), *ticks, axes.xaxis.label]]
        for i, (word, box) in enumerate(boxes):
            assert box.x0 >= 0.0 and box.y0 >= 0.0, f"{one.title}: {word}"  # noqa: PT018
            assert box.x1 <= figure.bbox.x1 and box.y1 <= figure.bbox.y1, f"{one.title}: {word}"  # noqa: PT018
            others = [other for other, b in boxes[:i] if box.overlaps(b)]
            assert others == [], f"{one.title}: {word}"


@pytest.mark.parametrize("step", ["W" * 60, "i" * 60, "\\u6f22" * 60, "melt"])
def test_a_long_title_is_cut_at_the_edge(step: str) -> None:
    """It says that it was; a short one is whole."""
    figure = drawn(picture(WARM, step=step))
    title = figure.texts[0]
    assert title.get_window_extent().x1 < figure.bbox.x1
    whole = f"{step}: temperature in the layer"
    assert title.get_text() == whole or (title.get_text().endswith("…") and whole.startswith(title.get_text()[:-1]))
    assert ("…" in title.get_text()) == (step not in ("melt", "i" * 60))


def test_limits_that_crowd_are_all_named() -> None:
    """Eight limits two kelvin apart: each label is there, none on another."""
    crowd = replace(WARM, lines=tuple(Line(f"limit {i}", 400.0 + 2.0 * i) for i in range(8)))
    figure = drawn(picture(crowd))
    boxes = [t.get_window_extent() for t in texts(figure) if t.get_text().startswith("limit")]
    assert len(boxes) == 8
    assert not any(one.overlaps(other) for i, one in enumerate(boxes) for other in boxes[:i])
