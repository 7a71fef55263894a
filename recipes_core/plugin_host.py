"""Loads the installed plugins one at a time, each inside a guard.

A plugin that raises, calls ``sys.exit``, is too new, misspells a hook or claims a taken id becomes a finding
that names it; nothing of a plugin that failed is used, and the others still run. What cannot be contained
inside one process: a plugin that never returns, or that takes all memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from importlib import import_module
from types import ModuleType
from typing import Any

import pluggy

from recipes_core import __version__, hooks
from recipes_core.errors import PluginError, reason
from recipes_core.findings import Finding, Kind, Level
from recipes_core.installed import EntryPoint, entry_points
from recipes_core.plugin_api import API_VERSION, Process, Rule, SheetFile

NOT_LOADED = "plugin-not-loaded"
TAKEN_ID = "plugin-id-taken"

_OURS = "meltbook"
_HOOKS: Mapping[str, tuple[str, type]] = {
    "meltbook_resins": ("resin", SheetFile),
    "meltbook_liners": ("liner", SheetFile),
    "meltbook_materials": ("material", SheetFile),
    "meltbook_processes": ("process", Process),
    "meltbook_rules": ("rule", Rule),
}


class State(StrEnum):
    """Whether what a plugin declares is in use."""

    ON = "on"
    OFF = "off"
    BROKEN = "broken"


@dataclass(frozen=True)
class Described:
    """One installed plugin as ``meltbook plugins`` shows it; ``uses`` holds names such as ``resin-hdpe``."""

    entry: EntryPoint
    state: State
    uses: tuple[str, ...] = ()
    off: tuple[str, ...] = ()


@dataclass
class Plugins:
    """What the installed plugins declare, by id, and what kept any of it from being used.

    ``owners`` says, for a name such as ``process-weigh``, which plugin of which distribution declares it.
    """

    resins: dict[str, SheetFile] = field(default_factory=dict)
    liners: dict[str, SheetFile] = field(default_factory=dict)
    materials: dict[str, SheetFile] = field(default_factory=dict)
    processes: dict[str, Process] = field(default_factory=dict)
    rules: dict[str, Rule] = field(default_factory=dict)
    owners: dict[str, str] = field(default_factory=dict)
    problems: tuple[Finding, ...] = ()
    described: tuple[Described, ...] = ()

    def of_kind(self, kind: str) -> dict[str, Any]:
        """The declarations of one kind: ``resin``, ``liner``, ``material``, ``process`` or ``rule``."""
        kinds: dict[str, dict[str, Any]] = {
            "resin": self.resins,
            "liner": self.liners,
            "material": self.materials,
            "process": self.processes,
            "rule": self.rules,
        }
        return kinds[kind]


def load(off: frozenset[str] = frozenset()) -> Plugins:
    """Load every installed plugin except what ``off`` names.

    That is a plugin (``resins``) or one thing in it (``resin-hdpe``). What ships with meltbook comes first,
    so that no other plugin can take a shipped id; then the distributions by name. Never raises for what a
    plugin does: see ``problems``.
    """
    plugins = Plugins()
    for entry in sorted(entry_points(hooks.GROUP), key=lambda entry: (entry.distribution != _OURS, entry)):
        if entry.name in off:
            plugins.described += (Described(entry, State.OFF),)
            continue
        try:
            declared = list(_declared(import_module(entry.module)))
        except (Exception, SystemExit) as error:
            plugins.problems += (_not_loaded(entry, error),)
            plugins.described += (Described(entry, State.BROKEN),)
        else:
            _merge(plugins, entry, declared, off)
    return plugins


def resolve(reference: str) -> Any:
    """What the ``"module:name"`` of a declaration stands for. PluginError when it cannot be had."""
    module, _, name = reference.partition(":")
    try:
        return getattr(import_module(module), name)
    except (Exception, SystemExit) as error:
        raise PluginError(f"{reference} cannot be loaded: {reason(error)}.") from error


def _declared(module: ModuleType) -> Iterator[tuple[str, Any]]:
    """The kind and the record of everything a plugin declares, or the first error."""
    _check_version(module)
    # a manager of its own: nothing that one plugin leaves behind can reach another
    manager = pluggy.PluginManager(hooks.PROJECT)
    manager.add_hookspecs(hooks)
    manager.register(module)
    callers = manager.get_hookcallers(module)
    if not callers:
        raise PluginError("it registers nothing: no function of it is marked with @hookimpl")
    try:
        manager.check_pending()
    except pluggy.PluginValidationError:
        unknown = [caller for caller in callers if not caller.has_spec()]
        wanted = [c.name for c in unknown if not all(i.optionalhook for i in c.get_hookimpls())]
        raise PluginError(_misspelt(wanted[0])) from None
    for name, (kind, record) in _HOOKS.items():
        for implementation in getattr(manager.hook, name).get_hookimpls():
            # list: a hook written as a generator does not run before it is read
            for item in list(implementation.function()):
                if not isinstance(item, record):
                    raise PluginError(f"{name} returned {item!r}, which is no {record.__name__}")
                yield kind, item


def _check_version(module: ModuleType) -> None:
    match getattr(module, "MELTBOOK_API", None):
        case (int(major), int(minor)):
            pass
        case _:
            raise PluginError(f"it does not state MELTBOOK_API = {API_VERSION}, the plugin interface it is for")
    newer = major > API_VERSION[0] or (major == API_VERSION[0] and minor > API_VERSION[1])
    if newer or major < API_VERSION[0]:
        raise PluginError(
            f"it is for plugin interface {major}.{minor}, and meltbook {__version__} has "
            f"{API_VERSION[0]}.{API_VERSION[1]}: upgrade {'meltbook' if newer else 'the plugin'}"
        )


def _misspelt(name: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name, _HOOKS, n=1)
    return f"there is no hook {name}; " + (
        f"the nearest is {near[0]}" if near else f"the hooks are {', '.join(_HOOKS)}"
    )


def _merge(plugins: Plugins, entry: EntryPoint, declared: list[tuple[str, Any]], off: frozenset[str]) -> None:
    """Take what one plugin declares, except what is switched off or claimed already."""
    uses, left_off = [], []
    for kind, record in declared:
        name = f"{kind}-{record.id}"
        if name in off:
            left_off.append(name)
        elif name in plugins.owners:
            plugins.problems += (_taken(name, plugins.owners[name], str(entry)),)
        else:
            plugins.of_kind(kind)[record.id] = record
            plugins.owners[name] = str(entry)
            uses.append(name)
    plugins.described += (Described(entry, State.ON, tuple(uses), tuple(left_off)),)


def _not_loaded(entry: EntryPoint, error: BaseException) -> Finding:
    return _problem(
        NOT_LOADED,
        f"The {entry} could not be used: {reason(error)}.",
        f"upgrade or repair {entry.distribution}, or remove it if nobody here needs it",
    )


def _taken(name: str, first: str, second: str) -> Finding:
    return _problem(
        TAKEN_ID,
        f"Two plugins declare {name}: the {first} and the {second}. Only the first is used.",
        "remove or upgrade one of the two",
    )


def _problem(rule: str, message: str, do: str) -> Finding:
    """A check that did not run: open, and absolute because nothing may excuse it."""
    return Finding(
        rule=rule,
        level=Level.ERROR,
        kind=Kind.OPEN,
        message=message,
        why="what it would have checked was not checked",
        do=do,
        absolute=True,
    )
