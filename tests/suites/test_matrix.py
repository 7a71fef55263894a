"""Resin by process: for each of 256 cells the smallest recipe is linted, and the cell is read from what comes out.

X: an absolute rule names the resin. -: the step says in one sentence that it does not apply. ?: what the process is
for stays open, and the question names the value or the name that is missing. J: it is computed from a value of that
resin's sheet, and changing the value changes the fact.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from recipes_core.app import lint_document
from recipes_core.case import Case
from recipes_core.document import read
from recipes_core.facts import Fact, Open, Source
from recipes_core.findings import Kind, Level
from recipes_core.forecast import walk
from recipes_core.recipe import Recipe
from recipes_core.rules import trail
from recipes_core.sheets import Sheet
from recipes_core.shelf import Shelf, shelf

TODAY = date(2026, 11, 25)
PROCESSES = [
    "sort",
    "wash",
    "dry",
    "shred",
    "weigh",
    "flake-melt",
    "fold",
    "mould-preheat",
    "sheet-press",
    "mould-press",
    "cool",
    "demould",
    "trim",
    "reheat-bend",
    "plane",
    "sand",
]
MATRIX = """
hdpe    J J J J J J J J J J J J J J J J
ldpe    J J J J J J J J J J J J J ? ? J
pp      J J J J J J J J J J J J J J J J
ps      J J J J J J J J J J J J J J J J
hips    J J J J J J J J J J J J J J J J
abs     J J J J J J J J J J J J J J J J
pla     J J J J J J J J J J J J J J J J
petg    J J J J J J J J J J J J J J J J
pmma    J J J - - X X - X X - - J J J J
pet     J J J - - X X - X X - - J J ? J
pc      J J J - - X X - X X - - J J J J
pa6     J J - - - X X - X X - - J X J J
pa66    J J - - - X X - X X - - J X J J
pvc     J J X X - X X - X X - - J X J X
pom     J J X X - X X - X X - - J X J X
unknown J J X X J X X - X X - - ? X ? X
"""
CELLS = [
    (line.split()[0], p, c)
    for line in MATRIX.split("\n")
    if line
    for p, c in zip(PROCESSES, line.split()[1:], strict=True)
]

TELLING = {
    "sort": "lightest piece",
    "wash": "lightest piece over water",
    "dry": "hours needed",
    "shred": "room for a kilogram",
    "weigh": "needed",
    "flake-melt": "melted through after",
    "fold": "skin after folding",
    "mould-preheat": "contact temperature",
    "sheet-press": "melted through after",
    "mould-press": "core set after",
    "cool": "core when opened",
    "demould": "cold length",
    "trim": "trimmed off",
    "reheat-bend": "set after",
    "plane": "deepest cut",
    "sand": "surface when sanded",
}
"""What each process is for: the fact that a cell is judged by."""

CHAIN: Mapping[str, tuple[str, ...]] = {
    "fold": ("flake-melt",),
    "sheet-press": ("weigh",),
    "mould-press": ("flake-melt",),
    "cool": ("flake-melt", "mould-press"),
    "demould": ("flake-melt", "mould-press", "cool"),
}
"""What has to be done before, for the step to have anything to compute."""

SHEETS = ("pmma", "pet", "pc")
DRYING = {"hips": "72 °C", "abs": "85 °C", "pmma": "80 °C", "pet": "130 °C", "pc": "121 °C"}
"""Inside what the sheets give for drying, where 65 °C is not."""
MACHINE = {
    "guard": "fitted", "interlock": "works", "hands": "bare", "loose_clothing": "no", "restart": "not by itself",
    "dust": "capture", "dust_layer": "0 mm",
}  # fmt: skip
RECIPE: Mapping[str, Any] = {
    "format": "recipe/1",
    "header": {"id": "cell", "title": "One cell"},
    "part": {"shape": "plate", "length": "400 mm", "width": "100 mm", "thickness": "10 mm", "use": ["decoration"]},
    "site": {"place": "outdoors", "capture": "none", "attended": "always", "present": ["none"], "shop_air": "20 °C"},
    "equipment": {
        "oven": {"type": "fan", "power": "3 kW", "built": "industrial", "dedicated": "now and later", "cavity": "200 l",
                 "vented": "yes", "measured": {"set": "180 °C", "reads": "180 °C", "by": "probe", "on": "2026-06-01"},
                 "swing": "4 K"},
        "tray": {"length": "400 mm", "width": "300 mm", "material": "steel", "thickness": "1 mm", "finish": "dark"},
        "mould": {"material": "steel", "wall": "6 mm", "finish": "dark", "stands": "on feet in the open",
                  "cavity": {"length": "405 mm", "width": "102 mm", "depth": "14 mm"}},
        "press": {"type": "hydraulic press", "rating": "200 kN", "platen": {
            "length": "500 mm", "width": "300 mm", "thickness": "20 mm", "material": "steel", "power": "4 kW",
            "cooled_by": "air"}},
        "shredder": {**MACHINE, "opening": {"shape": "slot", "size": "20 mm"}, "reach": "900 mm"},
        "planer": {**MACHINE, "type": "thickness", "rpm": "6000", "knives": "2", "cutter_diameter": "60 mm",
                   "feed": "5 m/min", "roller_gap": "200 mm", "max_cut": "3 mm"},
        "sander": {**MACHINE, "speed": "8 m/s", "grit": "120", "power": "500 W", "contact_area": "50 cm²",
                   "contact_time": "2 s"},
    },
    "formula": {"charge": "430 g", "flash_allowance": "5 %",
                "liner": {"tray": "parchment", "over": "none", "mould": "none", "platen_top": "parchment",
                          "platen_bottom": "parchment"}},
}  # fmt: skip


def step(process: str, oven: str) -> dict[str, Any]:
    """A step with all that its forecast asks for."""
    own: dict[str, Any] = {
        "wash": {"agents": ["water"], "filter": ["50 µm"], "drain": "sewer"},
        "dry": {"oven": oven, "at_least": "4 h"},
        "shred": {"flake_size": "8 mm"},
        "flake-melt": {"oven": oven, "oven_start": "hot", "at_least": "30 min", "at_most": "40 min"},
        "fold": {"layers": "2", "out_of_oven": "20 s", "back_for": "3 min"},
        "mould-preheat": {"by": "oven", "oven": oven, "to": "90 °C", "at_least": "20 min"},
        "sheet-press": {"platens": oven, "at_least": "15 min", "at_most": "20 min", "force": "60 kN", "hold": "20 min",
                        "closing_time": "20 s"},
        "mould-press": {"transfer": "10 s", "closing_time": "10 s", "force": "40 kN", "hold": "15 min"},
        "cool": {"in": "mould", "at_least": "40 min", "done": "core below 60 °C"},
        "trim": {"by": "knife", "blade": "away"},
        "reheat-bend": {"oven": oven, "oven_start": "hot",
                        "at_least": "30 min", "at_most": "40 min", "supported": "yes", "turned": "90 deg",
                        "radius": "40 mm", "hold": "15 min", "former": {"material": "softwood", "wall": "20 mm"}},
        "plane": {"cut": "0.5 mm", "to": "9 mm", "part_at": "20 °C"},
        "sand": {"by": "machine", "off": "0.2 mm", "part_at": "20 °C"},
    }  # fmt: skip
    return {"id": process, "process": process, **own.get(process, {})}


def recipe(resin: str, *processes: str) -> dict[str, Any]:
    """The smallest recipe with these steps."""
    first = processes[0]
    form = "sheet" if resin in SHEETS or first in ("reheat-bend", "plane", "sand", "trim") else "flake"
    form = "flake" if (resin, first) == ("pet", "dry") else form  # the hours on record are those of flake
    form = "item" if first in ("sort", "wash", "shred") else form
    oven = "155 °C" if "reheat-bend" in processes else DRYING.get(resin, "65 °C") if first == "dry" else "185 °C"
    lot = {"resin": resin, "share": "100 %", "form": form, "thickness": "10 mm", "colour": "natural",
           "from": "household",
           "past_contents": "none", "identified_by": ["moulded mark", "infrared"], "every_piece_checked": "yes",
           "removed": ["metal", "labels", "batteries", "closed containers", "pressure cans", "lighters"],
           "moisture": "dry to touch", "origin": "post-consumer", "grade": "injection"}  # fmt: skip
    return {
        **RECIPE,
        "formula": {**RECIPE["formula"], "feedstock": [lot]},
        "procedure": [step(process, oven) for process in processes],
    }


@pytest.fixture(scope="module")
def at_hand() -> Shelf:
    """What is shipped."""
    return shelf()


@pytest.mark.parametrize(("resin", "process", "cell"), CELLS, ids=[f"{r}-{p}" for r, p, _ in CELLS])
def test_the_cell_is_what_comes_out(at_hand: Shelf, resin: str, process: str, cell: str) -> None:
    """Read from the outcome alone."""
    assert read_cell(at_hand, resin, process) == cell


def read_cell(at_hand: Shelf, resin: str, process: str) -> str:
    """The letter of one cell."""
    alone = lint_document(read(json.dumps(recipe(resin, process)), "cell.yaml"), TODAY, at_hand)
    if any(f.kind is Kind.NOT_APPLICABLE and f.path == ("procedure", 0, "process") for f in alone.findings):
        sentence = next(f.message for f in alone.findings if f.kind is Kind.NOT_APPLICABLE)
        assert sentence.count(".") <= 1
        assert not refused(alone.findings, resin)
        return "-"
    text = json.dumps(recipe(resin, *CHAIN.get(process, ()), process))
    whole = lint_document(read(text, "cell.yaml"), TODAY, at_hand)
    if refused(whole.findings, resin):
        return "X"
    fact = telling(at_hand, text, process)
    if isinstance(fact.value, Open):
        asked = {path: question for path, question in fact.value.needs if question}
        named = any(path[:2] == ("resin sheet", resin) for path in asked)
        nobody = resin == "unknown" and any(path[-1:] == ("resin",) for path in asked)
        assert named or nobody, asked
        return "?"
    assert moved_by_its_sheet(at_hand, text, process, resin, fact)
    return "J"


def refused(findings: Any, resin: str) -> bool:
    """Whether an absolute rule names the resin."""
    against = [f for f in findings if f.absolute and f.kind is Kind.FAIL and f.level is Level.ERROR]
    return any(resin in re.split(r"[^a-z0-9]+", f.found.lower()) for f in against)


def telling(at_hand: Shelf, text: str, process: str) -> Fact:
    """The fact that the process is for."""
    typed = Recipe(read(text, "cell.yaml"), at_hand.schemas)
    walked = walk(typed, Case(typed, at_hand.library), at_hand.kinds)
    assert not walked.problems, walked.problems
    return walked.cases[-1].facts[TELLING[process]]


def moved_by_its_sheet(at_hand: Shelf, text: str, process: str, resin: str, fact: Fact) -> bool:
    """Whether changing some value of the resin's sheet that the fact rests on changes the fact."""
    rests_on = sorted(
        {
            given.origin.where.partition(": ")[2]
            for _, given in trail.leaves({"": fact})
            if given.origin.source is Source.SHEET and given.origin.where.startswith(f"{resin} sheet: ")
        }
    )
    assert rests_on, f"{fact.name} names no value of the sheet of {resin}"
    for name in rests_on:
        for changed in altered(at_hand.library.resins[resin], name):
            resins = {**{k: at_hand.library.resins[k] for k in at_hand.library.resins}, resin: changed}
            other = replace(at_hand, library=replace(at_hand.library, resins=resins))
            moved = telling(other, text, process)
            if isinstance(moved.value, Open) or moved.nominal != fact.nominal:
                return True
    return False


def altered(sheet: Sheet, name: str) -> Iterator[Sheet]:
    """The sheet with the numbers of one value a fifth larger, where it has numbers."""
    base, _, case = name.partition(", ")
    if base not in sheet.values:
        return
    values = json.loads(json.dumps(sheet.values))
    entry = values[base]["by"][case] if case else values[base]
    if "table" in entry:
        entry["table"] = {at: larger(line) for at, line in entry["table"].items()}
    elif isinstance(entry["value"], str) and re.search(r"\d", entry["value"]):
        entry["value"] = larger(entry["value"])
        entry.pop("range", None)
    else:
        return
    data = {**sheet.document.data, "values": values}
    yield replace(sheet, document=replace(sheet.document, data=data))


def larger(words: str) -> str:
    """Every number a fifth larger; units stay."""
    return re.sub(r"\d+(\.\d+)?(?![²³\d/])", lambda m: f"{1.2 * float(m[0]):g}", words, count=1)
