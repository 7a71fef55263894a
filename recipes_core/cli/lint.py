"""``meltbook lint``: judge recipes, and say what stands against them."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING

from recipes_core.cli.answer import give, same_file
from recipes_core.errors import UsageError

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.rules.rule import Rule

FORMATS = ("text", "json", "sarif", "junit")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument("paths", nargs="+", metavar="FILE", help="a recipe, or a folder of recipes")
    parser.add_argument("--format", choices=FORMATS, default="text", help="how to report (text)")
    parser.add_argument("-o", "--output", metavar="FILE", help="write the report to this file instead")
    parser.add_argument(
        "--fix", action="store_true",
        help="first mend the recipes where that is certain: how units are spelt, and slips in keys; shows each change",
    )  # fmt: skip
    parser.epilog = (
        "Exit status: 0 nothing found, or to be tried with care; 1 do not try; 2 cannot be read; "
        "3 do not try yet, as something was not or could not be checked."
    )


def run(arguments: argparse.Namespace) -> int:
    """Judge, report, and return the exit status."""
    from recipes_core.app import lint, recipe_files
    from recipes_core.cli.cores import on_all_cores
    from recipes_core.cli.progress import progress
    from recipes_core.rules.verdict import exit_status
    from recipes_core.shelf import shelf

    files = list(recipe_files(arguments.paths))
    if arguments.output and any(same_file(arguments.output, file) for file in files):
        raise UsageError(f"the report would be written over the recipe {arguments.output}: name another file")
    having = shelf()
    if arguments.fix:
        from recipes_core.cli.mending import mend_files

        mend_files(files, having.schemas)
    judged = lint(files, date.today(), having, on_all_cores)
    linted = []
    for item in judged:
        linted.append(item)
        progress(f"judged {len(linted)} of {len(files)}: {item.file}" if len(files) > 1 else "")
    progress("")
    report = _report(arguments, linted, having.rules)
    give(report, arguments.output)
    return exit_status(item.verdict for item in linted)


def _report(arguments: argparse.Namespace, linted: Iterable[Linted], rules: Iterable[Rule]) -> str:
    """The report in the format asked for; no other is imported."""
    if arguments.format == "json":
        from recipes_core.report import data

        return data.render(linted)
    if arguments.format == "sarif":
        from recipes_core.report import sarif

        return sarif.render(linted, rules)
    if arguments.format == "junit":
        from recipes_core.report import junit

        return junit.render(linted)
    from recipes_core.report import text
    from recipes_core.report.page import page_of

    return text.render(linted, text.PIPE if arguments.output else page_of(sys.stdout, os.environ))
