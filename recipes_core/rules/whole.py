"""Rules on the procedure as a whole: does one step hand on what the next one takes, with the tools it names."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

LIMITS_LAST = 5
DOUBTFUL, WRONG = 0.05, 0.15


def _joins(r: Reading) -> Iterator[Hit]:
    for path, found, wanted in r.fact("broken joins").numbers:
        yield Hit(path, found or "nothing yet", " or ".join(wanted))


def _tools(r: Reading) -> Iterator[Hit]:
    for path, tool in r.fact("missing tools").numbers:
        yield Hit(path, tool, f"{tool} described under equipment")


def _mass(r: Reading) -> Iterator[Hit]:
    gap, charge = r.fact("mass gap").nominal, r.si("formula.charge")
    share = abs(gap) / charge
    if above(share, DOUBTFUL, Dimension.SHARE):
        more = "more is left than the part holds" if gap > 0 else "the part holds more than is left"
        yield Hit(
            "formula.charge",
            f"{show(abs(gap), Dimension.MASS)} {more}, {show(share, Dimension.SHARE)} of the charge",
            f"{show(DOUBTFUL, Dimension.SHARE)} of the charge",
            level=Level.ERROR if above(share, WRONG, Dimension.SHARE) else Level.WARNING,
        )


def _place(r: Reading) -> Iterator[Hit]:
    if not r.known("header.jurisdiction"):
        yield Hit(("header",), "no jurisdiction", "the country whose codes apply")


def _old(r: Reading) -> Iterator[Hit]:
    last = r.today.replace(year=r.today.year - LIMITS_LAST, day=min(r.today.day, 28 if r.today.month == 2 else 31))
    for at, told in r.fact("limit lists").numbers:
        if date.fromisoformat(told) < last:
            yield Hit(at, f"of {told}", f"{LIMITS_LAST} years old at most")
        elif date.fromisoformat(told) > r.today:
            yield Hit(at, f"of {told}", "a day that has already been")


RULES = (
    Rule(
        "forms-do-not-join",
        Level.ERROR,
        Scope.RECIPE,
        message="This step cannot start from what the step before leaves.",
        checks="the form that each step takes against the form that the work has by then",
        why="a step is missing or out of order: cold flake cannot be pressed, a hot part cannot be handled",
        do="put the missing step in, or put the steps in order",
        sources=("derived: each process says what it takes and yields",),
        reads=("fact:broken joins",),
        test=_joins,
    ),
    Rule(
        "tool-missing",
        Level.ERROR,
        Scope.RECIPE,
        message="A step uses a tool that the recipe does not describe.",
        checks="the tools that steps name against equipment",
        why="nobody can tell whether another shop has what it takes",
        do="describe the tool under equipment",
        sources=("derived: the recipe's own lists",),
        reads=("fact:missing tools",),
        test=_tools,
    ),
    Rule(
        "mass-does-not-close",
        Level.WARNING,
        Scope.RECIPE,
        message="The plastic that goes in is not the plastic that comes out.",
        checks="the charge, less tray loss, flash, chips and dust, against volume × solid density of the part",
        why="somewhere a size, a mass or a cut is not what the recipe says, or the part has holes in it",
        do="weigh part, flash and chips once; then correct charge, machining_stock, flash or what is cut away",
        sources=("derived: a mass balance", "judgement: a warning over 5 %, an error over 15 % of the charge"),
        reads=("fact:mass gap",),
        test=_mass,
        may_read=("formula.charge",),
    ),
    Rule(
        "jurisdiction-missing",
        Level.NOTE,
        Scope.RECIPE,
        message="The recipe does not say whose codes apply.",
        checks="header.jurisdiction",
        why="limits for wiring, fire and air differ from place to place",
        do="write the country: jurisdiction: GB",
        sources=("judgement",),
        reads=(),
        test=_place,
        may_read=("header.jurisdiction",),
    ),
    Rule(
        "limits-old",
        Level.NOTE,
        Scope.RECIPE,
        message="The list of limits that this shop goes by is old.",
        checks="the date of each list of limits under site.limits_from against 5 years",
        why="limits for what may be breathed have only ever become stricter",
        do="look up the list of today, and write its name and date under site.limits_from",
        sources=("judgement: five years",),
        reads=("fact:limit lists",),
        test=_old,
        when=lambda r: not r.known("fact:limit lists") or bool(r.fact("limit lists").numbers),
    ),
)
