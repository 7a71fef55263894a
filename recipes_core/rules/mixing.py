"""Rules on resins in one melt: which pairs, how much of the smaller one, at which heat, and how alike they flow."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.mixing import Relation
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

T, SHARE = Dimension.TEMPERATURE, Dimension.SHARE
UNEVEN, APART = 3.3, 10.0


def _mixed(r: Reading) -> bool:
    return r.known("fact:pairs") and bool(r.fact("pairs").numbers)


def _never(r: Reading) -> Iterator[Hit]:
    for pair in r.fact("pairs").numbers:
        if pair.relation in (Relation.NEVER, Relation.SEPARATES):
            floats = pair.relation is Relation.SEPARATES
            yield Hit(
                (*pair.path, "resin"),
                f"{pair.minor} in {pair.main}",
                f"no {pair.minor} at all",
                do="float the two apart in water and keep what belongs to the main plastic" if floats else "",
            )


def _over(r: Reading) -> Iterator[Hit]:
    for pair in r.fact("pairs").numbers:
        if pair.tolerated is None or pair.relation is not Relation.TOLERATED:
            continue
        most = float(pair.tolerated.value)
        if above(pair.share, most, SHARE):
            yield Hit(
                (*pair.path, "share"),
                f"{show(pair.share, SHARE)} {pair.minor} in {pair.main}",
                f"{show(most, SHARE)} at most",
                f"{show(pair.share - most, SHARE)} too much",
            )


def _miss(r: Reading) -> Iterator[Hit]:
    low, high = r.si("resin:window low"), r.si("resin:window high")
    if above(low, high, T):
        found = f"one wants {show(low, T)} at least, another bears {show(high, T)} at most"
        yield Hit(("formula", "feedstock"), found, "one temperature that suits all of them")


def _flow(r: Reading) -> Iterator[Hit]:
    path, ratio = r.fact("melt flow ratio").numbers
    shown = round(ratio, 1)
    if shown > UNEVEN:
        level = Level.WARNING if shown > APART else Level.NOTE
        yield Hit(path, f"{shown:g} : 1", f"{UNEVEN:g} : 1 at most for an even melt", level=level)


RULES = (
    Rule(
        "pair-never",
        Level.ERROR,
        Scope.RECIPE,
        message="These plastics do not belong in one melt.",
        checks="each resin beside the main one against the pairs that the sheet of the main one allows",
        why="one stays a hard lump, makes brittle layers, or breaks down before the other melts",
        do="sort it out, or make two parts",
        sources=("common practice: which plastics get on", "judgement: a pair nobody lists is not mixed"),
        reads=("fact:pairs",),
        test=_never,
        when=_mixed,
    ),
    Rule(
        "pair-over-share",
        Level.ERROR,
        Scope.RECIPE,
        message="There is too much of another plastic in it.",
        checks="the share of each smaller resin against what the sheet of the main one tolerates",
        why="past that share the part breaks along the seams between the two",
        do="sort more of it out, or stretch it with more of the main plastic",
        sources=("common practice", "published: PP in recycled HDPE is brittle above about 10 % (recycling article)"),
        reads=("fact:pairs",),
        test=_over,
        when=_mixed,
    ),
    Rule(
        "windows-miss",
        Level.ERROR,
        Scope.RECIPE,
        message="No oven temperature suits all of these plastics.",
        checks="the highest lower end against the lowest upper end of the melt windows of all resins",
        why="one is not melted yet when the other is already breaking down",
        do="take plastics whose windows overlap",
        sources=("common practice: melt windows",),
        reads=("fact:pairs", "resin:window low", "resin:window high"),
        test=_miss,
        when=_mixed,
    ),
    Rule(
        "melt-flow-mismatch",
        Level.WARNING,
        Scope.RECIPE,
        message="These lots flow very differently.",
        checks="the ratio of the largest to the smallest melt flow among the lots: a note over 3.3, a warning over 10",
        why="the runny one wets and skins first, the stiff one stays in lumps and cold laps",
        do="keep bottle and injection grades apart, or melt for longer (not hotter)",
        sources=(
            "judgement: both ratios; the mixing rule of the logarithms holds to about 3.3 : 1 in one supplier's note",
        ),
        reads=("fact:melt flow ratio",),
        test=_flow,
    ),
)
