"""What is only remembered is told as commonly quoted, never as the word of a standard, wherever people read it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from recipes_core.app import forecast
from recipes_core.explain import explain, rule_lines
from recipes_core.facts import Basis
from recipes_core.plugin_api import Process
from recipes_core.report.forecast import render
from recipes_core.rules.rule import Rule
from recipes_core.shelf import Shelf, shelf
from tests.suites.judging import RECIPES, TODAY, Judge
from tests.suites.operators import replaced

QUOTED = "commonly quoted"
STANDARD = re.compile(
    r"\b(?:ISO|EN|IEC|ASTM|DIN|BS|ANSI|ASME|NEC|NFPA|CFR|OSHA|UL|ACGIH|NIOSH|HSE|EPA|FDA)\b|\bTable [A-Z0-9]"
)
"""Who writes standards, codes and lists of limits."""
HAVING: Shelf = shelf()
REMEMBERED = [rule for rule in HAVING.rules if any(source.startswith(Basis.MEMORY) for source in rule.sources)]
PROCESSES = list(HAVING.plugins.processes.values())


def told(lines: Iterator[str], label: str) -> list[str]:
    """The texts that an explanation gives under one label."""
    found: list[str] = []
    at = ""
    for line in lines:
        at = line[:13].strip() or at
        if line[:13].strip() == label:
            found.append(line[13:].strip())
        elif not line[:13].strip() and at == label:
            found[-1] += " " + line.strip()
    return found


def test_some_rules_rest_on_memory() -> None:
    """So that the tests below have something to see."""
    assert len(REMEMBERED) > 5


@pytest.mark.parametrize("rule", REMEMBERED, ids=[rule.id for rule in REMEMBERED])
def test_explain_calls_it_commonly_quoted(rule: Rule) -> None:
    """Each source that is remembered; the word memory is ours, and no reader's."""
    sources = told(rule_lines(rule), "source")
    assert len(sources) == len(rule.sources)
    for source, said in zip(rule.sources, sources, strict=True):
        if source.startswith(Basis.MEMORY):
            assert said.startswith(f"{QUOTED}, not checked: ")
            assert not STANDARD.search(said), said
        assert not said.startswith("memory")


@pytest.mark.parametrize("rule", REMEMBERED, ids=[rule.id for rule in REMEMBERED])
def test_what_such_a_rule_says_names_nobody_it_did_not_read(rule: Rule) -> None:
    """In the sentence, the reason and the cure: a standard is named only where a source that was seen names it."""
    seen = " ".join(source for source in rule.sources if not source.startswith(Basis.MEMORY))
    for text in (rule.message, rule.checks, rule.why, rule.do):
        for named in STANDARD.finditer(text):
            assert named[0] in seen, f"{rule.id}: {text}"


def test_findings_carry_it_so() -> None:
    """As programs read them: the sources of a finding of such a rule."""
    judge = Judge(RECIPES / "hdpe" / "bench-stop.yaml", HAVING)
    data = {**judge.data, "part": {**judge.data["part"], "use": ["food"]}}
    sources = {f.rule: f.sources for f in judge.of(data).findings}["food-claim"]
    assert [s for s in sources if s.startswith(QUOTED)] == [
        f"{QUOTED}, not checked: recycled plastic for food needs clearance by an authority"
    ]
    assert not any(s.startswith("memory") for s in sources)


@pytest.mark.parametrize("process", PROCESSES, ids=[process.id for process in PROCESSES])
def test_the_hazards_of_a_process(process: Process) -> None:
    """A hazard that is remembered says that it is commonly quoted, and names nobody."""
    for hazard in process.hazards():
        if hazard.basis is Basis.MEMORY:
            assert QUOTED in hazard.source, hazard.source
            assert not STANDARD.search(hazard.source), hazard.source
    sources = told(iter(explain(HAVING, process.id).splitlines()), "source")
    assert not any(source.startswith("memory") for source in sources)


def test_every_value_of_every_sheet() -> None:
    """Of a value that is remembered the explanation says so, and gives no source."""
    count = 0
    sheets = {**HAVING.library.resins, **HAVING.library.liners, **HAVING.library.materials}
    for id_, sheet in sheets.items():
        for name in sheet.names():
            found = sheet.find(name)
            assert found is not None
            if found[2].basis is not Basis.MEMORY:
                continue
            count += 1
            main = explain(HAVING, f"{id_} {name}").partition("\n\n")[0]
            assert f"basis      {QUOTED}, not checked against a source" in main
            assert not told(iter(main.splitlines()), "source")
    assert count > 50


def test_reports_count_it_so() -> None:
    """In the line on how a number is known, and in the list of what a forecast rests on."""
    file = RECIPES / "hdpe" / "bench-stop.yaml"
    judge = Judge(file, HAVING)
    melt = next(case.step for case in judge.base.cases if case.step and case.step.process == "flake-melt")
    findings = judge.of(replaced(judge.data, (*melt.path, "at_least"), "5 min")).findings
    assert any(re.search(rf"\b[1-9][0-9]* {QUOTED}", finding.basis) for finding in findings)
    shown = render(*forecast(file, TODAY, HAVING), {})
    assert f"({QUOTED})" in shown
    assert not any("memory" in text for text in (shown, *(f"{f.basis} {f.origins}" for f in findings)))
