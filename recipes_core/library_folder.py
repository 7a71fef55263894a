"""A library folder holds ``library.yaml`` and may hold data sheets of its own: data alone, never code."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from recipes_core.document import read_file
from recipes_core.errors import DataError
from recipes_core.findings import Finding, Kind, Level, Span
from recipes_core.provenance import nearest
from recipes_core.sheets import Sheet, load_sheet
from recipes_core.sheets.tighten import tightened

MARK = "library.yaml"
FOLDER = "resins"
NOT_READ = "sheet-not-read"
TAKEN_ID = "sheet-id-taken"
LIBRARY_NOT_READ = "library-not-read"
MOST = 200


def find_library(path: Path) -> Path | None:
    """The nearest folder, from ``path`` upwards, that holds ``library.yaml``; None where there is none."""
    real = path.resolve()
    return next((folder for folder in (real, *real.parents) if (folder / MARK).is_file()), None)


def sheet_files(library: Path) -> tuple[list[Path], list[Finding]]:
    """The sheets ``resins/*.yaml`` of a library by name, and a problem for each that may not be read.

    A file must lie inside the library, links followed; of more than 200 the rest is left out.
    """
    found = sorted((library / FOLDER).glob("*.yaml"))
    good, problems = [], []
    for file in found[:MOST]:
        refusal = _refusal(file, library)
        if refusal:
            problems.append(_problem(NOT_READ, file, refusal))
        else:
            good.append(file)
    if len(found) > MOST:
        problems.append(_problem(NOT_READ, found[MOST], f"a library may hold {MOST} sheets, and here are {len(found)}"))
    return good, problems


def read_sheets(library: Path, taken: Mapping[str, Sheet], today: date) -> tuple[dict[str, Sheet], tuple[Finding, ...]]:
    """The library's own resins by id, the shipped ones that it tightens, and what is wrong with any of them.

    Nobody has tested a dropped-in sheet, so one with any mistake in it is not used. ``taken`` are the sheets
    that plugins declare, by id; a sheet that claims one of them, or that of another sheet, is not used either: what
    a recipe meant by that name would depend on the folder it lies in.
    """
    files, problems = sheet_files(library)
    owners = dict.fromkeys(taken, "an installed plugin")
    sheets: dict[str, Sheet] = {}
    for file in files:
        try:
            sheet = load_sheet(read_file(file))
            for mistake in sheet.problems(today):
                raise mistake
        except DataError as error:
            problems.append(_problem(NOT_READ, file, error.sentence, error.span))
            continue
        if sheet.tightens:
            if sheet.tightens in taken:
                sheets[sheet.tightens] = tightened(sheets.get(sheet.tightens, taken[sheet.tightens]), sheet)
            else:
                wrong = f"it tightens {sheet.tightens}, and no plugin has a sheet of that name"
                problems.append(_problem(NOT_READ, file, wrong))
        elif sheet.id in owners:
            problems.append(_problem(TAKEN_ID, file, f"the id {sheet.id} is that of {owners[sheet.id]}"))
        else:
            sheets[sheet.id] = sheet
            owners[sheet.id] = file.name
    return sheets, tuple(problems)


def switched_off(library: Path, owners: Mapping[str, str]) -> tuple[dict[str, str], tuple[Finding, ...]]:
    """What ``off`` in ``library.yaml`` switches off, each id with the plugin it belongs to, and what is wrong there.

    ``owners`` gives the plugin of each id that can be switched off: a resin, a liner, a material, a process.
    """
    file = library / MARK
    try:
        document = read_file(file)
    except DataError as error:
        return {}, (_unread(file, error.sentence, error.span),)
    names = document.data.get("off", []) if isinstance(document.data, Mapping) else []
    if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
        return {}, (_unread(file, "off holds a list of ids, such as off: [pp]", document.span(("off",))),)
    problems = [
        _unread(file, f"nothing goes by the name {name}{nearest(name, owners)}", document.span(("off", at)))
        for at, name in enumerate(names)
        if name not in owners
    ]
    return {name: owners[name] for name in names if name in owners}, tuple(problems)


def _unread(file: Path, sentence: str, span: Span | None) -> Finding:
    return Finding(
        rule=LIBRARY_NOT_READ,
        level=Level.ERROR,
        kind=Kind.OPEN,
        message=f"{MARK} of the library: {sentence}.",
        file=file.as_posix(),
        span=span,
        why="what the library switches off is not known",
        do=f"repair {MARK}",
        absolute=True,
    )


def _refusal(file: Path, library: Path) -> str:
    """Why a file is not to be read, or an empty text."""
    if not file.resolve().is_relative_to(library.resolve()):
        return "it is a link that leads out of the library"
    if not file.is_file():
        return "it is no ordinary file"
    return ""


def _problem(rule: str, file: Path, reason: str, span: Span | None = None) -> Finding:
    """A sheet that is not used: what it says was not checked, so the recipe was not fully checked."""
    return Finding(
        rule=rule,
        level=Level.ERROR,
        kind=Kind.OPEN,
        message=f"The sheet {file.name} of the library is not used: {reason}.",
        file=file.as_posix(),
        span=span,
        why="what the sheet says was not checked against the recipe",
        do="repair the sheet, or take it out of the folder",
        absolute=True,
    )
