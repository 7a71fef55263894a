"""What the findings on one recipe come to, counted; every report counts alike."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from recipes_core.findings import Finding, Kind, Level


class Count(Enum):
    """What a finding counts as, in the order in which counts are told: for one, and for several."""

    ERROR = ("error", "errors")
    DID_NOT_RUN = ("check did not run", "checks did not run")
    WARNING = ("warning", "warnings")
    QUESTION = ("open question", "open questions")
    NOTE = ("note", "notes")
    NOT_APPLICABLE = ("step that does not apply", "steps that do not apply")

    def words(self, number: int) -> str:
        """The count in words."""
        return f"{number} {self.value[number != 1]}"


_LEVELS = {Level.ERROR: Count.ERROR, Level.WARNING: Count.WARNING, Level.NOTE: Count.NOTE}
_KINDS = {Kind.REVIEW: Count.DID_NOT_RUN, Kind.OPEN: Count.QUESTION, Kind.NOT_APPLICABLE: Count.NOT_APPLICABLE}


def count_of(finding: Finding) -> Count | None:
    """What the finding counts as; None for what is only told."""
    return _LEVELS[finding.level] if finding.kind is Kind.FAIL else _KINDS.get(finding.kind)


def named_counts(findings: Iterable[Finding]) -> dict[str, int]:
    """The counts by the words for several."""
    return {count.value[1]: number for count, number in counts(findings).items()}


def counts(findings: Iterable[Finding]) -> dict[Count, int]:
    """How many there are of each, those of which there are none left out."""
    found = [count_of(f) for f in findings]
    return {count: found.count(count) for count in Count if count in found}
