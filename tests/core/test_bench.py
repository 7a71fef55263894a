"""What a process says on the card: read whole, on the limit of what fits, and about values that exist."""

from __future__ import annotations

import pytest

from recipes_core.bench import LONGEST, PAUSES, Bench, Cell, Clock, Ticks
from recipes_core.case import Case
from recipes_core.hazards import process_page
from recipes_core.quantities import Dimension
from recipes_core.schema.fields import field
from recipes_core.shelf import shelf
from tests.core.test_hazards import load, page, put

SHELF = shelf()
PROCESSES = SHELF.plugins.processes


def named_by(bench: Bench) -> tuple[Cell, ...]:
    """All values that a page names for the card, boxed or beside."""
    return (*bench.cells, *bench.asides)


def test_every_word_arrives() -> None:
    """As it stands in the page."""
    assert load(page()).bench == Bench(
        action="Stir it slowly",
        until="it is even",
        pause="heat",
        ready="the spoon is long",
        cells=(Cell("SPOON", "spoon", "at least", True),),
        asides=(Cell("held", "held", "at most"),),
        clock=Clock("at_least", "at_most"),
        ticks=Ticks("every", "held"),
        stop=("It smokes: stop",),
        bring=("spoon",),
    )


@pytest.mark.parametrize("key", ["action", "until", "ready"])
def test_the_longest_text_that_fits_is_taken(key: str) -> None:
    """And one character more is refused (with the other refusals of a page)."""
    data = page()
    put("x" * LONGEST[key], "bench", key)(data)
    assert len(getattr(load(data).bench, key)) == LONGEST[key]


@pytest.mark.parametrize("name", PROCESSES)
def test_a_shipped_process_speaks_of_values_that_exist(name: str) -> None:
    """A number of the card that nobody could ever fill in would stay away for ever."""
    bench = process_page(PROCESSES[name]).bench
    clock = (bench.clock.least, bench.clock.most) if bench.clock else ()
    ticks = (bench.ticks.every, bench.ticks.over) if bench.ticks else ()
    for value in (*(cell.value for cell in named_by(bench)), *clock, *ticks):
        if value.startswith(("formula.", "equipment.")):
            assert field(tuple(value.split(".")), None, SHELF.schemas).dimension in (*Dimension, None)
        elif value and ":" not in value and value != "setting":
            assert field(("procedure", 0, value), name, SHELF.schemas).dimension in (*Dimension, None)
    assert (bench.pause in PAUSES) == bool(bench.ready), "a stop and the look before going on belong together"
    assert bench.action[0].isupper()
    assert not bench.until[0].isupper() or bench.until.startswith("EN")


def test_the_names_of_a_case_are_those_of_the_page() -> None:
    """Sheet values and facts are named as `Case.get` names them."""
    named = {c.value for p in PROCESSES.values() for c in named_by(process_page(p).bench) if ":" in c.value}
    assert named == {"resin:melted", "resin:forming foot", "fact:target", "fact:coldest at the end"}
    assert Case.get.__doc__
