"""README.md shows what really comes out: a finding on a broken copy of the coat hook, and a step of a card.

``python tests/test_readme.py`` writes both into README.md again.
"""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from recipes_core.app import card, lint_document
from recipes_core.document import read
from recipes_core.report import text
from recipes_core.report.card.text import render as plain
from recipes_core.rules.verdict import Verdict
from recipes_core.shelf import shelf

ROOT = Path(__file__).parent.parent
BREAK = {
    "at_least: 20 min": "at_least: 12 min",
    "tray: {length: 180 mm": "tray: {length: 120 mm",
    "layers: 3": "layers: 2",
}
README = ROOT / "README.md"
TODAY = date(2026, 11, 25)


def broken() -> str:
    """The coat hook with a deeper layer that comes out of the oven too early."""
    source = (ROOT / "tests/recipes/coat-hook.yaml").read_text("utf-8")
    for old, new in BREAK.items():
        assert source.count(old) == 1
        source = source.replace(old, new)
    return source


def test_the_coat_hook_lints_as_its_page_says() -> None:
    """Without its bend it ends in nothing worse than "try with care", and for reasons a reader agrees with."""
    source = (ROOT / "tests/recipes/coat-hook.yaml").read_text("utf-8")
    linted = lint_document(read(source, "coat-hook.yaml"), TODAY, shelf())
    assert linted.verdict is Verdict.WITH_CARE
    found = {f.rule for f in linted.findings if f.level != "note" and f.kind == "fail"}
    assert found == {"opened-warm"}
    assert not any(f.absolute for f in linted.findings)


def finding() -> str:
    """What README.md is to show: the first finding, and the verdict."""
    linted = lint_document(read(broken(), "coat-hook.yaml"), TODAY, shelf())
    first = text.render([linted]).split("\n\n")[1]
    return f"```text\ncoat-hook.yaml\n\n{first}\n\n{text.summary(linted)}\n```"


def test_the_finding_in_the_readme_is_real() -> None:
    """Made anew, it is the same to the letter."""
    made = finding()
    assert "melt-cut-short" in made
    assert made in README.read_text("utf-8")


def step() -> str:
    """What README.md is to show of a card: the first step in the heat."""
    made, *_ = card(ROOT / "recipes/hdpe/coat-hook.yaml", TODAY)
    lines = plain(made).split("=" * 80 + "\n")[2].split("\n\n")
    return f"```text\n{lines[0]}\n\n{lines[1]}\n```"


def test_the_step_in_the_readme_is_real() -> None:
    """Made anew, it is the same to the letter."""
    made = step()
    assert "SET DIAL" in made
    assert made in README.read_text("utf-8")


if __name__ == "__main__":
    made = iter((finding(), step()))
    page = README.read_text("utf-8")
    README.write_text(re.sub(r"```text\n.*?```", lambda _: next(made), page, count=2, flags=re.DOTALL), "utf-8")
