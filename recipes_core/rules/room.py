"""Rules on the place and the people: who is near, what burns, and the way out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension
from recipes_core.rules.compare import cuts, heats, over, says, under
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

LENGTH = Dimension.LENGTH
FOOT = 0.3048
US_REACH = 50 * FOOT
LINERS = tuple(f"formula.liner.{place}" for place in ("tray", "over", "mould", "platen_top", "platen_bottom"))


def _people(r: Reading) -> Iterator[Hit]:
    yield from says(r, "site.present", ("asthmatic", "pregnant"), "nobody at special risk near hot plastic")
    if "birds" in r.words("site.present") and any("ptfe" in r.word(liner) for liner in LINERS):
        yield Hit("site.present", "birds", "no bird in the building with a PTFE liner")


def _smoke(r: Reading) -> Iterator[Hit]:
    ptfe = any("ptfe" in r.word(liner) for liner in LINERS)
    level = Level.ERROR if ptfe else Level.WARNING
    for hit in says(r, "site.smoking_or_food", ("yes",), "no tobacco, food or drink where plastic is worked"):
        yield replace(hit, level=level)


def _exit(r: Reading) -> Iterator[Hit]:
    yield from says(r, "site.exit_clear", ("no",), "a clear way out")
    yield from says(
        r,
        "site.extinguisher",
        ("none", "A", "B", "CO2"),
        "ABC, or a fire blanket beside an ABC, within reach",
    )
    if _in_the_us(r):
        far = "hang it nearer; the fire marshal of the place may ask for less still"
        yield from over("site.extinguisher_distance", r.upper("site.extinguisher_distance"), US_REACH, LENGTH, do=far)


def _in_the_us(r: Reading) -> bool:
    """Whether the one distance on record is the law here; every other place has its own, which is not on record."""
    return any(r.known(n) and r.word(n).partition("-")[0] == "US" for n in ("site.jurisdiction", "header.jurisdiction"))


def _near(r: Reading) -> Iterator[Hit]:
    yield from under("site.clear_of_combustibles", r.si("site.clear_of_combustibles"), 1.0, LENGTH)
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
        "smoking-or-eating",
        Level.WARNING,
        Scope.RECIPE,
        message="People smoke or eat where plastic is worked.",
        checks="whether anybody does; an error where the liner is PTFE",
        why="hands carry dust and residue to the mouth; tobacco that carries PTFE gives fume fever when it burns",
        do="eat, drink and smoke elsewhere, with washed hands",
        sources=(
            "common practice",
            "published: Shusterman, Occup. Med. 8(3) (1993) 519-531, abstract (contaminated tobacco)",
        ),
        reads=("site.smoking_or_food", "fact:fuming steps", "fact:cutting steps"),
        test=_smoke,
        may_read=LINERS,
        when=lambda r: bool(r.fact("fuming steps").numbers or r.fact("cutting steps").numbers),
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
        checks="the way out, the kind of extinguisher, and in the United States its distance against 50 ft",
        why="burning plastic runs like oil and needs an extinguisher for solids and liquids, and a way out behind you",
        do="clear the way out; hang an ABC extinguisher beside it, within the distance of the local code",
        sources=(
            "common practice",
            "published: 29 CFR 1910.157(d), United States, state summary: 75 ft for class A, 50 ft for class B",
            "judgement: the 50 ft, as plastic burns like a solid and runs like a liquid",
        ),
        reads=("site.exit_clear", "site.extinguisher", "fact:heating steps"),
        test=_exit,
        also=lambda r: ("site.extinguisher_distance",) if _in_the_us(r) else (),
        may_read=("site.extinguisher_distance", "site.jurisdiction", "header.jurisdiction"),
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
