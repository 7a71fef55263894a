"""The schema of a recipe: composed from the shared fields and the processes' own, then checked in two passes.

`compose` joins the schemas, `check` turns what does not fit into findings; `fields` looks one up.
"""

from __future__ import annotations

from recipes_core.schema.check import check
from recipes_core.schema.compose import Schemas, compose

__all__ = ["Schemas", "check", "compose"]
