"""The same recipe in other words gets the same findings and the same verdict."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from recipes_core.document import read
from tests.suites import rewrites
from tests.suites.operators import replaced
from tests.suites.oracle import opinion
from tests.suites.relations import RELATIONS

if TYPE_CHECKING:
    from tests.suites.judging import Judge

few = settings(max_examples=5, suppress_health_check=list(HealthCheck))
HAIR = 0.01
"""What all quantities at once may be off by, as a share of their displayed steps: sums and products of them, such as
the mass of a part from its three sides, are then still displayed alike."""
HALF = 0.4
"""What one quantity alone may be off by."""
KINDS = ("units", "spelling", "up", "down", "synonyms", "order")
LAYOUTS = {"flow": rewrites.in_flow_style, "block": rewrites.in_block_style}


def rewritten(judge: Judge, kind: str, which: list[rewrites.Leaf]) -> dict[str, Any]:
    """The recipe with one kind of rewriting; of quantities only these."""
    data = judge.data
    return {
        "units": lambda: rewrites.in_other_units(data, which),
        "spelling": lambda: rewrites.otherwise_spelt(data, which),
        "up": lambda: rewrites.nudged(data, which, HAIR),
        "down": lambda: rewrites.nudged(data, which, -HAIR),
        "synonyms": lambda: rewrites.with_synonyms(data),
        "order": lambda: rewrites.turned_round(data),
    }[kind]()


def both(judge: Judge, text: str) -> tuple[list[rewrites.Told], list[rewrites.Told]]:
    """What is told of another wording, and of the recipe."""
    judged = judge.of_text(text)
    wordings = (judge.data, judged.data)
    quoted = frozenset(leaf.text for data in wordings for leaf in rewrites.leaves(data, judge.shelf))
    told = [[*rewrites.told(j, quoted), (j.verdict.words,)] for j in (judged, judge.base)]
    return told[0], told[1]


def same(judge: Judge, text: str) -> None:
    """The text of another wording is judged as the recipe is."""
    after, before = both(judge, text)
    assert after == before


@pytest.mark.parametrize("layout", LAYOUTS)
def test_layout_order_and_comments(judge: Judge, layout: str) -> None:
    """In braces, or a line for each with comments between them: the same data, and so the same findings."""
    text = LAYOUTS[layout](judge.data)
    assert read(text).data == judge.data
    same(judge, text)


@pytest.mark.parametrize("kind", KINDS)
def test_every_place_at_once(judge: Judge, kind: str) -> None:
    """Every quantity in another unit, spelt otherwise, or moved by less than is shown; yes as true; keys reversed."""
    data = rewritten(judge, kind, list(rewrites.leaves(judge.data, judge.shelf)))
    text = rewrites.in_flow_style(data)
    assert text != rewrites.in_flow_style(judge.data)
    same(judge, text)


@few
@given(data=st.data())
def test_any_places_in_any_way(judge: Judge, data: st.DataObject) -> None:
    """Some of the quantities, in one of the ways, in one of the layouts."""
    kind = data.draw(st.sampled_from(KINDS))
    every = list(rewrites.leaves(judge.data, judge.shelf))
    which = data.draw(st.lists(st.sampled_from(every), min_size=1, max_size=6, unique=True))
    layout = data.draw(st.sampled_from(sorted(LAYOUTS)))
    same(judge, LAYOUTS[layout](rewritten(judge, kind, which)))


@few
@given(data=st.data())
def test_less_than_half_a_step_in_one_place(judge: Judge, data: st.DataObject) -> None:
    """Unless a number that is computed from it is displayed otherwise by then, and fails what it has to hold."""
    leaf = data.draw(st.sampled_from(list(rewrites.leaves(judge.data, judge.shelf))))
    share = data.draw(st.sampled_from([HALF, -HALF]))
    copy_of = rewrites.nudged(judge.data, [leaf], share)
    judged = judge.of(copy_of)
    broken = [opinion(cases, judge.marks, RELATIONS).broken for cases in (judged.cases, judge.base.cases)]
    assume(broken[0] == broken[1])
    assert sorted(map(judged.told, judged.findings)) == sorted(map(judge.base.told, judge.base.findings))
    assert judged.verdict is judge.base.verdict


def test_a_rewrite_changes_only_what_it_should(judge: Judge) -> None:
    """The recipe is left as it was, and each quantity is still the same size but for its last digits."""
    before = copy.deepcopy(judge.data)
    every = list(rewrites.leaves(judge.data, judge.shelf))
    for kind, error in (("units", 1e-9), ("spelling", 0.0)):
        changed = list(rewrites.leaves(rewritten(judge, kind, every), judge.shelf))
        assert [leaf.path for leaf in changed] == [leaf.path for leaf in every]
        for old, new in zip(every, changed, strict=True):
            assert new.quantity.low == pytest.approx(old.quantity.low, rel=error, abs=error)
    assert judge.data == before


def test_a_change_that_is_no_rewriting_would_be_seen(judge: Judge) -> None:
    """Other scrap is another recipe."""
    other = replaced(judge.data, ("formula", "feedstock", 0, "past_contents"), "fuel")
    after, before = both(judge, rewrites.in_flow_style(other))
    assert after != before
