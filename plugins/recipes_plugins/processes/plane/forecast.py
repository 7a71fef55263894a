"""What planing does: the marks it leaves, the passes it takes, what is left of the piece and what turns to chips."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

from recipes_core.physics import cutting
from recipes_core.plugin_api import Given, Outcome, calc
from recipes_plugins import piece

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Fact, Value, Work


def forecast(case: Case, work: Work) -> Outcome:
    """Feed per tooth, marks, passes, thickness and mass (all SI); the work keeps its form."""
    before, to, cut = piece.thickness(case, work), case.middle("to"), case.middle("cut")
    left = calc(
        "thickness left",
        "length",
        "to, or the thickness before where that is less",
        lambda before, to: [min(before[0], to)],
        before=before,
        to=to,
    )
    off = calc(
        "taken off",
        "length",
        "thickness before - thickness left",
        lambda before, left: [before[0] - left[0]],
        before=before,
        left=left,
    )
    passes = calc(
        "passes",
        "number",
        "taken off ÷ cut, rounded up",
        lambda off, cut: [float(cutting.passes(off[0], cut))],
        off=off,
        cut=cut,
    )
    share = calc(
        "yield",
        "share",
        "thickness left ÷ thickness before",
        lambda left, before: [left[0] / before[0]],
        left=left,
        before=before,
    )
    chips = piece.removed_mass(case, "chips", off)
    mass, warm = piece.mass_left(work, chips), piece.warmth(case, work)
    unlike = _unlike(case, off, passes, cut)
    facts = (*_marks(case), _deepest(case), before, off, passes, left, share, unlike, chips, mass, warm)
    outcome = work.after(work.form, thickness=left, mass=mass, left_warm=warm)
    return Outcome(outcome, {f.name: f for f in facts})


def _deepest(case: Case) -> Fact:
    """The deepest cut of one pass: what the sheet bears, or the maker of the planer allows where that is less."""
    allowed = case.middle("machine.max_cut")
    return calc(
        "deepest cut",
        "length",
        "the smaller of the sheet's and the machine's",
        lambda bears, allowed=inf: [min(bears, allowed)],
        bears=case.get("resin:planing cut"),
        **({"allowed": allowed} if isinstance(allowed, Given) else {}),
    )


def _marks(case: Case) -> tuple[Fact, ...]:
    """Feed per tooth from all knives; the marks from those that run true: one, unless they were jointed."""
    feed = {"feed": case.middle("machine.feed"), "rpm": piece.count(case.get("machine.rpm"))}
    knives = piece.count(case.get("machine.knives"))
    tooth = calc(
        "feed per tooth",
        "length",
        "feed ÷ (turns × knives)",
        lambda feed, rpm, knives: [float(cutting.mark_pitch(feed, rpm / 60.0, knives))],
        knives=knives,
        **feed,
    )
    pitch = calc(
        "mark pitch",
        "length",
        "feed ÷ turns, and ÷ knives where these were jointed",
        _pitch,
        knives=knives,
        jointed=case.get("machine.jointed"),
        **feed,
    )
    inch = calc(
        "marks to the inch", "number", "25.4 mm ÷ mark pitch", lambda pitch: [round(0.0254 / pitch[0], 1)], pitch=pitch
    )
    ridge = calc(
        "scallop",
        "length",
        "pitch² ÷ (4 × cutting circle)",
        lambda pitch, circle: [float(cutting.scallop(pitch[0], circle))],
        pitch=pitch,
        circle=case.middle("machine.cutter_diameter"),
    )
    return tooth, pitch, inch, ridge


def _pitch(feed: float, rpm: float, knives: float, jointed: str) -> list[float]:
    return [float(cutting.mark_pitch(feed, rpm / 60.0, knives if jointed == "yes" else 1))]


def _unlike(case: Case, off: Value, passes: Value, cut: Value) -> Fact:
    """How much more comes off one face than off the other."""
    faces = case.get("faces")
    both = isinstance(faces, Given) and faces.value == "both"
    second: dict[str, Value] = {"second_face": case.middle("second_face")} if both else {}

    def unlike(faces: str, off: list[float], passes: list[float], cut: float, second_face: float = 0.0) -> list[float]:
        if faces == "alternating":  # an even number of passes leaves only what the last one is thinner by
            odd = passes[0] % 2 == 1
            last = off[0] - (passes[0] - 1) * cut
            return [last if odd else cut - last if passes[0] else 0.0]
        return [abs(off[0] - 2.0 * second_face)]

    return calc(
        "more off one face",
        "length",
        "what comes off one face - what comes off the other",
        unlike,
        faces=faces,
        off=off,
        passes=passes,
        cut=cut,
        **second,
    )
