"""All rules of the core, in one tuple."""

from __future__ import annotations

from recipes_core.rules import claims, feedstock, liner, mixing, oven, room, stated_hazards, temperature, whole

RULES = (
    *feedstock.RULES,
    *mixing.RULES,
    *temperature.RULES,
    *oven.RULES,
    *room.RULES,
    *liner.RULES,
    *claims.RULES,
    *stated_hazards.RULES,
    *whole.RULES,
)
