"""All rules of the core, in one tuple."""

from __future__ import annotations

from recipes_core.rules import (
    claims,
    dust,
    feedstock,
    fume,
    hands,
    identity,
    liner,
    machine,
    mixing,
    moisture,
    oven,
    residue,
    room,
    stated_hazards,
    temperature,
    whole,
)

RULES = (
    *claims.RULES,
    *dust.RULES,
    *feedstock.RULES,
    *fume.RULES,
    *hands.RULES,
    *identity.RULES,
    *liner.RULES,
    *machine.RULES,
    *mixing.RULES,
    *moisture.RULES,
    *oven.RULES,
    *residue.RULES,
    *room.RULES,
    *stated_hazards.RULES,
    *temperature.RULES,
    *whole.RULES,
)
