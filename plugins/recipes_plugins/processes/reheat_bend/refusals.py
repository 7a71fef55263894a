"""Bends that are refused whatever the shop says: by a flame, of a plastic that is not bent, in an unfit oven."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Hit, Level, Open, Rule, Scope, says

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

OVEN = "equipment.oven"
DUCTED = ("hood ducted outdoors", "enclosed and ducted")


def _flame(r: Reading) -> Iterator[Hit]:
    yield from says(r, "flame", ("near", "on part"), "no flame near")
    yield from says(r, f"{OVEN}.type", ("torch",), "an oven, or a strip heater")


def _not_bent(r: Reading) -> Iterator[Hit]:
    if r.known("resin:not bent"):
        name = r.word("resin:name")
        yield Hit(
            "lot.resin",
            f"{r.word('resin:id')}: {r.word('resin:not bent')}",
            message=f"{name} is not bent in a small shop.",
        )


def _plain_oven(r: Reading) -> Iterator[Hit]:
    told = f"{r.word('resin:name')} is heated only in an oven of its own, with moved, measured and extracted air."
    lacks = []
    if r.word(f"{OVEN}.dedicated") != "now and later":
        lacks.append((f"{OVEN}.dedicated", r.word(f"{OVEN}.dedicated"), "for plastic, now and later"))
    if r.word(f"{OVEN}.type") != "fan":
        lacks.append((f"{OVEN}.type", r.word(f"{OVEN}.type"), "a fan that moves the air"))
    if not r.known("fact:measured maximum"):
        lacks.append((f"{OVEN}.measured", "no dated reading", "what a second thermometer read, and when"))
    if r.word("site.place") != "outdoors" and r.word("site.capture") not in DUCTED:
        lacks.append(("site.capture", r.word("site.capture"), "an exhaust ducted outdoors"))
    yield from (Hit(at, found, limit, message=told) for at, found, limit in lacks)


REFUSALS = (
    Rule(
        "flame-on-plastic",
        Level.ERROR,
        Scope.STEP,
        message="An open flame is no tool for plastic.",
        checks="the flame, and what heats the piece, against none and no torch",
        why="the skin is far over its cap before the core is warm; acrylic gives off vapour that lights",
        do="heat it through in an oven",
        sources=("common practice", "memory: acrylic flashes near 280 °C"),
        reads=(f"{OVEN}.type",),
        test=_flame,
        on=("bends",),
        also=lambda r: ("flame",) if isinstance(r.raw("flame"), Open) else (),
        may_read=("flame",),
        absolute=True,
    ),
    Rule(
        "specialist-resin-bent",
        Level.ERROR,
        Scope.STEP,
        message="This plastic is not bent in a small shop.",
        checks="the plastic against those whose sheet says that they are not bent, and why",
        why="it goes from stiff to liquid within a few degrees, or must never be heated: no oven here hits that",
        do="saw and join it, or make the part from another plastic",
        sources=("judgement: each sheet gives its reason and where it comes from",),
        reads=("resin:id",),
        test=_not_bent,
        on=("bends",),
        may_read=("resin:not bent", "resin:name"),
        absolute=True,
        refuses_plastic=True,
    ),
    Rule(
        "pmma-in-plain-oven",
        Level.ERROR,
        Scope.STEP,
        message="This plastic is heated only in an oven of its own.",
        checks="the oven of a plastic whose sheet asks for its own: dedicated, with a fan, measured, and exhausted",
        why="its vapour burns, and a hot spot or a still corner gathers it",
        do="bend it in such an oven, or order it bent",
        sources=("judgement: each condition is common practice, that all four hold is ours",),
        reads=(f"{OVEN}.dedicated", f"{OVEN}.type"),
        test=_plain_oven,
        on=("bends",),
        also=lambda r: ("site.place", *(() if r.word("site.place") == "outdoors" else ("site.capture",))),
        may_read=("resin:own oven", "resin:name", "fact:measured maximum", "site.place", "site.capture"),
        when=lambda r: r.known("resin:own oven"),
        absolute=True,
    ),
)
