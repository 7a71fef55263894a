"""Where labels go: free places first, never on one another where that can be had, always the same."""

from __future__ import annotations

import numpy as np
import pytest

from recipes_core.report.labels import GAP, Box, Place, Scene, along, beside, best, rows

FRAME = Box(0.0, 0.0, 400.0, 200.0)
X = np.arange(0.0, 400.0, 3.0)
RISING = np.column_stack([X, X / 2.0])
FLAT = np.column_stack([X, np.full(len(X), 20.0)])
SCENE = Scene(FRAME, [RISING, FLAT], [100.0], [300.0])


def clear(place: Place, curve: np.ndarray) -> bool:
    """Whether no point of a curve is under the label."""
    box, (x, y) = place.box, curve.T
    return not np.any((box.left < x) & (x < box.left + box.width) & (box.bottom < y) & (y < box.bottom + box.height))


def test_boxes() -> None:
    """Those that touch do not overlap."""
    box = Box(10.0, 10.0, 20.0, 10.0)
    assert box.overlaps(Box(29.0, 19.0, 5.0, 5.0))
    assert not box.overlaps(Box(30.0, 10.0, 5.0, 5.0))
    assert not box.overlaps(Box(10.0, 20.0, 5.0, 5.0))
    assert box.inside(FRAME)
    assert not Box(390.0, 10.0, 20.0, 10.0).inside(FRAME)
    assert not Box(10.0, 195.0, 20.0, 10.0).inside(FRAME)


def test_a_limit_is_named_on_its_line_clear_of_the_curves() -> None:
    """At the free end, without a leader; at the other end where a curve or a label is in the way."""
    first = best(SCENE, along(SCENE, 80.0, 10.0, 100.0), [])
    assert first.leader is None
    assert first.box.bottom == pytest.approx(100.0 + GAP / 2)
    assert first.box.left < 10.0
    second = best(SCENE, along(SCENE, 80.0, 10.0, 100.0), [first.box, Box(0.0, 80.0, 90.0, 19.0)])
    assert not second.box.overlaps(first.box)
    assert clear(second, RISING)


def test_a_curve_is_named_beside_it() -> None:
    """Near it, on no other curve, limit, mark or label."""
    taken = [Box(0.0, 110.0, 400.0, 90.0)]
    for own, curve in enumerate(SCENE.curves):
        place = best(SCENE, beside(SCENE, 60.0, 10.0, curve), taken, own)
        box = place.box
        assert all(clear(place, other) for other in SCENE.curves)
        assert not box.overlaps(taken[0])
        assert not box.bottom < 100.0 < box.bottom + box.height
        assert not box.left < 300.0 < box.left + box.width
        x, y = place.anchor
        assert np.abs(curve - [x, y]).sum(axis=1).min() == 0.0


def test_two_curves_that_run_together_are_told_apart_by_a_leader() -> None:
    """A name between them or beside both would name either; the leader ends on its own."""
    lower = FLAT - np.array([0.0, 4.0])
    scene = Scene(FRAME, [FLAT, lower], [], [])
    place = best(scene, beside(scene, 60.0, 10.0, FLAT), [], 0)
    assert place.leader is not None
    assert place.leader[1] in [tuple(point) for point in FLAT]


def test_the_first_of_equals() -> None:
    """So that the same picture comes out each time."""
    empty = Scene(FRAME, [], [], [])
    places = [Place(Box(x, 50.0, 10.0, 10.0), (x, 50.0)) for x in (5.0, 50.0, 100.0)]
    assert best(empty, places, []) is places[0]
    assert best(empty, places, [places[0].box]) is places[1]


def test_a_place_outside_only_where_there_is_no_other() -> None:
    """A picture too small for its words still has them."""
    outside, inside = Place(Box(395.0, 5.0, 10.0, 10.0), (395.0, 5.0)), Place(Box(5.0, 15.0, 10.0, 10.0), (5.0, 15.0))
    assert best(SCENE, [outside, inside], [inside.box]) is inside
    assert best(SCENE, [outside], []) is outside


@pytest.mark.parametrize(
    ("spans", "wanted"),
    [
        ([(0.0, 10.0), (10.0, 20.0)], [0, 0]),
        ([(0.0, 10.0), (9.0, 20.0)], [0, 1]),
        ([(0.0, 10.0), (5.0, 20.0), (11.0, 14.0)], [0, 1, 0]),
        ([(0.0, 30.0), (5.0, 30.0), (6.0, 30.0), (31.0, 40.0)], [0, 1, 2, 0]),
        ([], []),
    ],
)
def test_rows(spans: list[tuple[float, float]], wanted: list[int]) -> None:
    """Names of marks go into the lowest row that is free there."""
    assert rows(spans) == wanted
