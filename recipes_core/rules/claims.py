"""Rules on what the part is for: what scrap may never be sold or used as."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.rules.compare import says
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

FOOD = ("food", "drink", "baby", "toy for small children", "bedding")
LIFE = ("lifting", "climbing", "ladder", "protective gear", "vehicle control", "mains insulation")
LOADED = ("seat", "railing", "shelf over people", "wheel")


def _food(r: Reading) -> Iterator[Hit]:
    yield from says(r, "part.use", FOOD, "no contact with food, and nothing for small children")
    if r.known("part.claims"):
        yield from says(r, "part.claims", ("food safe",), "no such claim")


def _load(r: Reading) -> Iterator[Hit]:
    claimed = "load rated" in r.words("part.claims") if r.known("part.claims") else False
    tested = r.known("part.load_tested_by") and r.word("part.load_tested_by") == "competent engineer"
    if tested:
        return
    if claimed:
        yield Hit("part.claims", "load rated", "tested and signed by a competent engineer")
    yield from says(r, "part.use", LOADED, "tested and signed by a competent engineer")


def _withheld(r: Reading) -> Iterator[Hit]:
    _, unknown = r.fact("mark").numbers
    if "recycled content" in r.words("part.claims") and unknown:
        yield Hit("part.claims", "; ".join(unknown), "every lot known: its plastic, its share, where it comes from")


RULES = (
    Rule(
        "food-claim",
        Level.ERROR,
        Scope.RECIPE,
        message="Scrap plastic cannot be made fit for food or for small children.",
        checks="what the part is used for, or claimed to be",
        why="nobody knows all that is in the scrap; it can pass into food or a child's mouth",
        do="use the part for something else",
        sources=("common practice", "memory: recycled plastic for food needs clearance by an authority"),
        reads=("part.use",),
        test=_food,
        may_read=("part.claims",),
        absolute=True,
    ),
    Rule(
        "life-safety-claim",
        Level.ERROR,
        Scope.RECIPE,
        message="No life may hang on a part from scrap.",
        checks="what the part is used for against lifting, climbing, protection, steering and mains insulation",
        why="a void or a wrong flake inside cannot be seen, and the part breaks without warning",
        do="buy the part from a maker who answers for it",
        sources=("judgement",),
        reads=("part.use",),
        test=lambda r: says(r, "part.use", LIFE, "nothing that holds a life or mains voltage"),
        absolute=True,
    ),
    Rule(
        "load-claim",
        Level.ERROR,
        Scope.RECIPE,
        message="A part that people lean on was not tested.",
        checks="load-bearing uses and claims against a test by a competent engineer",
        why="people fall when it breaks",
        do="have a competent engineer test and sign it, or make something that carries nobody",
        sources=("judgement",),
        reads=("part.use",),
        test=_load,
        may_read=("part.claims", "part.load_tested_by"),
    ),
    Rule(
        "mark-withheld",
        Level.NOTE,
        Scope.RECIPE,
        message="The part gets no recycled-content mark.",
        checks="the recycled-content claim against what is known of every lot and of the lots it was blended from",
        why="a mark that nobody can vouch for sends the part into the wrong melt, for good",
        do="trace the lots, or leave the part unmarked",
        sources=("published: ISO 11469 with the symbols of ISO 1043-1 (abstracts)",),
        reads=("part.claims", "fact:mark"),
        test=_withheld,
    ),
)
