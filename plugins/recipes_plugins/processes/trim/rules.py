"""Rules on trimming: the direction of the blade is judged by the rule that demoulding brings."""

from __future__ import annotations

from recipes_core.plugin_api import Rule

RULES: tuple[Rule, ...] = ()
