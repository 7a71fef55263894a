"""Every finding counts as one thing, or is only told."""

from __future__ import annotations

from recipes_core.findings import Finding, Kind, Level
from recipes_core.report.counts import Count, count_of, counts


def test_counts_in_their_order(weights: dict[str, Finding]) -> None:
    """Those of which there are none are left out."""
    found = counts([*weights.values(), weights["a warning"]])
    assert list(found.items()) == [
        (Count.ERROR, 1),
        (Count.DID_NOT_RUN, 1),
        (Count.WARNING, 2),
        (Count.QUESTION, 2),
        (Count.NOTE, 1),
    ]
    assert counts([]) == {}


def test_one_and_several() -> None:
    """In words."""
    assert Count.ERROR.words(1) == "1 error"
    assert Count.DID_NOT_RUN.words(2) == "2 checks did not run"
    assert Count.NOT_APPLICABLE.words(1) == "1 step that does not apply"


def test_what_is_only_told_does_not_count() -> None:
    """A newer format, say."""
    told = Finding("format-newer", Level.NOTE, Kind.INFORMATIONAL, "Newer.")
    assert count_of(told) is None
    assert count_of(Finding("x", Level.WARNING, Kind.NOT_APPLICABLE, "Not for this.")) is Count.NOT_APPLICABLE
