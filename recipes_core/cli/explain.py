"""``meltbook explain``: a rule, a process, a data sheet, or one value of a sheet, in plain words."""

from __future__ import annotations

import argparse
import sys


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument(
        "name",
        nargs="*",
        metavar="NAME",
        help="a rule (melt-cut-short), a process (flake-melt), a sheet (hdpe) or a value of it (hdpe melting peak); "
        "nothing lists all rules",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the explanation; UsageError with near names for a name that nothing goes by."""
    from recipes_core.explain import explain
    from recipes_core.shelf import shelf

    sys.stdout.write(explain(shelf(), " ".join(arguments.name)))
    return 0
