"""Saying less never helps: whatever is deleted, or not known, a sound recipe comes out no better than it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.rules.verdict import Verdict
from tests.suites.judging import ORDER, worse
from tests.suites.operators import deleted, places, replaced

if TYPE_CHECKING:
    from tests.suites.judging import Judge


def test_the_order_of_verdicts() -> None:
    """From the best to the worst."""
    assert set(ORDER) == set(Verdict)
    assert worse(Verdict.WITH_CARE, Verdict.NOTHING_FOUND)
    assert worse(Verdict.NOT_YET, Verdict.WITH_CARE)
    assert worse(Verdict.DO_NOT_TRY, Verdict.NOT_YET)
    assert not worse(Verdict.NOT_YET, Verdict.NOT_YET)


def test_deleting_a_key_never_helps(judge: Judge) -> None:
    """Every key, group and item that is there, one at a time; but for whole steps: that is another recipe."""
    keys = [path for path, _ in places(judge.data) if path[:1] != ("procedure",) or len(path) != 2]
    better = [path for path in keys if judge.better(deleted(judge.data, path), path)]
    assert not better


def test_not_knowing_never_helps(judge: Judge) -> None:
    """Every value and group, one at a time."""
    better = [p for p, _ in places(judge.data) if judge.better(replaced(judge.data, p, "unknown"), p)]
    assert not better


def test_what_is_bad_does_not_get_better_either(judge: Judge) -> None:
    """Every step and every group of the equipment taken out of a recipe that something stands against."""
    bad = replaced(judge.data, ("formula", "feedstock", 0, "past_contents"), "fuel")
    before = judge.of(bad).verdict
    assert before is Verdict.DO_NOT_TRY
    groups = [("equipment", name) for name in judge.data["equipment"]] + [("site",), ("part",), ("header",)]
    better = [path for path in groups if path[0] in bad and worse(before, judge.of(deleted(bad, path)).verdict)]
    assert not better
