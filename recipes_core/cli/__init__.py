"""The command line: one small module a command, and none is imported before it is called."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from recipes_core import __version__
from recipes_core.errors import DataError, MeltbookError

COMMANDS = {
    "lint": "judge recipes and say what stands against them",
    "forecast": "compute what a recipe does to the plastic, step by step",
    "plot": "draw what a recipe does to the plastic, as pictures",
    "card": "print a recipe as a sheet of paper for the bench",
    "explain": "say what a rule, a process or a data sheet is about",
    "plugins": "list the installed plugins and what each of them declares",
}


def main(words: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status; ``words`` default to those the program was called with."""
    given = list(sys.argv[1:] if words is None else words)
    try:
        arguments = _parser(given).parse_args(given)
        status: int = arguments.run(arguments)
        sys.stdout.flush()
    except MeltbookError as error:
        from recipes_core.report.visible import printable

        print(f"meltbook: {printable(f'{_place(error)}{error}')}", file=sys.stderr)
        return error.exit_status
    except BrokenPipeError:
        # the reader (a pager, head) has left; without this Python complains once more when it closes stdout
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    return status


def _place(error: MeltbookError) -> str:
    if not isinstance(error, DataError) or error.span is None:
        return ""
    return f"{error.file}, line {error.span.line}: "


def _parser(given: list[str]) -> argparse.ArgumentParser:
    """The parser; only the command that was named is imported, to add its own arguments."""
    parser = argparse.ArgumentParser(prog="meltbook", description="Judge recipes for scrap thermoplastic.")
    parser.add_argument("--version", action="version", version=f"meltbook {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    named = next((word for word in given if not word.startswith("-")), None)
    for name, summary in COMMANDS.items():
        command = commands.add_parser(name, help=summary, description=f"{summary[0].upper()}{summary[1:]}.")
        if name == named:
            module = import_module(f"recipes_core.cli.{name}")
            module.add_arguments(command)
            command.set_defaults(run=module.run)
    return parser
