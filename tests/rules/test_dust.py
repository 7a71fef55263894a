"""What nobody knows about the dust of planing is asked, and never passed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.rules.conftest import Bench

LOT = "formula.feedstock.0"


@pytest.mark.parametrize(
    ("field", "value"),
    [("resin", "unknown"), ("resin", "mixed"), ("resin", "a-plastic-without-a-sheet"), ("filled", "unknown")],
)
def test_planing_what_nobody_knows_waits(
    bench: Bench, edit: Callable[[str, str, str], str], field: str, value: str
) -> None:
    """Only planed, not sanded: an open question of an absolute rule, so the recipe is not to be tried yet."""
    text = edit(edit(bench.bases["base-planed"], "procedure.sand", "null"), f"{LOT}.{field}", value)
    judged = bench.judge(text)
    asked = {rule for question in judged.judgement.questions.values() for rule in question.rules}
    assert "toxic-dust" in asked
    assert "toxic-dust" not in judged.judgement.passed
    assert judged.linted.verdict in (Verdict.NOT_YET, Verdict.DO_NOT_TRY)


@pytest.mark.parametrize(
    ("resin", "told"),
    [
        ("pvc", "PVC must not be sanded here."),
        ("unknown", "Nobody knows what this plastic is, and the recipe sands it."),
    ],
)
def test_the_message_names_the_plastic(
    bench: Bench, edit: Callable[[str, str, str], str], resin: str, told: str
) -> None:
    """So that whoever reads it knows which lot to take out."""
    judged = bench.judge(edit(bench.bases["base-planed"], f"{LOT}.resin", resin))
    assert [f.message for f in judged.linted.findings if f.rule == "toxic-dust"] == [told]


def test_trimming_makes_no_dust(bench: Bench, edit: Callable[[str, str, str], str]) -> None:
    """PVC that is only trimmed cold is none of this rule's business."""
    text = bench.bases["base-planed"]
    for change in ("procedure.sand", "procedure.plane"):
        text = edit(text, change, "null")
    judged = bench.judge(edit(text, f"{LOT}.resin", "pvc"))
    assert "toxic-dust" in judged.judgement.not_applicable
