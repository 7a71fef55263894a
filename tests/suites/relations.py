"""What must hold of a sound recipe, in facts and values of sheets alone.

The limits are those of the design: what sheets say, what bench practice asks of a press, a scale and an oven. None is
taken from a rule.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from math import inf

from recipes_core.facts import Given
from recipes_core.quantities import Dimension
from tests.suites.judging import TODAY
from tests.suites.oracle import NotKnown, Relation, Sight, Term, most

D = Dimension
T, TIME, LENGTH, MASS, FORCE, SHARE = D.TEMPERATURE, D.TIME, D.LENGTH, D.MASS, D.FORCE, D.SHARE
FOOT = 0.3048
LINERS = ("liner", "liner over", "liner mould", "liner platen top", "liner platen bottom")
CAVITY, TRAY, PLATEN = "equipment.mould.cavity", "equipment.tray", "equipment.press.platen"


def _cold_enough(s: Sight) -> float:
    s.has("done")  # the sheet's own temperature counts where this is warmer
    return s.term("mid target")


def _hot_mould(s: Sight) -> float:
    return s.term("mid mould when opened") if s.word("next_part") == "at once" else 0.0


def _wetted(s: Sight) -> float:
    early = s.word("water_onto") in ("mould outside", "set part")
    return s.term("mid core when cooling starts") if early else 0.0


def _kept_in(s: Sight) -> float:
    s.has("equipment.oven.cavity")  # what it holds does not matter where it leaves
    return 0.0 if s.word("equipment.oven.vented") == "yes" else s.term("mid vapour at 1000 µg/g")


def _carried(s: Sight) -> float:
    return s.high("formula.charge") + (s.high("vessel") if s.has("vessel") else 0.0)


def _topped_up(s: Sight) -> float:
    return 0.0 if s.low("hold") < 300.0 else s.high("repress_every")


def _circuit(s: Sight) -> float:
    supply = "equipment.oven.supply"
    long = s.has(f"{supply}.continuous_for") and s.high(f"{supply}.continuous_for") >= 3 * 3600.0
    return s.low(f"{supply}.volts") * s.low(f"{supply}.amps") * (0.8 if long else 1.0)


def _clear(s: Sight) -> float:
    return s.low("site.clear_of_combustibles") if s.fact("heating steps").numbers else inf


def _renewed(s: Sight) -> float:
    indoors = s.word("site.place") != "outdoors" and s.fact("fuming steps").numbers
    return s.low("site.air_changes") if indoors else inf


def _bends_cold(s: Sight) -> bool:
    """A bend below the forming window, at a radius and a thickness that somebody published."""
    if s.term("mid heated through after") < inf:
        return False
    thickness = s.term("mid thickness")
    thin = not s.has("resin:cold bend thickness") or most(thickness, s.low("resin:cold bend thickness"), LENGTH)
    return thin and most(s.low("resin:cold bend") * thickness, s.low("radius"), LENGTH)


def _warm_through(s: Sight) -> float:
    return 0.0 if s.has("resin:cold bend") and _bends_cold(s) else s.term("late heated through after")


def _skin_when_bent(s: Sight) -> float:
    return inf if s.has("resin:cold bend") and _bends_cold(s) else s.term("early coldest when bent")


def _cut_at(which: str, otherwise: str) -> Callable[[Sight], float]:
    return lambda s: s.term(f"{which} part_at") if s.has("part_at") else s.term(otherwise)


BOUNDS: tuple[tuple[str, str, Term, Term, Dimension], ...] = (
    ("heats plastic", "the setting is within the cap", "high setting", "low resin:heat cap", T),
    ("heats plastic", "credible air is within the cap", "mid air at worst", "low resin:heat cap", T),
    ("heats plastic", "the skin stays under its ceiling", "mid hottest", "low resin:surface ceiling", T),
    ("heats plastic", "it ages within its reserve", "mid aged", "low resin:ageing reserve", TIME),
    ("heats plastic", "it ages within its limit", "late aged", "low resin:ageing limit", TIME),
    ("heats plastic", "the liner bears the setting", "high setting", "low liners:limit", T),
    ("heats plastic", "the liner bears credible air", "mid air at worst", "low liners:warning line", T),
    ("melts", "the setting is within the window", "high setting", "low resin:window high", T),
    ("melts", "the air melts it", "low resin:window low", "mid oven air", T),
    ("melts", "it is through in time", "late melted through after", "low at_least", TIME),
    ("heats", "the heater is strong enough", "mid heater needs", "low at_least", TIME),
    ("heats cools", "its times are in order", "high at_least", "low at_most", TIME),
    ("flake-melt", "its vapour cannot flash", _kept_in, 0.1, SHARE),
    ("flake-melt", "steam has room", "worst steam", "mid void", D.VOLUME),
    ("fold", "it is melted when it is folded", "low resin:melted", "early coldest at folding", T),
    ("fold", "its skin stays soft", "low resin:stiffening", "mid skin after folding", T),
    ("fold", "its gloss comes back", "mid return needed", "low back_for", TIME),
    ("fold", "the stack is lower than the cavity", "mid stack height", f"low {CAVITY}.depth", LENGTH),
    ("mould-preheat", "the mould is warm in time", "late mould ready after", "low at_least", TIME),
    ("mould-preheat", "the mould bears its preheat", "high to", "low mould material:preheat limit", T),
    ("weigh", "the charge fills the part", "mid needed", "high formula.charge", MASS),
    ("weigh", "the charge is no more than twice the flash", "high formula.charge",
     lambda s: s.term("mid needed") * (1.0 + s.low("formula.flash_allowance")), MASS),
    ("weigh", "the cavity holds the melt", "mid melt volume", "mid cavity volume", D.VOLUME),
    ("weigh", "the bed is within the rim", "mid bed depth", f"low {TRAY}.depth", LENGTH),
    ("weigh", "the bed is shallow", "mid bed depth", 0.05, LENGTH),
    ("weigh", "the scale shows a hundredth",
     lambda s: s.high("equipment.scale.resolution") / s.low("formula.charge"), 0.01, SHARE),
    ("weigh", "the scale carries it", _carried, "low equipment.scale.capacity", MASS),
    ("mould-press", "the skin is soft at the mould", "low resin:stiffening", "mid skin at the mould", T),
    ("mould-press", "a tenth is frozen at most", "late skin at full force", 0.1, SHARE),
    ("mould-press", "the mould is warm enough", "low resin:set", "mid contact temperature", T),
    ("mould-press", "the mould bears the melt", "mid contact temperature", "low mould material:contact warning", T),
    ("presses", "the core is set under force", "late core set after", "low hold", TIME),
    ("presses", "the force is topped up", _topped_up, 300.0, TIME),
    ("presses", "the force closes the mould", "late closing force", "low force", FORCE),
    ("presses", "the pressure welds", "low resin:pressure foot", "mid pressure", D.PRESSURE),
    ("presses", "the pressure is credible", "mid pressure", "low resin:pressure doubtful", D.PRESSURE),
    ("presses", "four fifths of the rating", "high force", lambda s: 0.8 * s.low("equipment.press.rating"), FORCE),
    ("presses", "the frame bears half as much again",
     lambda s: 1.5 * s.low("equipment.press.rating"), "low equipment.press.frame_rating", FORCE),
    ("cool", "nothing molten is opened", "worst core when opened", "low resin:solid", T),
    ("cool", "the core is as cold as it should be", "late core when opened", _cold_enough, T),
    ("cool", "no water before it has set", _wetted, "low resin:set", T),
    ("cool", "it stays flat", "late bow", "low part.tolerance", LENGTH),
    ("cool", "the next part finds the same mould", _hot_mould, lambda s: s.term("mid mould at the start") + 10.0, T),
    ("dries", "the air dries it", "low resin:drying low", "low setting", T),
    ("dries", "the air is not too hot to dry in", "high setting", "low resin:drying high", T),
    ("dries", "credible air does not soften it", "mid air at worst",
     lambda s: max(s.low("resin:drying high"), s.low("resin:softening temperature")), T),
    ("dries", "it is dry in time", "late hours needed", "low at_least", TIME),
    ("dries", "it is used while it is dry", "high used_within", "low resin:stays dry", TIME),
    ("bends", "it is warm through in time", _warm_through, "low at_least", TIME),
    ("bends", "it is soft when it is bent", "low resin:stiffening", _skin_when_bent, T),
    ("bends", "it keeps its shape in the oven", "mid hottest", "low resin:forming top", T),
    ("bends", "it has set when it is let go", "late set after", "low hold", TIME),
    ("bends", "it bears the bend", "mid outer-fibre strain", "low resin:bend strain", SHARE),
    ("bends", "it stays clear", "late over the whitening line for", "low resin:whitening time", TIME),
    ("bends", "it does not spring back",
     lambda s: 0.0 if s.has("over_bend") else s.low("resin:solid-phase line"), "mid coldest when bent", T),
    ("bends", "it is cut long enough", "least flat length",
     lambda s: s.high("flat_length") + s.low("part.tolerance"), LENGTH),
    ("bends", "it is not cut too long", lambda s: s.low("flat_length") - s.low("part.tolerance"),
     "worst flat length", LENGTH),
    ("plane", "the cut is shallow", "high cut", "mid deepest cut", LENGTH),
    ("plane", "the marks are fine", "mid mark pitch", 0.0254 / 20, LENGTH),
    ("plane", "the knives cut a chip", 1e-4, "mid feed per tooth", LENGTH),
    ("plane", "enough is left for the part", "low part.thickness", "mid thickness left", LENGTH),
    ("plane", "both faces lose alike", "mid more off one face",
     lambda s: 0.1 * s.term("mid thickness before"), LENGTH),
    ("plane sand", "it is cut cool", _cut_at("high", "late part when cut"), "low resin:machining high", T),
    ("plane sand", "it is not cut cold", "low resin:machining low", _cut_at("low", "early part when cut"), T),
    ("sand", "it does not smear", "late surface when sanded", "low resin:softening temperature", T),
    ("sand", "the belt is slow enough", "high machine.speed", 15.0, D.SPEED),
    ("sand", "the belt is fast enough", 5.0, "low machine.speed", D.SPEED),
    ("cuts trims", "dust lies thin", "high machine.dust_layer", 0.0008, LENGTH),
    ("shred", "no hand reaches the blades", "mid reach needed", "low machine.reach", LENGTH),
    ("shred", "the flake is fine enough", "mid flake size", "mid coarsest flake", LENGTH),
    ("recipe", "shares make a whole", lambda s: abs(s.fact("sum of shares").numbers - 1.0), 0.005, SHARE),
    ("recipe", "the circuit carries the oven", "high equipment.oven.power", _circuit, D.POWER),
    ("recipe", "the air of the room is renewed", 6 / 3600.0, _renewed, D.RATE),
    ("recipe", "nothing that burns is near", 1.0, _clear, LENGTH),
    ("recipe", "the mass closes", lambda s: abs(s.term("mid mass gap")),
     lambda s: 0.05 * s.low("formula.charge"), MASS),
)  # fmt: skip
"""Of which steps (or lots, or the recipe), what, and its two numbers: the first is at most the second."""


def _count(s: Sight, name: str) -> int:
    s.value(name)
    return int(s.word(name))


def _sides(s: Sight, of: str) -> tuple[float, float]:
    return s.low(f"{of}.length"), s.low(f"{of}.width")


def _fits(sides: tuple[float, float], hole: tuple[float, float]) -> bool:
    """Whether a rectangle lies in another, either way round."""
    return all(most(a, b, LENGTH) for a, b in zip(sorted(sides), sorted(hole), strict=True))


def _stack_lies_in_the_cavity(s: Sight) -> bool:
    """The tray folded along one of its sides."""
    layers, (long, wide), cavity = _count(s, "layers"), _sides(s, TRAY), _sides(s, CAVITY)
    return layers > 0 and (_fits((long / layers, wide), cavity) or _fits((long, wide / layers), cavity))


def _melt_lies_in_the_cavity(s: Sight) -> bool:
    """Where nothing folds it."""
    folded = any(step.process == "fold" for step in s.case.recipe.steps)
    return folded or _fits(_sides(s, TRAY), _sides(s, CAVITY))


def _sheet_lies_on_the_platen(s: Sight) -> bool:
    """Any way round; of a custom shape only the area is known."""
    if s.word("part.shape") == "custom":
        long, wide = _sides(s, PLATEN)
        return most(s.high("part.projected_area"), long * wide, D.AREA)
    return _fits((s.high("part.length"), s.high("part.width")), _sides(s, PLATEN))


def _no_air_between_layers(s: Sight) -> bool:
    return _count(s, "layers") < 2 or s.word("pressed_out") == "yes"


def _jack_stays_cool(s: Sight) -> bool:
    """60 °C at its body; else an air gap of 50 mm, or some insulation. A screw has no oil."""
    if s.word("equipment.press.type") in ("screw", "lever", "clamps"):
        return True
    if s.has("equipment.press.jack_body"):
        return most(s.high("equipment.press.jack_body"), 333.15, T)
    shield = s.value("equipment.press.jack_shield")
    if not isinstance(shield, Given) or shield.value == "none":
        return False
    return "air gap" not in shield.text or most(0.05, s.low("equipment.press.jack_shield"), LENGTH)


def _nobody_in_line(s: Sight) -> bool:
    """Aside, or behind a screen; and the force is let go slowly."""
    aside, screen = s.word("equipment.press.stands_aside"), s.word("equipment.press.shield")
    return s.word("equipment.press.release") != "fast" and (aside != "no" or screen != "none")


def _mould_is_dry(s: Sight) -> bool:
    """In words, or wood at 12 %."""
    word = s.word("equipment.mould.dry")
    return word == "yes" or (word != "no" and most(s.high("equipment.mould.dry"), 0.12, SHARE))


def _hands_bear_it(s: Sight) -> bool:
    """48 °C bare, 60 °C in thin gloves, else what the glove was tested at."""
    hands = s.word("hands")
    if hands == "bare":
        return most(s.term("late hottest to the hand"), 321.15, T)
    tested = {"thin gloves": 333.15, "EN 407 contact heat 1": 373.15}
    return most(s.term("worst hottest to the hand"), tested.get(hands, 523.15), T)


def _part_has_its_size(s: Sight) -> bool:
    """Within its tolerance in some plausible shop."""
    if s.word("part.shape") == "custom":
        raise NotKnown
    give = s.low("part.tolerance")
    return all(
        most(s.low(f"part.{side}") - give, s.term(f"late cold {side}"), LENGTH)
        and most(s.term(f"early cold {side}"), s.low(f"part.{side}") + give, LENGTH)
        for side in ("length", "width")
    )


def _slides_off_its_cores(s: Sight) -> bool:
    return s.word("part.cores") != "yes" or most(s.low("resin:draft"), s.low("part.draft"), D.ANGLE)


def _planer_holds_it(s: Sight) -> bool:
    """300 mm long and 50 mm more than its rollers are apart; 6 mm thick, or on a carrier; by hand with a push block."""
    by_hand = s.word("machine.type") == "surface"
    shortest = max([0.3, *(s.high(n) for n in ("machine.min_length",) if s.has(n))])
    thinnest = max([0.006, *(s.high(n) for n in ("machine.min_thickness",) if s.has(n))])
    if not by_hand:
        shortest = max(shortest, s.high("machine.roller_gap") + 0.05)
    carried = not by_hand and s.word("carrier") == "yes"
    pushed = not by_hand or s.word("machine.push_block") == "yes"
    long = most(shortest, s.low("part.length"), LENGTH)
    return long and pushed and (carried or most(thinnest, s.term("mid thickness left"), LENGTH))


def _extinguisher_is_near(s: Sight) -> bool:
    """Within 50 ft in the United States; elsewhere the local code says how far."""
    distance, place = s.high("site.extinguisher_distance"), s.word("header.jurisdiction")
    return not place.startswith("US") or most(distance, 50 * FOOT, LENGTH)


def _limits_are_fresh(s: Sight) -> bool:
    """No list of limits is older than five years, or of a day to come."""
    ages = [(TODAY - date.fromisoformat(on)).days for _, on in s.fact("limit lists").numbers]
    return all(0 <= age <= 5 * 365.25 for age in ages)


def _liner_is_sound(s: Sight) -> bool:
    """Its uses, this one counted."""
    lasts = [s.low(f"{kind}:most uses") for kind in LINERS if s.has(f"{kind}:most uses")]
    return _count(s, "formula.liner.uses") + 1 <= min(lasts, default=inf)


def _seldom_melted(s: Sight) -> bool:
    return _count(s, "lot.times_melted") + int(s.fact("melts").numbers) <= s.low("resin:most melts")


def _hood_where_the_fume_is(s: Sight) -> bool:
    """Indoors: at the door of the oven that heats plastic, at the press and at the bend."""
    if s.word("site.place") == "outdoors" or not s.fact("fuming steps").numbers:
        return True
    held = set(s.value("site.capture_at").value)
    steps = [step for step in s.case.recipe.steps if step.id in s.fact("fuming steps").numbers]
    door = any(s.case.recipe.raw((*step.path, "oven")) is not None for step in steps)
    kinds = {step.process for step in s.case.recipe.steps}
    needed = {"oven door"} if door else set()
    needed |= {"press"} if kinds & {"mould-press", "sheet-press"} else set()
    needed |= {"bend"} if "reheat-bend" in kinds else set()
    return needed <= held


def _cutout_trips_in_time(s: Sight) -> bool:
    return most(s.high("equipment.oven.cutout_at"), s.low("resin:oven-air cap"), T)


def _dry(s: Sight) -> bool:
    """By touch, where it is heated as it comes."""
    dried = any(step.process in ("wash", "dry") for step in s.case.recipe.steps)
    return dried or not s.fact("heating steps").numbers or s.word("lot.moisture") != "wet"


CHECKS: tuple[tuple[str, str, Callable[[Sight], bool]], ...] = (
    ("fold", "the stack lies in the cavity", _stack_lies_in_the_cavity),
    ("fold", "no air between layers", _no_air_between_layers),
    ("mould-press", "the melt lies in the cavity", _melt_lies_in_the_cavity),
    ("mould-press", "the mould is dry", _mould_is_dry),
    ("sheet-press", "the sheet lies on the platen", _sheet_lies_on_the_platen),
    ("presses", "the jack stays cool", _jack_stays_cool),
    ("presses", "nobody stands in line", _nobody_in_line),
    ("any step", "hands bear what they touch", _hands_bear_it),
    ("demould", "the part has its size", _part_has_its_size),
    ("demould", "it slides off its cores", _slides_off_its_cores),
    ("plane", "the planer holds it", _planer_holds_it),
    ("recipe", "an extinguisher is near", _extinguisher_is_near),
    ("recipe", "the liner is sound", _liner_is_sound),
    ("recipe", "the hood is where the fume is", _hood_where_the_fume_is),
    ("recipe", "the cut-out trips in time", _cutout_trips_in_time),
    ("recipe", "its limits are fresh", _limits_are_fresh),
    ("lot", "it was not melted too often", _seldom_melted),
    ("lot", "it is dry", _dry),
)


def _marks(words: str) -> frozenset[str]:
    """Marks stand one beside the other, but for the one of two words."""
    return frozenset([words] if words in ("heats plastic", "any step") else words.split())


def _bound(found: Term, limit: Term, dimension: Dimension) -> Callable[[Sight], bool]:
    return lambda s: most(s.term(found), s.term(limit), dimension)


RELATIONS = (
    *(Relation(name, _marks(on), _bound(found, limit, d)) for on, name, found, limit, d in BOUNDS),
    *(Relation(name, _marks(on), check) for on, name, check in CHECKS),
)
