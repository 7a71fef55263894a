"""Rules on liners in the heat: what they stand, what they stick to, how often they serve."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, over
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

T = Dimension.TEMPERATURE
PLACES = {
    "oven": {"formula.liner.tray": "liner", "formula.liner.over": "liner over"},
    "platens": {
        "formula.liner.platen_bottom": "liner platen bottom",
        "formula.liner.platen_top": "liner platen top",
    },
}
"""Where liners lie in the heat of an oven and of platens, and the names of their sheets."""
FACES = {"oven": ("formula.liner.tray",), "platens": tuple(PLACES["platens"])}
"""Which of them must be known: what lies on hot metal."""


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


def _sticks(r: Reading) -> Iterator[Hit]:
    bare = _bare(r)
    for at, kind in PLACES[r.case.setting].items():
        if at in bare:
            continue
        if r.known(at) and r.known(f"{kind}:sticks to") and r.word("resin:id") in r.words(f"{kind}:sticks to"):
            yield Hit(at, r.text(at), "a liner that this plastic lets go of")
    released = r.word("equipment.press.platen.release") not in ("", "none")
    if len(bare) == len(FACES[r.case.setting]) and not (r.case.setting == "platens" and released):
        yield Hit(bare[0], f"{r.text(bare[0])}: the melt lies on bare metal", "a liner that this plastic lets go of")


def _bare(r: Reading) -> list[str]:
    """The faces of hot metal without a liner; one platen of two is left to the rule on one side."""
    words = ("none",) if r.case.setting == "oven" else ("none", "bare-metal")
    return [at for at in FACES[r.case.setting] if r.word(at) in words]


def _worn(r: Reading) -> Iterator[Hit]:
    for name in ("formula.liner.uses", "formula.liner.state"):
        if not r.known(name):
            continue
        if name.endswith("state") and r.word(name) in ("browned", "oily"):
            yield Hit(name, r.word(name), "new or clean")
        elif name.endswith("uses") and r.known("liners:most uses"):
            uses, most = int(r.word(name)), int(r.si("liners:most uses"))
            if uses > most:
                yield Hit(name, f"{uses} uses", f"{most} at most while it is pale and supple")


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
        checks="the liners, or bare metal on a tray or on both platens, against the plastic",
        why="a melt that sticks tears, takes paper with it, or stays on the metal",
        do="lay baking parchment or PTFE cloth under and over the melt",
        sources=("common practice",),
        reads=("resin:id",),
        test=_sticks,
        on=("melts",),
        also=lambda r: FACES[r.case.setting],
        may_read=(
            "equipment.press.platen.release",
            *(at for places in PLACES.values() for at in places),
            *(f"{kind}:sticks to" for places in PLACES.values() for kind in places.values()),
        ),
    ),
    Rule(
        "liner-worn-out",
        Level.WARNING,
        Scope.STEP,
        message="The liner has served long enough.",
        checks="its uses against what the sheet allows, and its state",
        why="a brown, oily or brittle liner sticks and can catch fire",
        do="take a new one",
        sources=("common practice", "memory: makers allow up to six uses of parchment while it stays pale"),
        reads=(),
        test=_worn,
        on=("heats plastic",),
        also=lambda r: FACES[r.case.setting],
        may_read=(*FACES["oven"], *FACES["platens"], "formula.liner.uses", "formula.liner.state", "liners:most uses"),
    ),
)
