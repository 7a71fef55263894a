"""``meltbook lint``: judge recipes, and say what stands against them."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from recipes_core.errors import UsageError

if TYPE_CHECKING:
    from recipes_core.app import Linted


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument("paths", nargs="+", metavar="FILE", help="a recipe, or a folder of recipes")
    parser.add_argument("--format", choices=("text", "json"), default="text", help="how to report (text)")
    parser.add_argument("-o", "--output", metavar="FILE", help="write the report to this file instead")
    parser.epilog = (
        "Exit status: 0 nothing found, or to be tried with care; 1 do not try; 2 cannot be read; "
        "3 do not try yet, as something was not or could not be checked."
    )


def run(arguments: argparse.Namespace) -> int:
    """Judge, report, and return the exit status."""
    from recipes_core.app import lint
    from recipes_core.cli.cores import on_all_cores
    from recipes_core.report import data, text
    from recipes_core.rules.verdict import exit_status

    if arguments.output and any(_same(arguments.output, path) for path in arguments.paths):
        raise UsageError(f"the report would be written over the recipe {arguments.output}: name another file")
    linted = [_told(item) for item in lint(arguments.paths, date.today(), each=on_all_cores)]
    _told(None)
    report = (data if arguments.format == "json" else text).render(linted)
    if arguments.output:
        from recipes_core.write import write_whole

        write_whole(arguments.output, report)
    else:
        sys.stdout.write(report)
    return exit_status(item.verdict for item in linted)


def _same(one: str, other: str) -> bool:
    return Path(one).resolve() == Path(other).resolve()


def _told(item: Linted | None) -> Any:
    """Show on a terminal, and only there, which file was just judged; None wipes the line."""
    if sys.stderr.isatty():
        from recipes_core.report.text import printable

        line = f"judged {printable(item.file)}" if item else ""
        print(f"\r\x1b[K{line[:78]}", end="", file=sys.stderr, flush=True)
    return item
