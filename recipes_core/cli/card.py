"""``meltbook card``: one recipe as a sheet of paper for the bench."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from recipes_core.cli.answer import give, same_file
from recipes_core.errors import UsageError

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.forecast import Walk
    from recipes_core.report.card.content import Card
    from recipes_core.report.plots import Drawing
    from recipes_core.rules.verdict import Verdict

FORMS = (".html", ".pdf", ".txt")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of this command."""
    parser.add_argument("recipe", metavar="FILE", help="a recipe")
    parser.add_argument("-o", "--output", metavar="FILE", help="where to write it: .html, .pdf or .txt (text, shown)")
    parser.add_argument("--paper", choices=("a4", "letter"), default="a4", help="the paper it is printed on (a4)")
    parser.add_argument("--pictures", action="store_true", help="with what the plastic does, on sheets of their own")
    parser.add_argument("--large", action="store_true", help="large print, on as many pages as it takes")


def run(arguments: argparse.Namespace) -> int:
    """Write the card; the exit status is that of the recipe's judgement."""
    from recipes_core.cli.progress import progress

    form = _form(arguments)
    made, verdict, walked = _judged(arguments.recipe, form == ".pdf" and not arguments.pictures)
    if form == ".txt":
        from recipes_core.report.card import text

        written: str | bytes = text.render(made)
    else:
        from recipes_core.report.card.page import LARGE, NORMAL, render

        pictures = _drawn(walked, verdict) if arguments.pictures and walked else ()
        written = render(made, arguments.paper, LARGE if arguments.large else NORMAL, pictures)
        if form == ".pdf":
            from recipes_core.report.card.paper import pdf

            progress("setting the pages of the PDF")
            written = pdf(written)
        progress("")
    give(written, arguments.output)
    if arguments.output and verdict.exit_status:
        print(f"{verdict.words}: the card says so on every page, and holds nothing to set a machine by")
    return verdict.exit_status


def _form(arguments: argparse.Namespace) -> str:
    """The ending of the file to write. UsageError for what cannot be written."""
    form = Path(arguments.output).suffix.lower() if arguments.output else ".txt"
    if form not in FORMS:
        raise UsageError(f"a card is written as {', '.join(FORMS)}; {arguments.output} ends in none of them")
    if arguments.output and same_file(arguments.output, arguments.recipe):
        raise UsageError(f"the card would be written over the recipe {arguments.recipe}: name another file")
    if form == ".txt" and (arguments.pictures or arguments.large):
        what = "pictures go" if arguments.pictures else "large print goes"
        raise UsageError(f"{what} onto a card that is written as .html or .pdf: name such a file with -o")
    return form


def _judged(recipe: str, apart: bool) -> tuple[Card, Verdict, Walk | None]:
    """The card, its recipe's verdict, and the forecast.

    ``apart``: without the forecast, and judged on another core while that which makes a PDF is imported on this one.
    """
    from recipes_core.app import card

    if apart:
        from recipes_core.cli.cores import beside
        from recipes_core.report.card.paper import prepare

        return (*beside(lambda: _alone(card(recipe, date.today())), prepare), None)
    made, linted, walked = card(recipe, date.today())
    return made, linted.verdict, walked


def _alone(told: tuple[Card, Linted, Walk]) -> tuple[Card, Verdict]:
    """What one process can hand to another."""
    return told[0], told[1].verdict


def _drawn(walked: Walk, verdict: Verdict) -> Iterator[Drawing]:
    """The pictures one by one, each named on a terminal once it is drawn."""
    from recipes_core.cli.progress import progress
    from recipes_core.report.plots import drawings

    for drawing in drawings(walked, verdict):
        progress(f"drawn: {drawing.title}")
        yield drawing
