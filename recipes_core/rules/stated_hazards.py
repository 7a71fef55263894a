"""Rules on the hazards that a recipe adds to those of its processes: signal word, controls, and who watches."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

FITTING = {"nobody": ("NOTICE",), "slight": ("CAUTION",), "serious": ("WARNING", "DANGER")}
BEFORE_GLOVES = frozenset({"eliminate", "engineer"})


def _stated(r: Reading) -> bool:
    return bool(r.fact("stated hazards").numbers)


def _controls(r: Reading) -> Iterator[Hit]:
    for path, hazard in r.fact("stated hazards").numbers:
        controls = hazard.get("controls")
        levels = [str(c.get("level")) for c in controls if isinstance(c, dict)] if isinstance(controls, list) else []
        if not BEFORE_GLOVES & set(levels):
            at = (*path, "controls") if "controls" in hazard else path
            yield Hit(at, ", ".join(levels) or "no control", "one that removes the hazard or shuts it off")


def _watched(r: Reading) -> Iterator[Hit]:
    for path, hazard in r.fact("stated hazards").numbers:
        lacking = [key for key in ("monitor", "corrective") if hazard.get(key) in (None, "unknown")]
        if "limit" in hazard and lacking:
            yield Hit(
                (*path, "limit"), f"no {' and no '.join(lacking)}", "who watches it, and what to do when it is passed"
            )


def _signal(r: Reading) -> Iterator[Hit]:
    for path, hazard in r.fact("stated hazards").numbers:
        signal, wanted = hazard.get("signal"), FITTING.get(str(hazard.get("injury")))
        if wanted and signal and signal != "unknown" and signal not in wanted:
            yield Hit((*path, "signal"), str(signal), " or ".join(wanted))


RULES = (
    Rule(
        "only-gloves-and-masks",
        Level.WARNING,
        Scope.RECIPE,
        message="Only gloves, masks or rules stand against this hazard.",
        checks="the controls of each hazard that the recipe states against one that removes it or shuts it off",
        why="what people wear or remember fails on the day they are tired; a guard or a hood does not",
        do="look for a barrier, a hood, a guard, or a way to leave the hazard out",
        sources=("published: hierarchy of controls, article quoting ISO 12100",),
        reads=("fact:stated hazards",),
        test=_controls,
        when=_stated,
    ),
    Rule(
        "limit-not-watched",
        Level.WARNING,
        Scope.RECIPE,
        message="A limit is not watched, or its passing is not answered.",
        checks="the limit of each hazard that the recipe states against a monitor and a corrective action",
        why="a limit that nobody reads is passed without anybody noticing",
        do="write who watches what, how often, and what to do when it is passed",
        sources=("published: hazard analysis and critical control points, NACMCF 1997 (contents)",),
        reads=("fact:stated hazards",),
        test=_watched,
        when=_stated,
    ),
    Rule(
        "signal-mismatch",
        Level.NOTE,
        Scope.RECIPE,
        message="The signal word does not fit the injury.",
        checks="the signal word of each hazard that the recipe states against how badly somebody gets hurt",
        why="readers stop heeding DANGER where only a thing is at stake, and miss it where a hand is",
        do="NOTICE for things, CAUTION for slight injuries, WARNING or DANGER for grave ones",
        sources=("published: ANSI Z535.4-2007 definitions, quoted by a sign-standard page",),
        reads=("fact:stated hazards",),
        test=_signal,
        when=_stated,
    ),
)
