"""Which plastic a lot can be: what each proof leaves of the plastics in the library, and which liquid tells two apart.

A proof speaks by its reading. The mark says what stands there; a piece that floats in water is lighter than water; in
the second liquid it did what its own plastic must do there, floated or sunk; a density fits every plastic whose window
it meets. A proof whose reading nobody wrote down says nothing here; where a filler or foam is stated, every proof by
density leaves all.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from recipes_core.errors import DataError
from recipes_core.facts import Given, Open
from recipes_core.quantities import Dimension, rounded

if TYPE_CHECKING:
    from recipes_core.case import Case, Library

WATER = 998.0
"""kg/m³ of fresh water at 20 °C (commonly quoted)."""
WEIGHING = 0.01
"""How far off a density measured in a small shop may be, as a share of it (judgement)."""
MARK, FLOATS, LIQUID, WEIGHED = "moulded mark", "float in water", "float in second liquid", "weighed density"
NAMING = frozenset({"object with known maker's sheet", "infrared", "trained person"})
"""Proofs whose answer is a name."""
BY_DENSITY = frozenset({FLOATS, LIQUID, WEIGHED})
ALTERED = ("mineral", "fibre", "foamed")
"""What changes how a plastic weighs: no density tells then what it is."""
WORDS = {"pete": "1", "v": "3", "other": "7"}
"""What stands under the triangle beside the plain symbols, by number."""
_TOKEN = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*|[0-9]+")


@dataclass(frozen=True)
class Kind:
    """A plastic of the library as proofs see it: what is moulded into it, and its lightest and heaviest piece."""

    name: str
    code: str
    symbol: str
    low: float
    high: float
    window: Given

    @property
    def head(self) -> str:
        """The symbol without what follows its hyphen: ``pe`` of PE-HD."""
        return self.symbol.partition("-")[0]

    @property
    def floats(self) -> bool:
        """Whether its lightest piece floats in water."""
        return self.low < WATER


@dataclass(frozen=True)
class Proof:
    """A proof of one lot: the field that holds its reading, and the plastics it leaves; None where nobody read it."""

    name: str
    at: str
    left: frozenset[str] | None


@dataclass(frozen=True)
class Evidence:
    """All that is known of what a lot is: the plastic it is said to be, all there are, and the proofs.

    ``alone``: no other plastic was asked, for its own sheet agrees with every proof.
    """

    claim: Kind | None
    kinds: Mapping[str, Kind]
    proofs: tuple[Proof, ...]
    alone: bool = False

    def agrees(self, proof: Proof) -> bool:
        """Whether the proof tells something, and leaves the plastic that the lot is said to be."""
        if proof.left is None or self.claim is None:
            return True
        return self.claim.name in proof.left and (self.alone or len(proof.left) < len(self.kinds))

    def left(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """The plastics that are left after each proof, one after the other."""
        names, steps = frozenset(self.kinds), []
        for proof in self.proofs:
            names = names if proof.left is None else names & proof.left
            steps.append((proof.name, tuple(sorted(names))))
        return tuple(steps)


def kinds_of(library: Library, names: Iterable[str] | None = None) -> dict[str, Kind]:
    """Every plastic (of these) with a name whose sheet gives a density; an unreadable sheet is told of elsewhere."""
    found = {}
    for name in library.resins if names is None else names:
        try:
            sheet = library.resins[name]
            window, code, symbol, family = sheet.range("density solid"), *map(sheet.get, ("code", "symbol", "family"))
        except DataError:
            continue
        if isinstance(window, Given) and not (isinstance(family, Given) and family.value == "unidentified"):
            found[name] = Kind(name, _word(code), _word(symbol), *ends_of(window), window)
    return found


def evidence(case: Case, kinds: Mapping[str, Kind]) -> Evidence:
    """What the proofs of one lot say; the case is that of the lot."""
    said = case.get("lot.resin")
    claim = kinds.get(str(said.value)) if isinstance(said, Given) else None
    listed = case.get("lot.identified_by")
    names = list(dict.fromkeys(listed.value if isinstance(listed, Given) else ()))
    mark, density = case.get("lot.mark_seen"), case.get("lot.density")
    if isinstance(mark, Given) and mark.value != "none" and MARK not in names:
        names.append(MARK)
    if isinstance(density, Given) and WEIGHED not in names:
        names.append(WEIGHED)
    liquid, filled = case.get("lot.pair_floats"), case.get("lot.filled")
    altered = isinstance(filled, Given) and filled.value in ALTERED
    proofs = []
    for name in names:
        if altered and name in BY_DENSITY:
            proofs.append(Proof(name, "lot.filled", frozenset(kinds)))
        elif name == MARK:
            left = _marked(mark.text, kinds) if isinstance(mark, Given) else None
            proofs.append(Proof(name, "lot.mark_seen", left))
        elif name == FLOATS:
            left = frozenset(k.name for k in kinds.values() if k.floats)
            proofs.append(Proof(name, "lot.identified_by", left))
        elif name == LIQUID:
            proofs.append(Proof(name, "lot.pair_floats", _beside(liquid, claim, kinds)))
        elif name == WEIGHED:
            proofs.append(Proof(name, "lot.density", _weighing(density, kinds)))
        elif name in NAMING:
            proofs.append(Proof(name, "lot.identified_by", frozenset({claim.name}) if claim else None))
    return Evidence(claim, kinds, tuple(proofs))


def evidence_of_lots(case: Case, sorts: bool = True) -> tuple[Evidence, ...]:
    """The evidence of every lot, in their order.

    To read every sheet takes longer than all the rest: where no step sorts, a lot whose own sheet settles it asks none.
    """
    lots = [replace(case, lot=lot) for lot in case.recipe.lots or (0,)]
    settled = {} if sorts else {lot.lot: found for lot in lots if (found := _alone(lot))}
    kinds = kinds_of(case.library) if len(settled) < len(lots) else {}
    return tuple(settled.get(lot.lot) or evidence(lot, kinds) for lot in lots)


def _alone(case: Case) -> Evidence | None:
    """The evidence by the sheet of the named plastic alone; None where only the others can say what a proof tells."""
    said, mark, density = (case.get(name) for name in ("lot.resin", "lot.mark_seen", "lot.density"))
    named = {str(said.value)} & set(case.library.resins) if isinstance(said, Given) else set()
    found = replace(evidence(case, kinds_of(case.library, named)), alone=True)
    claim = found.claim
    if claim is None:
        return found
    signs = set(_TOKEN.findall(mark.text.lower())) if isinstance(mark, Given) else {claim.name}
    strange = not signs or signs - {claim.name, claim.symbol, claim.code}
    spread = isinstance(density, Given) and isinstance(density.value, tuple)
    asked = isinstance(case.get("lot.pair_floats"), Given) or any(proof.at == "lot.filled" for proof in found.proofs)
    return found if not strange and not spread and not asked and all(map(found.agrees, found.proofs)) else None


def beside(kind: Kind, others: Iterable[Kind]) -> tuple[Kind, ...]:
    """Those of the others that water does not tell from it: both float, or both sink."""
    return tuple(other for other in others if other.floats == kind.floats and other.name != kind.name)


def gap(kind: Kind, others: Iterable[Kind]) -> tuple[float, float] | None:
    """The widest gap of density between the plastic and its next neighbours; None where all windows overlap its own."""
    others = tuple(others)
    lower = max((other.high for other in others if other.high < kind.low), default=None)
    upper = min((other.low for other in others if other.low > kind.high), default=None)
    gaps = [(lower, kind.low)] * (lower is not None) + [(kind.high, upper)] * (upper is not None)
    return max(gaps, key=lambda ends: ends[1] - ends[0], default=None)  # type: ignore[operator, return-value]


def splits(liquid: tuple[float, float], kind: Kind, others: Iterable[Kind]) -> bool:
    """Whether the plastic wholly floats in the liquid and any of the others wholly sinks, or the other way round."""
    low, high = map(_shown, liquid)
    floated, sank = low >= _shown(kind.high), high <= _shown(kind.low)
    return any((floated and _shown(o.low) >= high) or (sank and _shown(o.high) <= low) for o in others)


def ends_of(value: Given) -> tuple[float, float]:
    """Both ends of a number or a range."""
    ends = value.value if isinstance(value.value, tuple) else (value.value, value.value)
    return float(ends[0]), float(ends[-1])


def _shown(density: float) -> float:
    return rounded(density, Dimension.DENSITY)


def _measured(density: Given) -> tuple[float, float]:
    """The lowest and the highest that a measured density may truly be."""
    low, high = ends_of(density)
    return _shown(low * (1.0 - WEIGHING)), _shown(high * (1.0 + WEIGHING))


def _word(value: Given | Open) -> str:
    return str(value.value).lower() if isinstance(value, Given) else ""


def _marked(text: str, kinds: Mapping[str, Kind]) -> frozenset[str]:
    """The plastics that a mark can mean; two signs that contradict each other leave nothing.

    Words that hold no sign are no proof, and leave all; but what stands between > and < is one, known or not.
    """
    known = [names for token in _TOKEN.findall(text) if (names := _named(token.lower(), kinds))]
    if known:
        return frozenset.intersection(*known)
    return frozenset() if text == "none" or text.startswith(">") else frozenset(kinds)


def _named(token: str, kinds: Mapping[str, Kind]) -> frozenset[str]:
    """A number is a code; letters are a symbol, in short where its head stands alone, or a name."""
    number = WORDS.get(token, token.lstrip("0") if token.isdigit() else "")
    if number:
        return frozenset(k.name for k in kinds.values() if k.code == number)
    if "-" in token and (exact := frozenset(k.name for k in kinds.values() if token == k.symbol)):
        return exact
    head = token.partition("-")[0]
    headed = frozenset(k.name for k in kinds.values() if head in (k.head, k.head.rstrip("0123456789")))
    return headed or frozenset({token} & kinds.keys())


def _beside(liquid: object, claim: Kind | None, kinds: Mapping[str, Kind]) -> frozenset[str] | None:
    """What can do in the second liquid as the named plastic must: all, where it may do either.

    What it must do goes by the density that is stated; what that rules out, by the worst that the density may be off.
    """
    if not isinstance(liquid, Given) or claim is None:
        return None
    low, high = map(_shown, ends_of(liquid))
    lightest, heaviest = _measured(liquid)
    if low >= _shown(claim.high):
        return frozenset(k.name for k in kinds.values() if _shown(k.low) < heaviest)
    if high <= _shown(claim.low):
        return frozenset(k.name for k in kinds.values() if _shown(k.high) > lightest)
    return frozenset(kinds)


def _weighing(density: object, kinds: Mapping[str, Kind]) -> frozenset[str] | None:
    if not isinstance(density, Given):
        return None
    low, high = _measured(density)
    return frozenset(k.name for k in kinds.values() if _shown(k.low) <= high and low <= _shown(k.high))
