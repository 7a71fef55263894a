"""The words of the rules: what is wrong in a sentence, why and what to do in a clause, sources with their basis."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from recipes_core.rules.core import RULES as CORE
from recipes_core.shelf import shelf

if TYPE_CHECKING:
    from recipes_core.rules.rule import Rule
    from tests.rules.conftest import Bench, Case

RULES = shelf().rules
BASES = ("published", "common practice", "memory", "derived", "judgement")
STANDARD = re.compile(r"\b(ISO|EN|IEC|ASTM|DIN|BS|ANSI|ASME|NEC|NFPA|CFR|OSHA|UL)\b[ -]?[0-9]")


@pytest.mark.parametrize("rule", RULES, ids=[r.id for r in RULES])
def test_the_words_of_a_rule(rule: Rule) -> None:
    """The message is a sentence; why, do and checks are clauses, as the report sets them after a label."""
    assert rule.message[0].isupper(), rule.message
    assert rule.message.endswith("."), rule.message
    assert rule.message.count(".") == 1, "one message, one sentence"
    for part in (rule.why, rule.do, rule.checks):
        assert not part.endswith((".", "!", ";", ",")), part
        first = part.split()[0].strip(",:;()")
        assert first[0].islower() or first[0].isdigit() or first.isupper(), f"{part!r} starts like a sentence"
        assert part == " ".join(part.split())
    assert all(source.startswith(BASES) for source in rule.sources), rule.sources
    for source in rule.sources:
        basis, _, told = source.partition(":")
        assert basis in BASES, source
        assert basis in ("common practice", "judgement") or told.strip(), f"{source!r} says nothing"


def test_ids_are_told_apart() -> None:
    """No id is given twice, and the core's rules are among those on the shelf."""
    ids = [rule.id for rule in RULES]
    assert len(set(ids)) == len(ids)
    assert {rule.id for rule in CORE} <= set(ids)


def test_a_memory_is_not_shown_as_a_standards_word(bench: Bench, cases: tuple[Case, ...]) -> None:
    """A finding that rests on memory, and on nothing published, names no standard in what it says."""
    wrong = []
    for case in (c for c in cases if c.fires):
        for finding in bench.case(case).linted.findings:
            bases = {source.partition(":")[0].partition(",")[0] for source in finding.sources}
            said = " ".join((finding.message, finding.limit, finding.why, finding.do))
            if "commonly quoted" in bases and "published" not in bases and STANDARD.search(said):
                wrong.append(f"{finding.rule}: {said}")
    assert not wrong, "\n".join(sorted(set(wrong)))


def test_a_memory_never_names_the_place_it_is_remembered_from() -> None:
    """A source that was not seen is no citation: it names no standard by its number."""
    wrong = [f"{r.id}: {s}" for r in RULES for s in r.sources if s.startswith("memory") and STANDARD.search(s)]
    assert not wrong, "\n".join(wrong)
