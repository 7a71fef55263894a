"""JUnit XML: read by a published parser, with the counts of the text report, the same every time."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from junitparser import Error, Failure, JUnitXml, Skipped, TestCase, TestSuite

from recipes_core.app import lint_document, lint_file
from recipes_core.document import read
from recipes_core.findings import Finding
from recipes_core.report import text
from recipes_core.report.counts import Count, counts
from recipes_core.report.junit import render

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.shelf import Shelf

    Linter = Callable[..., Linted]

TESTS = Path(__file__).parents[2]
TODAY = date(2026, 11, 25)
COAT_HOOK = (TESTS / "recipes" / "coat-hook.yaml").read_text("utf-8")


def parsed(items: list[Linted]) -> list[TestSuite]:
    """The suites, as the published parser reads them."""
    return list(JUnitXml.fromstring(render(items).encode("utf-8")))


def cases(suite: TestSuite) -> list[TestCase]:
    """The cases of a suite."""
    return list(suite)


def outcome(case: TestCase) -> tuple[type | None, str]:
    """What a case came to, and its type."""
    return (type(case.result[0]), case.result[0].type) if case.result else (None, "")


def test_each_weight_has_its_outcome(linted: Linter, weights: dict[str, Finding]) -> None:
    """Red where a person must act; an ordinary question is skipped, a note passes."""
    (suite,) = parsed([linted(*weights.values())])
    assert [outcome(case) for case in cases(suite)] == [
        (Failure, "error"),
        (Error, "error"),
        (Error, "error"),
        (Failure, "warning"),
        (Skipped, "warning"),
        (None, ""),
    ]
    assert [case.result[0].message for case in cases(suite) if case.result] == list(weights)[:-1]
    assert "a note" in cases(suite)[-1].system_out


def test_the_counts_of_the_text_report(stock: Shelf, tmp_path: Path) -> None:
    """Of each recipe and of all: failures are errors and warnings, and so on; the verdict is a property."""
    texts = {
        "a": COAT_HOOK.replace("at_least: 20 min", "at_least: 12 min"),
        "b": COAT_HOOK.replace("at_least: 20 min", "at_lest: 20 min").replace("marked: yes", "marked: unknown"),
        "c": "format: recipe/1\nheader: {id: a\npart: x\n",
        "d": (TESTS / "cases" / "base.yaml").read_text("utf-8"),
    }
    items = []
    for name, source in texts.items():
        (tmp_path / name).write_text(source, "utf-8")
        items.append(lint_file(tmp_path / name, TODAY, stock))
    suites = parsed(items)
    totals = JUnitXml.fromstring(render(items).encode("utf-8"))
    for suite, item in zip(suites, items, strict=True):
        told = {count.value[1]: number for count, number in counts(item.findings).items()}
        properties = {p.name: p.value for p in suite.properties()}
        assert properties["verdict"] == item.verdict.words
        assert {name: int(properties[name]) for name in told} == told
        must = sum(f.kind == "open" and f.absolute for f in item.findings)
        assert suite.failures == told.get("errors", 0) + told.get("warnings", 0)
        assert suite.errors == told.get("checks did not run", 0) + must
        assert suite.skipped == told.get("open questions", 0) - must + told.get("steps that do not apply", 0)
        assert suite.tests == len(item.findings) or (suite.tests == 1 and not item.findings)
        shown = text.summary(item)
        assert all(Count[count.name].words(number) in shown for count, number in counts(item.findings).items())
    for name in ("tests", "failures", "errors", "skipped"):
        assert getattr(totals, name) == sum(getattr(suite, name) for suite in suites)
    assert all(sum(getattr(suite, name) for suite in suites) for name in ("failures", "errors", "skipped"))


def test_red_is_what_the_exit_status_says(linted: Linter, weights: dict[str, Finding]) -> None:
    """But for warnings, which are to be tried with care: nothing that is green here stops a recipe."""
    for finding in weights.values():
        item = linted(finding)
        (suite,) = parsed([item])
        if item.verdict.exit_status:
            assert suite.failures + suite.errors == 1


def test_nothing_found_is_one_case_that_passes(linted: Linter) -> None:
    """Named by the verdict, which promises nothing."""
    (suite,) = parsed([linted()])
    (case,) = cases(suite)
    assert (case.name, case.classname, case.result) == ("nothing found against it", "a.yaml", [])
    assert {p.name: p.value for p in suite.properties()}["checks passed"] == "7"


def test_a_case_has_a_name_that_lasts(stock: Shelf) -> None:
    """Of the rule and the place, by the names of steps, each once; the line stands beside it."""
    broken = COAT_HOOK.replace("at_least: 20 min", "at_lest: 20 min")
    (suite,) = parsed([lint_document(read(broken, "a.yaml"), TODAY, stock)])
    names = [case.name for case in cases(suite)]
    assert "key-not-known at procedure.melt.at_lest" in names
    assert len(set(names)) == len(names)
    case = cases(suite)[names.index("key-not-known at procedure.melt.at_lest")]
    assert (case._elem.get("file"), case._elem.get("line")) == ("a.yaml", "56")
    assert "at_least" in case.result[0].text
    assert "write `at_least`" in case.result[0].text


def test_two_of_a_kind_are_numbered(linted: Linter, full_finding: Finding) -> None:
    """A name is used once in a suite."""
    (suite,) = parsed([linted(full_finding, full_finding)])
    assert [case.name for case in cases(suite)] == [
        "too-hot at procedure.melt.oven",
        "too-hot at procedure.melt.oven (2)",
    ]


def test_hostile_text_is_text(linted: Linter, hostile_finding: Finding) -> None:
    """No control character that XML forbids, no end of a section, no element of its own."""
    item = linted(hostile_finding, file='a\x1b<b>&".yaml')
    shown = render([item])
    assert all(c.isprintable() or c == "\n" for c in shown)
    (suite,) = parsed([item])
    assert suite.name == 'a\\x1b<b>&".yaml'
    assert "\\x1b[31m" in cases(suite)[0].result[0].message
    assert "\\x00" in cases(suite)[0].result[0].text


@pytest.mark.parametrize("markup", ["<script>alert(1)</script>", "]]>", "</failure>", "&amp;&#x1b;", "<!--", '" x="'])
def test_markup_is_text(linted: Linter, full_finding: Finding, markup: str) -> None:
    """It comes out as it went in."""
    item = linted(Finding(full_finding.rule, full_finding.level, full_finding.kind, markup, do=markup))
    (suite,) = parsed([item])
    (case,) = cases(suite)
    assert case.result[0].message == markup
    assert case.result[0].text.count(markup) == 2
    tags = set(re.findall(r"<([a-z/!?-]+)", render([item])))
    assert tags <= {"?xml", "testsuites", "testsuite", "properties", "property", "testcase", "failure",
                    "/testsuites", "/testsuite", "/properties", "/testcase", "/failure"}  # fmt: skip


def test_the_same_every_time(linted: Linter, weights: dict[str, Finding]) -> None:
    """Byte for byte, with no time and no host."""
    items = [linted(*weights.values())]
    assert render(items) == render(items)
    assert render(items).endswith("</testsuites>\n")
    assert not re.search("timestamp|hostname|time=", render(items))


def test_nothing_judged_is_an_empty_report() -> None:
    """And a valid one."""
    assert parsed([]) == []
