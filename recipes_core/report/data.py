"""The report as plain data for JSON: every field of every finding, in a stable order."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.findings import Finding

FORMAT = "report/1"


def render(linted: Iterable[Linted]) -> str:
    """The report as one JSON document."""
    return (
        json.dumps({"format": FORMAT, "recipes": [_one(item) for item in linted]}, ensure_ascii=False, indent=1) + "\n"
    )


def _one(item: Linted) -> dict[str, Any]:
    return {
        "file": item.file,
        "verdict": item.verdict.words,
        "passed": item.passed,
        "not_applicable": item.not_applicable,
        "findings": [_finding(f) for f in item.findings],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {k: v for k, v in asdict(finding).items() if v not in ("", (), None) and k != "file"}
