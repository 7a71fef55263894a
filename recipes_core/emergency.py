"""What to do when it has happened: the same few lines on every card, short enough to be read by somebody in a hurry.

Burn: 20 minutes of running water is a burns unit's figure (published: first-aid page of a burns unit); plastic that
sticks is left on (published: a first-aid textbook, Australia). Fume: published: irritant gas can harm the lungs
after 12 to 24 hours without a symptom. Fire, eye and cut: common practice. Local first aid rules come first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

LINES: Mapping[str, str] = {
    "BURN": "Cool running water at once, 20 min. Do not pull plastic off. Medical help.",
    "FUME": "Fresh air, stay out. Hard breathing, unknown plastic: call. Doctor same day.",
    "FIRE": "Heat off, door shut, all out. No water on hot plastic. Call the fire service.",
    "CUT": "Stop the machine. Press hard on the wound, hold it up. Deep, or a part lost: emergency call.",
}

WHEN: Mapping[str, frozenset[str]] = {
    "BURN": frozenset({"heats"}),
    "FUME": frozenset({"heats plastic"}),
    "FIRE": frozenset({"heats"}),
    "CUT": frozenset({"cuts", "planes", "sands"}),
}
"""Which marks of the processes bring which line."""


def emergencies(marks: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """The lines for a recipe whose processes bear these marks, as (word, text)."""
    found = frozenset(marks)
    return tuple((word, text) for word, text in LINES.items() if WHEN[word] & found)
