"""Rules on liners in the heat: what they stand, what they stick to, how often they serve."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, heats, over, says
from recipes_core.rules.rule import Hit, Rule, Scope
from recipes_core.sheets.grip import GRIP, STICKS

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

T = Dimension.TEMPERATURE
PLACES = {
    "formula.liner.tray": "liner",
    "formula.liner.over": "liner over",
    "formula.liner.mould": "liner mould",
    "formula.liner.platen_top": "liner platen top",
    "formula.liner.platen_bottom": "liner platen bottom",
}
"""Where a liner is named, and by what name its sheet goes."""
HEATED = {
    "oven": tuple(PLACES.items())[:2],
    "platens": tuple(PLACES.items())[3:],
}
"""Those of them that a melting step heats, by what is set; the one under the melt comes first in an oven."""
OPEN_TOP = ("formula.liner.over",)
"""No metal lies over a melt on a tray: no liner is needed there."""
PLACED = "formula.liner.placed"
PLATEN_RELEASE = "equipment.press.platen.release"
RELEASE = "a liner that this plastic lets go of"


def _hottest_set(r: Reading) -> float:
    measured = r.fact("measured maximum").nominal if r.known("fact:measured maximum") else r.upper("setting")
    return max(r.upper("setting"), measured)


def _refusal(r: Reading) -> Iterator[Hit]:
    yield from over("setting", _hottest_set(r), r.si("liners:refusal line"), T)


def _limit(r: Reading) -> Iterator[Hit]:
    if above(_hottest_set(r), r.si("liners:refusal line"), T):
        return
    credible = r.fact("air at worst").nominal
    if above(_hottest_set(r), r.si("liners:limit"), T):
        yield from over("setting", _hottest_set(r), r.si("liners:limit"), T)
    elif above(credible, r.si("liners:upper line"), T):
        yield Hit(
            "setting",
            f"the air may reach {show(credible, T)}",
            f"{show(r.si('liners:upper line'), T)} at most",
            do="measure the oven over a full on-off cycle, set it lower, or take a liner that stands more",
        )


def _near(r: Reading) -> Iterator[Hit]:
    credible = r.fact("air at worst").nominal
    if above(_hottest_set(r), r.si("liners:limit"), T) or above(credible, r.si("liners:upper line"), T):
        return
    if above(credible, r.si("liners:warning line"), T):
        yield Hit("setting", f"the air may reach {show(credible, T)}", show(r.si("liners:warning line"), T))


def _in_the_heat(r: Reading) -> Iterator[tuple[str, str]]:
    """The places in the heat where a liner is named, each with the sheet of what is there."""
    for place, kind in HEATED[r.case.setting]:
        if r.known(place) and r.word(place) != "none":
            yield place, kind


def _sticks(r: Reading) -> Iterator[Hit]:
    bare = _bare(r)
    for place, kind in _in_the_heat(r):
        if place not in bare and r.word(f"{kind}:{GRIP}") == STICKS:
            yield Hit(place, r.text(place), RELEASE)
    released = r.case.setting == "platens" and r.word(PLATEN_RELEASE) not in ("", "none")
    if len(bare) == len(_metal(r)) and not released:
        yield Hit(bare[0], f"{r.text(bare[0])}: the melt lies on bare metal", RELEASE)


def _metal(r: Reading) -> tuple[str, ...]:
    """Where hot metal lies against the melt."""
    return tuple(place for place, _ in HEATED[r.case.setting] if place not in OPEN_TOP)


def _bare(r: Reading) -> tuple[str, ...]:
    """Hot metal without a liner; one platen of two is left to the rule on one side."""
    words = ("none",) if r.case.setting == "oven" else ("none", "bare-metal")
    return tuple(place for place in _metal(r) if r.word(place) in words)


def _faces(r: Reading) -> tuple[str, ...]:
    """What must be known of the faces that the melt touches: the liner, and whether it lets go."""
    bare = _bare(r)
    return (*_metal(r), *(f"{kind}:{GRIP}" for place, kind in _in_the_heat(r) if place not in bare))


def _lined(r: Reading) -> tuple[str, ...]:
    """The sheets of all liners that the recipe names; bare metal does not wear."""
    return tuple(
        kind for place, kind in PLACES.items() if r.known(place) and r.word(place) not in ("none", "bare-metal")
    )


def _counted(r: Reading) -> list[str]:
    """Those of the liners that last for a number of uses; the others go by their look."""
    return [kind for kind in _lined(r) if r.known(f"{kind}:most uses")]


def _life(r: Reading) -> tuple[str, ...]:
    return ("formula.liner.state", *(("formula.liner.uses",) if _counted(r) else ()))


def _worn(r: Reading) -> Iterator[Hit]:
    if r.word("formula.liner.state") in ("browned", "oily"):
        yield Hit("formula.liner.state", r.word("formula.liner.state"), "new or clean")
    if _counted(r):
        now = int(r.word("formula.liner.uses")) + 1
        most = min(int(r.si(f"{kind}:most uses")) for kind in _counted(r))
        if now > most:
            yield Hit(
                "formula.liner.uses", f"use {now}, this one counted", f"{most} at most while it is pale and supple"
            )


def _foil(r: Reading) -> bool:
    return r.known(PLACED) or any(r.word(place) == "foil" for place in PLACES)


RULES = (
    Rule(
        "liner-over-refusal",
        Level.ERROR,
        Scope.STEP,
        message="The liner can burn or poison at this setting.",
        checks="the set point, or the highest reading, against the refusal line of every liner in the oven",
        why="waxed paper melts and smokes, parchment can catch fire, PTFE gives off fume that makes people ill",
        do="take a liner that stands the heat; baking parchment up to 215 °C (419 °F)",
        sources=(
            "published: ignition of cellulose from 220 °C (Hilado 1998)",
            "published: Shusterman, Occup. Med. 8 (1993) 519, abstract (PTFE)",
            "judgement: the lines between",
        ),
        reads=("setting", "liners:refusal line"),
        test=_refusal,
        on=("heats plastic",),
        may_read=("fact:measured maximum",),
        absolute=True,
    ),
    Rule(
        "liner-over-limit",
        Level.ERROR,
        Scope.STEP,
        message="The liner may get hotter than it stands.",
        checks="the set point against the limit of the liner; the hottest air to be believed against its upper line",
        why="a browned liner crumbles into the plastic and is close to burning",
        do="set the oven lower, or take a liner that stands more",
        sources=("common practice: makers' ratings", "judgement: the upper lines"),
        reads=("setting", "fact:air at worst", "liners:refusal line", "liners:limit", "liners:upper line"),
        test=_limit,
        on=("heats plastic",),
        may_read=("fact:measured maximum",),
    ),
    Rule(
        "liner-near-limit",
        Level.WARNING,
        Scope.STEP,
        message="The liner is near its limit.",
        checks="the hottest air to be believed against the warning line of the liner",
        why="near an element or on a hot swing it can brown",
        do="keep it clear of elements and trim loose edges; measure the oven",
        sources=("common practice",),
        reads=("setting", "fact:air at worst", "liners:warning line", "liners:limit", "liners:upper line"),
        test=_near,
        on=("heats plastic",),
        may_read=("fact:measured maximum",),
    ),
    Rule(
        "liner-sticks",
        Level.ERROR,
        Scope.STEP,
        message="The melt will stick to this.",
        checks="each liner in the heat, or the bare metal, against every plastic that goes in",
        why="a melt that sticks tears, takes paper with it, or stays on the metal",
        do="lay baking parchment or PTFE cloth under and over the melt",
        sources=("common practice", "judgement: what is not told of a plastic is carried over from polyethylene"),
        reads=(),
        test=_sticks,
        on=("melts",),
        also=_faces,
        may_read=(PLATEN_RELEASE, *PLACES, *(f"{kind}:{GRIP}" for kind in PLACES.values())),
    ),
    Rule(
        "liner-worn-out",
        Level.WARNING,
        Scope.RECIPE,
        message="The liner has served long enough.",
        checks="its state, and for paper its uses, this one counted, against what the sheet allows",
        why="a brown, oily or brittle liner sticks and can catch fire",
        do="take a new one",
        sources=(
            "published: press reports of a state food-safety office's test of 36 baking papers, 2014 (up to six uses)",
            "common practice: others serve for as long as they look sound",
        ),
        reads=(),
        test=_worn,
        also=_life,
        may_read=(
            *PLACES,
            "formula.liner.uses",
            "formula.liner.state",
            *(f"{kind}:most uses" for kind in PLACES.values()),
        ),
        when=lambda r: bool(_lined(r)),
    ),
    Rule(
        "foil-in-the-way",
        Level.WARNING,
        Scope.RECIPE,
        message="Foil lies where it can start a fire.",
        checks="where a foil lies against the oven floor and the element",
        why="it blocks vents, throws heat onto the thermostat's sensor, and can short a glowing element",
        do="keep foil under the charge alone, or take parchment",
        sources=("common practice",),
        reads=(PLACED, "fact:heating steps"),
        test=lambda r: says(r, PLACED, ("oven floor", "near element"), "under the charge alone"),
        may_read=tuple(PLACES),
        when=lambda r: heats(r) and _foil(r),
    ),
)
