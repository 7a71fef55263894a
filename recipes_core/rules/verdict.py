"""The verdict of a recipe, worded so that it never promises safety, and the exit status that goes with it."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from recipes_core.findings import Finding, Kind, Level


class Verdict(Enum):
    """What is said of a recipe as a whole, with its exit status."""

    NOTHING_FOUND = ("nothing found against it", 0)
    WITH_CARE = ("try with care", 0)
    NOT_YET = ("do not try yet", 3)
    DO_NOT_TRY = ("do not try", 1)
    UNUSABLE = ("cannot be read", 2)

    @property
    def words(self) -> str:
        """The verdict in words."""
        return str(self.value[0])

    @property
    def exit_status(self) -> int:
        """The exit status that this verdict alone leads to."""
        return int(self.value[1])


def verdict(findings: Iterable[Finding]) -> Verdict:
    """The verdict over all findings: an error stands; else something not checked; else something to mind."""
    findings = list(findings)
    if any(f.kind is Kind.FAIL and f.level is Level.ERROR for f in findings):
        return Verdict.DO_NOT_TRY
    if any(
        (f.kind is Kind.REVIEW and f.rule.endswith("did-not-run")) or (f.kind is Kind.OPEN and f.absolute)
        for f in findings
    ):
        return Verdict.NOT_YET
    if any(f.level in (Level.ERROR, Level.WARNING) and f.kind is not Kind.PASS for f in findings):
        return Verdict.WITH_CARE
    return Verdict.NOTHING_FOUND


def exit_status(verdicts: Iterable[Verdict]) -> int:
    """The exit status over several recipes: 2 wins over 1, 1 over 3, 3 over 0."""
    statuses = {v.exit_status for v in verdicts}
    return next((s for s in (2, 1, 3) if s in statuses), 0)
