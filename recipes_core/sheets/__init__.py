"""Data sheets of resins, liners and materials: each value says how it is known, and is read when asked."""

from __future__ import annotations

from recipes_core.sheets.sheet import Sheet, load_sheet

__all__ = ["Sheet", "load_sheet"]
