"""Whether a text tells anybody to burn plastic or waste: a sentence or clause that begins with it.

Words alone are weak (a burn is cooled, an oven may burn plastic), so that only what reads as an order counts.
"""

from __future__ import annotations

import re

_SMALL = r"(?:(?:the|a|an|any|all|your|some|of|this|that|small|left-?over|old)\s+){0,5}"
_WASTE = (
    r"(?:waste|scraps?|off-?cuts?|trimmings|left-?overs|rubbish|plastics?|flakes?|pieces?|flash|sludge|lint|labels?"
    r"|samples?|strips?|corners?|slivers?)"
)
_ORDER = re.compile(rf"(?:(?:and|then|please|or)\s+)*(?:burn|set\s+fire\s+to|incinerate)\s+{_SMALL}{_WASTE}\b", re.I)
_CLAUSE = re.compile(r"[.;:!?()\n]+|,|\bthen\b|\band\b", re.IGNORECASE)


def burning_told(text: str) -> str:
    """The clause that tells it, in the author's words, or an empty text."""
    for clause in _CLAUSE.split(text):
        words = " ".join(clause.split())
        if _ORDER.match(words):
            return words
    return ""
