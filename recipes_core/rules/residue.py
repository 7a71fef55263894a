"""Rules on what came with the plastic: what it held, what sticks to it, what hides in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.rules.compare import says
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

RESIDUES = ("mineral oil", "fuel", "solvent", "paint", "pesticide", "acid or alkali", "medical", "bodily")
BURSTING = ("batteries", "closed containers", "pressure cans", "lighters")
CLEAN_ENOUGH = "only food, drink, cooking oil, detergent or bleach"


def _unwashed(r: Reading) -> Iterator[Hit]:
    step = r.fact("unwashed step").numbers
    soil, held = r.word("lot.contamination"), r.word("lot.past_contents")
    if soil in ("light", "heavy"):
        yield Hit("lot.contamination", f"{soil}, and no wash before {step}", "clean, or washed first")
    elif soil != "clean" and held not in ("", "none"):
        yield Hit("lot.past_contents", f"{held}, and no wash before {step}", "washed first, or contamination: clean")


def _inside(r: Reading) -> Iterator[Hit]:
    removed = set(r.words("lot.removed"))
    left = [thing for thing in BURSTING if thing not in removed]
    if left:
        yield Hit("lot.removed", r.text("lot.removed"), ", ".join(BURSTING), f"{', '.join(left)} not removed")


def _metal(r: Reading) -> Iterator[Hit]:
    if "metal" not in r.words("lot.removed"):
        yield Hit("lot.removed", r.text("lot.removed"), "metal removed")


RULES = (
    Rule(
        "chemical-residue",
        Level.ERROR,
        Scope.LOT,
        message="These containers held something that must not be heated.",
        checks="what the scrap held against the list of refused contents; contents that nobody knows stop the recipe",
        why="washing does not get it out; heat turns it into vapour or fire",
        do="leave these pieces out; follow the label's return rule",
        sources=("common practice",),
        reads=("lot.past_contents",),
        test=lambda r: says(r, "lot.past_contents", RESIDUES, CLEAN_ENOUGH),
        absolute=True,
    ),
    Rule(
        "residue-not-washed",
        Level.WARNING,
        Scope.LOT,
        message="What the scrap held is still on it when it is cut or heated.",
        checks="past contents, labels, glue and soil against a wash step before the first step that shreds or heats",
        why="sugar, oil and glue scorch and smoke in the heat, and make seams that split; a shredder spreads them",
        do="wash it before it is cut, or write contamination: clean where it comes washed",
        sources=("common practice",),
        reads=("lot.past_contents", "fact:unwashed step"),
        test=_unwashed,
        may_read=("lot.contamination",),
        when=lambda r: bool(r.fact("unwashed step").numbers),
    ),
    Rule(
        "closed-container",
        Level.ERROR,
        Scope.LOT,
        message="A battery, a can or a closed container may be among the scrap.",
        checks="what was removed against batteries, closed containers, pressure cans and lighters, wherever a step "
        "sorts or shreds",
        why="cut or heated, it bursts or burns in somebody's face",
        do="take it out by hand, force nothing open, and hand it in where such things are collected",
        sources=("common practice",),
        reads=("lot.removed", "fact:sorting steps", "fact:machines"),
        test=_inside,
        when=lambda r: bool(r.fact("sorting steps").numbers) or "shredder" in r.fact("machines").numbers,
        absolute=True,
    ),
    Rule(
        "metal-not-removed",
        Level.WARNING,
        Scope.LOT,
        message="Metal may go into the blades.",
        checks="what was removed against metal, before a step that shreds or planes",
        why="a screw breaks a knife, throws pieces and strikes sparks into dust",
        do="look for screws, springs, staples and foil; go over the scrap with a magnet",
        sources=("common practice",),
        reads=("lot.removed", "fact:machines"),
        test=_metal,
        when=lambda r: bool({"shredder", "planer"} & r.fact("machines").numbers),
    ),
)
