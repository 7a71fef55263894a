"""The shipped processes: one package each, with its schema, its hazards, its forecast and its rules."""

from __future__ import annotations

from recipes_core.plugin_api import Process, hookimpl

MELTBOOK_API = (1, 0)

SOLID = ("part", "bent part", "sheet")
"""The forms that are cut cold; the work keeps its form."""


def _process(
    id_: str, name: str, takes: tuple[str, ...], yields: str, *marks: str, setting: str = "oven", machine: str = ""
) -> Process:
    package = f"{__name__}.{id_.replace('-', '_')}"
    return Process(
        id_,
        name,
        takes,
        yields,
        package,
        "step.schema.json",
        f"{package}.forecast:forecast",
        f"{package}.rules:RULES",
        marks,
        setting,
        machine,
    )


@hookimpl
def meltbook_processes() -> list[Process]:
    """The processes from scrap to a part, in the order of the bench."""
    return [
        _process("sort", "Sort the scrap, piece by piece", ("item",), "item", "sorts"),
        _process("wash", "Wash the scrap or the flake", ("item", "flake"), "", "washes"),
        _process("shred", "Shred the scrap to flake", ("item",), "flake", "cuts", machine="shredder"),
        _process("dry", "Dry the flake or the sheet", ("flake", "sheet"), "", "heats", "dries"),
        _process("weigh", "Weigh the charge", ("flake",), "charge"),
        _process("flake-melt", "Melt flake on a lined tray", ("charge",), "melt", "heats", "heats plastic", "melts"),
        _process("fold", "Fold the melt", ("melt",), "folded melt"),
        _process("mould-preheat", "Preheat the mould", (), "", "heats"),
        _process("mould-press", "Press the melt in a mould", ("melt", "folded melt"), "pressed hot", "presses"),
        _process(
            "sheet-press",
            "Press a sheet between heated platens",
            ("charge", "melt", "folded melt"),
            "pressed hot",
            "heats",
            "heats plastic",
            "melts",
            "presses",
            setting="platens",
        ),
        _process("cool", "Cool the part in its mould", ("pressed hot",), "part", "cools"),
        _process("demould", "Take the part out", ("part",), "part"),
        _process("trim", "Trim the part", SOLID, "", "trims", machine="saw"),
        _process(
            "reheat-bend",
            "Heat it through and bend it",
            ("part", "sheet"),
            "bent part",
            "heats",
            "heats plastic",
            "bends",
        ),
        _process("plane", "Plane the part", SOLID, "", "cuts", "planes", machine="planer"),
        _process("sand", "Sand the part", SOLID, "", "cuts", "sands", machine="sander"),
    ]
