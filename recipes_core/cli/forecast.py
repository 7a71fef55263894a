"""``meltbook forecast``: what the recipe does to the plastic, step by step, and what that rests on."""

from __future__ import annotations

import argparse
from datetime import date

from recipes_core.cli.answer import give


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument("recipe", metavar="FILE", help="a recipe")
    parser.add_argument("--format", choices=("text", "json"), default="text", help="how to report (text)")
    parser.add_argument("-o", "--output", metavar="FILE", help="write the forecast to this file instead")


def run(arguments: argparse.Namespace) -> int:
    """Compute and report; 0, or 3 where a forecast did not run."""
    from recipes_core.app import cautions, forecast
    from recipes_core.report import forecast as report
    from recipes_core.shelf import shelf

    having = shelf()
    walked, verdict = forecast(arguments.recipe, date.today(), having)
    if arguments.format == "json":
        text = report.render_json(walked, verdict)
    else:
        text = report.render(walked, verdict, cautions(having))
    give(text, arguments.output)
    return 3 if walked.problems else 0
