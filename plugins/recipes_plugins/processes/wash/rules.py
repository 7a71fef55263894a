"""Rules on washing: what meets what in the basin, the mains beside it, and where water and sludge go."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Given, Hit, Level, Rule, Scope, above, says, under

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

LENGTH = Dimension.LENGTH
COARSE, FINE, CLEAR = 1e-4, 5e-6, 2.0
STAGES = "100 µm at most, then 5 µm at most"
"""Meshes are sold in µm wherever inches are used too."""
GASSING = ("ammonia", "acid")


def _carried(r: Reading) -> str:
    """What is left from before and must not meet an agent of this wash; an empty text where nothing is."""
    agents = set(r.words("agents"))
    before = set(r.fact("left from before").numbers) if r.known("fact:left from before") else set()
    if "bleach" in before and agents - {"water", "hypochlorite"}:
        return "bleach"
    if "hypochlorite" in before and agents & set(GASSING):
        return "hypochlorite"
    return next((word for word in GASSING if word in before and "hypochlorite" in agents), "")


def _gas(r: Reading) -> Iterator[Hit]:
    agents, unknown = r.words("agents"), "unknown" in r.fact("left from before").numbers
    gassing = [word for word in GASSING if word in agents]
    residue = ["a residue that nobody knows"] * unknown
    if "hypochlorite" in agents and gassing + residue:
        found = f"hypochlorite with {' and '.join(gassing + residue)}"
        yield Hit("agents", found, "one agent, and nothing it can react with")
        return
    if gassing and unknown:
        found = f"{' and '.join(gassing)} with a residue that nobody knows, which may be bleach"
        yield Hit("agents", found, "one agent, and nothing it can react with")
        return
    carried = _carried(r)
    if carried and r.word("rinsed_between") == "no":
        found = f"{carried} from before meets {', '.join(a for a in agents if a != 'water')}"
        yield Hit("rinsed_between", found, "rinsed with plain water in between")


def _meshes(r: Reading) -> list[float]:
    """The mesh of every filter, by its coarser end where a range is given."""
    value = r.raw("filter")
    told = value.value if isinstance(value, Given) else ()
    return [mesh[-1] if isinstance(mesh, tuple) else mesh for mesh in told if not isinstance(mesh, str)]


def _drain(r: Reading) -> Iterator[Hit]:
    meshes = _meshes(r)
    fine = [mesh for mesh in meshes if not above(mesh, FINE, LENGTH)]
    stages = [mesh for mesh in meshes if not above(mesh, COARSE, LENGTH)]
    if not fine or len(stages) < 2:
        yield Hit("filter", r.text("filter"), STAGES, do=_cure(r))


def _cure(r: Reading) -> str:
    """Where the particles gather first says what can be taken out before the filters."""
    side = r.fact("particles float or settle").numbers if r.known("fact:particles float or settle") else "either"
    first = {"float": "skim off what floats", "settle": "pour it off what settled"}.get(side, "skim it and pour it off")
    return f"let the water stand, {first}, then run it through a coarse and a fine filter before the drain"


def _mains(r: Reading) -> Iterator[Hit]:
    yield from under("mains_distance", r.si("mains_distance"), CLEAR, LENGTH)
    yield from says(r, "rcd", ("no",), "a residual-current device on every circuit nearby")


RULES = (
    Rule(
        "chlorine-or-chloramine",
        Level.ERROR,
        Scope.STEP,
        message="Bleach meets something that turns it into poisonous gas.",
        checks="hypochlorite against ammonia, acid and residues that nobody knows, in this wash, in the one before and "
        "in what the scrap held; ammonia and acid against residues that nobody knows; bleach from before against any "
        "agent but water",
        why="bleach with ammonia gives chloramines, with acid chlorine; both burn lungs within a few breaths",
        do="wash with one agent; rinse and drain before another; plain water alone for what nobody knows",
        sources=(
            "published: a state health department's summary on mixing bleach; a university biosafety page",
            "judgement: bottles that held bleach meet plain water first, and what nobody knows may be bleach",
        ),
        reads=("agents", "fact:left from before"),
        test=_gas,
        on=("washes",),
        also=lambda r: ("rinsed_between",) if _carried(r) else (),
        may_read=("rinsed_between",),
        absolute=True,
    ),
    Rule(
        "drain-unfiltered",
        Level.WARNING,
        Scope.STEP,
        message="Plastic goes down the drain.",
        checks="the meshes of the filters before a sewer or a soakaway against 100 µm and then 5 µm",
        why="washing sheds particles too small to see; what gets past the drain stays in the water for good",
        do="let the water stand, then run it through a coarse and a fine filter before the drain",
        sources=(
            "published: Brown et al., J. Haz. Mat. Adv. (2023) 100309, abstract: particles in wash water",
            "judgement: the two meshes",
        ),
        reads=("filter", "drain"),
        test=_drain,
        on=("washes",),
        may_read=("fact:particles float or settle",),
        when=lambda r: r.word("drain") != "collected",
    ),
    Rule(
        "wash-near-mains",
        Level.ERROR,
        Scope.STEP,
        message="Water and mains power are close together.",
        checks="the distance to the nearest socket, lead or machine against 2 m, and a residual-current device",
        why="wet hands and a splash on live metal stop a heart",
        do="wash away from leads; have a residual-current device fitted by a licensed electrician",
        sources=(
            "published: a university's page on ground-fault protection, United States",
            "memory: the distance of 2 m; local codes come first",
        ),
        reads=("mains_distance", "rcd"),
        test=_mains,
        on=("washes",),
    ),
    Rule(
        "sludge-burnt",
        Level.ERROR,
        Scope.STEP,
        message="What the filters hold is burnt or flushed.",
        checks="where the sludge goes against burning and the drain",
        why="it is plastic, glue and dirt: burnt it gives poisonous smoke, flushed it undoes the filter",
        do="let it dry and put it with the solid waste, in a closed bag",
        sources=("common practice",),
        reads=("sludge_to",),
        test=lambda r: says(r, "sludge_to", ("burnt", "drain"), "solid waste"),
        on=("washes",),
    ),
)
