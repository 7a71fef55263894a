"""``meltbook plugins``: what is installed, what it declares, and what could not be used."""

from __future__ import annotations

import argparse
from textwrap import indent, wrap

from recipes_core.errors import PluginError
from recipes_core.plugin_host import Described, load

_WIDTH = 96


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument(
        "--off",
        action="append",
        default=[],
        metavar="NAME",
        help="leave out a plugin (resins) or one thing in it (resin-hdpe); may be given again",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the list; the status is 0, or that of a plugin error when a plugin could not be used."""
    plugins = load(frozenset(arguments.off))
    for plugin in plugins.described:
        print(_shown(plugin))
    if not plugins.described:
        print("No plugin is installed, so no recipe can be judged. Install meltbook itself with pip.")
    for problem in plugins.problems:
        print(f"\n{problem.message}\n  do  {problem.do}")
    return PluginError.exit_status if plugins.problems or not plugins.described else 0


def _shown(plugin: Described) -> str:
    entry = plugin.entry
    lines = [f"{entry.name:12} {plugin.state:7} {entry.distribution} {entry.version}, module {entry.module}"]
    for word, names in (("", plugin.uses), ("off: ", plugin.off)):
        if names:
            text = "\n".join(wrap(word + ", ".join(names), _WIDTH, break_on_hyphens=False))
            lines.append(indent(text, " " * 13))
    return "\n".join(lines)
