"""Rules on bending: warm enough, not too warm, not too tight, held long enough, and as long as it should be."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, inf
from typing import TYPE_CHECKING

from recipes_core.plugin_api import (
    Basis,
    Change,
    Dimension,
    Given,
    Hit,
    Level,
    Rule,
    Scope,
    Way,
    above,
    below,
    longer,
    over,
    show,
    too_short,
    under,
)
from recipes_plugins.processes.reheat_bend.refusals import REFUSALS

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, TIME, LENGTH = Dimension.TEMPERATURE, Dimension.TIME, Dimension.LENGTH
COLD = ("radius", "fact:thickness", "resin:cold bend", "resin:cold bend thickness")
"""What tells whether the sheet may be bent without being soft."""


def _stays_cold(r: Reading) -> bool:
    """Whether this oven never brings the core to the forming window: a cold bend, whatever the clock says."""
    return r.fact("heated through after").nominal == inf


def _bends_cold(r: Reading) -> bool:
    """Whether it is a cold bend of a kind that somebody published."""
    return _stays_cold(r) and r.known("resin:cold bend") and r.known("radius") and not any(_too_tight_cold(r))


def _short(r: Reading) -> Iterator[Hit]:
    given, through = r.si("at_least"), r.fact("heated through after")
    _, late = through.band()
    if _stays_cold(r) or (late == inf and not below(given, through.nominal, TIME)):
        return  # the oven is too cool, not the time too short
    advice = () if late == inf else (longer(r, "at_least", late),)
    yield from too_short("at_least", given, through, advice=advice)


def _cold(r: Reading) -> Iterator[Hit]:
    through, foot = r.fact("heated through after"), r.si("resin:forming foot")
    _, late = through.band()
    if late == inf and not _bends_cold(r):
        reached = r.fact("oven air")
        yield Hit(
            "setting",
            f"air at {show(reached.nominal, T)}, {show(reached.band()[0], T)} in one shop of twenty",
            f"{show(foot, T)} at least, in the core",
            level=Level.ERROR if _stays_cold(r) else Level.WARNING,
            do="set the oven at least 20 K above the foot of the forming window, or measure it",
        )
    if late == inf or below(r.si("at_least"), late, TIME):
        return  # the oven is to blame, or the clock, which is another rule's
    skin, stiff = r.fact("coldest when bent"), r.si("resin:stiffening")
    low, _ = skin.band()
    if below(low, stiff, T):
        yield Hit(
            "transfer" if r.known("transfer") else "at_least",
            f"skin at {show(skin.nominal, T)} when it is bent, {show(low, T)} in one shop of twenty",
            f"{show(stiff, T)} at least",
            level=Level.ERROR if below(skin.nominal, stiff, T) else Level.WARNING,
            do="carry it faster, or set the oven hotter",
        )


def _tight(r: Reading) -> Iterator[Hit]:
    if _stays_cold(r):
        yield from _too_tight_cold(r)
        return
    strain, bears = r.fact("outer-fibre strain").nominal, r.raw("resin:bend strain")
    limit = r.si("resin:bend strain")
    known = isinstance(bears, Given) and bears.origin.basis is Basis.PUBLISHED
    level = Level.ERROR if known else Level.WARNING
    if above(strain, limit, Dimension.SHARE):
        least = 0.5 * r.fact("thickness").nominal * (1.0 / limit - 1.0)
        text = f"{ceil(least * 1e4 - 1e-6) / 10:g} mm"
        way = Way(f"bend it to a radius of at least {text}", (Change(r.path("radius"), text),))
        for hit in over("radius", strain, limit, Dimension.SHARE, level=level):
            yield Hit(hit.at, f"{hit.found} at the outer face", hit.limit, hit.margin, level, advice=(way,))


def _too_tight_cold(r: Reading) -> Iterator[Hit]:
    thickness = r.fact("thickness").nominal
    if not r.known("resin:cold bend"):
        yield Hit("radius", "a bend below the forming window", "no radius is on record for that: heat it through")
        return
    yield from under("radius", r.si("radius"), r.si("resin:cold bend") * thickness, LENGTH)
    if r.known("resin:cold bend thickness"):
        yield from over("radius", thickness, r.si("resin:cold bend thickness"), LENGTH, do="heat it through")


def _hot(r: Reading) -> Iterator[Hit]:
    yield from over("setting", r.fact("hottest").nominal, r.si("resin:forming top"), T)


def _released(r: Reading) -> Iterator[Hit]:
    needed = r.fact("set after")
    _, late = needed.band()
    yield from too_short("hold", r.si("hold"), needed, advice=() if late == inf else (longer(r, "hold", late),))


def _flat(r: Reading) -> Iterator[Hit]:
    needed, given, tolerance = r.fact("flat length"), r.si("flat_length"), r.si("part.tolerance")
    low, high = needed.worst(highest=False), needed.worst(highest=True)
    if below(r.upper("flat_length"), low - tolerance, LENGTH) or above(given, high + tolerance, LENGTH):
        text = show(needed.nominal, LENGTH).partition(" (")[0]
        way = Way(f"cut it {text} long", (Change(r.path("flat_length"), text),))
        wanted = f"{show(needed.nominal, LENGTH)} ± {show(tolerance, LENGTH)}"
        yield Hit("flat_length", show(given, LENGTH), wanted, advice=(way,))


def _springs(r: Reading) -> Iterator[Hit]:
    core, line = r.fact("coldest when bent").nominal, r.si("resin:solid-phase line")
    if below(core, line, T) and not r.known("over_bend"):
        yield Hit("turned", f"core at {show(core, T)} when it is bent", f"{show(line, T)}, or some over-bend")


def _unsupported(r: Reading) -> Iterator[Hit]:
    if r.word("supported") == "no" and r.word("resin:carries itself") != "yes":
        yield Hit("supported", "it hangs or stands free", "something under it: this plastic sags")


def _white(r: Reading) -> Iterator[Hit]:
    found, limit = r.fact("over the whitening line for"), r.si("resin:whitening time")
    _, long = found.band()
    if above(long, limit, TIME):
        yield Hit(
            "at_most",
            f"{show(found.nominal, TIME)} above the line, {show(long, TIME)} in one shop of twenty",
            f"{show(limit, TIME)} at most above {show(r.si('resin:whitening line'), T)}",
        )


RULES = (
    Rule(
        "soak-short",
        Level.WARNING,
        Scope.STEP,
        message="The core is still stiff when this step may end.",
        checks="at_least against the computed time until the coldest plastic is in the forming window",
        why="a cold core cracks, or straightens again later; minutes for each millimetre depend on oven and plastic",
        do="allow more time",
        sources=("derived: transient conduction through the piece",),
        reads=("at_least", "fact:heated through after"),
        test=_short,
        on=("bends",),
        may_read=("at_most",),
    ),
    Rule(
        "bend-too-cold",
        Level.ERROR,
        Scope.STEP,
        message="It is bent too cold.",
        checks="the oven air against the foot of the forming window; the skin when bent against where it stiffens",
        why="below its window plastic whitens and cracks on the outside, or springs back over days",
        do="set the oven hotter, or carry it faster",
        sources=(
            "derived: transient conduction in the oven and on the way",
            "published: school technology notes on line bending, for the windows",
        ),
        reads=(
            "at_least",
            "fact:oven air",
            "fact:heated through after",
            "fact:coldest when bent",
            "resin:forming foot",
            "resin:stiffening",
        ),
        test=_cold,
        on=("bends",),
        may_read=("transfer", *COLD),
    ),
    Rule(
        "bend-too-hot",
        Level.ERROR,
        Scope.STEP,
        message="It gets too hot to keep its shape.",
        checks="the hottest plastic of the nominal forecast after at_most against the top of the forming window",
        why="above its window the piece sags, thins in the bend and sticks to whatever carries it",
        do="set the oven lower, or end the step sooner",
        sources=(
            "derived: transient conduction through the piece",
            "published: school technology notes on line bending, for the windows; the lower value where two differ",
        ),
        reads=("setting", "fact:hottest", "resin:forming top"),
        test=_hot,
        on=("bends",),
    ),
    Rule(
        "bend-too-tight",
        Level.ERROR,
        Scope.STEP,
        message="The bend is tighter than this plastic bears.",
        checks="the strain of the outer face, or below the forming window the radius, against what the sheet bears",
        why="the outer face tears or thins; a cold bend also cracks later, when a cleaner or a solvent touches it",
        do="bend it to a larger radius",
        sources=(
            "derived: strain = thickness ÷ (2 × radius + thickness)",
            "judgement: an error where the strain is published, a warning where it is remembered",
        ),
        reads=("radius", "fact:outer-fibre strain", "fact:thickness", "fact:heated through after"),
        test=_tight,
        on=("bends",),
        also=lambda r: () if not r.known("fact:heated through after") or _stays_cold(r) else ("resin:bend strain",),
        may_read=("resin:bend strain", *COLD),
    ),
    Rule(
        "bend-released-early",
        Level.WARNING,
        Scope.STEP,
        message="It is let go before it has set.",
        checks="hold against the computed time until all of the piece is below the sheet's set temperature for bends",
        why="a warm core straightens the bend again",
        do="hold it longer, or take a former of metal",
        sources=("derived: transient conduction on the former", "common practice: set temperatures of bends"),
        reads=("hold", "fact:set after"),
        test=_released,
        on=("bends",),
    ),
    Rule(
        "flat-length-off",
        Level.ERROR,
        Scope.STEP,
        message="The piece will not come out at these legs.",
        checks="the length before the bend against the legs and the bend allowance, within the tolerance of the part",
        why="the bend takes up length along its middle, less than both legs add up to",
        do="cut it to the length that legs and bend need",
        sources=(
            "derived: legs less setbacks plus angle × (radius + K × thickness)",
            "common practice: K 0.5 soaked through, 0.35 to 0.45 heated from one side",
        ),
        reads=("flat_length", "part.tolerance", "fact:flat length"),
        test=_flat,
        on=("bends",),
    ),
    Rule(
        "springs-back",
        Level.NOTE,
        Scope.STEP,
        message="It will spring back a little.",
        checks="the coldest plastic when it is bent against the solid-phase line of the sheet, unless it is over-bent",
        why="below that line crystals are bent, not melted: the bend keeps a stress that opens it again",
        do="bend a few degrees further on a trial strip and measure; or heat it above the line, on a support",
        sources=("published: school technology notes on line bending", "derived: transient conduction"),
        reads=("fact:coldest when bent", "resin:solid-phase line"),
        test=_springs,
        on=("bends",),
        may_read=("over_bend",),
        when=lambda r: r.known("resin:solid-phase line"),
    ),
    Rule(
        "sheet-unsupported",
        Level.WARNING,
        Scope.STEP,
        message="The hot sheet has nothing to lie on.",
        checks="the support against whether a sheet of this plastic carries itself while it is soft",
        why="it sags, thins at the hanger and can fall onto the element",
        do="lay it on a lined tray or board",
        sources=("common practice",),
        reads=("supported",),
        test=_unsupported,
        on=("bends",),
        also=lambda r: ("resin:carries itself",) if r.word("supported") == "no" else (),
        may_read=("resin:carries itself",),
    ),
    Rule(
        "turns-white",
        Level.WARNING,
        Scope.STEP,
        message="It turns white and brittle in the oven.",
        checks="how long, until at_most, the hottest plastic is above the whitening line, against the sheet's time",
        why="a clear plastic that crystallises is white, brittle, and bends no more",
        do="set the oven at the whitening line or below, or end the step sooner",
        sources=("published: thermal-analysis pages on crystallising from the glass", "derived: transient conduction"),
        reads=("at_most", "fact:over the whitening line for", "resin:whitening line", "resin:whitening time"),
        test=_white,
        on=("bends",),
        when=lambda r: r.known("resin:whitening line"),
    ),
    *REFUSALS,
)
