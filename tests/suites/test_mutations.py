"""Every field of every sound recipe is changed by every operator: a rule that reads it catches it, or it is harmless.

What is expected comes from the table of harmless changes or from the oracle, never from the rules. Whatever is
neither caught nor harmless survived, and is printed with its reason at the end of the run.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.schema import check
from tests.rules.conftest import CASES
from tests.suites.harmless import LINES
from tests.suites.judging import written_nowhere
from tests.suites.mutants_table import rows
from tests.suites.mutation import Fate, Mutating
from tests.suites.operators import mutants, places
from tests.suites.relations import RELATIONS

if TYPE_CHECKING:
    from recipes_core.shelf import Shelf
    from tests.suites.judging import Judge
    from tests.suites.mutants_table import Row

MOST_SURVIVORS = 0.05


def at(data: Any, path: tuple[str | int, ...]) -> Any:
    """What stands at a place."""
    for part in path:
        data = data[part]
    return data


def test_a_document_that_was_never_written_is_judged_like_the_file(judge: Judge) -> None:
    """So that the mutants need no text; and each fact is the same when it is looked up as when it is computed."""
    written = judge.of_text(judge.text)
    assert sorted(map(written.told, written.findings)) == sorted(map(judge.base.told, judge.base.findings))
    assert [(f.found, f.limit) for f in written.findings] == [(f.found, f.limit) for f in judge.base.findings]


def test_what_is_left_undone_would_not_have_changed(judge: Judge) -> None:
    """One mutant of every fifty is judged whole: what is new in it is what was found the short way."""
    for mutant in list(mutants(judge.data, judge.shelf))[::50]:
        changed = () if mutant.operator == "swap steps" else mutant.path
        short, whole = judge.of(mutant.data, changed), judge.of(dict(mutant.data))
        assert set(map(short.told, judge.new(short))) == set(map(whole.told, judge.new(whole)))
        assert [shape.rule for shape in judge.shape(mutant.data)] == [
            shape.rule for shape in check(written_nowhere(json.loads(json.dumps(mutant.data))), judge.shelf.schemas)
        ]


def test_every_field_is_changed(judge: Judge) -> None:
    """Each place is deleted, and each value that is not unknown yet is made unknown; nothing else is touched."""
    made = list(mutants(judge.data, judge.shelf))
    everywhere = {path for path, _ in places(judge.data)}
    assert {m.path for m in made if m.operator == "delete"} == everywhere
    values = {path for path, value in places(judge.data) if isinstance(value, str)}
    assert values <= {m.path for m in made if m.operator == "unknown"}
    for mutant in made:
        assert mutant.data != judge.data
        for path in everywhere:
            if mutant.operator != "swap steps" and path[:1] != mutant.path[:1]:
                assert at(mutant.data, path) == at(judge.data, path)


@pytest.mark.filterwarnings("ignore:divide by zero")  # knives, layers and turns of nothing
def test_every_mutant_is_caught_or_harmless(judge: Judge, fates: list[Row]) -> None:
    """At most one in twenty survives, and none at a place that an absolute rule reads."""
    mutating = Mutating(judge)
    outcomes = list(mutating.run())
    fates += rows(outcomes)
    survived = [o for o in outcomes if o.fate is Fate.SURVIVED]
    grave = [o.line for o in survived if o.absolute or "no rule minds" in o.by or "does not say" in o.by]
    assert not grave, "\n".join(grave)
    assert len(survived) <= MOST_SURVIVORS * len(outcomes), "\n".join(o.line for o in survived)
    assert sum(o.fate is Fate.CAUGHT for o in outcomes) > 0.4 * len(outcomes)


def test_the_oracle_has_nothing_against_a_recipe_that_nothing_was_found_against(judge: Judge) -> None:
    """Each relation that fails in the recipe itself is one that a rule has warned of."""
    broken = Mutating(judge).healthy.broken
    assert len(broken) <= len(judge.base.findings), broken


def test_each_rule_catches_a_mutant_or_has_a_case(having: Shelf, fates: list[Row]) -> None:
    """So that no rule is there for nothing."""
    caught = {by for _, fate, _, by in fates if fate == Fate.CAUGHT}
    idle = [rule.id for rule in having.rules if rule.id not in caught and not (CASES / f"{rule.id}.yaml").is_file()]
    assert not idle


def test_the_tables_say_something() -> None:
    """Each line has its reason, each relation a name of its own."""
    assert all(line.reason for line in LINES)
    names = [relation.name for relation in RELATIONS]
    assert len(names) == len(set(names))


def test_a_hole_would_be_seen(judge: Judge, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the rule on who stays, leaving the oven alone survives."""
    if not any("oven" in step or "platens" in step for step in judge.data["procedure"]):
        pytest.skip("nothing is heated")
    shelf: Mapping[str, Any] = {"rules": tuple(r for r in judge.shelf.rules if r.id != "left-alone")}
    mutating = Mutating(judge)
    monkeypatch.setattr(judge, "shelf", type(judge.shelf)(**{**vars(judge.shelf), **shelf}))
    alone = [m for m in mutants(judge.data, judge.shelf) if (m.path, m.operator) == (("site", "attended"), "unknown")]
    (outcome,) = mutating.of(alone)
    assert outcome.fate is Fate.SURVIVED
