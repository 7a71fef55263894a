"""The verdict: what stands decides, what was not checked comes next, and no word promises safety."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.findings import Finding, Kind, Level
from recipes_core.rules.verdict import Verdict, exit_status, verdict

ANY = st.builds(
    Finding,
    rule=st.sampled_from(["some-rule", "question", "check-did-not-run", "forecast-did-not-run"]),
    level=st.sampled_from(Level),
    kind=st.sampled_from(Kind),
    message=st.just(""),
    absolute=st.booleans(),
)


def found(level: Level, kind: Kind, absolute: bool = False, rule: str = "some-rule") -> Finding:
    """A finding of this weight."""
    return Finding(rule, level, kind, "", absolute=absolute)


def test_nothing_found() -> None:
    """Nothing at all, passed checks and mere notes leave nothing against a recipe."""
    assert verdict([]) is Verdict.NOTHING_FOUND
    assert verdict([found(Level.NOTE, Kind.FAIL), found(Level.ERROR, Kind.PASS)]) is Verdict.NOTHING_FOUND


@pytest.mark.parametrize("kind", [Kind.FAIL, Kind.OPEN])
def test_a_warning_or_a_question_wants_care(kind: Kind) -> None:
    """An open question is never a pass."""
    assert verdict([found(Level.WARNING, kind)]) is Verdict.WITH_CARE


def test_what_must_be_answered_or_did_not_run_is_not_yet() -> None:
    """A question of an absolute rule, a check and a forecast that did not run."""
    for one in (
        found(Level.ERROR, Kind.OPEN, absolute=True),
        found(Level.ERROR, Kind.REVIEW, rule="check-did-not-run"),
        found(Level.ERROR, Kind.REVIEW, rule="forecast-did-not-run"),
    ):
        assert verdict([one, found(Level.WARNING, Kind.FAIL)]) is Verdict.NOT_YET


@given(st.lists(ANY))
def test_an_error_stands_whatever_else_is_there(others: list[Finding]) -> None:
    """Before, behind and between any other findings."""
    error = found(Level.ERROR, Kind.FAIL)
    assert verdict([*others, error]) is verdict([error, *others]) is Verdict.DO_NOT_TRY


@given(st.lists(ANY), ANY)
def test_one_more_finding_never_makes_it_better(some: list[Finding], more: Finding) -> None:
    """In the order nothing found, care, not yet, do not try."""
    order = [Verdict.NOTHING_FOUND, Verdict.WITH_CARE, Verdict.NOT_YET, Verdict.DO_NOT_TRY]
    assert order.index(verdict([*some, more])) >= order.index(verdict(some))


def test_statuses() -> None:
    """Each verdict has its own; only the two that leave a recipe to try are a success."""
    assert {v: v.exit_status for v in Verdict} == {
        Verdict.NOTHING_FOUND: 0,
        Verdict.WITH_CARE: 0,
        Verdict.NOT_YET: 3,
        Verdict.DO_NOT_TRY: 1,
        Verdict.UNUSABLE: 2,
    }
    assert exit_status([]) == 0


@pytest.mark.parametrize(("one", "other"), list(product(Verdict, Verdict)))
def test_over_several_recipes_the_worst_status_counts(one: Verdict, other: Verdict) -> None:
    """2 wins over 1, 1 over 3, 3 over 0."""
    weight = [0, 3, 1, 2]
    worst = max(one.exit_status, other.exit_status, key=weight.index)
    assert exit_status([one, other]) == exit_status([other, one]) == worst


def test_no_verdict_promises_anything() -> None:
    """Nothing is safe, approved or certified here."""
    assert not any(word in v.words for v in Verdict for word in ("safe", "approve", "certif", "pass", "ok"))
