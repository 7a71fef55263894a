"""Every rule fires where its cases say, and runs quietly where they say; limits are met to the displayed step."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from recipes_core.document import read
from recipes_core.findings import Kind
from recipes_core.quantities import Dimension, QuantityError, parse, resolution
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from tests.rules.conftest import Bench, Case, Judged

WORDS = frozenset({"child-at-machine"})
"""Rules whose limit has a number in a word to choose from (``under 14``), and none to compare with."""
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def test_nothing_stands_against_the_bases(bench: Bench, base: str) -> None:
    """Whatever a case finds is the doing of its change alone."""
    judged = bench.judge(bench.bases[base])
    assert judged.linted.findings == ()
    assert judged.linted.verdict is Verdict.NOTHING_FOUND


def test_a_rule_fires_once_at_its_place(bench: Bench, fires: Case) -> None:
    """The finding points at the text that is wrong, with the level and the words that the case states."""
    judged = bench.case(fires)
    found = [f for f in judged.linted.findings if f.rule == fires.rule and f.kind is Kind.FAIL]
    here = [f for f in found if f.path == judged.path(fires.at)]
    assert len(here) == 1, f"{len(here)} findings at {fires.at}; in all {[(f.path, f.found) for f in found]}"
    assert here[0].level.value == fires.level, here[0]
    assert fires.found in here[0].found
    assert fires.limit in here[0].limit
    assert here[0].span == judged.document.span(here[0].path)


def test_a_rule_runs_and_stays_quiet(bench: Bench, quiet: Case) -> None:
    """Neither a finding nor an open question nor a crash: the rule ran, and what it compared was in order."""
    judged = bench.case(quiet)
    against = [f for f in judged.linted.findings if f.rule == quiet.rule]
    assert not against, [(f.path, f.found, f.limit) for f in against]
    assert _passed(judged, quiet.rule), f"{quiet.rule} did not run"
    open_ = [path for path, question in judged.judgement.questions.items() if quiet.rule in question.rules]
    assert not open_, f"{quiet.rule} lacks {open_}"
    broken = [f for f in judged.linted.findings if f.kind is Kind.REVIEW]
    assert not broken, broken


def test_every_rule_has_its_cases(bench: Bench, cases: tuple[Case, ...]) -> None:
    """One that fires and one that does not, for every rule on the shelf; and no case of a rule that is gone."""
    rules = {rule.id for rule in bench.shelf.rules}
    assert {c.rule for c in cases if c.fires} == rules
    assert {c.rule for c in cases if not c.fires} == rules
    assert len({c.id for c in cases}) == len(cases)


def test_every_limit_is_met_to_the_displayed_step(bench: Bench, cases: tuple[Case, ...]) -> None:
    """A rule whose finding states a number is quiet at the limit, and fires one displayed step beyond it."""
    lacking = []
    for rule in sorted({c.rule for c in cases}):
        mine = [c for c in cases if c.rule == rule]
        limits = [_limit(bench.case(c), rule) for c in mine if c.fires]
        on_limit = [c for c in mine if c.on_limit == "yes"]
        if rule not in WORDS and any(re.search("[0-9]", limit) for limit in limits) and not on_limit:
            lacking.append(f"{rule} has no case on its limit")
        for case in on_limit:
            if not any(one_step_apart(bench, case, other) for other in mine if other.fires):
                lacking.append(f"{case.id} has no case that fires one step beyond")
    assert not lacking, "\n".join(lacking)


def _passed(judged: Judged, rule: str) -> bool:
    return any(name.partition("@")[0] == rule for name in judged.judgement.passed)


def _limit(judged: Judged, rule: str) -> str:
    return " ".join(f.limit for f in judged.linted.findings if f.rule == rule)


def one_step_apart(bench: Bench, one: Case, other: Case) -> bool:
    """Whether two cases differ in one value alone, and there by one displayed step."""
    if one.base != other.base:
        return False
    mine, theirs = bench.edited(one)[1], bench.edited(other)[1]
    differ = [k for k in {*mine, *theirs} if mine.get(k) != theirs.get(k)]
    if len(differ) != 1 or differ[0] not in mine or differ[0] not in theirs:
        return False
    return near(mine[differ[0]], theirs[differ[0]])


def near(one: str, other: str) -> bool:
    """Whether two texts are one displayed step (of a quantity), one day, one item or one count apart."""
    if one.startswith("["):
        return abs(len(read(f"x: {one}").data["x"]) - len(read(f"x: {other}").data["x"])) == 1
    try:
        return abs((date.fromisoformat(one) - date.fromisoformat(other)).days) == 1
    except ValueError:
        pass
    for measure in Dimension:
        try:
            a, b = parse(one, measure).low, parse(other, measure).low
        except QuantityError:
            continue
        return abs(a - b) <= max(resolution(measure, a), resolution(measure, b)) * 1.001
    if _NUMBER.sub("#", one) != _NUMBER.sub("#", other):
        return False
    gaps = [abs(float(a) - float(b)) for a, b in zip(_NUMBER.findall(one), _NUMBER.findall(other), strict=True)]
    return sum(gaps) <= 1.001
