"""Advice works: each way out that a finding offers, applied to the text, removes the finding and adds no error."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from recipes_core.findings import Finding, Kind, Level

if TYPE_CHECKING:
    from collections.abc import Callable

    from recipes_core.findings import Path
    from tests.rules.conftest import Bench, Case

    Edit = Callable[[str, str | Path, str], str]

SCALED = {
    "procedure.melt.at_least": ("{:.0f} min", 20),
    "procedure.melt.at_most": ("{:.0f} min", 30),
    "procedure.melt.oven": ("{:.0f} °C", 180),
    "procedure.preheat.at_least": ("{:.0f} min", 25),
    "procedure.fold.out_of_oven": ("{:.0f} s", 30),
    "procedure.fold.back_for": ("{:.0f} s", 180),
    "procedure.press.closing_time": ("{:.0f} s", 15),
    "procedure.press.force": ("{:.1f} kN", 24.5),
    "procedure.press.hold": ("{:.0f} min", 30),
    "procedure.cool.at_least": ("{:.0f} min", 45),
    "formula.charge": ("{:.0f} g", 130),
}
"""The numbers of the base that the forecasts rest on, and how each is written."""


def failures(bench: Bench, text: str, edit: Edit, only: str = "") -> list[str]:
    """What is wrong with the ways out that a text's findings (or those of the rule ``only``) offer."""
    before = bench.judge(text).linted.findings
    errors, wrong = _errors(before), []
    for finding in before:
        for way in finding.advice if only in ("", finding.rule) else ():
            mended = text
            for change in way.changes:
                mended = edit(mended, change.path, change.text)
            after = bench.judge(mended).linted.findings
            said = f"{finding.rule} at {finding.path}: {way.words}"
            if any(f.rule == finding.rule and f.path == finding.path for f in after):
                wrong.append(f"{said}: does not remove it (found {finding.found})")
            if added := _errors(after) - errors:
                wrong.append(f"{said}: adds {sorted(map(str, added))}")
    return wrong


def _errors(findings: tuple[Finding, ...]) -> set[tuple[str, Path]]:
    return {(f.rule, f.path) for f in findings if f.kind is Kind.FAIL and f.level is Level.ERROR}


def test_the_advice_of_every_case_works(bench: Bench, fires: Case, edit: Edit) -> None:
    """Whatever a case makes a rule advise, doing it helps."""
    wrong = failures(bench, bench.edited(fires)[0], edit, fires.rule)
    assert not wrong, "\n".join(wrong)


def test_some_rules_advise(bench: Bench, cases: tuple[Case, ...], edit: Edit) -> None:
    """The tests above do try ways out."""
    advising = {
        c.rule for c in cases if c.fires for f in bench.case(c).linted.findings if f.rule == c.rule and f.advice
    }
    assert {"melt-cut-short", "preheat-short", "return-too-short", "pressure-off-early", "opened-warm"} <= advising


@settings(max_examples=25, phases=(Phase.explicit, Phase.generate))
@given(
    st.dictionaries(
        st.sampled_from(sorted(SCALED)), st.sampled_from((0.2, 0.5, 0.8, 1.2, 2.0)), min_size=1, max_size=4
    ),
    st.sampled_from(("1", "2", "3", "4")),
)
def test_the_advice_on_broken_copies_works(bench: Bench, edit: Edit, scales: dict[str, float], layers: str) -> None:
    """The same for the base with several numbers wrong at a time."""
    text = edit(bench.bases["base"], "procedure.fold.layers", layers)
    for dotted, scale in scales.items():
        form, number = SCALED[dotted]
        text = edit(text, dotted, form.format(number * (1 + 0.2 * (scale - 1) if "oven" in dotted[-5:] else scale)))
    wrong = failures(bench, text, edit)
    assert not wrong, "\n".join(wrong)
