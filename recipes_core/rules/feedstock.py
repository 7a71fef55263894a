"""Rules on what goes in: is it known, may it be heated at all, and what else came with it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.clauses import clauses, negated, sentences
from recipes_core.rules.compare import above, cuts, heats, resin_said, says
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

DENIED = frozenset({"pvc", "pvc-u", "pvc-p", "vinyl", "pvdc", "pom", "acetal", "ptfe", "pvdf", "fep", "etfe"})
"""Denied by name, for want of a sheet."""
DENIED_FAMILIES = frozenset({"chlorinated", "fluorinated", "acetal"})
DENIED_WORDS = re.compile(r"\b(?:pvc|upvc|vinyl|polyvinyl\w*|pvdc|pom|acetal|polyoxymethylene|pvdf)\b")
"""By what people call them; PTFE is left out, which is a liner too."""
HOT = 333.15
STYRENICS = frozenset({"ps", "hips", "abs", "san", "asa"})
"""By name, for want of a sheet."""


CALLED = ("lot.lot", "lot.received_from", "header.title")
"""Where people write what they call a lot."""


def _heats_plastic(r: Reading) -> bool:
    """Whether any step heats the plastic itself, and not an empty mould alone."""
    return bool(r.fact("plastic heating steps").numbers)


def _hot(r: Reading) -> bool:
    """Whether plastic is heated above 60 °C; not knowing how hot counts as hot."""
    return above(float(r.fact("plastic heated to").numbers), HOT, Dimension.TEMPERATURE)


def _denied(r: Reading) -> Iterator[Hit]:
    name, family = r.word("lot.resin"), r.word("resin:family") if r.known("resin:family") else ""
    if _hot(r) and (name.lower() in DENIED or family in DENIED_FAMILIES):
        told = f"{name}, of the {family} plastics" if family else name
        yield Hit("lot.resin", told, "no plastic that holds chlorine or fluorine, and no acetal")


def _called(r: Reading) -> Iterator[Hit]:
    name, family = r.word("lot.resin"), r.word("resin:family") if r.known("resin:family") else ""
    if name.lower() in DENIED or family in DENIED_FAMILIES:
        return  # it is named, and judged by its name
    for at in CALLED:
        for clause, words in (pair for sentence in sentences(r.word(at)) for pair in clauses(sentence)):
            found = DENIED_WORDS.search(words)
            if found and not negated(words[: found.start()]):
                yield Hit(at, f"“{clause}”", f"what is called {name or 'nothing'} under resin is called so everywhere")
                return


def _unknown(r: Reading) -> Iterator[Hit]:
    unnamed = r.known("resin:family") and r.word("resin:family") == "unidentified"
    if _hot(r) and (not r.known("lot.resin") or r.word("lot.resin") == "mixed" or unnamed):
        yield Hit("lot.resin", resin_said(r), "one named plastic, proved twice")


def _black_or_electronic(r: Reading) -> Iterator[Hit]:
    yield from says(r, "lot.from", ("electronics",), "no housings of electronics")
    if r.word("lot.colour") != "black":
        return
    name, family = r.word("lot.resin"), r.word("resin:family") if r.known("resin:family") else ""
    if name in ("", "mixed") or family == "unidentified":
        yield Hit("lot.colour", "black, and nobody knows which plastic", "no black plastic without a name")
    elif family == "styrenic" or name in STYRENICS:
        yield Hit("lot.colour", f"black {name}", "no black styrene plastic")


def _black_polyolefin(r: Reading) -> Iterator[Hit]:
    elsewhere = r.word("lot.from") != "electronics"  # which is an error of its own
    if elsewhere and r.word("lot.colour") == "black" and r.word("resin:family") == "polyolefin":
        yield Hit("lot.colour", "black", "natural or light-coloured scrap")


def _foam(r: Reading) -> Iterator[Hit]:
    if r.word("lot.form") == "foam" and r.word("lot.densified") != "cold and aged":
        yield Hit("lot.form", "foam", "foam that was crushed cold and aged in open air, or none")


def _often(r: Reading) -> Iterator[Hit]:
    times = int(r.word("lot.times_melted")) + int(r.fact("melts").numbers)
    most = int(r.si("resin:most melts"))
    if times > most:
        yield Hit("lot.times_melted", f"{times} melts in all", f"{most} melts at most", f"{times - most} too many")


def _shares(r: Reading) -> Iterator[Hit]:
    total = float(r.fact("sum of shares").numbers)
    off = abs(total - 1.0)
    if above(off, 0.005, Dimension.SHARE):
        yield Hit(("formula", "feedstock"), show(total, Dimension.SHARE), "100 %", f"{show(off, Dimension.SHARE)} off")


def _specialist(r: Reading) -> Iterator[Hit]:
    named = r.known("resin:name")  # what has no name is refused for that
    if named and not r.known("resin:oven-air cap") and r.word("resin:family") not in DENIED_FAMILIES:
        name = r.word("resin:name")
        limit = "a plastic whose sheet gives an oven-air cap"
        yield Hit("lot.resin", r.word("resin:id"), limit, message=f"{name} is not melted in a small shop.")


RULES = (
    Rule(
        "denied-resin-heated",
        Level.ERROR,
        Scope.LOT,
        message="This plastic must never be heated in a shop.",
        checks="the named plastic of each lot, and its family, against what no sheet can allow above 60 °C",
        why="chlorine and fluorine plastics give off acid gas, acetal gives off formaldehyde; a few grams fill a room",
        do="take this lot out; sort it for a recycler who is set up for it",
        sources=(
            "published: fume table of a national safety authority (HSE, Plastics Processing Sheet 13, 2002)",
            "derived: 0.64 g of PVC reaches the 5 ppm ceiling in a closed 50 m3 room",
            "judgement: 60 °C, below which cutting and storing them is no heating",
        ),
        reads=("lot.resin", "fact:plastic heating steps", "fact:plastic heated to"),
        test=_denied,
        may_read=("resin:family",),
        when=_heats_plastic,
        absolute=True,
        refuses_plastic=True,
    ),
    Rule(
        "denied-plastic-named",
        Level.ERROR,
        Scope.LOT,
        message="The words name a plastic that must never be heated.",
        checks="the name of the lot, who gave it, and the title of the recipe, for PVC, vinyl, acetal and the like, "
        "where another plastic is named under resin",
        why="people call scrap what it is; the mark or the name that was written down later may be wrong",
        do="go back to the pieces and prove what they are; take them out if it is so, else correct the words",
        sources=("judgement: the list of words, a second net behind the name of the plastic",),
        reads=("fact:plastic heating steps", "fact:cutting steps"),
        test=_called,
        may_read=("lot.resin", "resin:family", *CALLED),
        when=lambda r: _heats_plastic(r) or cuts(r),
    ),
    Rule(
        "specialist-resin-melted",
        Level.ERROR,
        Scope.STEP,
        message="This plastic is not melted in a small shop.",
        checks="the plastic of a step that melts against those whose sheet gives no oven-air cap",
        why="it needs drying that nobody here can prove, or heat at which a plain oven makes fume and fire of it",
        do="bend or cut its sheets where their own sheet allows it, or hand it to a recycler who is set up for it",
        sources=("judgement: without a cap nobody can say how hot the oven may be",),
        reads=("resin:id",),
        test=_specialist,
        on=("melts",),
        may_read=("resin:oven-air cap", "resin:family", "resin:name"),
        absolute=True,
        refuses_plastic=True,
    ),
    Rule(
        "unknown-resin-heated",
        Level.ERROR,
        Scope.LOT,
        message="Nobody knows what this plastic is, and the recipe heats it.",
        checks="the name of each lot against any step that brings plastic above 60 °C",
        why="the wrong plastic at this heat can give off poisonous gas, and no limit can be looked up without a name",
        do="identify every piece by two proofs that agree, or leave the lot out",
        sources=("judgement: an unidentified plastic has no safe temperature; 60 °C is where heating begins",),
        reads=("fact:plastic heating steps", "fact:plastic heated to"),
        test=_unknown,
        may_read=("lot.resin", "resin:family"),
        when=_heats_plastic,
        absolute=True,
        refuses_plastic=True,
    ),
    Rule(
        "electronics-or-black-styrenic",
        Level.ERROR,
        Scope.LOT,
        message="This scrap may hold flame retardants.",
        checks="where the scrap comes from, and black together with a styrene plastic or one that nobody has named",
        why="housings of electronics and black styrene plastics often carry bromine compounds that heat makes worse",
        do="leave it out; hand it in with electronic waste",
        sources=("published: Liu et al., Chemosphere 365 (2024) 143319, abstract",),
        reads=("lot.from", "lot.colour"),
        test=_black_or_electronic,
        may_read=("lot.resin", "resin:family"),
        absolute=True,
    ),
    Rule(
        "black-polyolefin",
        Level.WARNING,
        Scope.LOT,
        message="Black scrap hides what it is made from.",
        checks="the colour of polyethylene or polypropylene that does not come from electronics",
        why="black hides recycled electronics and dirt; the risk is small in this family, not nil",
        do="prefer natural or light-coloured scrap; ask the maker about black pieces",
        sources=(
            "published: Miller et al., J. Environ. Prot. 7 (2016) 341, abstract",
            "judgement: a warning is enough",
        ),
        reads=("lot.from", "lot.colour", "resin:family"),
        test=_black_polyolefin,
    ),
    Rule(
        "foam-heated",
        Level.ERROR,
        Scope.LOT,
        message="Foam may still hold flammable gas.",
        checks="foam that was not crushed cold and aged, against any heating step",
        why="fresh foam can hold up to 2 % pentane; about 60 g of it can fill a small oven to the ignition limit",
        do="crush it cold and let it stand in open air for weeks, or leave it out",
        sources=(
            "published: HSE, Plastics Processing Sheet 1, pentane in expandable polystyrene",
            "derived: oven volume 50 l",
        ),
        reads=("lot.form", "fact:heating steps"),
        test=_foam,
        may_read=("lot.densified",),
        when=heats,
    ),
    Rule(
        "flame-retarded-heated",
        Level.ERROR,
        Scope.LOT,
        message="Flame-retarded plastic must not be heated here.",
        checks="the stated filler against any heating step",
        why="the additives break down into acid gas and long-lived poisons",
        do="take this lot out",
        sources=("published: Liu et al., Chemosphere 365 (2024) 143319, abstract",),
        reads=("lot.filled", "fact:heating steps"),
        test=lambda r: says(r, "lot.filled", ("flame-retardant",), "no flame retardant"),
        when=heats,
        absolute=True,
    ),
    Rule(
        "melted-too-often",
        Level.WARNING,
        Scope.LOT,
        message="This plastic has been melted many times.",
        checks="melts before plus melts in this recipe against what the sheet allows",
        why="each melt uses up the stabiliser; impact strength falls after the third pass",
        do="mix in fresher scrap, or make something that is not knocked about",
        sources=("published: repeated extrusion of dairy-grade HDPE, Univ. of Wollongong, abstract",),
        reads=("lot.times_melted", "resin:most melts", "fact:melts"),
        test=_often,
        when=lambda r: bool(r.fact("melts").numbers),
    ),
    Rule(
        "shares-do-not-add-up",
        Level.ERROR,
        Scope.RECIPE,
        message="The shares of the feedstock do not add up.",
        checks="the sum of the shares against 100 %",
        why="nobody can weigh the charge from it",
        do="correct the shares so that they make 100 %",
        sources=("derived: a mass balance",),
        reads=("fact:sum of shares",),
        test=_shares,
    ),
    Rule(
        "pieces-unchecked",
        Level.ERROR,
        Scope.LOT,
        message="Not every piece was looked at, and the recipe heats them.",
        checks="whether every piece of the lot was identified, against any heating step",
        why="one stray piece of PVC spoils the batch: less than a gram of it fills a room with acid gas",
        do="look at every piece, or float the whole batch and throw out what sinks",
        sources=("derived: 0.64 g of PVC reaches the 5 ppm ceiling in a closed 50 m3 room", "judgement"),
        reads=("lot.every_piece_checked", "fact:heating steps"),
        test=lambda r: says(r, "lot.every_piece_checked", ("no",), "every piece checked"),
        when=heats,
        absolute=True,
    ),
)
