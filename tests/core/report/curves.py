"""Curves made by hand, and a reader of drawn SVGs, for the tests of pictures."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any
from xml.etree import ElementTree as Xml

import numpy as np
from matplotlib.axes import Axes

from recipes_core.curves import Curves, Line, Mark, Series
from recipes_core.facts import Fact
from recipes_core.forecast import Walk
from recipes_core.quantities import Dimension
from recipes_core.report.pictures import Picture, told
from recipes_core.work import Work

ICE = 273.15
HOSTILE = "$\\frac{1}{2}$ </title><script>alert(1)</script> --> \x1b[31m \u202e 漢"
X = np.linspace(0.0, 1800.0, 31)
WARMING = 300.0 + 140.0 * (1.0 - np.exp(-X / 500.0))
WARM = Curves(
    title="temperature in the layer",
    x=X,
    across="since noon",
    series=(Series("coldest inside", WARMING, (WARMING - 0.006 * X, WARMING + 0.01 * X)), Series("top", WARMING + 5.0)),
    lines=(Line("molten", 409.15), Line("ceiling", 493.15), Line("liner", 493.15)),
    marks=(Mark("at least", 900.0), Mark("at most", 1500.0)),
)
SHARE = replace(WARM, title="molten share", series=(Series("molten", X / 1800.0),), lines=(), dimension=Dimension.SHARE)
CUT = Curves(
    title="cut",
    x=np.array([0.1, 0.5, 0.9]),
    across="below",
    series=(Series("at least 15 min", np.array([420.0, 410.0, 425.0])),),
    lines=(Line("molten", 409.15),),
    over=Dimension.SHARE,
)


def picture(curves: Curves, step: str = "melt") -> Picture:
    """As a walk would give it."""
    return Picture(step, f"{step}: {curves.title}", f"{step}, {told(curves)}", curves)


def walk_of(case: Any, *values: Any, step: str = "melt") -> Walk:
    """A walk of one step with these curves; a callable is called in the place of the forecast's."""
    makers = tuple(v if callable(v) else (lambda v=v: Fact("curves", "curves", v, "")) for v in values)
    own = replace(case, step=replace(case.step, id=step), curves=makers)
    return Walk((own,), (Work("melt"),), {})


def paths(svg: str, gid: str) -> Iterator[np.ndarray]:
    """The points of each path in the group whose id ends with this, in points from the upper left."""
    groups = [e for e in Xml.fromstring(svg).iter() if e.get("id", "").endswith(gid)]
    assert len(groups) == 1
    for element in groups[0].iter():
        if element.tag.endswith("path"):
            yield np.array([float(n) for n in re.findall(r"-?[\d.]+", element.get("d", ""))]).reshape(-1, 2)


def data(points: np.ndarray, axes: Axes) -> np.ndarray:
    """Points of an SVG (from the upper left) as what the scales of the picture show there."""
    height = float(axes.figure.bbox.height)
    (x0, x1), (y0, y1) = axes.get_xlim(), axes.get_ylim()
    frame = axes.get_position()
    width = float(axes.figure.bbox.width)
    x = x0 + (points[:, 0] / width - frame.x0) / frame.width * (x1 - x0)
    y = y0 + ((height - points[:, 1]) / height - frame.y0) / frame.height * (y1 - y0)
    return np.column_stack([x, y])
