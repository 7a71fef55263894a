"""The rule on dust that must not be made at all."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.facts import Given, Open
from recipes_core.findings import Level
from recipes_core.rules.compare import resin_said
from recipes_core.rules.feedstock import DENIED, DENIED_FAMILIES
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

FLUORINATED = frozenset({"ptfe", "pvdf", "fep", "etfe"})


def _named(r: Reading) -> str:
    """The resin of the lot; empty where nobody says which it is."""
    name = r.word("lot.resin").lower() if r.known("lot.resin") else ""
    return "" if name == "mixed" else name


def _family(r: Reading) -> str:
    return r.word("resin:family") if r.known("resin:family") else ""


def _needs(r: Reading) -> tuple[str, ...]:
    """What must be known beside the name: whether it is filled, and the family, which only a sheet tells.

    A name of the lists above needs no sheet. What nobody can name is refused where it is sanded, and asked for
    where it is only planed.
    """
    filled = r.raw("lot.filled")
    if isinstance(filled, Open):
        return ("lot.filled",)
    if isinstance(filled, Given) and filled.value == "flame-retardant":
        return ()
    name, sanded = _named(r), bool(r.fact("sanding steps").numbers)
    return () if name in DENIED or (sanded and not name) else ("resin:family",)


def _toxic(r: Reading) -> Iterator[Hit]:
    name, family = _named(r), _family(r)
    sanded = bool(r.fact("sanding steps").numbers)
    cut = "sanded" if sanded else "planed"
    if r.known("lot.filled") and r.word("lot.filled") == "flame-retardant":
        told = f"Flame-retarded {name or 'plastic'} must not be {cut} here."
        yield Hit("lot.filled", r.word("lot.filled"), "no flame retardant", message=told)
    elif name in FLUORINATED or family == "fluorinated":
        yield Hit(
            "lot.resin", name, "no plastic that holds fluorine", message=f"{name.upper()} must not be {cut} here."
        )
    elif sanded and not name:
        told = "Nobody knows what this plastic is, and the recipe sands it."
        yield Hit("lot.resin", resin_said(r), "one named plastic, proved twice", message=told)
    elif sanded and (name in DENIED or family in DENIED_FAMILIES):
        told = f"{name.upper()} must not be sanded here."
        yield Hit("lot.resin", name, "no plastic that holds chlorine, and no acetal", message=told)


RULES = (
    Rule(
        "toxic-dust",
        Level.ERROR,
        Scope.LOT,
        message="The dust of this plastic must not be made in a shop.",
        checks=(
            "the plastic of each lot against sanding: none unknown, none with chlorine, fluorine, acetal or flame "
            "retardant; fluorine and flame retardant against planing too"
        ),
        why=(
            "the dust is breathed; heat under a belt or a cigarette turns it into acid gas, formaldehyde or fume "
            "fever, and flame retardants stay in the body"
        ),
        do="leave this lot as it is, or trim or saw it cold; nobody smokes near it",
        sources=(
            "published: Shusterman, Occup. Med. 8 (1993) 519, abstract (fluorine plastics, smoking)",
            "published: Liu et al., Chemosphere 365 (2024) 143319, abstract (flame retardants)",
            "common practice: no dust of PVC or acetal",
            "judgement: an unidentified plastic is treated like the worst of them",
        ),
        reads=("fact:sanding steps", "fact:planing steps"),
        test=_toxic,
        also=_needs,
        may_read=("lot.resin", "lot.filled", "resin:family"),
        when=lambda r: bool(r.fact("sanding steps").numbers or r.fact("planing steps").numbers),
        absolute=True,
    ),
)
