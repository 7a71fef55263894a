"""Rules on fume: what takes it away where plastic is hot, and how soon a room is clear again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, rounded, show
from recipes_core.rules.compare import above, below
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

DUCTED = ("hood ducted outdoors", "enclosed and ducted")
AT = "site.capture_at"
PLACES = {"oven door": "fuming oven steps", "press": "pressing steps", "bend": "bending steps"}
"""Where fume comes out, and which steps let it out there."""
_STEPS = tuple(f"fact:{steps}" for steps in PLACES.values())
HOOD = "a hood at the oven door, ducted outdoors"
AIR_CHANGES = 6 / 3600.0
TENTH = 10.0
LINERS = {"oven": ("liner", "liner over"), "platens": ("liner platen top", "liner platen bottom")}
"""The liners that lie in the heat, by what is set."""
_LINES = tuple(f"{kind}:fume line" for kinds in LINERS.values() for kind in kinds)


def _outdoors(r: Reading) -> bool:
    return r.known("site.place") and r.word("site.place") == "outdoors"


def _fumes_indoors(r: Reading) -> bool:
    """Whether plastic is brought to melting or forming heat under a roof, or nobody says where."""
    return bool(r.fact("fuming steps").numbers) and not _outdoors(r)


def _uncaught(r: Reading, limit: str, found: str = "", level: Level | None = None) -> Iterator[Hit]:
    if r.word("site.capture") not in DUCTED:
        yield Hit("site.capture", found or r.word("site.capture"), limit, level=level)
    elif elsewhere := sorted(_sources(r) - set(r.words(AT))):
        yield Hit(AT, r.text(AT), f"also at the {' and the '.join(elsewhere)}, where the fume leaves", level=level)


def _sources(r: Reading) -> set[str]:
    """Where the fume of the recipe's plastic comes out."""
    return {place for place, steps in PLACES.items() if r.fact(steps).numbers}


def _where(r: Reading) -> tuple[str, ...]:
    """A hood must be where the fume is; without one there is nothing to ask."""
    return (AT,) if r.word("site.capture") in DUCTED else ()


def _is_styrenic(r: Reading) -> bool | None:
    """Whether any lot is a styrene plastic, which has a rule of its own; None where nobody knows."""
    return "styrenic" in r.words("resins:family") if r.known("resins:family") else None


def _capture(r: Reading) -> Iterator[Hit]:
    gentle = (
        r.known("site.air_changes")
        and not below(r.si("site.air_changes"), AIR_CHANGES, Dimension.RATE)
        and r.known("site.door_open")
        and r.word("site.door_open") == "yes"
        and r.known("formula.charge")
        and not above(r.upper("formula.charge"), 1.0, Dimension.MASS)
        and r.known("resin:family")
        and r.word("resin:family") == "polyolefin"
        and r.known("resin:window high")
        and not above(float(r.fact("hottest setting").numbers), r.si("resin:window high"), Dimension.TEMPERATURE)
    )
    yield from _uncaught(r, HOOD, level=Level.WARNING if gentle else Level.ERROR)


def _air(r: Reading) -> Iterator[Hit]:
    from recipes_core.physics.ventilation import decay_time

    found = r.si("site.air_changes")
    if below(found, AIR_CHANGES, Dimension.RATE):
        clear = show(float(decay_time(found, TENTH)), Dimension.TIME)
        told = f"{rounded(found, Dimension.RATE) * 3600:g} an hour, which take {clear} to clear nine tenths of a fume"
        yield Hit("site.air_changes", told, "6 an hour at least")


def _lines(r: Reading) -> tuple[str, ...]:
    """The fume lines of the liners in the heat; most liners have none on record."""
    names = tuple(f"{kind}:fume line" for kind in LINERS[r.case.setting])
    return tuple(name for name in names if r.known(name))


def _liner(r: Reading) -> Iterator[Hit]:
    line = min(r.si(name) for name in _lines(r))
    measured = r.fact("measured maximum").nominal if r.known("fact:measured maximum") else 0.0
    hottest = max(r.upper("setting"), measured)
    if above(hottest, line, Dimension.TEMPERATURE):
        found, limit = (show(t, Dimension.TEMPERATURE) for t in (hottest, line))
        told = f"{found}, and for capture {r.word('site.capture')}"
        yield from _uncaught(r, f"{limit} without a hood that is ducted outdoors", told)


RULES = (
    Rule(
        "styrenic-without-capture",
        Level.ERROR,
        Scope.STEP,
        message="Nothing takes the vapour of this styrene plastic outside.",
        checks="capture against a hood wherever the fume comes out, ducted outdoors, where any styrene plastic is "
        "melted or formed indoors",
        why="it gives off styrene, which a room fan cannot thin enough; workers with these plastics fared worst of all",
        do="work outdoors, or under a hood that is ducted outdoors; a filter that blows back does not count",
        sources=(
            "published: Environ. Int. 77 (2015) 85, abstract (recycling workshops, worst for ABS and PS)",
            "derived: dilution of a room, to a tenth of a published limit",
        ),
        reads=("resins:family", "fact:fuming steps"),
        test=lambda r: _uncaught(r, HOOD),
        on=("heats plastic",),
        also=lambda r: ("site.place", "site.capture", *_where(r)),  # of other plastics other rules ask for them
        may_read=("site.place", "site.capture", AT, *_STEPS),
        when=lambda r: _fumes_indoors(r) and _is_styrenic(r) is not False,
        absolute=True,
    ),
    Rule(
        "no-capture",
        Level.ERROR,
        Scope.RECIPE,
        message="Nothing takes the fume away at the oven.",
        checks="capture against a hood wherever the fume comes out, ducted outdoors, where plastic is brought to "
        "melting or forming heat indoors",
        why="fume from hot plastic irritates lungs at concentrations that a room fan cannot reach",
        do="work outdoors, or put a hood ducted outdoors at the oven door and the press",
        sources=(
            "published: irritancy of heated plastics, AIHA J. 55 (1994) 924, abstract",
            "judgement: oven door, press and bend as the places; a warning for up to 1 kg of polyethylene or "
            "polypropylene with doors open and 6 air changes",
        ),
        reads=("site.place", "site.capture", "fact:fuming steps", "fact:hottest setting"),
        test=_capture,
        also=_where,
        may_read=(
            AT,
            *_STEPS,
            "site.air_changes",
            "site.door_open",
            "formula.charge",
            "resin:family",
            "resins:family",
            "resin:window high",
        ),
        when=lambda r: _fumes_indoors(r) and not _is_styrenic(r),
    ),
    Rule(
        "air-too-little",
        Level.WARNING,
        Scope.RECIPE,
        message="The room changes its air too slowly.",
        checks="air changes an hour against 6, where plastic is brought to melting or forming heat indoors",
        why="at 6 changes an hour it takes 23 minutes to clear nine tenths of a fume; at 1 it takes over two hours",
        do="have a hood at the oven first; then open doors on two sides, or work outdoors",
        sources=("derived: dilution of a room, N = ln 10 air changes", "judgement: 6 an hour"),
        reads=("site.place", "site.air_changes", "fact:fuming steps"),
        test=_air,
        when=_fumes_indoors,
    ),
    Rule(
        "liner-gives-fume",
        Level.WARNING,
        Scope.STEP,
        message="The liner itself gives off fume at this heat.",
        checks="the set point or the highest reading against the fume line of the liners, where no hood leads outdoors",
        why="silicone gives off a little formaldehyde in hot air, which stings",
        do="take baking parchment, or work outdoors or under a hood that is ducted outdoors",
        sources=("published: Timpe, Formaldehyde generation from silicone rubber, technical note",),
        reads=("setting", "site.place", "site.capture", "fact:fuming steps"),
        test=_liner,
        on=("heats plastic",),
        also=_where,
        may_read=("fact:measured maximum", AT, *_STEPS, *_LINES),
        when=lambda r: _fumes_indoors(r) and bool(_lines(r)),
    ),
)
