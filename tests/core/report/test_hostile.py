"""Hostile text in every field of a recipe is text in every report: nothing acts on whoever reads it."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree

import pytest

from recipes_core.app import Linted, lint_document, lint_file
from recipes_core.document import Document, DocumentError, read
from recipes_core.report import data, junit, sarif, text
from recipes_core.report.page import Page

if TYPE_CHECKING:
    from recipes_core.shelf import Shelf

COAT_HOOK = (Path(__file__).parents[2] / "recipes" / "coat-hook.yaml").read_text("utf-8")
TODAY = date(2026, 11, 25)
MARKUP = "<script>alert(1)</script></style>]]>&amp;{0}[a](b)"
ESCAPES = r"\e[31m\x9b2J\a\0\u202E\u2066\u2028\u200b\ufeff\nFORGED LINE\r"
"""As YAML writes them within double quotes; reading refuses them."""
LET_THROUGH = r"\nFORGED LINE\u200b\u00ad\U000E0041\U000E0042" + MARKUP
"""What reading takes as text: a line break, and characters that nobody sees."""


def every_value(document: Document, hostile: str) -> str:
    """The recipe with each value but those that a step is found by in hostile words."""
    kept = {"format", "process", "id"}
    lines = COAT_HOOK.split("\n")
    for path, entry in sorted(document.spans.items(), key=lambda pair: pair[1].value, reverse=True):
        at = entry.value
        if entry.plain and at.line == at.end_line and not kept & set(path[-1:]):
            line = lines[at.line - 1]
            lines[at.line - 1] = f'{line[: at.column - 1]}"{hostile}"{line[at.end_column - 1 :]}'
    return "\n".join(lines)


def free_text(hostile: str) -> str:
    """The recipe with hostile words where anything may be said: titles, names, ends of steps, keys of one's own."""
    free = re.compile(r"(title: )[^\n]+|(until: )[^,}\n]+")
    changed = free.sub(lambda said: f'{said[1] or said[2]}"{hostile}"', COAT_HOOK)
    named = changed.replace("- resin: hdpe", f'- lot: "{hostile}"\n      resin: "{hostile}"')
    return f'{named}\nx-note: "{hostile}"\n"x-<script>": a\n"<script>\'": b\n'


def hostile_recipes() -> Iterator[tuple[str, str]]:
    """Each way of being hostile, by name."""
    document = read(COAT_HOOK)
    for name, words in (("markup", MARKUP), ("escapes", ESCAPES), ("unseen", LET_THROUGH)):
        yield f"{name} in every value", every_value(document, words)
        yield f"{name} in free text", free_text(words)
    yield "raw characters", COAT_HOOK.replace("title: ", "title: \x1b[31m\x9b\u202e\x00")
    yield "an id in capitals", COAT_HOOK.replace("id: melt", f'id: "{MARKUP}{ESCAPES}"')


RECIPES = dict(hostile_recipes())


@pytest.fixture(scope="module", params=sorted(RECIPES))
def judged(request: pytest.FixtureRequest, stock: Shelf, tmp_path_factory: pytest.TempPathFactory) -> Linted:
    """A hostile recipe, judged."""
    file = tmp_path_factory.mktemp("hostile") / "a<script>\x1b[31m\u202e.yaml"
    file.write_text(RECIPES[request.param], "utf-8")
    return lint_file(file, TODAY, stock)


def strings(value: Any) -> Iterator[str]:
    """Every text in JSON data, keys too."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        yield from strings([*value, *value.values()])
    elif isinstance(value, list):
        for item in value:
            yield from strings(item)


def test_something_is_found(judged: Linted) -> None:
    """The recipes are hostile enough to be reported on."""
    assert judged.findings


@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit"])
def test_every_report_shows_it(judged: Linted, form: str, stock: Shelf) -> None:
    """Printable characters and line ends alone, and no line of its own."""
    renders: dict[str, Callable[[], str]] = {
        "text": lambda: text.render([judged]),
        "json": lambda: data.render([judged]),
        "sarif": lambda: sarif.render([judged], stock.rules),
        "junit": lambda: junit.render([judged]),
    }
    shown = renders[form]()
    assert all(c.isprintable() or c == "\n" for c in shown)
    assert not any(line.strip().startswith("FORGED LINE") for line in shown.split("\n"))
    shown.encode("utf-8")


def test_what_viewers_of_sarif_show(judged: Linted, stock: Shelf) -> None:
    """Parsed, too, no text holds what cannot be seen; line ends and tabs of a snippet apart."""
    log = json.loads(sarif.render([judged], stock.rules))
    for said in strings(log["runs"][0]["results"]):
        assert all(c.isprintable() or c in "\r\n\t" for c in said)
    for result in log["runs"][0]["results"]:
        message = result["message"]["text"]
        assert not re.search(r"(?<!\{)(?:\{\{)*\{[0-9]+\}(?!\})", message)
        assert not re.search(r"(?<!\\)\]\(", message)


def test_what_viewers_of_junit_show(judged: Linted) -> None:
    """Parsed, too, and markup is no element."""
    root = ElementTree.fromstring(junit.render([judged]))
    for element in root.iter():
        assert element.tag in {"testsuites", "testsuite", "properties", "property", "testcase", "failure", "error",
                               "skipped", "system-out"}  # fmt: skip
        for said in (element.text or "", *element.attrib.values()):
            assert all(c.isprintable() or c == "\n" for c in said)


def test_a_coloured_terminal(judged: Linted) -> None:
    """Has no escapes but ours."""
    shown = text.render([judged], Page(80, colour=True, terminal=True))
    assert set(re.findall("\x1b[^m]*m", shown)) <= {"\x1b[1m", "\x1b[0m", "\x1b[31;1m", "\x1b[35;1m"}


def test_the_words_are_still_there(stock: Shelf) -> None:
    """Shown, not swallowed: a person sees what the author wrote."""
    item = lint_document(read(RECIPES["markup in every value"], "a.yaml"), TODAY, stock)
    assert "<script>alert(1)</script>" in text.render([item])
    assert "<script>alert(1)</script>" in sarif.render([item], stock.rules)
    root = ElementTree.fromstring(junit.render([item]))
    assert any("<script>alert(1)</script>" in (e.get("message") or "") for e in root.iter())


@pytest.mark.parametrize("name", RECIPES)
def test_what_reading_lets_through(name: str) -> None:
    """Both what is refused and what is read is tried above: a NUL never gets further, a space of no width does."""
    words = name.partition(" ")[0]
    if words in ("escapes", "raw", "an"):
        with pytest.raises(DocumentError, match="U\\+001B"):
            read(RECIPES[name])
    else:
        assert read(RECIPES[name]).data["header"]["title"].endswith(MARKUP)
