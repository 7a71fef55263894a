"""``meltbook plot``: pictures of what the plastic does, one file each."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from recipes_core.errors import UsageError

if TYPE_CHECKING:
    from recipes_core.forecast import Walk


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument("recipe", metavar="FILE", help="a recipe")
    parser.add_argument("--format", choices=("svg", "png"), default="svg", help="how to draw (svg)")
    parser.add_argument("--step", metavar="ID", help="only the pictures of this step")
    parser.add_argument("-o", "--output", metavar="FOLDER", default=".", help="where the pictures go (this folder)")
    parser.epilog = "Exit status: 0; 2 cannot be read or drawn; 3 where a forecast or its curves could not be made."


def run(arguments: argparse.Namespace) -> int:
    """Draw, write, and name each picture with what it shows; 0, or 3 where something could not be made."""
    from recipes_core.app import forecast
    from recipes_core.report.forecast import untried
    from recipes_core.report.plots import drawings
    from recipes_core.report.visible import printable
    from recipes_core.write import write_whole

    walked, verdict = forecast(arguments.recipe, date.today())
    _refuse(walked, arguments.step)
    if warning := untried(verdict):
        sys.stdout.write(f"{warning}\n")
    whole = not walked.problems
    for problem in walked.problems:
        sys.stdout.write(f"{printable(problem.message)}\n")
    for drawing in drawings(walked, verdict, arguments.format, arguments.step):
        whole = whole and not drawing.broken
        if drawing.image is None:
            sys.stdout.write(f"{drawing.words}\n")
            continue
        file = _folder(arguments.output) / f"{Path(arguments.recipe).stem}-{drawing.name}.{arguments.format}"
        write_whole(file, drawing.image)
        sys.stdout.write(f"{printable(str(file))}\n  {drawing.words}\n")
    return 0 if whole else 3


def _refuse(walked: Walk, step: str | None) -> None:
    """UsageError for a step that the recipe has not, with those that it has."""
    there = [case.step.id for case in walked.cases if case.step]
    if step is not None and step not in there:
        from recipes_core.report.visible import printable

        raise UsageError(printable(f"the recipe has no step {step}; it has {', '.join(there) or 'none'}"))


def _folder(name: str) -> Path:
    """The folder, made where it is not there."""
    folder = Path(name)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsageError(f"cannot make the folder {folder}: {error.strerror}") from error
    return folder
