"""The engine: rules run in a guard, what is open is asked once a path, and nothing that did not run has passed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core import app
from recipes_core.document import read
from recipes_core.findings import Kind, Level
from recipes_core.rules.engine import DID_NOT_RUN, QUESTION
from recipes_core.rules.rule import Hit, Rule, Scope
from recipes_core.rules.verdict import Verdict, exit_status

if TYPE_CHECKING:
    from collections.abc import Callable

    from recipes_core.app import Linted
    from recipes_core.findings import Path
    from recipes_core.rules.reading import Reading
    from tests.rules.conftest import Bench

    Edit = Callable[[str, str | Path, str], str]


def rule(test: Callable[[Reading], Any], name: str = "toy", *reads: str, **more: Any) -> Rule:
    """A rule for these tests."""
    given = {"level": Level.WARNING, "scope": Scope.RECIPE, "sources": ("judgement",), **more}
    return Rule(name, message="Toy.", checks="toy", why="toy", do="toy", reads=reads, test=test, **given)


def passes(_: Reading) -> list[Hit]:
    """A test that finds nothing."""
    return []


def fails(at: str) -> Callable[[Reading], list[Hit]]:
    """A test that finds something at ``at``."""
    return lambda _: [Hit(at, "found", "limit")]


def raises(_: Reading) -> list[Hit]:
    """A test that goes wrong."""
    raise ZeroDivisionError("nobody expected this")


@pytest.fixture
def judged(bench: Bench) -> Callable[..., Linted]:
    """Lints the base, or a text, with these rules alone."""

    def run(*rules: Rule, text: str | None = None) -> Linted:
        from datetime import date

        document = read(text or bench.bases["base"], "recipe.yaml")
        return app.lint_document(document, date(2026, 6, 1), replace(bench.shelf, rules=rules))

    return run


@pytest.mark.parametrize("absolute", [False, True])
def test_a_rule_that_raises_becomes_a_finding(judged: Callable[..., Linted], absolute: bool) -> None:
    """It names the rule and what went wrong; a recipe without errors is then not yet to be tried, status 3."""
    linted = judged(rule(raises, "broken-check", absolute=absolute), rule(passes, "sound-check"))
    (finding,) = linted.findings
    assert finding.rule == DID_NOT_RUN
    assert finding.kind is Kind.REVIEW
    assert "broken-check" in finding.message
    assert "nobody expected this" in finding.message
    assert linted.passed == 1
    assert linted.verdict is Verdict.NOT_YET
    assert exit_status([linted.verdict]) == 3


def test_an_error_outweighs_a_check_that_did_not_run(judged: Callable[..., Linted]) -> None:
    """Do not try stands, whatever else was not checked."""
    linted = judged(rule(raises, "broken-check"), rule(fails("part.use"), "found-check", level=Level.ERROR))
    assert linted.verdict is Verdict.DO_NOT_TRY
    assert {f.rule for f in linted.findings} == {DID_NOT_RUN, "found-check"}


def test_a_rule_that_yields_no_hit_is_a_crash(judged: Callable[..., Linted]) -> None:
    """A test that answers with anything but a Hit did not run."""
    linted = judged(rule(lambda _: ["too hot"]))
    assert [f.rule for f in linted.findings] == [DID_NOT_RUN]
    assert "not a Hit" in linted.findings[0].message


def test_a_read_that_was_not_declared_is_a_crash(judged: Callable[..., Linted]) -> None:
    """The message names what was read; declared either way, the same rule runs."""

    def peeks(r: Reading) -> list[Hit]:
        return [Hit("part.length")] if r.si("part.length") < 0 else []

    linted = judged(rule(peeks))
    assert [f.rule for f in linted.findings] == [DID_NOT_RUN]
    assert "'part.length'" in linted.findings[0].message
    assert judged(rule(peeks, "toy", "part.length")).passed == 1
    assert judged(rule(peeks, may_read=("part.length",))).passed == 1


def test_open_values_become_one_question_a_path(judged: Callable[..., Linted], bench: Bench, edit: Edit) -> None:
    """It names every rule that it stops, and none of them has passed."""
    text = edit(bench.bases["base"], "equipment.oven.power", "unknown")
    power = "equipment.oven.power"
    linted = judged(rule(passes, "first-check", power), rule(passes, "second-check", power, "part.length"), text=text)
    (question,) = linted.findings
    assert (question.rule, question.kind, question.level) == (QUESTION, Kind.OPEN, Level.WARNING)
    assert question.path == ("equipment", "oven", "power")
    assert "first-check, second-check" in question.why
    assert question.do == "your shop must answer this: write power: and the answer under equipment oven"
    assert linted.passed == 0


@pytest.mark.parametrize(
    ("absolute", "level", "verdict"),
    [(True, Level.ERROR, Verdict.NOT_YET), (False, Level.WARNING, Verdict.WITH_CARE)],
)
def test_what_an_open_value_comes_to(
    judged: Callable[..., Linted], bench: Bench, edit: Edit, absolute: bool, level: Level, verdict: Verdict
) -> None:
    """Under an absolute rule do not try yet, under an ordinary one try with care."""
    text = edit(bench.bases["base"], "equipment.oven.power", "unknown")
    linted = judged(
        rule(passes, "ordinary-check", "equipment.oven.power"),
        rule(passes, "strict-check", "equipment.oven.power", absolute=absolute),
        text=text,
    )
    assert [f.level for f in linted.findings] == [level]
    assert linted.verdict is verdict


def test_an_unsaid_field_is_not_applicable(judged: Callable[..., Linted], bench: Bench, edit: Edit) -> None:
    """Where silence means no, a rule that reads it neither passes nor asks; said to be unknown, it asks."""
    wiring = "equipment.oven.work_on_wiring"
    silent = judged(rule(passes, "toy", wiring))
    assert (silent.findings, silent.passed, silent.not_applicable) == ((), 0, 1)
    doubtful = judged(rule(passes, "toy", wiring), text=edit(bench.bases["base"], wiring, "unknown"))
    assert [f.rule for f in doubtful.findings] == [QUESTION]


def test_a_condition_that_is_not_met_is_not_applicable(judged: Callable[..., Linted]) -> None:
    """A rule whose ``when`` says no is not run, even if it would fail."""
    linted = judged(rule(fails("part.use"), when=lambda _: False))
    assert (linted.findings, linted.passed, linted.not_applicable) == ((), 0, 1)


def test_how_often_a_rule_runs(judged: Callable[..., Linted]) -> None:
    """Once a recipe, once a lot, once for each step that carries one of its marks."""
    assert judged(rule(passes)).passed == 1
    assert judged(rule(passes, scope=Scope.LOT)).passed == 1
    assert judged(rule(passes, scope=Scope.STEP, on=("heats", "fold"))).passed == 3
    assert judged(rule(passes, scope=Scope.STEP, on=("melts",))).passed == 1
    assert judged(rule(passes, scope=Scope.STEP, on=("no such mark",))).not_applicable == 1


def test_two_steps_that_meet_the_same_fault_tell_it_once(judged: Callable[..., Linted]) -> None:
    """One finding at the line of the site, not one for each step that runs there; each step's own line is told."""
    shared = rule(fails("site.attended"), "shared-check", "site.attended", scope=Scope.STEP, on=("heats",))
    own = rule(fails("oven"), "own-check", "oven", scope=Scope.STEP, on=("heats",))
    linted = judged(shared, own)
    assert [f.rule for f in linted.findings].count("shared-check") == 1
    assert [f.rule for f in linted.findings].count("own-check") == 2
    assert linted.passed == 0


def test_a_finding_points_at_its_text(judged: Callable[..., Linted], bench: Bench) -> None:
    """A name becomes the path and the place of the value; one that is not there the place of its group."""
    named, absent = (judged(rule(fails(at))).findings[0] for at in ("part.length", "site.air_changes"))
    document = read(bench.bases["base"])
    assert named.span == document.spans["part", "length"].value
    assert absent.path == ("site", "air_changes")
    assert absent.span == document.span(("site",))


def test_a_hit_may_overrule_its_rule(judged: Callable[..., Linted]) -> None:
    """Level, cure and sentence, where the number found decides."""
    hit = Hit("part.use", "found", level=Level.NOTE, do="do that", message="That.")
    (finding,) = judged(rule(lambda _: [hit], level=Level.ERROR)).findings
    assert (finding.level, finding.do, finding.message) == (Level.NOTE, "do that", "That.")


@pytest.mark.parametrize(
    ("verdicts", "status"),
    [
        ([Verdict.NOTHING_FOUND, Verdict.WITH_CARE], 0),
        ([Verdict.NOTHING_FOUND, Verdict.NOT_YET], 3),
        ([Verdict.NOT_YET, Verdict.DO_NOT_TRY, Verdict.WITH_CARE], 1),
        ([Verdict.DO_NOT_TRY, Verdict.UNUSABLE, Verdict.NOT_YET], 2),
        ([], 0),
    ],
)
def test_the_exit_status_of_several_recipes(verdicts: list[Verdict], status: int) -> None:
    """2 wins over 1, 1 over 3, 3 over 0."""
    assert exit_status(verdicts) == status
