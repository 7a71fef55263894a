"""What no recipe may tell anybody, found in its free words: the second net, behind the fields that say it plainly.

No single word counts; each deed needs what is done and what it is done to in one clause, and is not negated.
A way round a guard, and an order to burn plastic, have nets of their own (``bypass``, ``burning``).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.rules.bypass import bypass_told
from recipes_core.rules.clauses import clauses, negated, sentences
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading


@dataclass(frozen=True)
class Deed:
    """What a clause tells if all of ``signs`` are in it, none of ``spared``, and nothing before the last negates it.

    ``supposed``: an "if" negates it too.
    """

    signs: tuple[re.Pattern[str], ...]
    limit: str
    do: str
    spared: re.Pattern[str] | None = None
    supposed: bool = True

    def told(self, text: str) -> str:
        """The clause, in the author's words, or an empty text."""
        for sentence in sentences(text):
            for clause, words in clauses(sentence):
                found = [sign.search(words) for sign in self.signs]
                if not all(found) or (self.spared and self.spared.search(words)):
                    continue
                if not negated(words[: max(match.start() for match in found if match)], supposed=self.supposed):
                    return clause
        return ""


def _any(*words: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(words)})\b")


LEFT_ALONE = Deed(
    (
        _any(
            r"unattended",
            r"lock(?:s|ed|ing)?\s+up",
            r"walk(?:s|ed|ing)?\s+away",
            r"go(?:es|ing)?\s+(?:home|away|out|shopping|to\s+(?:bed|lunch|sleep)|and\s+(?:fetch|get|have|buy|do))",
            r"leav(?:e|es|ing)\s+(?:it|them|the\s+oven)\s+(?:running|on|unwatched|to\s+itself|overnight)",
            r"leav(?:e|es|ing)\s+the\s+(?:room|shop|workshop|building|house)",
            r"(?:runs?|heats?|melts?|bakes?)\s+(?:it\s+)?overnight",
        ),
    ),
    "somebody stays while it is hot",
    "stay with it from switching on until the heat is off, and take the words out",
)
"""Said of a step that heats; parts may cool alone."""

DEEDS = (
    Deed(
        (
            _any(r"handle", r"lever"),
            _any(r"pipes?", r"tubes?", r"tubing", r"cheater", r"extension", r"scaffold\w*", r"impact\s+\w+", r"drill"),
            _any(r"(?:slip|slid|put|push|fit|stick|shov|add|lean|extend|lengthen|pump|pull)(?:e|s|es|ed|t|ting|ing)?"),
        ),
        "the handle that came with the jack, pumped by hand",
        "pump by hand, with the handle that came with it; if that is too hard, the load is too great",
    ),
    Deed(
        (
            _any(r"(?:pour|trickl|tip|throw|splash|spray|squirt|drip|dash|dunk|run|put|quench)(?:e|s|es|ed|ing)?"),
            _any(r"water"),
            _any(
                r"melt",
                r"molten",
                r"hot\s+(?:plastic|mould|mold|part|flake)",
                r"closed\s+(?:mould|mold)",
                r"(?:in|into|inside)\s+(?:of\s+)?the\s+(?:(?:gap|crack|slit)\s+of\s+the\s+)?(?:mould|mold|oven)",
            ),
        ),
        "water on the outside of a closed mould, or on a part that has set",
        "let it cool in the closed mould; water turns to steam at once and throws hot plastic",
        _any(r"outside", r"burns?", r"skin", r"fire"),
    ),
    Deed(
        (
            _any(r"bleach", r"hypochlorite"),
            _any(r"ammonia", r"acid", r"vinegar", r"descaler", r"lime\s*scale\s+remover", r"toilet\s+cleaner"),
        ),
        "one washing agent at a time, and bleach with water alone",
        "rinse bottles of bleach alone, with plain water; with ammonia or acid they give off poisonous gas",
    ),
    Deed(
        (
            _any(r"smok(?:e|es|ing)", r"fumes?", r"haze", r"sting(?:s|ing)?"),
            _any(r"(?:carry|go|keep|work|press)\s+(?:on|going|working)", r"ignore", r"put\s+up\s+with"),
        ),
        "at smoke or stinging eyes the heat goes off and everybody out",
        "heat off, door shut, everybody out; find out why before it is heated again",
        supposed=False,
    ),
    Deed(
        (
            _any(
                r"food[- ]?(?:safe|grade)",
                r"(?:safe|fit|fine|good)\s+for\s+(?:food|babies|a\s+baby|toddlers)",
                r"(?:cutting|chopping|cheese|bread)[- ]?boards?",
                r"bab(?:y|ies)(?:'s)?\s+(?:food|bottle|porridge|spoon|toy|plate|cup)s?",
            ),
        ),
        "nothing for food, drink or small children",
        "make something else of it, and take the words out",
    ),
)


def _told(r: Reading) -> Iterator[Hit]:
    heating = {step.path for step in r.case.recipe.steps if step.id in r.fact("heating steps").numbers}
    for path, text in r.fact("texts").numbers:
        deeds = (*DEEDS, LEFT_ALONE) if path[:2] in heating or len(path) == 1 else DEEDS
        for deed in deeds:
            if clause := deed.told(text):
                yield Hit(path, f"“{clause}”", deed.limit, do=deed.do)
        if len(path) == 1 and (clause := bypass_told(text)):  # in a step it is an interlock that is got round
            yield Hit(path, f"“{clause}”", "no way round anything that protects")


RULES = (
    Rule(
        "told-in-words",
        Level.ERROR,
        Scope.RECIPE,
        message="The words tell somebody to do what no recipe may.",
        checks="the notes, and what each step waits for: a pipe on the handle of the jack, water onto melt or into a "
        "hot mould, bleach beside ammonia or acid, work that goes on in smoke, a promise that the part is safe "
        "for food, an oven left alone, a guard that is got round; a clause that says not to does not count",
        why="whoever works from the sheet does what it says, and no field shows it",
        do="take the words out, and do it another way",
        sources=("common practice", "judgement: the list of words, a second net behind the fields"),
        reads=("fact:texts", "fact:heating steps"),
        test=_told,
    ),
)
