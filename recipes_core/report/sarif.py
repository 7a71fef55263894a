"""The report as SARIF 2.1.0 (OASIS), which editors and code hosts read.

Rules are told only where they gave a result: the others are the same in every report, and `meltbook explain` has them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from recipes_core import __version__
from recipes_core.facts import told_source
from recipes_core.findings import Finding, Kind
from recipes_core.report.counts import named_counts
from recipes_core.report.sarif_result import said, sentence, told_result, uri
from recipes_core.report.visible import json_text
from recipes_core.rules.verdict import Verdict, exit_status

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.rules.rule import Rule

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def render(linted: Iterable[Linted], rules: Iterable[Rule]) -> str:
    """The report as one SARIF log with one run; ``rules`` are all that were run."""
    items = list(linted)
    found = {f.rule: f for item in reversed(items) for f in reversed(item.findings)}
    names = sorted(found)
    known = {rule.id: rule for rule in rules}
    at = {name: index for index, name in enumerate(names)}
    run = {
        "tool": {
            "driver": {
                "name": "meltbook",
                "version": __version__,
                "language": "en-GB",
                "rules": [_rule(known[n]) if n in known else _own_rule(found[n]) for n in names],
            }
        },
        "invocations": [_invocation(items)],
        "columnKind": "unicodeCodePoints",
        "newlineSequences": ["\r\n", "\n", "\r"],
        "artifacts": list({uri(item.file): _artifact(item) for item in items}.values()),
        "results": [result for item in items for result in told_result(item, at)],
        "properties": {"verdicts": _verdicts(items), **named_counts(f for item in items for f in item.findings)},
    }
    return json_text({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]})


def _rule(rule: Rule) -> dict[str, Any]:
    return {
        "id": rule.id,
        "shortDescription": said(rule.message),
        "fullDescription": said(f"Checked: {sentence(rule.checks)} Why: {sentence(rule.why)}"),
        "help": said(f"To do: {sentence(rule.do)} `meltbook explain {rule.id}` tells more."),
        "defaultConfiguration": {"level": rule.level.value},
        "properties": {
            "absolute": rule.absolute,
            "since": rule.since,
            "sources": [told_source(source) for source in rule.sources],
        },
    }


def _own_rule(first: Finding) -> dict[str, Any]:
    """What is no rule of a plugin: reading, the schema, questions. Its id names the problem in words."""
    words = first.rule.replace("-", " ")
    return {
        "id": first.rule,
        "shortDescription": said(f"{words[:1].upper()}{words[1:]}."),
        "fullDescription": said(_OWN.get(first.kind) or f"Why: {sentence(first.why or words)}"),
        "help": said("Each finding says what to do."),
        "defaultConfiguration": {"level": first.level.value},
        "properties": {"absolute": False},
    }


_OWN = {
    Kind.OPEN: "A value that is needed to judge is missing; what is open is never counted as passed.",
    Kind.REVIEW: "A check that did not run says nothing.",
}


def _invocation(items: list[Linted]) -> dict[str, Any]:
    """Whether all was read and every check ran; the exit status of the command."""
    whole = all(
        item.verdict is not Verdict.UNUSABLE and not any(f.kind is Kind.REVIEW for f in item.findings) for item in items
    )
    return {"executionSuccessful": whole, "exitCode": exit_status(item.verdict for item in items)}


def _artifact(item: Linted) -> dict[str, Any]:
    checks = {} if item.passed is None else {"passed": item.passed, "notApplicable": item.not_applicable}
    return {
        "location": {"uri": uri(item.file)},
        "roles": ["analysisTarget"],
        "properties": {"verdict": item.verdict.words, **named_counts(item.findings), **checks},
    }


def _verdicts(items: Iterable[Linted]) -> Mapping[str, int]:
    words = [item.verdict.words for item in items]
    return {verdict.words: words.count(verdict.words) for verdict in Verdict if verdict.words in words}
