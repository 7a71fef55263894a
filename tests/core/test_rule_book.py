"""The page of all rules is what the command prints, and every rule stands in it once.

``python tests/core/test_rule_book.py`` writes ``recipes/RULES.md`` again.
"""

from __future__ import annotations

from pathlib import Path

from recipes_core.rule_book import rule_book
from recipes_core.shelf import shelf

PAGE = Path(__file__).resolve().parents[2] / "recipes" / "RULES.md"


def test_the_page_is_what_the_command_prints() -> None:
    """Made anew, it is the same to the letter."""
    assert PAGE.read_text("utf-8") == rule_book(shelf()), "run: python tests/core/test_rule_book.py"


def test_every_rule_stands_in_it_once() -> None:
    """Under one heading, with its message, its comparison, its cure and its sources."""
    text = rule_book(shelf())
    for rule in shelf().rules:
        assert text.count(f"### {rule.id} (") == 1
        block = " ".join(text.partition(f"### {rule.id} (")[2].partition("```\n")[0].split())
        for part in (rule.message, rule.checks, rule.why, rule.do, *(s.partition(": ")[2] or s for s in rule.sources)):
            assert " ".join(part.split()) in block


def test_every_process_has_a_heading_with_its_rules() -> None:
    """Its own in full; shared ones by name."""
    text = rule_book(shelf())
    for process in shelf().plugins.processes.values():
        assert f"## {process.id}: {process.name}\n" in text
    melt = text.partition("## flake-melt: ")[2].partition("\n## ")[0]
    assert "over-resin-cap" in melt


if __name__ == "__main__":
    PAGE.write_text(rule_book(shelf()), "utf-8")
