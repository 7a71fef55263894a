"""The report as plain data for JSON: every field of every finding, in a stable order.

`schemas/report-1.schema.json` says what each field means.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from recipes_core.report.text import elsewhere
from recipes_core.report.visible import json_text

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.findings import Finding

FORMAT = "report/1"


def render(linted: Iterable[Linted]) -> str:
    """The report as one JSON document."""
    return json_text({"format": FORMAT, "recipes": [_one(item) for item in linted]})


def _one(item: Linted) -> dict[str, Any]:
    return {
        "file": item.file,
        "verdict": item.verdict.words,
        "passed": item.passed,
        "not_applicable": item.not_applicable,
        "findings": [_finding(f, item) for f in item.findings],
    }


def _finding(finding: Finding, item: Linted) -> dict[str, Any]:
    """What is not empty; the file only where it is not the recipe's own."""
    told = {k: v for k, v in asdict(finding).items() if v not in ("", (), None)}
    if not elsewhere(finding, item):
        told.pop("file", None)
    return told
