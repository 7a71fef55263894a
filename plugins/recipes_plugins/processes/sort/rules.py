"""Sorting has no rules of its own: those on proofs and residues hold for every lot, sorted here or before."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from recipes_core.plugin_api import Rule

RULES: tuple[Rule, ...] = ()
