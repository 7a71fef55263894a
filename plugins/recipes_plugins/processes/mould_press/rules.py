"""Rules on the mould and on what happens to the plastic in the press."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from recipes_core.plugin_api import (
    Change,
    Dimension,
    Hit,
    Level,
    Rule,
    Scope,
    Way,
    above,
    below,
    over,
    show,
    too_cold,
    too_short,
    under,
)
from recipes_plugins.processes.mould_press import press_rules

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, TIME, SHARE = Dimension.TEMPERATURE, Dimension.TIME, Dimension.SHARE
FOLLOW_UP = 300.0
BARE = ("none", "bare-metal")
SKIN_WARNING, SKIN_ERROR = 0.1, 0.5


def _cold(r: Reading) -> Iterator[Hit]:
    met, peak, end = r.fact("contact temperature").nominal, r.si("resin:set"), r.si("resin:solid")
    found, limit = f"faces meet at {show(met, T)}", f"{show(peak, T)} at least"
    yield from too_cold("equipment.mould.material", met, peak, end, found=found, limit=limit)


def _skin(r: Reading) -> Iterator[Hit]:
    skin = r.fact("skin at full force")
    _, late = skin.band()
    if above(skin.nominal, SKIN_ERROR, SHARE) or above(late, SKIN_WARNING, SHARE):
        yield Hit(
            "closing_time",
            f"{show(skin.nominal, SHARE)} of the thickness set, {show(late, SHARE)} in the worst of plausible shops",
            f"{show(SKIN_WARNING, SHARE)} at most",
            level=Level.ERROR if above(skin.nominal, SKIN_ERROR, SHARE) else Level.WARNING,
        )


def _open_time(r: Reading) -> Iterator[Hit]:
    skin, start, end = r.fact("skin at the mould").nominal, r.si("resin:stiffening"), r.si("resin:solid")
    found = f"skin at {show(skin, T)} when it reaches the mould"
    yield from too_cold(
        "transfer", skin, start, end, found=found, limit=f"{show(start, T)} at least, where it stiffens"
    )


def _hold(r: Reading) -> Iterator[Hit]:
    needed = r.fact("core set after")
    text = f"{ceil(needed.band()[1] / 60.0 - 1e-9)} min"
    way = Way(f"hold the force for at least {text}", (Change(r.path("hold"), text),))
    yield from too_short("hold", r.si("hold"), needed, advice=(way,))


def _follow(r: Reading) -> Iterator[Hit]:
    soonest, _ = r.fact("quarter of force lost in").band()
    within = min(FOLLOW_UP, soonest)
    if not below(r.si("hold"), within, TIME):
        yield from over("repress_every", r.upper("repress_every"), within, TIME)


def _fixed(r: Reading) -> Iterator[Hit]:
    if r.word("equipment.mould.follows") == "no":
        melt, solid = r.si("resin:density melt"), r.si("resin:density solid")
        yield Hit(
            "equipment.mould.follows",
            f"the melt loses {(1 - melt / solid) * 100:.0f} % of its volume on freezing",
            "a mould that follows the part as it shrinks",
        )


def _gas(r: Reading) -> Iterator[Hit]:
    if r.word("equipment.mould.vents") == "no":
        yield Hit("equipment.mould.vents", "no vents", "a way out for air and steam")


def _wet(r: Reading) -> Iterator[Hit]:
    name = "equipment.mould.dry"
    if r.word(name) == "no":
        yield Hit(name, "wet", "a dry mould")
    elif r.word(name) != "yes" and above(r.upper(name), 0.12, SHARE):
        yield Hit(name, r.text(name), "wood at 12 % moisture at most")


def _hot(r: Reading) -> Iterator[Hit]:
    met = r.fact("contact temperature").nominal
    limit, warning = r.si("mould material:contact limit"), r.si("mould material:contact warning")
    if above(met, warning, T):
        yield Hit(
            "equipment.mould.material",
            f"faces meet at {show(met, T)}",
            f"{show(warning, T)} at most for this material",
            level=Level.ERROR if above(met, limit, T) else Level.WARNING,
        )


def _closes(r: Reading) -> Iterator[Hit]:
    needed, force = r.fact("closing force"), r.si("force")
    _, most = needed.band()
    yield from under("force", force, most, Dimension.FORCE)


def _folds(r: Reading) -> bool:
    return any(step.process == "fold" for step in r.case.recipe.steps)


def _tray_fits(r: Reading) -> Iterator[Hit]:
    tray = sorted(r.si(f"equipment.tray.{side}") for side in ("length", "width"))
    cavity = sorted(r.si(f"equipment.mould.cavity.{side}") for side in ("length", "width"))
    if any(above(a, b, Dimension.LENGTH) for a, b in zip(tray, cavity, strict=True)):
        yield Hit("equipment.tray.length", _size(tray), f"{_size(cavity)}, the cavity")


def _size(sides: list[float]) -> str:
    return f"{show(sides[1], Dimension.LENGTH)} × {show(sides[0], Dimension.LENGTH)}"


def _mould_sticks(r: Reading) -> Iterator[Hit]:
    bare = r.word("formula.liner.mould") in BARE
    sticky = not bare and r.word("liner mould:grip") == "sticks"
    if (bare and r.word("mould material:burns") == "no" and r.word("equipment.mould.release") == "none") or (sticky):
        yield Hit(
            "formula.liner.mould", r.text("formula.liner.mould"), "a liner or a release that the plastic lets go of"
        )


_PART = (
    Rule(
        "melt-sticks-to-mould",
        Level.ERROR,
        Scope.STEP,
        message="The melt will stick to the mould.",
        checks="the liner in the mould, and for bare hot metal its release, against the plastic",
        why="a part that sticks has to be levered off, which tears it and slips",
        do="line the mould with baking parchment or PTFE cloth, or wax it cold",
        sources=("common practice",),
        reads=("formula.liner.mould", "mould material:burns"),
        test=_mould_sticks,
        on=("mould-press",),
        also=lambda r: (
            "equipment.mould.release"
            if r.word("formula.liner.mould") in ("none", "bare-metal")
            else "liner mould:grip",
        ),
        may_read=("equipment.mould.release", "liner mould:grip"),
    ),
    Rule(
        "melt-does-not-fit",
        Level.ERROR,
        Scope.STEP,
        message="The melt is larger than the cavity, and nothing folds it.",
        checks="the tray's size against the cavity, where no step folds the melt",
        why="what hangs over the edge is sheared off or keeps the mould from closing",
        do="melt on a tray of the cavity's size, or fold the melt",
        sources=("derived: the sizes given",),
        reads=(
            "equipment.tray.length",
            "equipment.tray.width",
            "equipment.mould.cavity.length",
            "equipment.mould.cavity.width",
        ),
        test=_tray_fits,
        on=("mould-press",),
        when=lambda r: not _folds(r),
    ),
    Rule(
        "mould-cold",
        Level.WARNING,
        Scope.STEP,
        message="The mould is too cold for the melt.",
        checks="the temperature at which melt and mould meet against the freezing peak",
        why="a cold metal face freezes the skin at once: laps, pits, and a mould that does not fill",
        do="preheat the mould; metal needs it, wood does not",
        sources=(
            "derived: two thick bodies brought together",
            "common practice: a steel mould must be preheated",
        ),
        reads=(
            "equipment.mould.material",
            "fact:contact temperature",
            "resin:set",
            "resin:solid",
        ),
        test=_cold,
        on=("mould-press",),
    ),
    Rule(
        "mould-too-hot",
        Level.WARNING,
        Scope.STEP,
        message="The mould's material does not stand this heat.",
        checks="the temperature at which melt and mould meet against the limits of wood and board",
        why="glue lines open, steam lifts the face, and wood that is often hot loses its strength",
        do="cool the melt a little before it meets the wood, or make the mould of metal",
        sources=(
            "published: Babrauskas et al., Fire Mater. 31 (2007) 125, abstract",
            "judgement: 120, 200 and 220 °C",
        ),
        reads=(
            "equipment.mould.material",
            "fact:contact temperature",
            "mould material:contact warning",
            "mould material:contact limit",
        ),
        test=_hot,
        on=("mould-press",),
        may_read=("mould material:burns",),
        when=lambda r: r.word("mould material:burns") != "no",
    ),
    Rule(
        "mould-wet",
        Level.ERROR,
        Scope.STEP,
        message="The mould is wet.",
        checks="whether the mould is dry; the moisture of wood against 12 %",
        why="water flashes to steam under the melt and throws it out of the mould",
        do="dry the mould, and leave no pocket where water can hide",
        sources=("memory: steam from trapped water", "judgement: 12 % for wood"),
        reads=("equipment.mould.dry",),
        test=_wet,
        on=("mould-press",),
    ),
    Rule(
        "skin-too-thick",
        Level.WARNING,
        Scope.STEP,
        message="Too much of the part is frozen before full force.",
        checks="the share of the thickness below the freezing peak at full force against a tenth, and a half",
        why="a frozen skin does not flow: the press then bends a shell instead of filling the mould",
        do="preheat the mould more, close faster, or make the part thicker",
        sources=("derived: transient conduction with freezing", "judgement: a tenth, a half"),
        reads=("closing_time", "fact:skin at full force"),
        test=_skin,
        on=("mould-press",),
    ),
    Rule(
        "open-time-over",
        Level.WARNING,
        Scope.STEP,
        message="The melt is out of the oven for too long.",
        checks="the computed skin when the melt reaches the mould against the start of freezing",
        why="a skin that has begun to freeze shows as pits and cold laps",
        do="bring the press nearer to the oven, have the mould open and ready",
        sources=("derived: transient conduction to the air of the shop",),
        reads=("transfer", "fact:skin at the mould", "resin:stiffening", "resin:solid"),
        test=_open_time,
        on=("mould-press",),
    ),
    Rule(
        "force-will-not-close",
        Level.WARNING,
        Scope.STEP,
        message="The force may not squeeze the stack flat in this time.",
        checks="the force of a squeeze film at the part's thickness against the force given",
        why="the mould stays open, the part comes out thick and short of its corners",
        do="give it more time to close, more force, or a hotter melt",
        sources=("derived: power-law squeeze film", "memory: how stiff the melt flows"),
        reads=("force", "fact:closing force"),
        test=_closes,
        on=("presses",),
    ),
    Rule(
        "pressure-low",
        Level.WARNING,
        Scope.STEP,
        message="The pressure is too low to weld the flake together.",
        checks="force ÷ projected area against the lowest pressure of the sheet",
        why="voids and laps stay in",
        do="use more force or make a smaller part",
        sources=("published: J. Nobrega dos Santos, thesis, Univ. of Manitoba, abstract", "common practice"),
        reads=("force", "fact:pressure", "resin:pressure foot"),
        test=lambda r: under("force", r.fact("pressure").nominal, r.si("resin:pressure foot"), Dimension.PRESSURE),
        on=("presses",),
    ),
    Rule(
        "pressure-high",
        Level.WARNING,
        Scope.STEP,
        message="The pressure is more than a laboratory press puts on.",
        checks="force ÷ projected area against the pressure above which the units are doubtful",
        why="a slip in units, or a mould and frame loaded for nothing",
        do="check the units of force and size; use less force",
        sources=("published: test-laboratory page on ASTM D4703 (10 MPa presses)", "judgement"),
        reads=("force", "fact:pressure", "resin:pressure doubtful"),
        test=lambda r: over("force", r.fact("pressure").nominal, r.si("resin:pressure doubtful"), Dimension.PRESSURE),
        on=("presses",),
    ),
    Rule(
        "pressure-off-early",
        Level.WARNING,
        Scope.STEP,
        message="The force is let off while the core is still soft.",
        checks="hold against the computed time until the hottest plastic is below its freezing peak",
        why="the core goes on shrinking after the skin has set; without pressure it pulls sinks and voids",
        do="hold the force for longer",
        sources=("derived: transient conduction with freezing",),
        reads=("hold", "fact:core set after"),
        test=_hold,
        on=("presses",),
    ),
    Rule(
        "no-follow-up",
        Level.WARNING,
        Scope.STEP,
        message="Nobody tops the force up often enough.",
        checks="the time between top-ups against the time in which the part shrinks away from a quarter of the force, "
        "and 5 min, for holds as long as that",
        why="the part shrinks away from the press and the force falls to nothing",
        do="pump it up again every few minutes until the force no longer falls",
        sources=(
            "derived: thickness by the density of each layer, against the stretch of the frame",
            "common practice",
            "judgement: a quarter of the force, a stretch of 2 mm, 5 min",
        ),
        reads=("hold", "repress_every", "fact:quarter of force lost in"),
        test=_follow,
        on=("presses",),
    ),
    Rule(
        "fixed-cavity-sinks",
        Level.WARNING,
        Scope.STEP,
        message="A mould of fixed size leaves sinks.",
        checks="whether the mould follows the part as it shrinks",
        why="the volume that freezing takes away shows as hollows in the faces or voids inside",
        do="use a mould whose lid can follow, with enough flash to feed it",
        sources=("derived: density of melt and solid",),
        reads=("equipment.mould.follows", "resin:density solid", "resin:density melt"),
        test=_fixed,
        on=("mould-press",),
    ),
    Rule(
        "no-way-out-for-gas",
        Level.WARNING,
        Scope.STEP,
        message="Air and steam have no way out of the mould.",
        checks="whether the mould has vents",
        why="trapped gas leaves pits, and can spray when the mould is opened",
        do="file a shallow vent into the parting line, and open the mould slowly, standing aside",
        sources=("common practice",),
        reads=("equipment.mould.vents",),
        test=_gas,
        on=("mould-press",),
    ),
)

RULES = (*_PART, *press_rules.RULES)
