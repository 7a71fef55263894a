"""Explanations: what a rule compares and why, what a process takes and hurts, where a number comes from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from recipes_core.errors import UsageError
from recipes_core.explain_field import field_lines, names_of
from recipes_core.facts import Basis, Given, told_source
from recipes_core.hazards import LEVELS, process_page
from recipes_core.sheets.properties import PROPERTIES

if TYPE_CHECKING:
    from recipes_core.hazards import Hazard
    from recipes_core.plugin_api import Process
    from recipes_core.rules.rule import Rule
    from recipes_core.sheets import Sheet
    from recipes_core.shelf import Shelf

WIDTH = 100
_OF_SHEET = re.compile(r"^(?:(?:resin|liner|material) )?sheet\.")
"""As findings name a value of a sheet."""


def explain(having: Shelf, name: str) -> str:
    """The explanation of one name, or a list of all rules for an empty one."""
    name = name.lower()
    rules = {rule.id: rule for rule in having.rules}
    if not name:
        return "\n".join(_list(having, rules)) + "\n"
    if name in rules:
        return "\n".join(rule_lines(rules[name])) + "\n"
    if name in having.plugins.processes:
        return "\n".join(_process(having, having.plugins.processes[name], rules)) + "\n"
    sheets = _sheets(having)
    first, _, entry = _OF_SHEET.sub("", name).replace(":", " ", 1).replace(".", " ", 1).partition(" ")
    if first in sheets:
        return "\n".join(_value(sheets[first], entry.strip()) if entry else _sheet(sheets[first])) + "\n"
    if name in PROPERTIES:
        return "\n".join(_everywhere(name, sheets)) + "\n"
    named = names_of(having.schemas)
    if name in named:
        told = field_lines(named[name], rules)
        return "\n".join(line for margin, text in told for line in (_lines(margin, text) if margin else [text])) + "\n"
    known = [*rules, *having.plugins.processes, *sheets, *PROPERTIES, *named]
    near = get_close_matches(name, known, n=3)
    hint = f" Is it {' or '.join(near)}?" if near else " meltbook explain, without a name, lists the rules."
    raise UsageError(f"nothing here is called {name}.{hint}")


def _everywhere(name: str, sheets: dict[str, Sheet]) -> Iterator[str]:
    """One value as every sheet gives it."""
    yield f"{name}: {PROPERTIES[name].meaning}"
    for sheet in sheets.values():
        value = sheet.get(name) if sheet.find(name) else None
        if isinstance(value, Given):
            yield from _lines(sheet.id, value.text)


def _sheets(having: Shelf) -> dict[str, Sheet]:
    found: dict[str, Sheet] = {}
    plugins, library = having.plugins, having.library
    for ids, sheets in (
        (plugins.resins, library.resins),
        (plugins.liners, library.liners),
        (plugins.materials, library.materials),
    ):
        for name in ids:
            sheet = sheets.get(name)
            if sheet is not None:
                found[name] = sheet
    return found


def _list(having: Shelf, rules: dict[str, Rule]) -> Iterator[str]:
    yield f"{len(rules)} rules; an A marks those that nothing can silence. meltbook explain NAME tells more."
    for rule in sorted(rules.values(), key=lambda r: r.id):
        yield f"{'A' if rule.absolute else ' '} {rule.id:<32}{rule.message}"
    yield ""
    yield f"Processes: {', '.join(having.plugins.processes)}"
    yield f"Sheets: {', '.join(_sheets(having))}"


def rule_lines(rule: Rule) -> Iterator[str]:
    """One rule in full: its name and weight, then what it says, checks and why, what to do, and its sources."""
    weight = "absolute: nothing can silence it" if rule.absolute else str(rule.level)
    yield f"{rule.id} ({weight}; since {rule.since})"
    yield from _lines("says", rule.message)
    yield from _lines("checks", rule.checks)
    yield from _lines("why", rule.why)
    yield from _lines("do", rule.do)
    for source in rule.sources:
        yield from _lines("source", told_source(source))
    if rule.reads:
        given = [name.replace(":", " sheet: ") for name in rule.reads if not name.startswith("fact:")]
        computed = [f"{name[5:]} (computed)" for name in rule.reads if name.startswith("fact:")]
        yield from _lines("must know", ", ".join((*given, *computed)))


def _process(having: Shelf, process: Process, rules: dict[str, Rule]) -> Iterator[str]:
    page = process_page(process)
    yield f"{process.id}: {process.name}"
    yield from _lines("is", page.means)
    if process.takes:
        yield from _lines("takes", " or ".join(process.takes))
    if process.yields:
        yield from _lines("yields", process.yields)
    marks = {process.id, "any step", *process.marks}
    named = sorted(rule.id for rule in rules.values() if marks & set(rule.on))
    yield from _lines("rules", ", ".join(named))
    for hazard in page.hazards:
        yield ""
        yield from _hazard(hazard)
    yield ""
    yield "Local codes come first. Leave wiring, pressure and structural work to licensed people."


def _hazard(hazard: Hazard) -> Iterator[str]:
    yield from wrap(f"{hazard.signal}: {hazard.hazard}", WIDTH, initial_indent="  ", subsequent_indent="  ")
    yield from _lines("why", hazard.consequence)
    for control in hazard.controls:
        yield from _lines(LEVELS[control.level], control.do)
    watched = hazard.monitor
    yield from _lines("watch", f"{watched.watch}; {watched.how}; every {watched.every}; {watched.who}")
    yield from _lines("if not so", hazard.corrective)
    remembered = hazard.basis is Basis.MEMORY  # its source says itself that it is commonly quoted
    yield from _lines("source", hazard.source if remembered else f"{hazard.basis}: {hazard.source}")
    yield from _lines("rules", ", ".join(hazard.rules))


def _sheet(sheet: Sheet) -> Iterator[str]:
    yield f"{sheet.id}: {sheet.name} ({sheet.what} sheet)"
    for name in sheet.names():
        found = sheet.find(name)
        value = sheet.get(name)
        if found and isinstance(value, Given):
            basis = found[2].basis.words
            *above, last = wrap(value.text, WIDTH - 39 - len(basis))
            for at, line in enumerate(above):
                yield f"  {'' if at else name:<36}{line}"
            yield f"  {'' if above else name:<36}{last:<33} {basis}"


def _value(sheet: Sheet, name: str) -> Iterator[str]:
    try:
        found = sheet.find(name)
    except LookupError as error:
        raise UsageError(str(error.args[0])) from None
    if found is None:
        meaning = f", the {PROPERTIES[name].meaning}" if name in PROPERTIES else ""
        raise UsageError(
            f"the data sheet of {sheet.id} gives no {name}{meaning}. meltbook explain {sheet.id} lists what it gives."
        )
    entry = found[2]
    base = name.partition(", ")[0]
    yield f"{sheet.id}, {name}: {PROPERTIES[base].meaning}"
    value = sheet.get(name)
    yield from _lines("value", value.text if isinstance(value, Given) else "")
    for at, number in (entry.table or {}).items():
        yield from _lines("", f"{at}: {number}")
    yield from _origin(sheet, entry)
    for other in entry.alternatives:
        yield ""
        told = other.value if isinstance(other.value, str) else ", ".join(other.value or ())
        yield from _lines("instead of", told)
        yield from _origin(sheet, other)
        yield from _lines("because", other.instead or "")


def _origin(sheet: Sheet, entry: Any) -> Iterator[str]:
    if entry.range:
        yield from _lines("range", entry.range)
    unchecked = ", not checked against a source" if entry.basis is Basis.MEMORY else ""
    yield from _lines("basis", f"{entry.basis.words}{unchecked}")
    if entry.source:
        yield from _lines("source", f"{sheet.citation(entry.source).cite}; {entry.locator}")
    for line in entry.derived_from if isinstance(entry.derived_from, tuple) else (entry.derived_from,):
        if line:
            yield from _lines("from", line)
    if entry.note:
        yield from _lines("note", entry.note)


def _lines(label: str, text: str) -> list[str]:
    if not text:
        return []
    return wrap(text, WIDTH, initial_indent=f"  {label:<11}", subsequent_indent=" " * 13, break_on_hyphens=False)
