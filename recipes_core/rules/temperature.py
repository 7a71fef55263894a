"""Rules on how hot and how long, for every step that heats: the cap, the window, the ageing, the clock."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from recipes_core.findings import Level
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, over, too_cold
from recipes_core.rules.rule import Hit, Rule, Scope

if TYPE_CHECKING:
    from recipes_core.rules.reading import Reading

T, TIME = Dimension.TEMPERATURE, Dimension.TIME
VAGUE = frozenset(
    [
        "hot",
        "warm",
        "cool",
        "soft",
        "done",
        "ready",
        "melted",
        "a",
        "while",
        "until",
        "medium",
        "handful",
        "some",
        "thin",
        "thick",
        "enough",
        "as",
        "needed",
    ]
)
VAGUE_PHRASES = (
    "a while",
    "a bit",
    "enough",
    "some time",
    "roughly",
    "more or less",
    "as needed",
    "about right",
    "ready",
)
HOT = 373.15
GENTLE = 353.15
"""80 °C: warm enough to dry at, and too cool for a fire behind a cut-out (judgement)."""
SCORCHED = frozenset(
    [
        "smoke",
        "smokes",
        "smoking",
        "haze",
        "burnt",
        "burning",
        "burns",
        "browns",
        "browning",
        "stings",
        "sting",
        "scorched",
    ]
)
NEGATED = frozenset(["no", "not", "never", "before", "without", "until", "unless"])
WELCOME = ("resin:id", "resin:oven-air cap", "resin:not bent")
SIGNS = ("smoke", "haze", "eye-sting", "browning")


def _welcome(r: Reading) -> bool:
    """Whether no other absolute rule refuses this plastic here by its name, cap or none."""
    melted = r.does("melts") and r.known("resin:id") and not r.known("resin:oven-air cap")
    return not melted and not (r.does("bends") and r.known("resin:not bent"))


def _cap(r: Reading) -> Iterator[Hit]:
    cap = r.si("resin:heat cap")
    yield from over("setting", r.upper("setting"), cap, T)
    if r.known("fact:measured maximum") and not above(r.upper("setting"), cap, T):
        yield from over("setting", r.fact("measured maximum").nominal, cap, T)


def _margin(r: Reading) -> Iterator[Hit]:
    cap, air = r.si("resin:heat cap"), r.fact("air at worst").nominal
    if not above(r.upper("setting"), cap, T):
        yield from over("setting", air, cap, T)


def _window_top(r: Reading) -> Iterator[Hit]:
    yield from over("setting", r.upper("setting"), r.si("resin:window high"), T)


def _window_foot(r: Reading) -> Iterator[Hit]:
    air = r.fact("oven air").nominal
    foot, low = r.si("resin:window foot"), r.si("resin:window low")
    limit = f"{show(low, T)} to melt well, {show(foot, T)} at the very least"
    yield from too_cold("setting", air, low, foot, found=f"air at {show(air, T)}", limit=limit)


def _melts_or_knows(entry: str) -> Callable[[Reading], bool]:
    """For a melt it must be known; a short bend is judged by it where the sheet gives it."""
    return lambda r: r.does("melts") or r.known(entry)


def _ceiling(r: Reading) -> Iterator[Hit]:
    yield from over("setting", r.fact("hottest").nominal, r.si("resin:surface ceiling"), T)


def _aged(r: Reading) -> Iterator[Hit]:
    aged, reserve, limit = r.fact("aged"), r.si("resin:ageing reserve"), r.si("resin:ageing limit")
    _, most = aged.band()
    at = show(r.si("resin:ageing reference"), T)
    if above(aged.nominal, limit, TIME) or above(aged.nominal, reserve, TIME) or above(most, limit, TIME):
        error = above(aged.nominal, limit, TIME)
        yield Hit(
            "at_most",
            f"as if {show(aged.nominal, TIME)} at {at}, {show(most, TIME)} in one shop of twenty",
            f"{show(limit, TIME)} at most, and better {show(reserve, TIME)}, at {at}",
            level=Level.ERROR if error else Level.WARNING,
        )


def _heats_plastic(r: Reading) -> bool:
    return r.case.step is not None and r.case.step.id in r.fact("plastic heating steps").numbers


def _only_dries(r: Reading) -> bool:
    return _heats_plastic(r) and r.case.step is not None and r.case.step.id not in r.fact("fuming steps").numbers


def _softening_needed(r: Reading) -> tuple[str, ...]:
    """Under 100 °C it depends on the plastic whether anything can go wrong."""
    if not r.known("setting") or r.word("site.attended") != "no" or above(r.upper("setting"), HOT, T):
        return ()
    return ("resin:softening temperature",) if _heats_plastic(r) else ()


def _alone(r: Reading) -> Iterator[Hit]:
    if r.word("site.attended") != "no":
        return
    line = min(HOT, r.si("resin:softening temperature")) if _softening_needed(r) else HOT
    if above(r.upper("setting"), line, T):
        cut_off = r.known("equipment.oven.cutout") and r.word("equipment.oven.cutout") == "independent manual reset"
        gentle = cut_off and _only_dries(r) and not above(r.upper("setting"), GENTLE, T)
        limit = f"somebody stays with it above {show(line, T)}"
        yield Hit("site.attended", "nobody stays", limit, level=Level.WARNING if gentle else Level.ERROR)


def _end(r: Reading) -> Iterator[Hit]:
    text = r.text("until") if r.known("until") else ""
    words = [w for w in text.lower().replace(",", " ").split() if w]
    if not words:
        yield Hit("until", "no end test", "something a person can see, feel or read")
    elif all(w in VAGUE for w in words):
        yield Hit("until", f"“{text}”", "something a person can see, feel or read")


def _vague(r: Reading) -> Iterator[Hit]:
    text = r.text("until").lower()
    vague = [phrase for phrase in VAGUE_PHRASES if re.search(rf"\b{phrase}\b", text)]
    if vague and not all(w in VAGUE for w in re.findall(r"[a-z]+", text)):
        yield Hit("until", f"“{vague[0]}”", "a number, or something a person can see, feel or read")


def _cross(r: Reading) -> Iterator[Hit]:
    low, high = r.upper("at_least"), r.si("at_most")
    if above(low, high, TIME):
        yield Hit("at_most", show(high, TIME), f"{show(low, TIME)} at least, as the step says")


def _scorch(r: Reading) -> Iterator[Hit]:
    signs = [s for s in r.words("until_signs") if s in SIGNS]
    if signs:
        yield Hit("until_signs", ", ".join(signs), "an end that comes before any of these")
    words = re.findall(r"[a-z]+", r.text("until").lower()) if r.known("until") else []
    told = [word for word in words if word in SCORCHED]
    if told and not NEGATED & set(words):
        yield Hit("until", r.text("until"), "an end that comes before any of these")


RULES = (
    Rule(
        "over-resin-cap",
        Level.ERROR,
        Scope.STEP,
        message="The oven is set hotter than this plastic stands.",
        checks="the set point, or the highest reading, against the oven-air cap of the sheet",
        why="the plastic breaks down: irritant fume first, then fire",
        do="set the oven to the window of the sheet",
        sources=("judgement: 60 K under decomposition and 100 K under flash ignition, whichever is lower",),
        reads=("setting", "resin:heat cap"),
        test=_cap,
        on=("heats plastic",),
        may_read=("fact:measured maximum", *WELCOME),
        when=_welcome,
        absolute=True,
    ),
    Rule(
        "cap-margin",
        Level.ERROR,
        Scope.STEP,
        message="The oven may run hotter than this plastic stands.",
        checks="the hottest air to be believed (set point + 30 K where nobody measured) against the oven-air cap",
        why="dials lie by 17 K and swing by 14 K in ordinary ovens",
        do="measure the oven over a full on-off cycle and write the reading down, or set it lower",
        sources=("common practice: appliance guides on oven thermostats", "judgement: both errors added"),
        reads=("setting", "fact:air at worst", "resin:heat cap"),
        test=_margin,
        on=("heats plastic",),
        may_read=WELCOME,
        when=_welcome,
    ),
    Rule(
        "surface-over-ceiling",
        Level.ERROR,
        Scope.STEP,
        message="The skin of the plastic gets too hot before the step ends.",
        checks="the hottest plastic of the nominal forecast after at_most against the surface ceiling",
        why="the skin ages and fumes while the core is still catching up",
        do="make the layer thinner or the oven cooler, and end the step sooner",
        sources=("judgement: an alarm far under every ignition temperature",),
        reads=("setting", "fact:hottest", "resin:surface ceiling"),
        test=_ceiling,
        on=("heats plastic",),
        when=_melts_or_knows("resin:surface ceiling"),
    ),
    Rule(
        "hotter-than-window",
        Level.WARNING,
        Scope.STEP,
        message="The oven is set above the window for this plastic.",
        checks="the set point against the top of the melt window",
        why="more heat makes more fume and an older plastic, and saves little time",
        do="set the oven inside the window and give it the minutes instead",
        sources=("common practice",),
        reads=("setting", "resin:window high"),
        test=_window_top,
        on=("melts",),
    ),
    Rule(
        "colder-than-window",
        Level.WARNING,
        Scope.STEP,
        message="The oven is too cool to melt this plastic well.",
        checks="the oven air, corrected by a dated reading, against the foot of the melt window",
        why="stiff flake that is barely soft does not fuse; the part shows laps and breaks along them",
        do="set the oven inside the window",
        sources=("common practice", "judgement: cold laps below the window, no fusion below its foot"),
        reads=("setting", "fact:oven air", "resin:window foot", "resin:window low"),
        test=_window_foot,
        on=("melts",),
    ),
    Rule(
        "aged-too-much",
        Level.WARNING,
        Scope.STEP,
        message="The plastic is cooked too long.",
        checks="the ageing of the hottest plastic over all melts, until at_most, against the sheet's reserve",
        why="oxygen uses up the stabiliser; the part turns yellow, smells and goes brittle",
        do="shorten at_most, spread the flake thinner, or set the oven lower within the window",
        sources=(
            "published: oxidation times of post-consumer HDPE at 200 °C (National Academies 14570, Table 5)",
            "memory: air is two to four times kinder than pure oxygen",
        ),
        reads=("at_most", "fact:aged", "resin:ageing reserve", "resin:ageing limit", "resin:ageing reference"),
        test=_aged,
        on=("heats plastic",),
        when=_melts_or_knows("resin:ageing reference"),
    ),
    Rule(
        "left-alone",
        Level.ERROR,
        Scope.STEP,
        message="The hot oven is left alone.",
        checks="whether somebody stays, for every step above 100 °C, or above the softening temperature of the "
        "plastic in it; only a warning for drying up to 80 °C behind an independent cut-out",
        why="an oven full of plastic is a fire load; a thermostat that sticks gives minutes, not hours",
        do="stay with it from switching on until the heat is off; a timer is no substitute",
        sources=("common practice", "judgement: drying up to 80 °C"),
        reads=("setting", "site.attended", "fact:plastic heating steps", "fact:fuming steps"),
        test=_alone,
        on=("heats",),
        also=_softening_needed,
        may_read=("resin:softening temperature", "equipment.oven.cutout"),
        absolute=True,
    ),
    Rule(
        "end-test-missing",
        Level.WARNING,
        Scope.STEP,
        message="Nobody can see when this step is over.",
        checks="until: absent, or made of vague words alone",
        why="the clock and the dial are poor witnesses; ovens and layers differ more than recipes do",
        do="say what to look for, feel for or read: a probe reading, no white core when folded, a glossy skin",
        sources=("common practice", "judgement: the list of vague words"),
        reads=(),
        test=_end,
        on=("heats", "cools"),
        may_read=("until",),
    ),
    Rule(
        "vague-word",
        Level.WARNING,
        Scope.STEP,
        message="A word here means something else to everybody.",
        checks="until against a list of words that name no sign: enough, a while, roughly, ready",
        why="two people stop at two different points, and neither can tell the next one where",
        do="write the number, or the sign that shows it",
        sources=("judgement: the list of words",),
        reads=("until",),
        test=_vague,
        on=("any step",),
        when=lambda r: r.known("until"),
    ),
    Rule(
        "times-cross",
        Level.ERROR,
        Scope.STEP,
        message="The longest time is shorter than the shortest.",
        checks="at_least against at_most",
        why="the step can never end as written",
        do="swap or correct the two times",
        sources=("derived: simple order",),
        reads=("at_least",),
        test=_cross,
        on=("heats", "cools"),
        may_read=("at_most",),
        when=lambda r: r.known("at_most"),
    ),
    Rule(
        "scorch-signs",
        Level.WARNING,
        Scope.STEP,
        message="The step waits for a sign that something is already wrong.",
        checks="the signs that end the step against smoke, haze, stinging eyes and browning",
        why="smoke and stinging eyes mean too hot, or the wrong plastic",
        do="end the step on a melt that can be seen or probed; on smoke: heat off, door shut, everybody out",
        sources=("published: HSE, Plastics Processing Sheet 13, 2002",),
        reads=(),
        test=_scorch,
        on=("heats",),
        may_read=("until_signs", "until"),
    ),
)
