"""The rule on water: is the plastic dry when it is melted or bent, and how does anybody know."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from recipes_core.facts import Given
from recipes_core.findings import Level, Path
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

DRY, WET = "dry to touch", "wet"
PROOFS = ("weighed twice", "meter")
MELTING, BENDING = "resin:moisture limit", "resin:bending moisture"


@dataclass(frozen=True)
class _Found:
    """The water that one step finds: words, a share or a range; whether only the lot says so; the sheet's limit."""

    at: str | Path
    water: Any
    own: bool
    limit: str

    @property
    def measured(self) -> bool:
        """Whether it is a number."""
        return self.water is not None and not isinstance(self.water, str)


def _found(r: Reading) -> Iterator[_Found]:
    if not r.known("fact:water when heated"):
        return
    for path, bends, water in r.fact("water when heated").numbers:
        limit = BENDING if bends and r.known(BENDING) else MELTING
        if water is None:
            said = r.raw("lot.moisture")
            yield _Found("lot.moisture", said.value if isinstance(said, Given) else None, True, limit)
        else:
            yield _Found((*path, "process"), water, False, limit)


def _applies(r: Reading) -> bool:
    return not r.known("fact:water when heated") or bool(r.fact("water when heated").numbers)


def _goes_in(r: Reading) -> bool:
    """Whether water goes into this plastic, so that touching it proves nothing."""
    if r.known("resin:takes up water"):
        return r.word("resin:takes up water") == "yes"
    return r.word("resin:moisture") != DRY


def _needs(r: Reading) -> tuple[str, ...]:
    needs: list[str] = []
    for found in _found(r):
        if found.own:
            needs.append("lot.moisture")
        if found.measured:
            needs.append(found.limit)
        if found.water != WET and _goes_in(r):
            needs.append("resin:takes up water")
            needs += ["lot.moisture_proof"] * found.own
    return tuple(needs)


def _wet(r: Reading) -> Iterator[Hit]:
    for found in _found(r):
        proved = not found.own or not _goes_in(r) or r.word("lot.moisture_proof") in PROOFS
        most = f"{show(r.si(found.limit), Dimension.SHARE)} at most" if r.known(found.limit) else DRY
        if found.measured:
            share = found.water[-1] if isinstance(found.water, tuple) else found.water
            said, dry = show(share, Dimension.SHARE), not above(share, r.si(found.limit), Dimension.SHARE)
        else:
            said, dry = str(found.water), found.water == DRY
        if not dry:
            yield Hit(found.at, r.text("lot.moisture") if found.own else said, most)
        elif not proved:
            yield Hit(
                found.at, f"{said}, and nothing proves it", f"{most}: weighed twice, metered, or dried by the hour"
            )


RULES = (
    Rule(
        "wet-when-heated",
        Level.ERROR,
        Scope.LOT,
        message="Plastic goes into the heat wet, or nobody knows that it is dry.",
        checks="the water after the last washing or drying against what the sheet allows; where water goes into the "
        "plastic, a proof as well: weighed twice, a meter, or a drying step that is long enough",
        why="water turns to steam inside the melt: bubbles, voids, and hot plastic that spits",
        do="dry it for the hours of the sheet; weigh it twice, an hour apart, to be sure",
        sources=(
            "common practice: surface water on polyethylene and polypropylene",
            "common practice: plastics that take up water are dried by the clock and checked",
        ),
        reads=("fact:water when heated",),
        test=_wet,
        also=_needs,
        may_read=(
            "lot.moisture",
            "lot.moisture_proof",
            "resin:takes up water",
            "resin:moisture",
            MELTING,
            BENDING,
        ),
        when=_applies,
    ),
)
