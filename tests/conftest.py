"""Settings of all tests: hypothesis draws the same examples everywhere and sets no deadline."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile("ci")
