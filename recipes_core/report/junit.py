"""The report as JUnit XML, which continuous integration shows: a suite for each recipe, a case for each finding.

It is red where a person must act. Errors and warnings are failures. What must be answered, and a check that did not
run, are errors: nothing was judged. Any other open question is skipped, its question being the reason. A note asks
nobody to act, so its case passes and carries its words.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from recipes_core.findings import Finding, Kind, Level
from recipes_core.report.counts import named_counts
from recipes_core.report.fingerprint import data_of, steady
from recipes_core.report.text import elsewhere, in_order, told
from recipes_core.report.visible import printable

if TYPE_CHECKING:
    from recipes_core.app import Linted

_TOTALS = {"failures": "failure", "errors": "error", "skipped": "skipped"}


def render(linted: Iterable[Linted]) -> str:
    """The report as one XML document."""
    root = Element("testsuites", name="meltbook")
    for item in linted:
        root.append(_suite(item))
    cases = root.findall("testsuite/testcase")
    root.attrib |= _totals(cases)
    indent(root, " ")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{tostring(root, encoding="unicode")}\n'


def _suite(item: Linted) -> Element:
    suite = Element("testsuite", name=printable(item.file))
    properties = SubElement(suite, "properties")
    checks = {} if item.passed is None else {"checks passed": item.passed, "checks not applicable": item.not_applicable}
    for name, value in {"verdict": item.verdict.words, **named_counts(item.findings), **checks}.items():
        SubElement(properties, "property", name=name, value=str(value))
    data, taken = data_of(item.text), dict[str, int]()
    for f in in_order(item):
        where = printable(".".join(steady(f.path, data)))
        name = f"{f.rule} at {where}" if where else f.rule
        taken[name] = taken.get(name, 0) + 1
        _case(suite, item, name if taken[name] == 1 else f"{name} ({taken[name]})", f)
    if not item.findings:
        SubElement(suite, "testcase", name=item.verdict.words, classname=printable(item.file))
    suite.attrib |= _totals(suite.findall("testcase"))
    return suite


def _case(suite: Element, item: Linted, name: str, f: Finding) -> None:
    outside = elsewhere(f, item)
    case = SubElement(suite, "testcase", name=name, classname=printable(item.file))
    case.set("file", printable(f.file if outside else item.file))
    if f.span:
        case.set("line", str(f.span.line))
    outcome = _outcome(f)
    shown = SubElement(case, outcome or "system-out")
    shown.text = "\n".join(["", *told(f, item), ""])
    if outcome:
        shown.attrib |= {"type": f.level.value, "message": printable(f.message)}


def _outcome(f: Finding) -> str:
    """What the case comes to; an empty text for one that passes."""
    if f.kind is Kind.REVIEW or (f.kind is Kind.OPEN and f.absolute):
        return "error"
    if f.kind is Kind.FAIL:
        return "" if f.level is Level.NOTE else "failure"
    return "skipped" if f.kind in (Kind.OPEN, Kind.NOT_APPLICABLE) else ""


def _totals(cases: list[Element]) -> dict[str, str]:
    found = {name: sum(case.find(tag) is not None for case in cases) for name, tag in _TOTALS.items()}
    return {"tests": str(len(cases)), **{name: str(number) for name, number in found.items()}}
