"""Everything a plugin needs, and all it may import besides `recipes_core.physics`.

A plugin is a module that an entry point of the group ``recipes_core.plugins`` names. It states the version of
this interface it was written for, and registers what it has:

    from recipes_core.plugin_api import SheetFile, hookimpl

    MELTBOOK_API = (1, 0)

    @hookimpl
    def meltbook_resins():
        return [SheetFile(__name__, "demo.yaml")]

The hooks are described in `recipes_core.hooks`. Importing a plugin must stay cheap: sheets are read, and
forecasts and rules of a process are imported, only when a recipe needs them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pluggy

from recipes_core.case import Case, Value, number, upper
from recipes_core.curves import Curves, Line, Mark, Series
from recipes_core.facts import Basis, Fact, Given, Open, assumed, calc, missing
from recipes_core.findings import Change, Level, Way
from recipes_core.identity import WATER, Evidence, Kind, beside, evidence_of_lots, gap
from recipes_core.oven import oven_air
from recipes_core.quantities import Dimension, show
from recipes_core.rules.compare import above, below, longer, over, says, show_band, too_cold, too_short, under
from recipes_core.rules.reading import Reading
from recipes_core.rules.rule import Hit, Rule, Scope
from recipes_core.spread import Band, members
from recipes_core.work import NOTHING, Outcome, Profile, Table, Work

if TYPE_CHECKING:
    from recipes_core.hazards import Hazard

__all__ = [
    "API_VERSION",
    "NOTHING",
    "WATER",
    "Band",
    "Basis",
    "Case",
    "Change",
    "Curves",
    "Dimension",
    "Evidence",
    "Fact",
    "Given",
    "Hit",
    "Kind",
    "Level",
    "Line",
    "Mark",
    "Open",
    "Outcome",
    "Process",
    "Profile",
    "Reading",
    "Rule",
    "Scope",
    "Series",
    "SheetFile",
    "Table",
    "Value",
    "Way",
    "Work",
    "above",
    "assumed",
    "below",
    "beside",
    "calc",
    "evidence_of_lots",
    "gap",
    "hookimpl",
    "longer",
    "members",
    "missing",
    "number",
    "oven_air",
    "over",
    "says",
    "show",
    "show_band",
    "too_cold",
    "too_short",
    "under",
    "upper",
]

API_VERSION = (1, 0)
"""Major and minor version of this interface. A new minor one only adds; a new major one may break."""

hookimpl = pluggy.HookimplMarker("recipes_core")
"""Marks a function of a plugin as its answer to the hook of the same name."""


@dataclass(frozen=True)
class SheetFile:
    """A data sheet in a package. The file is named after the id in it: ``hdpe.yaml`` holds ``hdpe``."""

    package: str
    name: str

    @property
    def id(self) -> str:
        """The id that the sheet must state."""
        return self.name.removesuffix(".yaml")

    def read(self) -> bytes:
        """The bytes of the file, wherever the package was imported from. OSError when it is not there."""
        from importlib.resources import files

        return files(self.package).joinpath(self.name).read_bytes()


@dataclass(frozen=True)
class Process:
    """A process: what a step of it takes and yields, and where its schema, forecast and rules are.

    ``schema`` is a JSON file in ``package``. ``forecast`` ("module:function") and ``rules`` ("module:NAME")
    are imported only when they are needed, so that listing and explaining never load numpy. ``marks`` are
    words, such as ``heats``, by which a rule can name every process that does the same to the work. ``setting``
    is the field that says how hot a heating step is set, ``machine`` the piece of equipment that does the cutting.
    ``process.yaml`` in ``package`` is its page: what is done, and how it can hurt people.
    """

    id: str
    name: str
    takes: tuple[str, ...]
    yields: str
    package: str
    schema: str
    forecast: str
    rules: str
    marks: tuple[str, ...] = ()
    setting: str = "oven"
    machine: str = ""

    def hazards(self) -> tuple[Hazard, ...]:
        """How it can hurt people, gravest first, read from its page. DataError where that is missing or wrong."""
        from recipes_core.hazards import hazards

        return hazards(self)
