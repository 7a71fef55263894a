"""Rules on the press as a machine: its rating, its frame, the hands near it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, over, says, under

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

FORCE = Dimension.FORCE
HOT_JACK = 333.15
GAP = 0.050
FRAME = 1.5
UNRATED = ("drawing only", "none")


def _rated(r: Reading) -> Iterator[Hit]:
    if r.word("equipment.press.marked") == "no":
        yield Hit("equipment.press.marked", "no mark", "the rated load marked on the jack")
    yield from over("force", r.upper("force"), r.si("equipment.press.rating"), FORCE)


def _near(r: Reading) -> Iterator[Hit]:
    rating = r.si("equipment.press.rating")
    if not above(r.upper("force"), rating, FORCE):
        yield from over("force", r.upper("force"), 0.8 * rating, FORCE)


def _frame(r: Reading) -> Iterator[Hit]:
    yield from says(
        r,
        "equipment.press.frame_rated_by",
        UNRATED,
        "a maker's or a competent person's rating",
    )
    if not r.known("equipment.press.frame_rating"):
        return
    needed = FRAME * r.si("equipment.press.rating")
    yield from under("equipment.press.frame_rating", r.si("equipment.press.frame_rating"), needed, FORCE)


def _hot(r: Reading) -> Iterator[Hit]:
    name = "equipment.press.jack_shield"
    if r.known("equipment.press.jack_body"):
        yield from over(
            "equipment.press.jack_body", r.upper("equipment.press.jack_body"), HOT_JACK, Dimension.TEMPERATURE
        )
    elif r.word(name) == "none":
        yield Hit(name, "none", "an air gap of 50 mm or insulation")
    elif "air gap" in r.text(name):
        yield from under(name, r.si(name), GAP, Dimension.LENGTH)


def _aside(r: Reading) -> Iterator[Hit]:
    yield from says(r, "equipment.press.release", ("fast",), "a slow release")
    if r.word("equipment.press.stands_aside") == "no" and r.word("equipment.press.shield") == "none":
        yield Hit(
            "equipment.press.stands_aside",
            f"somebody in line with {r.fact('stored energy').nominal:.0f} J of stored energy",
            "a screen, or everybody aside",
        )


def _handle(r: Reading) -> Iterator[Hit]:
    """A press that was built with a motor is worked by it; a hand jack is not."""
    built = r.known("equipment.press.type") and r.word("equipment.press.type") == "hydraulic press"
    yield from says(
        r, "equipment.press.handle", ("extended",) if built else ("extended", "powered"), "the handle supplied"
    )


RULES = (
    Rule(
        "jack-over-rated",
        Level.ERROR,
        Scope.STEP,
        message="The press is asked for more than its mark.",
        checks="the force against the rated load marked on the jack",
        why="an overloaded jack or frame bursts; parts fly at head height",
        do="use less force, a smaller part, or a press rated for it",
        sources=("published: 29 CFR 1910.244(a), United States",),
        reads=("force", "equipment.press.rating", "equipment.press.marked"),
        test=_rated,
        on=("presses",),
        absolute=True,
    ),
    Rule(
        "jack-near-rated",
        Level.WARNING,
        Scope.STEP,
        message="The press works near its limit.",
        checks="the force against four fifths of the rated load",
        why="little is left for a gauge that lies or a load that sits off centre",
        do="use less force or a larger press",
        sources=("published: a lifting-equipment supplier's note", "judgement: four fifths"),
        reads=("force", "equipment.press.rating"),
        test=_near,
        on=("presses",),
    ),
    Rule(
        "frame-unrated",
        Level.ERROR,
        Scope.STEP,
        message="The frame around the jack is not proved for its load.",
        checks="the frame's rating against 1.5 times the jack's, and who rated it",
        why="a frame that lets go throws steel and hot melt at whoever stands there",
        do="have a competent person rate the frame for 1.5 times the jack, and proof test it behind a screen",
        sources=("judgement: 1.5, in line with the static test of ASME B30.1 jacks",),
        reads=("equipment.press.frame_rated_by", "equipment.press.rating"),
        test=_frame,
        on=("presses",),
        also=lambda r: () if r.word("equipment.press.frame_rated_by") in UNRATED else ("equipment.press.frame_rating",),
        may_read=("equipment.press.frame_rating",),
        absolute=True,
    ),
    Rule(
        "handle-extended",
        Level.ERROR,
        Scope.STEP,
        message="The jack is pumped with more than its own handle.",
        checks="the handle against the one supplied",
        why="a pipe or a driver takes the jack past its rating before anyone feels it",
        do="pump by hand, with the handle that came with it",
        sources=("common practice",),
        reads=("equipment.press.handle",),
        test=_handle,
        on=("presses",),
        may_read=("equipment.press.type",),
        absolute=True,
    ),
    Rule(
        "hand-in-press",
        Level.ERROR,
        Scope.STEP,
        message="A hand goes into the press.",
        checks="hands against tongs, a tool or a mechanical prop",
        why="a jack that slips crushes a hand at once",
        do="reach in with tongs only, and prop the platen before anybody cleans it",
        sources=("published: 29 CFR 1910.244(a), United States", "common practice"),
        reads=("equipment.press.hands",),
        test=lambda r: says(r, "equipment.press.hands", ("hand",), "tongs or a tool"),
        on=("presses",),
        absolute=True,
    ),
    Rule(
        "jack-hot",
        Level.ERROR,
        Scope.STEP,
        message="The jack gets too hot.",
        checks="the jack's body against 60 °C, or its shield against an air gap of 50 mm",
        why="hot oil and seals fail; outside its rated conditions the mark on the jack means nothing",
        do="put an air gap or insulation between the mould and the jack",
        sources=("published: ASME B30.1-2004, rated conditions up to 60 °C", "judgement: 50 mm"),
        reads=("equipment.press.jack_shield",),
        test=_hot,
        on=("presses",),
        may_read=("equipment.press.jack_body", "equipment.press.type"),
        when=lambda r: r.word("equipment.press.type") not in ("screw", "lever", "clamps"),
    ),
    Rule(
        "load-off-centre",
        Level.ERROR,
        Scope.STEP,
        message="The load or the base of the press can shift.",
        checks="the load against centred, the base against level and solid or blocked",
        why="an off-centre load kicks the mould out sideways",
        do="centre or guide the mould, and stand the press on something solid",
        sources=("published: 29 CFR 1910.244(a), United States",),
        reads=("equipment.press.load", "equipment.press.base"),
        test=lambda r: [
            *says(r, "equipment.press.load", ("off-centre",), "centred or guided"),
            *says(r, "equipment.press.base", ("soft",), "level and solid, or blocked"),
        ],
        on=("presses",),
    ),
    Rule(
        "stands-in-line",
        Level.WARNING,
        Scope.STEP,
        message="Somebody stands where a part would fly.",
        checks="the release, and a screen or a place aside, against the energy stored in the press",
        why="trapped gas and a stretched frame throw melt and steel when the force comes off",
        do="release slowly, stand aside, face away from the parting line",
        sources=("derived: half of force × stretch", "judgement: a frame stretches 2 mm"),
        reads=(
            "equipment.press.stands_aside",
            "equipment.press.shield",
            "equipment.press.release",
            "fact:stored energy",
        ),
        test=_aside,
        on=("presses",),
    ),
)
