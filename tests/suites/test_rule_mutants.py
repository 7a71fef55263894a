"""A rule that is taken away, or whose comparisons are turned round, is missed by a case of its own.

A small mutation run over all rule modules: the cases of each rule are judged again with the rule changed, and at
least one of them must come out otherwise.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import ExitStack
from dataclasses import replace
from typing import Any
from unittest.mock import patch

import pytest

from recipes_core.findings import Kind
from recipes_core.rules import compare
from recipes_core.rules.rule import Rule
from recipes_core.shelf import shelf
from tests.rules.conftest import Bench, Case, load_cases

CASES = load_cases()
RULES = {rule.id: rule for rule in shelf().rules}
TURNED = {
    "above": compare.below,
    "below": compare.above,
    "over": compare.under,
    "under": compare.over,
}
"""Each comparison and the one that it is turned into."""


def mine(rule: str) -> list[Case]:
    """The cases of one rule."""
    return [case for case in CASES if case.rule == rule]


def told(bench: Bench, case: Case) -> str:
    """The level at which the rule fires in a case; empty where it does not."""
    text, _ = bench.edited(case)
    found = bench.judge(text).linted.findings
    return next((str(f.level) for f in found if f.rule == case.rule and f.kind is Kind.FAIL), "")


def missed(bench: Bench, rule: Rule) -> bool:
    """Whether some case of the rule comes out otherwise with the rule as it is given here."""
    rules = tuple(rule if r.id == rule.id else r for r in bench.shelf.rules)
    other = Bench(replace(bench.shelf, rules=rules))
    other.memo, other.told, other.sought = bench.memo, bench.told, bench.sought
    return any(told(other, case) != case.level for case in mine(rule.id))


@pytest.mark.parametrize("name", sorted(RULES))
def test_a_rule_that_is_gone_is_missed(bench: Bench, name: str) -> None:
    """Without it some case that should fire does not."""

    def silent(_: Any) -> Iterable[Any]:
        return ()

    assert missed(bench, replace(RULES[name], test=silent)), name


def compares() -> Iterator[str]:
    """The rules whose module compares numbers by the functions that are turned round."""
    for name, rule in sorted(RULES.items()):
        function = rule.test
        code = getattr(function, "__code__", None)
        if code and set(TURNED) & {
            *code.co_names,
            *(n for c in code.co_consts if hasattr(c, "co_names") for n in c.co_names),
        }:
            yield name


@pytest.mark.parametrize("name", list(compares()))
def test_a_comparison_turned_round_is_missed(bench: Bench, name: str) -> None:
    """With above for below, or over for under, some case fires that should not, or the other way round."""
    rule = RULES[name]
    module = sys.modules[rule.test.__module__]
    with ExitStack() as stack:
        for word, turned in TURNED.items():
            if hasattr(module, word):
                stack.enter_context(patch.object(module, word, turned))
        assert missed(bench, replace(rule)), name
