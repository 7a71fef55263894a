"""The pages of the shipped processes agree with their records, name rules that exist, and fit the card."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from recipes_core.document import read
from recipes_core.explain import explain
from recipes_core.facts import Basis
from recipes_core.hazards import FILE, SIGNALS, Hazard, process_page
from recipes_core.plugin_api import Process
from recipes_core.shelf import shelf

SCHEMA = json.loads((Path(__file__).parents[2] / "schemas" / "process-1.schema.json").read_bytes())
SHELF = shelf()
PROCESSES = SHELF.plugins.processes
EVERY = [pytest.param(p, h, id=f"{p.id}: {h.hazard[:40]}") for p in PROCESSES.values() for h in p.hazards()]


@pytest.mark.parametrize("process", PROCESSES.values(), ids=PROCESSES)
def test_the_page_agrees_with_the_record(process: Process) -> None:
    """Two places say what a process takes and yields; people read one, the forecast follows the other."""
    page = process_page(process)
    assert (page.id, page.name, page.takes, page.yields) == (
        process.id,
        process.name,
        process.takes,
        process.yields,
    )
    assert page.means.endswith(".")


@pytest.mark.parametrize("process", PROCESSES.values(), ids=PROCESSES)
def test_the_page_fits_its_schema(process: Process) -> None:
    """An editor that knows the schema marks nothing in a shipped page."""
    source = files(process.package).joinpath(FILE).read_bytes()
    assert [e.message for e in Draft202012Validator(SCHEMA).iter_errors(read(source).data)] == []


@pytest.mark.parametrize(("process", "hazard"), EVERY)
def test_a_hazard_names_rules_that_exist(process: Process, hazard: Hazard) -> None:
    """A rule that was renamed must be renamed here too."""
    assert set(hazard.rules) <= {rule.id for rule in SHELF.rules}
    assert len(set(hazard.rules)) == len(hazard.rules)


@pytest.mark.parametrize(("process", "hazard"), EVERY)
def test_a_hazard_has_a_control_above_rules_and_gloves(process: Process, hazard: Hazard) -> None:
    """Something that keeps it away even where nobody thinks of it: left out, or held off by a thing."""
    assert min(control.level for control in hazard.controls) <= 2


@pytest.mark.parametrize(("process", "hazard"), EVERY)
def test_memory_is_never_shown_as_a_standards_word(process: Process, hazard: Hazard) -> None:
    """What was not seen in a document sends the reader to the standard; what was seen names it."""
    assert ("check the standard" in hazard.source) == (hazard.basis is Basis.MEMORY)
    if hazard.basis is Basis.PUBLISHED:
        assert any(letter.isupper() for letter in hazard.source) or "page" in hazard.source


@pytest.mark.parametrize("process", PROCESSES.values(), ids=PROCESSES)
def test_before_a_step_stand_one_to_three_cautions(process: Process) -> None:
    """Fewer would leave the worst unsaid; more would not be read. They are of the gravest that people meet there."""
    said = [h for h in process.hazards() if h.caution]
    assert 1 <= len(said) <= 3
    assert all(h.signal != "NOTICE" for h in said)


def test_the_hazards_of_heat_and_force_are_all_watched() -> None:
    """Each absolute rule on an oven, a press or a person is named by some hazard."""
    named = {rule for process in PROCESSES.values() for h in process.hazards() for rule in h.rules}
    absolute = {rule.id for rule in SHELF.rules if rule.absolute}
    assert absolute - named == {"life-safety-claim"}


@pytest.mark.parametrize("process", PROCESSES.values(), ids=PROCESSES)
def test_explain_prints_every_hazard(process: Process) -> None:
    """In the order of their signal words, each with its controls, and the deference to codes at the end."""
    shown = " ".join(explain(SHELF, process.id).split())
    found = process.hazards()
    assert [h.signal for h in found] == sorted((h.signal for h in found), key=SIGNALS.index)
    places = [shown.index(f"{h.signal}: {h.hazard}") for h in found]
    assert places == sorted(places)
    assert all(control.do in shown for h in found for control in h.controls)
    assert shown.endswith("licensed people.")
