"""Rules on what a lot is: do its proofs suffice, do they agree, and can it be followed back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.identity import (
    ALTERED,
    BY_DENSITY,
    LIQUID,
    MARK,
    WEIGHED,
    WEIGHING,
    Evidence,
    Proof,
    beside,
    ends_of,
    gap,
    splits,
)
from recipes_core.quantities import Dimension, show
from recipes_core.rules.burning import burning_told
from recipes_core.rules.compare import says
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

FLAME = "flame or smell"
UNPROVED = frozenset({FLAME, "none"})
READINGS = {MARK: "lot.mark_seen", LIQUID: "lot.pair_floats", WEIGHED: "lot.density"}
"""Proof → the field that says what was read."""


def _evidence(r: Reading) -> Evidence:
    found: Evidence = r.fact("evidence").numbers[r.case.lot or 0]
    return found


def _few(r: Reading) -> Iterator[Hit]:
    listed, evidence = set(r.words("lot.identified_by")) - UNPROVED, _evidence(r)
    bad = {proof.name for proof in evidence.proofs if not evidence.agrees(proof)}
    apart = {"density" if name in BY_DENSITY else name for name in listed - bad}
    if len(apart) < 2:
        yield Hit("lot.identified_by", f"{len(apart)} proof" + "s" * (len(apart) != 1), "2 that agree")


def _against(evidence: Evidence) -> Iterator[Proof]:
    """Proofs that leave other plastics; a density that fits no plastic at all is the filler's doing, not a name."""
    for proof in evidence.proofs:
        other = evidence.claim and proof.left is not None and evidence.claim.name not in proof.left
        if other and (proof.left or proof.name != WEIGHED):
            yield proof


def _read(r: Reading) -> bool:
    if not r.known("lot.identified_by"):
        return True
    evidence = _evidence(r)
    return evidence.claim is not None and (any(p.left is not None for p in evidence.proofs) or bool(_unread(r)))


def _unread(r: Reading) -> tuple[str, ...]:
    """Where a step of the recipe makes the proofs, their readings are asked for."""
    sorts = bool(r.fact("sorting steps").numbers)
    told = {proof.name for proof in _evidence(r).proofs if proof.at == "lot.filled"}
    return tuple(READINGS[n] for n in r.words("lot.identified_by") if sorts and n in READINGS and n not in told)


def _disagree(r: Reading) -> Iterator[Hit]:
    evidence = _evidence(r)
    for proof in _against(evidence):
        said = f" {r.text(proof.at)}" if proof.at != "lot.identified_by" else ""
        told = ", ".join(sorted(proof.left or ())) or "no plastic of the library"
        yield Hit(proof.at, f"{proof.name}{said}: {told}", evidence.claim.name if evidence.claim else "")


def _same_side(r: Reading) -> tuple[Evidence, tuple[str, ...]]:
    """The evidence of this lot, and the plastics that the liquid has to tell from it: other lots', else any."""
    evidence = _evidence(r)
    if evidence.claim is None:
        return evidence, ()
    lots = [other.claim for other in r.fact("evidence").numbers if other.claim]
    named = beside(evidence.claim, lots) or beside(evidence.claim, evidence.kinds.values())
    return evidence, tuple(kind.name for kind in named)


def _unsplit(r: Reading) -> Iterator[Hit]:
    evidence, names = _same_side(r)
    claim, others = evidence.claim, [evidence.kinds[name] for name in names]
    if claim is None or not others:
        return
    raw = r.raw("lot.pair_floats")
    if not splits(ends_of(raw), claim, others):  # type: ignore[arg-type]
        between = gap(claim, others)
        limit = f"{_density(between[0])} to {_density(between[1])}" if between else "no liquid tells them apart"
        yield Hit("lot.pair_floats", r.text("lot.pair_floats"), limit)


def _density(si: float) -> str:
    return show(si, Dimension.DENSITY)


def _altered(r: Reading) -> Iterator[Hit]:
    yield from says(r, "lot.filled", ALTERED, "unfilled plastic, whose weight and melt the sheet knows")
    evidence = _evidence(r)
    claim = evidence.claim
    if claim and any(p.name == WEIGHED and p.left == frozenset() for p in evidence.proofs):
        window = f"{_density(claim.low)} to {_density(claim.high)}, give or take {WEIGHING:.0%}"
        yield Hit("lot.density", r.text("lot.density"), window)


def _burnt(r: Reading) -> Iterator[Hit]:
    yield from says(r, "lot.identified_by", (FLAME,), "a proof without fire or smell")
    for path, text in r.fact("texts").numbers:
        if clause := burning_told(text):
            yield Hit(path, f"“{clause}”", "no plastic is burnt, neither to tell it nor to be rid of it")


def _sunned(r: Reading) -> Iterator[Hit]:
    if r.word("lot.outdoor") == "yes":
        yield from says(r, "lot.bend_test", ("failed", "not done"), "passed")


def _untraced(r: Reading) -> Iterator[Hit]:
    if not r.known("lot.lot"):
        yield Hit(r.path("lot.lot")[:-1], "a lot without a name", "a name that leads back to where it came from")
    parents = r.case.recipe.raw(r.path("lot.parents"))
    nameless = isinstance(parents, list) and any(p.get("lot", "unknown") == "unknown" for p in parents)
    if parents == "unknown" or nameless or (parents is None and r.word("lot.resin") == "mixed"):
        yield Hit(r.path("lot.parents"), "a blend of lots without names", "the name of every lot in it")


RULES = (
    Rule(
        "proofs-too-few",
        Level.ERROR,
        Scope.LOT,
        message="One proof is not enough to name a plastic.",
        checks="the number of proofs that agree and do not rest on each other against 2; floats and weighings all "
        "rest on density and count as one, and not at all in filled or foamed plastic; flame and smell do not count",
        why="marks lie and several plastics float; two proofs that agree catch most mix-ups",
        do="add a proof of another kind: a moulded mark, a density, an infrared reading, the maker's own sheet",
        sources=("common practice",),
        reads=("lot.identified_by", "fact:evidence"),
        test=_few,
    ),
    Rule(
        "proofs-disagree",
        Level.ERROR,
        Scope.LOT,
        message="A proof says that this is another plastic.",
        checks="the named plastic against those that each proof leaves: the mark by number or letters, what floats in "
        "water, the measured density (1 % off at most) within the windows of the sheets; no density where a "
        "filler or foam is stated",
        why="the wrong plastic is heated to the wrong heat, and some plastics give off poisonous gas at any",
        do="set the lot aside and sort it again; a plastic that two proofs do not agree on is not used",
        sources=(
            "published: marks and numbers of ASTM D7611",
            "derived: the density windows of the sheets at hand",
            "memory: fresh water at 20 °C weighs 998 kg/m3",
            "judgement: a density measured in a small shop may be 1 % off",
        ),
        reads=("lot.resin", "lot.identified_by", "fact:evidence", "fact:sorting steps"),
        test=_disagree,
        also=_unread,
        may_read=("lot.mark_seen", "lot.density", "lot.pair_floats"),
        when=_read,
        absolute=True,
    ),
    Rule(
        "float-does-not-split",
        Level.WARNING,
        Scope.LOT,
        message="The second liquid does not tell these plastics apart.",
        checks="the density of the liquid against the windows of the plastic and of those on the same side of water: "
        "one must wholly float in it and another wholly sink",
        why="where both float, or a plastic may do either, the float proves nothing",
        do="mix the liquid to a density between the two windows, and measure it with a hydrometer",
        sources=(
            "derived: the density windows of the sheets at hand",
            "common practice: a liquid between two floaters",
        ),
        reads=("lot.resin", "lot.pair_floats", "fact:evidence"),
        test=_unsplit,
        when=lambda r: r.known("lot.pair_floats"),
    ),
    Rule(
        "filled-or-foamed",
        Level.WARNING,
        Scope.LOT,
        message="Something else is in this plastic, and its weight shows it.",
        checks="the stated filler, and a measured density (1 % off at most) that fits no plastic's window",
        why="filler, fibre or bubbles change how it weighs, flows and shrinks; the sheet's numbers do not hold for it",
        do="weigh a piece in air and in water again; if it stays so, keep the lot apart and try a small piece first",
        sources=(
            "derived: the density windows of the sheets at hand",
            "judgement: a warning is enough, and a density may be 1 % off",
        ),
        reads=("fact:evidence",),
        test=_altered,
        may_read=("lot.filled", "lot.density"),
        when=lambda r: r.known("lot.filled") or r.known("lot.density"),
    ),
    Rule(
        "burn-test",
        Level.ERROR,
        Scope.LOT,
        message="Plastics are told apart by fire or smell, or burnt as waste.",
        checks="the proofs named against flame or smell, and the words of the recipe for an order to burn plastic",
        why="the smoke of the wrong plastic injures lungs, sometimes hours later",
        do="use a mark, a float test, a weighed density or an infrared reading instead; waste goes to the collection",
        sources=("common practice", "judgement: never as routine"),
        reads=("fact:texts",),
        test=_burnt,
        may_read=("lot.identified_by",),
        absolute=True,
    ),
    Rule(
        "sun-aged",
        Level.WARNING,
        Scope.LOT,
        message="Sun may have made this plastic brittle.",
        checks="plastic that lived outdoors against a bend test that it passed",
        why="sunlight breaks the chains at the surface; a part made of it cracks, and no heat mends that",
        do="bend five pieces sharply: if one cracks or whitens with a snap, leave the lot out",
        sources=("common practice", "judgement: five pieces"),
        reads=("lot.outdoor",),
        test=_sunned,
        also=lambda r: ("lot.bend_test",) if r.word("lot.outdoor") == "yes" else (),
        may_read=("lot.bend_test",),
    ),
    Rule(
        "lot-not-traced",
        Level.NOTE,
        Scope.LOT,
        message="Nobody can follow this lot back.",
        checks="the name of the lot, and the names of the lots that a blend was made of",
        why="when one bad piece turns up, nobody knows which parts it went into",
        do="give the lot a name and write down what went into it; a label on the bag is enough",
        sources=("common practice: lots of scrap are followed by their names", "judgement: a note is enough"),
        reads=(),
        test=_untraced,
        may_read=("lot.lot", "lot.resin"),
    ),
)
