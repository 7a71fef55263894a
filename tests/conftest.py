"""Settings of all tests, and the recipes of an invented shop that tests of the whole chain share.

Hypothesis draws the same examples everywhere and sets no deadline.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import settings

from recipes_core.case import Case
from recipes_core.document import read
from recipes_core.forecast import walk
from recipes_core.recipe import Recipe
from recipes_core.shelf import Shelf, shelf
from tests.trials import stocked

if TYPE_CHECKING:
    from recipes_core.facts import Fact
    from recipes_core.forecast import Walk

pytest_plugins = ["tests.suites.mutants_table"]

settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile("ci")

Changes = Mapping[str, Any]

PLATE: Mapping[str, Any] = {
    "format": "recipe/1",
    "header": {"id": "trial-plate", "title": "Trial plate"},
    "part": {"shape": "plate", "length": "260 mm", "width": "125 mm", "thickness": "12 mm"},
    "formula": {
        "feedstock": [{"resin": "hdpe", "share": "100 %", "grade": "bottle", "form": "flake"}],
        "charge": "375 g",
        "flash_allowance": "5 %",
        "liner": {"tray": "parchment", "over": "none", "mould": "none"},
    },
    "site": {"shop_air": "22 °C"},
    "equipment": {
        "oven": {"type": "static", "power": "2 kW"},
        "tray": {
            "length": "400 mm",
            "width": "250 mm",
            "thickness": "0.8 mm",
            "material": "steel",
            "finish": "dark",
        },
        "mould": {
            "material": "steel",
            "wall": "5 mm",
            "cavity": {"length": "260 mm", "width": "125 mm", "depth": "12 mm"},
            "finish": "dark",
            "stands": "on feet in the open",
        },
    },
    "procedure": [
        {"id": "weigh", "process": "weigh"},
        {
            "id": "melt",
            "process": "flake-melt",
            "oven": "177 °C",
            "oven_start": "hot",
            "at_least": "20 min",
            "at_most": "30 min",
        },
        {
            "id": "preheat",
            "process": "mould-preheat",
            "by": "oven",
            "oven": "177 °C",
            "to": "110 °C",
            "at_least": "15 min",
        },
        {"id": "fold", "process": "fold", "layers": "3", "out_of_oven": "30 s", "back_for": "2 min"},
        {
            "id": "press",
            "process": "mould-press",
            "transfer": "15 s",
            "closing_time": "15 s",
            "force": "20 kN",
            "hold": "25 min",
        },
        {"id": "cool", "process": "cool", "in": "mould", "done": "core below 60 °C", "at_least": "45 min"},
        {"id": "demould", "process": "demould"},
    ],
}
"""A plate of 12 mm from 375 g of flake on a dark tray of 400 × 250 mm; shop and part are invented."""


@dataclass(frozen=True)
class Shop:
    """Recipes of an invented shop, made from one plate by changes, and what the core makes of them.

    A change is a dotted path (a step by its id: ``melt.oven``) and its new value; None takes the value away.
    """

    shelf: Shelf

    def text(self, changes: Changes | None = None, only: Iterable[str] = ()) -> str:
        """The recipe as text, with only the steps named, or all; JSON is YAML too."""
        data = copy.deepcopy(dict(PLATE))
        steps = {step["id"]: step for step in data["procedure"]}
        for dotted, value in (changes or {}).items():
            head, *rest = dotted.split(".")
            node: Any = steps if head in steps else data
            for part in [head, *rest][:-1]:
                node = node[int(part)] if part.isdigit() else node.setdefault(part, {})
            if value is None:
                node.pop(dotted.rpartition(".")[2], None)
            else:
                node[dotted.rpartition(".")[2]] = value
        data["procedure"] = [s for s in data["procedure"] if not only or s["id"] in set(only)]
        return json.dumps(data, ensure_ascii=False, indent=1)

    def recipe(self, changes: Changes | None = None, only: Iterable[str] = ()) -> Recipe:
        """The recipe, typed."""
        return Recipe(read(self.text(changes, only), "trial.yaml"), self.shelf.schemas)

    def case(self, changes: Changes | None = None, step: str = "", lot: int | None = None) -> Case:
        """The recipe as one of its steps, or one of its lots, sees it; nothing is forecast."""
        recipe = self.recipe(changes)
        found = next((s for s in recipe.steps if s.id == step), None)
        return Case(recipe, self.shelf.library, found, lot)

    def walk(self, changes: Changes | None = None, only: Iterable[str] = ()) -> Walk:
        """The whole forecast."""
        recipe = self.recipe(changes, only)
        return walk(recipe, Case(recipe, self.shelf.library), self.shelf.kinds)

    def facts(self, changes: Changes | None = None, only: Iterable[str] = ()) -> dict[str, Mapping[str, Fact]]:
        """The facts of each step, by the step's id."""
        walked = self.walk(changes, only)
        assert [p.message for p in walked.problems] == []
        return {case.step.id: case.facts for case in walked.cases if case.step}


@pytest.fixture(scope="session")
def stock() -> Shelf:
    """The shelf that most tests share: what is shipped, and the trial plastics."""
    return stocked(shelf())


@pytest.fixture(scope="session")
def shop(stock: Shelf) -> Shop:
    """One shop for all tests; sheets are read once."""
    return Shop(stock)
