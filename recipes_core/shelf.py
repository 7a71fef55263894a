"""Everything that judging needs besides the recipe: plugins, composed schemas, sheets, rules, processes.

A part that cannot be loaded becomes a problem that names it; the others still serve.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from recipes_core.case import Library
from recipes_core.document import read
from recipes_core.errors import DataError, PluginError, reason
from recipes_core.findings import Finding, Kind, Level
from recipes_core.forecast import Kindred
from recipes_core.library_folder import find_library, read_sheets, switched_off
from recipes_core.plugin_host import NOT_LOADED, TAKEN_ID, Plugins, load, resolve
from recipes_core.rules.core import RULES as CORE_RULES
from recipes_core.schema import compose
from recipes_core.sheets import Sheet, load_sheet

if TYPE_CHECKING:
    from recipes_core.plugin_api import Process, SheetFile
    from recipes_core.rules.rule import Rule
    from recipes_core.schema.compose import Schemas


@dataclass(frozen=True)
class Shelf:
    """What is at hand, and what kept any of it from being used."""

    plugins: Plugins
    schemas: Schemas
    library: Library
    rules: tuple[Rule, ...]
    kinds: Mapping[str, Kindred]
    problems: tuple[Finding, ...] = ()
    off: Mapping[str, str] = field(default_factory=dict)
    """What the library at hand switches off: ids, and the plugin that each belongs to."""


class SheetFiles(Mapping[str, Sheet]):
    """The sheets that plugins declare, by id; each is read when it is first asked for.

    Raises DataError for a sheet that cannot be read, or that states another id than its file name.
    """

    def __init__(self, declared: Mapping[str, SheetFile], read_before: dict[str, Sheet] | None = None) -> None:
        self._declared = declared
        self._read = {} if read_before is None else read_before

    def without(self, names: Iterable[str]) -> SheetFiles:
        """The same sheets but for some; what either of the two reads is read once."""
        off = frozenset(names)
        return SheetFiles({name: file for name, file in self._declared.items() if name not in off}, self._read)

    def __getitem__(self, name: str) -> Sheet:
        if name not in self._read:
            file = self._declared[name]
            sheet = load_sheet(read(file.read(), file.name))
            if sheet.id != name:
                raise DataError(f"the sheet {file.name} says that its id is {sheet.id}, not {name}", file=file.name)
            self._read[name] = sheet
        return self._read[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._declared)

    def __len__(self) -> int:
        return len(self._declared)


def shelf(plugins: Plugins | None = None) -> Shelf:
    """Load the plugins and all that hangs on them."""
    plugins = plugins or load()
    problems = list(plugins.problems)
    schemas: dict[str, Any] = {}
    kinds: dict[str, Kindred] = {}
    rules: dict[str, Rule] = {rule.id: rule for rule in CORE_RULES}
    for process in plugins.processes.values():
        try:
            schema = json.loads(files(process.package).joinpath(process.schema).read_text("utf-8"))
            compose({process.id: schema})
            added = _new_rules(resolve(process.rules), rules)
        except Exception as error:  # a plugin's files are foreign: whatever they raise is contained here
            problems.append(_problem(NOT_LOADED, f"The process {process.id} could not be used: {reason(error)}."))
            continue
        schemas[process.id], kinds[process.id] = schema, _kindred(process)
        rules.update(added)
    for name, rule in plugins.rules.items():
        if name in rules:
            owner = plugins.owners[f"rule-{name}"]
            problems.append(_problem(TAKEN_ID, f"The {owner} declares the rule {name}, which exists already."))
        else:
            rules[name] = rule
    library = Library(SheetFiles(plugins.resins), SheetFiles(plugins.liners), SheetFiles(plugins.materials))
    return Shelf(plugins, compose(schemas), library, tuple(rules.values()), kinds, tuple(problems))


def beside(having: Shelf, recipe: Path, today: date) -> Shelf:
    """The shelf with the data sheets of the library that the recipe lies in, if it lies in one."""
    folder = find_library(recipe.parent)
    if folder is None:
        return having
    having = _without_off(having, folder)
    own, problems = read_sheets(folder, having.library.resins, today)
    if not own and not problems:
        return having
    resins = {**{name: having.library.resins[name] for name in having.library.resins}, **own}
    return replace(having, library=replace(having.library, resins=resins), problems=(*having.problems, *problems))


def _without_off(having: Shelf, folder: Path) -> Shelf:
    """The shelf without what ``library.yaml`` switches off."""
    owners = {name.partition("-")[2]: entry for name, entry in having.plugins.owners.items()}
    off, problems = switched_off(folder, owners)
    if not off and not problems:
        return having
    resins, liners, materials = (
        s.without(off) if isinstance(s, SheetFiles) else s
        for s in (having.library.resins, having.library.liners, having.library.materials)
    )
    kinds = {name: kind for name, kind in having.kinds.items() if name not in off}
    library = Library(resins, liners, materials, frozenset(off))
    return replace(having, library=library, kinds=kinds, off=off, problems=(*having.problems, *problems))


def _kindred(process: Process) -> Kindred:
    marks = frozenset({process.id, *process.marks, "any step"})

    def forecast(*given: Any) -> Any:
        return resolve(process.forecast)(*given)  # imported late: listing and explaining never load numpy

    return Kindred(process.takes, process.yields, marks, forecast, process.setting, process.machine)


def _new_rules(added: tuple[Rule, ...], known: Mapping[str, Rule]) -> dict[str, Rule]:
    for rule in added:
        if rule.id in known:
            raise PluginError(f"it declares the rule {rule.id}, which exists already")
    return {rule.id: rule for rule in added}


def _problem(rule: str, message: str) -> Finding:
    return Finding(
        rule=rule,
        level=Level.ERROR,
        kind=Kind.OPEN,
        message=message,
        why="what it would have checked was not checked",
        do="upgrade or repair the plugin that holds it",
        absolute=True,
    )
