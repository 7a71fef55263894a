"""The page of a process, ``process.yaml``: what is done in it, and how it can hurt people.

Text alone: what to watch for, what keeps it away, and what to do when it does not. What can be computed or
asked is judged by the rules that a hazard names.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from recipes_core.bench import Bench, read_bench
from recipes_core.document import Document, read
from recipes_core.errors import DataError
from recipes_core.facts import Basis
from recipes_core.findings import Path
from recipes_core.provenance import nearest

if TYPE_CHECKING:
    from recipes_core.plugin_api import Process

FILE = "process.yaml"
FORMAT = "process/1"
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""Signal words, gravest first, as ANSI Z535.4-2007 defines them (published, quoted by a sign-standard FAQ): it
will, could, or could slightly hurt somebody; or it is about things alone."""
LEVELS = {1: "eliminate", 2: "engineer", 3: "arrange", 4: "wear"}
"""Kinds of control in their order of preference (published: an article that quotes ISO 12100)."""
LONGEST = 95
"""Characters of a caution with its signal word: two lines of the printed card (judgement)."""

_PAGE = ("format", "id", "name", "means", "takes", "hazards", "bench")
_HAZARD = ("hazard", "signal", "consequence", "controls", "monitor", "corrective", "basis", "source")
_MONITOR = ("watch", "how", "every", "who")


@dataclass(frozen=True)
class Control:
    """One thing that keeps a hazard away; ``level`` is a key of `LEVELS`."""

    level: int
    do: str


@dataclass(frozen=True)
class Monitor:
    """What is watched, how, how often, and by whom."""

    watch: str
    how: str
    every: str
    who: str


@dataclass(frozen=True)
class Hazard:
    """One way in which a step can hurt people or spoil things. ``rules`` are ids of the rules that watch it."""

    hazard: str
    signal: str
    consequence: str
    controls: tuple[Control, ...]
    monitor: Monitor
    corrective: str
    basis: Basis
    source: str
    rules: tuple[str, ...] = ()
    caution: str = ""
    """What is said before the step, signal word first: the hazard and how to avoid it. Empty where a hazard is
    met before anybody starts."""


@dataclass(frozen=True)
class ProcessPage:
    """A process as people read about it. ``takes`` and ``yields`` are forms of the work; empty for a tool's."""

    id: str
    name: str
    means: str
    takes: tuple[str, ...]
    yields: str
    hazards: tuple[Hazard, ...]
    bench: Bench


def process_page(process: Process) -> ProcessPage:
    """The page in the package of a process. Raises DataError where it is missing or says too little."""
    from importlib.resources import files

    name = f"{process.id}/{FILE}"
    try:
        source = files(process.package).joinpath(FILE).read_bytes()
    except OSError:
        raise DataError(f"process {process.id} has no {FILE}: how it can hurt people is not known") from None
    return read_page(read(source, name))


def hazards(process: Process) -> tuple[Hazard, ...]:
    """The hazards of a process, gravest first. Raises DataError as `process_page` does."""
    return process_page(process).hazards


def read_page(document: Document) -> ProcessPage:
    """The page in a document. Raises DataError, with its place, for what is missing, unknown or too long."""
    page = Page(document)
    data = page.group(document.data, (), _PAGE, ("yields",))
    if page.text(data, (), "format") != FORMAT:
        raise page.error(("format",), f"a process page has the format {FORMAT}")
    found = [page.hazard(item, ("hazards", at)) for at, item in enumerate(page.items(data, (), "hazards"))]
    return ProcessPage(
        page.text(data, (), "id"),
        page.text(data, (), "name"),
        page.text(data, (), "means"),
        page.texts(data, (), "takes"),
        page.text(data, (), "yields") if "yields" in data else "",
        tuple(sorted(found, key=lambda h: SIGNALS.index(h.signal))),
        read_bench(page, data["bench"], ("bench",)),
    )


@dataclass(frozen=True)
class Page:
    """Reads the values of one document and says where one of them is wrong (DataError)."""

    document: Document

    def error(self, path: Path, sentence: str) -> DataError:
        """What is wrong at a place."""
        return DataError(sentence, self.document.span(path), self.document.name)

    def group(self, data: object, path: Path, needed: tuple[str, ...], may: tuple[str, ...] = ()) -> Mapping[str, Any]:
        """A mapping with all keys of ``needed`` and none but these and ``may``."""
        if not isinstance(data, Mapping):
            raise self.error(path, f"{', '.join(needed)} belong here")
        for key in data:
            if key not in (*needed, *may):
                raise self.error((*path, key), f'"{key}" is not known here{nearest(key, (*needed, *may))}')
        for key in needed:
            if key not in data:
                raise self.error(path, f"{key} is missing here")
        return data

    def items(self, data: Mapping[str, Any], path: Path, key: str) -> list[Any]:
        """A list."""
        items = data[key]
        if not isinstance(items, list):
            raise self.error((*path, key), f"{key} is a list")
        return items

    def text(self, data: Mapping[str, Any], path: Path, key: str) -> str:
        """One line of text."""
        if not isinstance(data[key], str) or not data[key]:
            raise self.error((*path, key), f"{key} is one line of text")
        return str(data[key])

    def texts(self, data: Mapping[str, Any], path: Path, key: str) -> tuple[str, ...]:
        """A list of texts."""
        items = self.items(data, path, key)
        if not all(isinstance(item, str) and item for item in items):
            raise self.error((*path, key), f"{key} is a list of texts")
        return tuple(items)

    def choice(self, data: Mapping[str, Any], path: Path, key: str, choices: tuple[str, ...]) -> str:
        """One of some words."""
        if data[key] not in choices:
            raise self.error((*path, key), f"{key} is one of {', '.join(choices)}")
        return str(data[key])

    def hazard(self, item: object, path: Path) -> Hazard:
        """One hazard."""
        data = self.group(item, path, _HAZARD, ("caution", "rules"))
        signal = self.choice(data, path, "signal", SIGNALS)
        monitor = self.group(data["monitor"], (*path, "monitor"), _MONITOR)
        caution = f"{signal}: {self.text(data, path, 'caution')}" if "caution" in data else ""
        if len(caution) > LONGEST:
            raise self.error((*path, "caution"), f"{len(caution)} characters with its signal word; {LONGEST} fit")
        controls = [self.control(c, (*path, "controls", at)) for at, c in enumerate(self.items(data, path, "controls"))]
        if not any(control.level < max(LEVELS) for control in controls):
            raise self.error((*path, "controls"), "gloves and masks alone are no control")
        return Hazard(
            self.text(data, path, "hazard"),
            signal,
            self.text(data, path, "consequence"),
            tuple(sorted(controls, key=lambda c: c.level)),
            Monitor(*(self.text(monitor, (*path, "monitor"), key) for key in _MONITOR)),
            self.text(data, path, "corrective"),
            Basis(self.choice(data, path, "basis", tuple(Basis))),
            self.text(data, path, "source"),
            self.texts(data, path, "rules") if "rules" in data else (),
            caution,
        )

    def control(self, item: object, path: Path) -> Control:
        """One control."""
        data = self.group(item, path, ("level", "do"))
        return Control(int(self.choice(data, path, "level", tuple(map(str, LEVELS)))), self.text(data, path, "do"))
