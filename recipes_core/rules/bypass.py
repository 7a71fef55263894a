"""Whether a text tells anybody to get round what protects them: a verb that acts on a guard, and is not negated.

The second net behind the structured fields. Words alone are weak (tape is a tool, a bridge a shape, a switch is
turned off), so that no single word ever counts: the verb must act on the guard, with small words alone between.
"""

from __future__ import annotations

import re

from recipes_core.rules.clauses import clauses, negated, sentences

_VERBS = (
    r"(?:bypass(?:es|ed|ing)?|defeat(?:s|ed|ing)?|bridg(?:e|es|ed|ing)|jumper(?:s|ed|ing)?|tap(?:e|es|ed|ing)"
    r"|wedg(?:e|es|ed|ing)|disabl(?:e|es|ed|ing)|overrid(?:e|es|den|ing)"
    r"|(?:put|stick|place)s?\s+a\s+magnet|(?:hold|tie|prop|block)(?:s|ing)?\s+(?:in|down|shut|closed))"
)
_HOLDS = r"(?:hold|tie|prop|block)(?:s|ing)?"
_REMOVES = r"(?:remov(?:e|es|ed|ing)|tak(?:e|es|en|ing)\s+(?:off|out)|unscrew(?:s|ed|ing)?)"
_GUARDS = (
    r"(?:guards?|interlocks?|(?:safety|limit|door|lid|guard)\s+switch(?:es)?|switch(?:es)?|sensors?|cut-?outs?"
    r"|limiters?|thermostats?|(?:thermal\s+)?fuses?)"
)
_KEPT = r"(?:guards?|interlocks?|thermostats?|limiters?|(?:thermal\s+)?fuses?)"
"""What may not be taken off; a cut-out may be a hole in a sheet, and a switch or sensor is taken off to be mended."""

_SMALL = (
    r"(?:(?:the|a|an|its|this|that|any|all|of|on|in|into|over|down|up|onto|to|safety|lid|door|hopper|stick|tape|wire)"
    r"\s+){0,5}"
)
"""What may stand between the verb and what it acts on; any other word makes them strangers."""
_IS = r"(?:(?:is|are|was|were|be|being|gets|stays)\s+)?"
_DONE = r"(?:bypassed|defeated|bridged|jumpered|taped|wedged|disabled|overridden|(?:held|tied|propped)\s+\w+)"

_ROUND = re.compile(
    rf"\b{_VERBS}\s+{_SMALL}{_GUARDS}\b(?!\s+(?:off|on)\b)"
    rf"|\b{_HOLDS}\s+{_SMALL}{_GUARDS}\s+(?:in|down|shut|closed)\b"
    rf"|\b{_GUARDS}\s+{_IS}{_DONE}\b"
)
_OFF = re.compile(rf"\b{_REMOVES}\s+{_SMALL}{_KEPT}\b|\b{_KEPT}\s+{_IS}(?:removed|taken\s+off)\b")
_ISOLATED = re.compile(r"\b(?:unplug\w*|lock(?:ed)?\s+(?:it\s+)?(?:off|out)|isolat\w+|dead|disconnect\w*)\b")
_NAMED = re.compile(rf"\b{_GUARDS}\b")
_IT = re.compile(
    r"\b(?:bypass|defeat|bridge|jumper|tape|wedge|disable|override)\s+"
    r"(?:(?:a|the|magnet|stick|over|on|onto|to)\s+){0,4}(?:it|them)\b"
)
"""Where the clause before has named the guard."""


def bypass_told(text: str) -> str:
    """The clause that tells it, in the author's words, or an empty text.

    Taking a guard off is not counted in a sentence that also has the machine unplugged or locked off.
    """
    for sentence in sentences(text):
        isolated = _ISOLATED.search(sentence.lower())
        named = False
        for clause, words in clauses(sentence):
            found = _ROUND.search(words) or (None if isolated else _OFF.search(words))
            found = found or (_IT.search(words) if named else None)
            if found and not negated(words[: found.start()]):
                return clause
            named = bool(_NAMED.search(words))
    return ""
