"""What the proofs of each lot leave of the plastics in the library, and the liquid that tells it from the next one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from recipes_core.plugin_api import (
    Evidence,
    Fact,
    Outcome,
    beside,
    calc,
    evidence_of_lots,
    gap,
    missing,
)

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Kind, Value, Work


SHORT = {
    "moulded mark": "mark",
    "float in water": "water",
    "float in second liquid": "second liquid",
    "weighed density": "density",
    "object with known maker's sheet": "maker's sheet",
}


def forecast(case: Case, work: Work) -> Outcome:
    """The facts of every lot; the names of the facts say which lot where there are several."""
    lots = evidence_of_lots(case)
    claims = [found.claim for found in lots if found.claim]
    facts: list[Fact] = []
    for n, found in enumerate(lots):
        of = f", lot {n + 1}" if len(lots) > 1 else ""
        lot = replace(case, lot=n)
        window = lot.spread("resin:density solid")
        facts += _window(window, of)
        facts += _candidates(lot, found, of)
        named = beside(found.claim, claims) if found.claim else ()
        facts.append(_liquid(found, named, window, of))
    return Outcome(work.after(work.form), {f.name: f for f in facts})


def _window(window: Value, of: str) -> Iterator[Fact]:
    """The lightest and the heaviest piece of the plastic, by its sheet."""
    for name, at in (("lightest piece", 1), ("heaviest piece", 2)):
        yield calc(f"{name}{of}", "density", "", lambda density, at=at: [float(density[at])], density=window)


def _candidates(lot: Case, found: Evidence, of: str) -> Iterator[Fact]:
    """How many plastics each proof leaves after those before it; open where its reading was not written down."""
    asked: dict[str, Value] = {"proofs": lot.get("lot.identified_by")}
    left = found.left()
    for proof, (name, names) in zip(found.proofs, left, strict=True):
        asked[name] = lot.get(proof.at)
        windows = {f"density of {kind}": found.kinds[kind].window for kind in names}
        yield _number(f"left after {SHORT.get(name, name)}{of}", len(names), {**asked, **windows})
    last = left[-1][1] if left else tuple(sorted(found.kinds))
    windows = {f"density of {kind}": found.kinds[kind].window for kind in last}
    yield _number(f"candidates left{of}", len(last), {**asked, **windows})
    yield calc(f"candidates{of}", "record", "", lambda **_: left, **asked)


def _number(name: str, number: int, inputs: dict[str, Value]) -> Fact:
    return calc(name, "number", "plastics of the library that no proof so far excludes", lambda **_: [number], **inputs)


def _liquid(found: Evidence, named: tuple[Kind, ...], window: Value, of: str) -> Fact:
    """The middle of the gap to another lot on the same side of water, else to the next plastic in the library.

    For a plastic without a name the widest gap among those that are left.
    """
    name, equation = f"liquid that splits{of}", "the middle of the widest gap between its density and its neighbours'"
    left = [found.kinds[kind] for kind in (found.left()[-1][1] if found.proofs else found.kinds)]
    pivots = [found.claim] if found.claim else left
    pairs = [(kind, named or beside(kind, found.kinds.values() if found.claim else left)) for kind in pivots]
    gaps = [ends for kind, others in pairs if (ends := gap(kind, others))]
    if not gaps:
        return Fact(name, "density", missing((), ""), equation)  # all overlap: no liquid tells them apart
    low, high = max(gaps, key=lambda ends: ends[1] - ends[0])
    windows = {f"density of {k.name}": k.window for k in found.kinds.values() if {k.low, k.high} & {low, high}}
    return calc(name, "density", equation, lambda **_: [0.5 * (low + high)], density=window, **windows)
