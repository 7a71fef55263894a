"""``meltbook explain``: a rule, a process, a data sheet or one value of it, or a field of a recipe, in plain words."""

from __future__ import annotations

import argparse
import sys


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument(
        "name",
        nargs="*",
        metavar="NAME",
        help="a rule (melt-cut-short), a process (flake-melt), a sheet (hdpe), a value of it (hdpe melting peak), or a "
        "field of a recipe (equipment.oven.cord); nothing lists all rules",
    )
    parser.add_argument("--all", action="store_true", help="every rule in full, process by process")


def run(arguments: argparse.Namespace) -> int:
    """Print the explanation; UsageError with near names for a name that nothing goes by."""
    from recipes_core.explain import explain
    from recipes_core.shelf import shelf

    if arguments.all:
        from recipes_core.rule_book import rule_book

        sys.stdout.write(rule_book(shelf()))
        return 0
    sys.stdout.write(explain(shelf(), " ".join(arguments.name)))
    return 0
