"""The work between two steps: what a step does not change is handed on."""

from __future__ import annotations

from dataclasses import fields

from recipes_core.facts import Given, Open, Origin, Source, missing
from recipes_core.work import NOTHING, Work


def test_work_starts_with_nothing_and_asks_nobody() -> None:
    """What no step left is open without a question: the rule on joins speaks of it."""
    work = Work("flake")
    left = [getattr(work, f.name) for f in fields(Work) if f.name not in ("form", "melts")]
    assert left
    assert all(value is NOTHING for value in left)
    assert isinstance(NOTHING, Open)
    assert {question for _, question in NOTHING.needs} == {""}
    assert work.melts == 0


def test_after_changes_what_is_named_and_keeps_the_rest() -> None:
    """And the work before is as it was."""
    charge = Given(0.375, "375 g", Origin(Source.RECIPE))
    before = Work("charge", charge=charge, melts=1)
    after = before.after("melt", aged=missing(("x",), "?"), melts=2)
    assert (after.form, after.charge, after.melts) == ("melt", charge, 2)
    assert after.aged == missing(("x",), "?")
    assert (before.form, before.aged, before.melts) == ("charge", NOTHING, 1)
