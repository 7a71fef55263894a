"""meltbook: recipes for scrap thermoplastic, judged by computing what they do to the plastic."""

from __future__ import annotations

__version__ = "0.1.0"

_FROM_APP = frozenset({"lint"})


def __getattr__(name: str) -> object:
    """Hand on the public names of `recipes_core.app`, imported on first use: a plain import stays cheap."""
    if name not in _FROM_APP:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from recipes_core import app

    return getattr(app, name)
