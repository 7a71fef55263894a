"""Rules on the place and the people: where the fume goes, who is near, and the way out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, rounded
from recipes_core.rules.compare import above, below, cuts, heats, says, under
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

DUCTED = ("hood ducted outdoors", "enclosed and ducted")
AIR_CHANGES = 6 / 3600.0
LINERS = tuple(f"formula.liner.{place}" for place in ("tray", "over", "mould", "platen_top", "platen_bottom"))


def _indoors(r: Reading) -> bool:
    return heats(r) and not (r.known("site.place") and r.word("site.place") == "outdoors")


def _capture(r: Reading) -> Iterator[Hit]:
    if r.word("site.capture") in DUCTED:
        return
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
    yield Hit(
        "site.capture",
        r.word("site.capture"),
        "a hood at the oven door, ducted outdoors",
        level=Level.WARNING if gentle else Level.ERROR,
    )


def _people(r: Reading) -> Iterator[Hit]:
    yield from says(r, "site.present", ("asthmatic", "pregnant"), "nobody at special risk near hot plastic")
    if "birds" in r.words("site.present") and any("ptfe" in r.word(liner) for liner in LINERS):
        yield Hit("site.present", "birds", "no bird in the building with a PTFE liner")


def _exit(r: Reading) -> Iterator[Hit]:
    yield from says(r, "site.exit_clear", ("no",), "a clear way out")
    yield from says(
        r,
        "site.extinguisher",
        ("none", "A", "B", "CO2"),
        "ABC, or a fire blanket beside an ABC, within reach",
    )


def _air(r: Reading) -> Iterator[Hit]:
    found = r.si("site.air_changes")
    if below(found, AIR_CHANGES, Dimension.RATE):
        yield Hit("site.air_changes", f"{rounded(found, Dimension.RATE) * 3600:g} an hour", "6 an hour at least")


def _near(r: Reading) -> Iterator[Hit]:
    yield from under("site.clear_of_combustibles", r.si("site.clear_of_combustibles"), 1.0, Dimension.LENGTH)
    yield from says(r, "equipment.oven.drip_tray", ("no",), "a drip tray under the melt")


RULES = (
    Rule(
        "oven-in-living-space",
        Level.ERROR,
        Scope.RECIPE,
        message="Hot plastic does not belong where people live or cook.",
        checks="the place against kitchen and living space",
        why="fume settles where people sleep and eat",
        do="work outdoors, or in a workshop with a hood ducted outdoors",
        sources=("common practice",),
        reads=("site.place", "fact:heating steps"),
        test=lambda r: says(
            r, "site.place", ("kitchen", "indoors living space"), "outdoors, or a workshop with a ducted hood"
        ),
        when=heats,
    ),
    Rule(
        "no-capture",
        Level.ERROR,
        Scope.RECIPE,
        message="Nothing takes the fume away at the oven.",
        checks="capture against a hood ducted outdoors, for work indoors",
        why="fume from hot plastic irritates lungs at concentrations that a room fan cannot reach",
        do="work outdoors, or put a hood ducted outdoors at the oven door and the press",
        sources=(
            "published: irritancy of heated plastics, AIHA J. 55 (1994) 924, abstract",
            "judgement: a warning for up to 1 kg of polyethylene or polypropylene with doors open and 6 air changes",
        ),
        reads=("site.place", "site.capture", "fact:heating steps", "fact:hottest setting"),
        test=_capture,
        may_read=(
            "site.air_changes",
            "site.door_open",
            "formula.charge",
            "resin:family",
            "resin:window high",
        ),
        when=_indoors,
    ),
    Rule(
        "air-too-little",
        Level.WARNING,
        Scope.RECIPE,
        message="The room changes its air too slowly.",
        checks="air changes an hour against 6, for work indoors",
        why="at 6 changes an hour it takes 23 minutes to clear nine tenths of a fume; at 1 it takes over two hours",
        do="open doors on two sides, or work outdoors; a hood at the oven comes first",
        sources=("derived: dilution of a room, N = ln 10 air changes", "judgement: 6 an hour"),
        reads=("site.place", "site.air_changes", "fact:heating steps"),
        test=_air,
        when=_indoors,
    ),
    Rule(
        "sensitive-people-near",
        Level.ERROR,
        Scope.RECIPE,
        message="Somebody at special risk is near.",
        checks="who is present against asthmatic and pregnant people, and birds where the liner is PTFE",
        why="they are hurt by fume that others only smell",
        do="keep them out of the fume area while anything is hot",
        sources=("common practice", "published: StatPearls, Polymer fume fever, 2023 (birds)"),
        reads=("site.present", "fact:heating steps"),
        test=_people,
        may_read=LINERS,
        when=heats,
    ),
    Rule(
        "child-at-machine",
        Level.ERROR,
        Scope.RECIPE,
        message="Children do not work at an oven, a press or a machine.",
        checks="who is present against under 14",
        why="burns and lost fingers are for life; children reach faster than anyone can stop them",
        do="keep children under 14 out; older pupils work supervised, as local rules allow",
        sources=("common practice", "judgement: 14 years"),
        reads=("site.present", "fact:heating steps", "fact:cutting steps"),
        test=lambda r: says(r, "site.present", ("under 14",), "nobody under 14"),
        when=lambda r: heats(r) or cuts(r),
        absolute=True,
    ),
    Rule(
        "exit-or-extinguisher",
        Level.ERROR,
        Scope.RECIPE,
        message="A fire here would find nothing ready.",
        checks="the way out, and the kind of extinguisher",
        why="burning plastic runs like oil and needs an extinguisher for solids and liquids, and a way out behind you",
        do="clear the way out; hang an ABC extinguisher beside it, within the distance of the local code",
        sources=("common practice", "published: 29 CFR 1910.157(d), United States, for distances"),
        reads=("site.exit_clear", "site.extinguisher", "fact:heating steps"),
        test=_exit,
        when=heats,
    ),
    Rule(
        "no-water-for-burns",
        Level.ERROR,
        Scope.RECIPE,
        message="There is no water for a burn.",
        checks="the water at hand against none",
        why="molten plastic sticks and goes on burning; only running water at once, for 20 minutes, limits it",
        do="work within reach of running water",
        sources=("published: burns-unit first-aid page (20 minutes)",),
        reads=("site.water_for_burns", "fact:heating steps"),
        test=lambda r: says(r, "site.water_for_burns", ("none",), "running water, a full bucket at the very least"),
        when=heats,
    ),
    Rule(
        "combustibles-near",
        Level.WARNING,
        Scope.RECIPE,
        message="Something that burns is too near the oven, or a drip can reach it.",
        checks="the clear distance against 1 m, and a drip tray under the melt",
        why="a drip or a spark reaches it before anyone does",
        do="clear everything that burns to 1 m around the oven, and put a drip tray under the melt",
        sources=("common practice",),
        reads=("site.clear_of_combustibles", "equipment.oven.drip_tray", "fact:heating steps"),
        test=_near,
        when=heats,
    ),
)
