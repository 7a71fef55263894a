"""One picture laid out: curves with their bands, limits and marks, two scales, and a name beside every line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.ticker import MaxNLocator

from recipes_core.quantities import Dimension, show
from recipes_core.report.labels import GAP, Box, Place, Scene, along, beside, best, rows

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.text import Text
    from numpy.typing import NDArray

    from recipes_core.curves import Curves

    Array = NDArray[Any]

ICE = 273.15
DASHES: tuple[Any, ...] = ("-", (0, (5, 2)), (0, (1.5, 1.5)), (0, (7, 2, 1.5, 2)), (0, (7, 2, 1.5, 2, 1.5, 2)))
WIDTHS = (1.7, 1.2, 1.2, 1.2, 1.2)
HATCHES = ("//////", "\\\\\\\\\\", "----", "||||", "++++")
SPREAD = "hatched: nine of ten plausible shops"
LONG = 4 * 3600.0
"""From here on, s, the clock is told in hours."""
LEFT, RIGHT, BOTTOM, TOP = 0.075, 0.925, 0.115, 0.86
"""Where the frame lies in the picture."""
ROW = 10.5
"""Height of a row of marks above the frame, points."""
SPACE = 4.0
"""Points between labels that stand side by side."""
PLAIN = {"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.85}


def fill(figure: Figure, title: str, curves: Curves) -> None:
    """Draw the curves into an empty figure."""
    FigureCanvasAgg(figure)  # it measures text
    axes = figure.add_axes((LEFT, BOTTOM, RIGHT - LEFT, TOP - BOTTOM))
    _head(figure, title)
    _scales(axes, curves)
    across, up = scale_across(curves), scale_up(curves)
    x = across(curves.x)
    for i, series in enumerate(curves.series):
        if series.band is not None:
            axes.fill_between(
                x, *(up(end) for end in series.band), hatch=HATCHES[i % len(HATCHES)],
                facecolor="none", edgecolor="0.55", linewidth=0.0, gid=f"band-{i}",
            )  # fmt: skip
    thin: dict[str, Any] = {"color": "0.2", "linewidth": 0.6}
    for i, line in enumerate(curves.lines):
        axes.axhline(up(line.value), linestyle=(0, (1, 2)), gid=f"limit-{i}", **thin)
    for i, mark in enumerate(curves.marks):
        axes.axvline(across(mark.time), linestyle=(0, (6, 3)), gid=f"mark-{i}", **thin)
    for i, series in enumerate(curves.series):
        dash, width = DASHES[i % len(DASHES)], WIDTHS[i % len(WIDTHS)]
        axes.plot(x, up(series.nominal), color="black", linestyle=dash, linewidth=width, gid=f"curve-{i}")
    _name(axes, curves)


def _head(figure: Figure, title: str) -> None:
    """The title, cut where it would run out of the picture."""
    text = figure.text(LEFT, 0.985, title, fontsize=10.5, fontweight="bold", ha="left", va="top")
    room = float(figure.bbox.width) * (1.0 - LEFT) - SPACE
    while (width := _size(text)[0]) > room:
        title = title[: min(int(len(title) * room / width), len(title) - 1)]
        text.set_text(f"{title}…")


def scale_across(curves: Curves) -> Any:
    """From SI to what the lower scale shows: minutes, hours, or percent."""
    if curves.over is Dimension.SHARE:
        return lambda x: x * 100.0
    unit = 3600.0 if _end(curves) > LONG else 60.0
    return lambda x: x / unit


def scale_up(curves: Curves) -> Any:
    """From SI to what the left scale shows: degrees Celsius, or percent."""
    return (lambda y: y * 100.0) if curves.dimension is Dimension.SHARE else (lambda y: y - ICE)


def _end(curves: Curves) -> float:
    return max(float(curves.x[-1]), *(m.time for m in curves.marks), 0.0)


def _scales(axes: Axes, curves: Curves) -> None:
    share = curves.over is Dimension.SHARE
    unit = "% of" if share else "hours" if _end(curves) > LONG else "minutes"
    spread = f" · {SPREAD}" if any(series.band is not None for series in curves.series) else ""
    axes.set_xlabel(f"{unit} {curves.across}{spread}", labelpad=2)
    axes.set_xlim(0.0, 100.0 if share else scale_across(curves)(_end(curves)) * 1.005)
    axes.xaxis.set_major_locator(MaxNLocator(10, steps=[1, 2, 3, 5, 6, 10]))
    axes.tick_params(width=0.6, length=3)
    heights = [end for s in curves.series for end in (s.nominal, *(s.band or ()))]
    heights.append(np.array([line.value for line in curves.lines]))
    low, high = min(float(h.min()) for h in heights if h.size), max(float(h.max()) for h in heights if h.size)
    up = scale_up(curves)
    axes.yaxis.set_major_locator(MaxNLocator(8, steps=[1, 2, 5, 10]))
    if curves.dimension is Dimension.SHARE:
        axes.set_ylim(-2.0, 104.0)
        _unit(axes, "%", LEFT, "right")
        return
    margin = 0.05 * max(high - low, 10.0)
    axes.set_ylim(up(low - margin), up(high + 1.5 * margin))
    other = axes.secondary_yaxis("right", functions=(_fahrenheit, _celsius))
    other.yaxis.set_major_locator(MaxNLocator(8, steps=[1, 2, 5, 10]))
    other.tick_params(width=0.6, length=3)
    _unit(axes, "°C", LEFT, "right")
    _unit(axes, "°F", RIGHT, "left")


def _fahrenheit(celsius: Any) -> Any:
    return celsius * 1.8 + 32.0


def _celsius(fahrenheit: Any) -> Any:
    return (fahrenheit - 32.0) / 1.8


def _unit(axes: Axes, unit: str, place: float, side: str) -> None:
    shift = -0.015 if side == "right" else 0.015
    axes.figure.text(place + shift, TOP + 0.025, unit, fontweight="bold", ha=side, va="bottom")


def _name(axes: Axes, curves: Curves) -> None:
    """A name beside every line: limits first, as they have the fewest places, then curves, then marks on top."""
    scene, taken = _scene(axes, curves), list[Box]()
    up = scale_up(curves)
    for value, names in _limits(curves).items():
        text = _text(axes, f"{', '.join(names)} {show(value, curves.dimension)}", 7.5)
        height = float(axes.transData.transform((0.0, up(value)))[1])
        taken.append(_put(axes, text, best(scene, along(scene, *_size(text), height), taken)))
    for i, series in enumerate(curves.series):
        text = _text(axes, series.name, 8.5, bold=True)
        taken.append(_put(axes, text, best(scene, beside(scene, *_size(text), scene.curves[i]), taken, i)))
    _name_marks(axes, curves, scene)


def _name_marks(axes: Axes, curves: Curves, scene: Scene) -> None:
    texts = [_text(axes, f"{m.name} {show(m.time, Dimension.TIME)}", 8.0) for m in curves.marks]
    edge = scene.frame.left + scene.frame.width - GAP
    spans = []
    for text, place in zip(texts, scene.places, strict=True):
        width = _size(text)[0]
        left = min(max(place - width / 2, scene.frame.left), edge - width)
        spans.append((left, left + width + 4.0))
    order = sorted(range(len(spans)), key=lambda i: spans[i])
    top = scene.frame.bottom + scene.frame.height
    for i, row in zip(order, rows([spans[i] for i in order]), strict=True):
        width, height = _size(texts[i])
        _move(axes, texts[i], Box(spans[i][0], top + SPACE + ROW * row, width, height))


def _limits(curves: Curves) -> dict[float, list[str]]:
    """Names by value: two limits that are one line share a label."""
    found: dict[float, list[str]] = {}
    for line in curves.lines:
        found.setdefault(line.value, []).append(line.name)
    return found


def _scene(axes: Axes, curves: Curves) -> Scene:
    across, up = scale_across(curves), scale_up(curves)
    window = axes.get_window_extent()
    frame = Box(window.x0 + 2.0, window.y0 + 2.0, window.width - 4.0, window.height - 4.0)
    lines = []
    for series in curves.series:
        points = axes.transData.transform(np.column_stack([across(curves.x), up(series.nominal)]))
        steps = np.arange(points[0, 0], points[-1, 0], 3.0)
        lines.append(np.column_stack([steps, np.interp(steps, points[:, 0], points[:, 1])]))
    heights = [float(axes.transData.transform((0.0, up(line.value)))[1]) for line in curves.lines]
    places = [float(axes.transData.transform((across(mark.time), 0.0))[0]) for mark in curves.marks]
    return Scene(frame, lines, heights, places)


def _text(axes: Axes, words: str, size: float, bold: bool = False) -> Text:
    from recipes_core.report.plots import in_font

    weight = "bold" if bold else "normal"
    return axes.text(0.0, 0.0, in_font(words), fontsize=size, fontweight=weight, ha="left", va="bottom")


def _size(text: Text) -> tuple[float, float]:
    extent = text.get_window_extent()
    return float(extent.width), float(extent.height)


def _put(axes: Axes, text: Text, place: Place) -> Box:
    """Write a label where it may stand, with its leader, and tell what it covers, with a space at either end."""
    _move(axes, text, place.box)
    text.set_bbox(PLAIN)
    if place.leader:
        axes.plot(*axes.transData.inverted().transform(place.leader).T, color="black", linewidth=0.5)
    box = place.box
    return Box(box.left - SPACE, box.bottom, box.width + 2.0 * SPACE, box.height)


def _move(axes: Axes, text: Text, box: Box) -> None:
    text.set_position(tuple(axes.transData.inverted().transform((box.left, box.bottom))))
