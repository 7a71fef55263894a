"""Where to write beside a curve: each label goes where it covers least, the same in every run."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[Any]

GAP = 2.5
"""Points between a label and the line that it names."""
ROOM = 1.5
"""Points around a label that should be as free as the label itself."""
LABEL, CURVE, OTHER, LINE, LEADER = 1000.0, 4.0, 6.0, 8.0, 0.3
"""How bad it is to lie on another label; on a curve, or near another one than its own (each point of it); on a limit
or mark; and to need a leader (each point of its length)."""
FAR = (0.0, 9.0, 20.0, 34.0)
"""Points that a curve's label may be away from it."""


class Box(NamedTuple):
    """A rectangle in points, from the lower left."""

    left: float
    bottom: float
    width: float
    height: float

    def overlaps(self, other: Box) -> bool:
        """Whether the two share any area."""
        beside = self.left >= other.left + other.width or other.left >= self.left + self.width
        above = self.bottom >= other.bottom + other.height or other.bottom >= self.bottom + self.height
        return not (beside or above)

    def inside(self, frame: Box) -> bool:
        """Whether all of it lies within the frame."""
        right, top = self.left + self.width, self.bottom + self.height
        across = frame.left <= self.left and right <= frame.left + frame.width
        return across and frame.bottom <= self.bottom and top <= frame.bottom + frame.height


class Place(NamedTuple):
    """Where a label may stand, and the point of what it names."""

    box: Box
    anchor: tuple[float, float]

    @property
    def leader(self) -> tuple[tuple[float, float], tuple[float, float]] | None:
        """The line from the label to what it names; None where it stands so near that it needs none."""
        (x, y), box = self.anchor, self.box
        end = min(max(x, box.left), box.left + box.width), min(max(y, box.bottom), box.bottom + box.height)
        return (end, self.anchor) if np.hypot(end[0] - x, end[1] - y) > 2.0 * GAP else None


class Scene(NamedTuple):
    """What a label should not cover, in points: the frame, the curves (points, 2), heights of limits, marks' places."""

    frame: Box
    curves: Sequence[Array]
    heights: Sequence[float]
    places: Sequence[float]


def along(scene: Scene, width: float, height: float, line: float) -> list[Place]:
    """Where the label of a limit may stand: above or under its line, near an end first; further off with a leader."""
    frame, found = scene.frame, []
    for far in (0.0, *FAR[2:]):
        for share in (0.005, 0.995, 0.2, 0.8, 0.4, 0.6):
            left = frame.left + share * (frame.width - width)
            for bottom in (line + GAP / 2 + far, line - GAP / 2 - height - far):
                found.append(Place(Box(left, bottom, width, height), (left + share * width, line)))
    return found


def beside(scene: Scene, width: float, height: float, curve: Array) -> list[Place]:
    """Where the label of a curve may stand: on either side of it, all the way, near it or further off."""
    found = []
    for x, y in curve[len(curve) // 50 :: max(1, len(curve) // 25)]:
        for far in FAR:
            for left in (x + GAP + far, x - GAP - far - width, x - width / 2):
                for bottom in (y + GAP + far, y - GAP - far - height):
                    found.append(Place(Box(left, bottom, width, height), (float(x), float(y))))
    return found


def best(scene: Scene, candidates: Sequence[Place], taken: Sequence[Box], own: int | None = None) -> Place:
    """The candidate that covers least; the first of equals. ``own`` is the curve that it names."""
    within = [place for place in candidates if place.box.inside(scene.frame)] or list(candidates)
    return within[int(np.argmin(_costs(scene, within, taken, own)))]


def rows(places: Sequence[tuple[float, float]]) -> list[int]:
    """The row for each label (left, right) so that none overlaps another in its row; 0 is nearest the picture."""
    ends: list[float] = []
    found = []
    for left, right in places:
        row = next((i for i, end in enumerate(ends) if end <= left), len(ends))
        ends[row:] = [right, *ends[row + 1 :]]
        found.append(row)
    return found


def _costs(scene: Scene, places: Sequence[Place], taken: Sequence[Box], own: int | None) -> Array:
    """How bad each place is, (places,)."""
    boxes = np.array([place.box for place in places])
    costs = np.zeros(len(places))
    for other in taken:
        costs += LABEL * np.array([place.box.overlaps(other) for place in places])
    left, bottom, right, top = boxes[:, 0], boxes[:, 1], boxes[:, 0] + boxes[:, 2], boxes[:, 1] + boxes[:, 3]
    for y in scene.heights:
        costs += LINE * ((bottom - 1.0 < y) & (y < top + 1.0))
    for x in scene.places:
        costs += LINE * ((left - 1.0 < x) & (x < right + 1.0))
    leaders = [place.leader for place in places]
    led = np.array([leader is not None for leader in leaders])
    for index, curve in enumerate(scene.curves):
        costs += CURVE * _within(curve, boxes, ROOM)
        if own is not None and index != own:
            costs += OTHER * _within(curve, boxes, 3.0 * GAP) * ~led
    if led.any():
        costs[led] += _of_leaders(scene, np.array([leader for leader in leaders if leader is not None]), taken, own)
    return costs


def _of_leaders(scene: Scene, ends: Array, taken: Sequence[Box], own: int | None) -> Array:
    """How bad leaders (leaders, 2, 2) are: one should be short, and meet nothing on its way."""
    ways = np.linspace(ends[:, 0], ends[:, 1], 12, axis=1)
    x, y = ways[..., 0], ways[..., 1]
    costs = LEADER * (10.0 + np.hypot(*(ends[:, 1] - ends[:, 0]).T))
    for height in scene.heights:
        costs += LINE * ((y.min(axis=1) + 1.0 < height) & (height < y.max(axis=1) - 1.0))
    for box in taken:
        across = (box.left < x) & (x < box.left + box.width)
        costs += LABEL * np.any(across & (box.bottom < y) & (y < box.bottom + box.height), axis=1)
    for index, curve in enumerate(scene.curves):
        if index != own:
            costs += OTHER * np.count_nonzero(np.abs(np.interp(x, *curve.T) - y) < GAP, axis=1)
    return np.asarray(costs)


def _within(curve: Array, boxes: Array, margin: float) -> Array:
    """How many points of a curve lie in each of the boxes (boxes, 4), or so near to it."""
    left, bottom, width, height = (column[:, None] for column in boxes.T)
    x, y = curve.T
    across = (left - margin < x) & (x < left + width + margin)
    return np.asarray(np.count_nonzero(across & (bottom - margin < y) & (y < bottom + height + margin), axis=1))
