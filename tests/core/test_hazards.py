"""The page of a process is read whole, and a page that leaves something out is not used."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from recipes_core.document import read
from recipes_core.errors import DataError
from recipes_core.hazards import LEVELS, LONGEST, ProcessPage, hazards, read_page
from recipes_core.plugin_api import Process

SCHEMA = json.loads((Path(__file__).parents[2] / "schemas" / "process-1.schema.json").read_bytes())


def page() -> dict[str, Any]:
    """A page that says all it must, of an invented process."""
    return {
        "format": "process/1",
        "id": "stir",
        "name": "Stir the melt",
        "means": "The melt is stirred.",
        "takes": ["melt"],
        "yields": "melt",
        "hazards": [
            {
                "hazard": "drips",
                "signal": "NOTICE",
                "consequence": "a mess",
                "controls": [{"level": "3", "do": "a board below"}],
                "monitor": {"watch": "the floor", "how": "by eye", "every": "stir", "who": "whoever stirs"},
                "corrective": "scrape it up",
                "basis": "judgement",
                "source": "ours",
            },
            {
                "hazard": "splashes",
                "signal": "WARNING",
                "caution": "Melt splashes. Stir slowly.",
                "consequence": "burns",
                "controls": [{"level": "4", "do": "face shield"}, {"level": "1", "do": "do not stir"}],
                "monitor": {"watch": "the melt", "how": "by eye", "every": "stir", "who": "whoever stirs"},
                "corrective": "cool the burn",
                "basis": "memory",
                "source": "commonly quoted; check the standard",
                "rules": ["no-water-for-burns"],
            },
        ],
        "bench": {
            "action": "Stir it slowly",
            "until": "it is even",
            "pause": "heat",
            "ready": "the spoon is long",
            "cells": [{"label": "SPOON", "value": "spoon", "says": "at least", "sets": "yes"}],
            "asides": [{"label": "held", "value": "held", "says": "at most"}],
            "clock": {"least": "at_least", "most": "at_most"},
            "ticks": {"every": "every", "over": "held"},
            "stop": ["It smokes: stop"],
            "bring": ["spoon"],
        },
    }


def load(data: object) -> ProcessPage:
    """The page, read as the program reads it."""
    return read_page(read(json.dumps(data, ensure_ascii=False), "stir/process.yaml"))


def test_the_gravest_comes_first() -> None:
    """Hazards by signal word, controls by level, whatever the order in the file."""
    found = load(page()).hazards
    assert [h.signal for h in found] == ["WARNING", "NOTICE"]
    assert [c.level for c in found[0].controls] == [1, 4]


def test_a_caution_begins_with_its_signal_word() -> None:
    """The word stands in one place only, so the two cannot differ; no caution stays empty."""
    assert [h.caution for h in load(page()).hazards] == ["WARNING: Melt splashes. Stir slowly.", ""]


def remove(*path: str | int) -> Callable[[Any], None]:
    """A change that takes the entry at the path away."""

    def change(data: Any) -> None:
        for key in path[:-1]:
            data = data[key]
        del data[path[-1]]

    return change


def put(value: object, *path: str | int) -> Callable[[Any], None]:
    """A change that puts a value at the path."""

    def change(data: Any) -> None:
        for key in path[:-1]:
            data = data[key]
        data[path[-1]] = value

    return change


MISTAKES = {
    "no means": remove("means"),
    "no takes": remove("takes"),
    "takes is no list": put("melt", "takes"),
    "takes holds no text": put([["melt"]], "takes"),
    "another format": put("process/2", "format"),
    "an unknown key": put("x", "hazards", 0, "harm"),
    "no corrective": remove("hazards", 0, "corrective"),
    "no monitor": remove("hazards", 0, "monitor"),
    "nobody watches": remove("hazards", 0, "monitor", "who"),
    "an unknown signal word": put("ALARM", "hazards", 0, "signal"),
    "an unknown basis": put("guess", "hazards", 0, "basis"),
    "a level that is none": put("5", "hazards", 0, "controls", 0, "level"),
    "gloves alone": put([{"level": "4", "do": "gloves"}], "hazards", 0, "controls"),
    "no control": put([], "hazards", 0, "controls"),
    "a caution too long for any signal word": put("x" * 88, "hazards", 1, "caution"),
    "hazards are no list": put({"a": "b"}, "hazards"),
    "no words for the card": remove("bench"),
    "no action": remove("bench", "action"),
    "an action too long for the card": put("x" * 61, "bench", "action"),
    "an end test too long for the card": put("x" * 46, "bench", "until"),
    "a pause that is none": put("lunch", "bench", "pause"),
    "a look too long for the card": put("x" * 77, "bench", "ready"),
    "a label too long for the card": put("x" * 15, "bench", "cells", 0, "label"),
    "a number without a name": remove("bench", "cells", 0, "value"),
    "a number that says something else": put("about", "bench", "cells", 0, "says"),
    "an aside too long for the card": put("x" * 25, "bench", "asides", 0, "label"),
    "an aside that sets a machine": put("yes", "bench", "asides", 0, "sets"),
    "a clock's word too long for the card": put("x" * 9, "bench", "clock", "by"),
    "ticks without a time to fill": remove("bench", "ticks", "over"),
    "a clock without a time": remove("bench", "clock", "least"),
    "a line of the stop box too long": put(["x" * 45], "bench", "stop"),
    "a thing to bring too long": put(["x" * 31], "bench", "bring"),
}


@pytest.mark.parametrize("mistake", MISTAKES)
def test_program_and_schema_refuse_the_same(mistake: str) -> None:
    """What the program refuses, with the place, an editor that knows the schema marks too."""
    data = page()
    assert not list(Draft202012Validator(SCHEMA).iter_errors(data))
    MISTAKES[mistake](data)
    with pytest.raises(DataError) as refused:
        load(data)
    assert refused.value.span is not None
    assert list(Draft202012Validator(SCHEMA).iter_errors(data))


def test_a_caution_must_fit_with_its_signal_word() -> None:
    """One character more than fits beside this word is refused, and one less is not."""
    data, room = page(), LONGEST - len("WARNING: ")
    put("x" * room, "hazards", 1, "caution")(data)
    assert len(load(data).hazards[0].caution) == LONGEST
    put("x" * (room + 1), "hazards", 1, "caution")(data)
    with pytest.raises(DataError, match="95 fit"):
        load(data)


def test_a_process_of_a_tool_alone_yields_nothing() -> None:
    """A step that only handles a tool takes no form of the work and leaves none."""
    data = page()
    put([], "takes")(data)
    remove("yields")(data)
    assert (load(data).takes, load(data).yields) == ((), "")


def test_every_level_has_a_word_and_gloves_come_last() -> None:
    """Four kinds of control in their order of preference; the fourth is what is worn."""
    assert list(LEVELS) == [1, 2, 3, 4]
    assert LEVELS[4] == "wear"


def test_a_process_without_a_page_is_not_called_harmless(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A package that lacks the file gives an error, never an empty list of hazards."""
    (tmp_path / "bare_process").mkdir()
    (tmp_path / "bare_process" / "__init__.py").write_text("", "utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    stir = Process("stir", "Stir", ("melt",), "melt", "bare_process", "s.json", "m:f", "m:R")
    with pytest.raises(DataError, match="how it can hurt people is not known"):
        hazards(stir)
