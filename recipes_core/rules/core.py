"""All rules of the core, in one tuple."""

from __future__ import annotations

from recipes_core.rules import claims, feedstock, liner, mixing, oven, room, temperature, whole

RULES = (
    *feedstock.RULES,
    *mixing.RULES,
    *temperature.RULES,
    *oven.RULES,
    *room.RULES,
    *liner.RULES,
    *claims.RULES,
    *whole.RULES,
)
