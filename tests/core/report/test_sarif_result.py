"""One result: its region is the text it names, its fix mends the file, its URI leads to the file."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote_to_bytes

import pytest

from recipes_core.app import Linted, lint_document, lint_file
from recipes_core.document import read
from recipes_core.findings import Change, Finding, Span, Way
from recipes_core.report.sarif_result import said, sentence, told_result, uri
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from recipes_core.shelf import Shelf

    Linter = Callable[..., Linted]

TESTS = Path(__file__).parents[2]
TODAY = date(2026, 11, 25)
COAT_HOOK = (TESTS / "recipes" / "coat-hook.yaml").read_text("utf-8")


def told(item: Linted) -> list[dict[str, Any]]:
    """The results on one recipe; nobody asks for the places of rules."""
    return list(told_result(item, dict.fromkeys({f.rule for f in item.findings}, 0)))


def region_of(result: dict[str, Any]) -> Any:
    """Where the result stands."""
    return result["locations"][0]["physicalLocation"]["region"]


def offset(text: str, line: int, column: int) -> int:
    """Counted as the log says: lines end at CR LF, LF or CR, columns are code points from 1."""
    starts = [0, *(m.end() for m in re.finditer("\r\n|\n|\r", text))]
    return starts[line - 1] + column - 1


def cut(text: str, region: dict[str, int]) -> str:
    """The text of a region, its end column being exclusive."""
    start = offset(text, region["startLine"], region["startColumn"])
    return text[start : offset(text, region["endLine"], region["endColumn"])]


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize(
    ("old", "new", "rule", "literal"),
    [
        ("    at_least: 20 min", "    at_least: 12 min", "melt-cut-short", "12 min"),
        ("    at_least: 20 min", "    at_lest: 20 min", "key-not-known", "at_lest"),
        ("set: 177 °C", "set: 177 °X", "quantity-not-read", "°X"),  # in a group in braces, behind other degrees
        ("swing: 8 K, measured: {set: 177 °C", "swing: 8 K, measured: {set: 177 c", "quantity-not-read", "c"),
        ("colour: natural", "colour: 漢字 🔧 béige", "choice-not-known", "漢字 🔧 béige"),
        ("identified_by: [moulded mark,", "identified_by: [🔧 é, märk,", "choice-not-known", "märk"),
        ("use: [indoor fitting]", 'use: ["indöor fitting"', "syntax", ""),
    ],
)
def test_the_region_is_the_text(
    ends: str, old: str, new: str, rule: str, literal: str, stock: Shelf, tmp_path: Path
) -> None:
    """To the letter, whatever ends the lines and however wide a letter is."""
    assert COAT_HOOK.count(old) == 1
    file = tmp_path / "a.yaml"
    text = COAT_HOOK.replace(old, new).replace("\n", ends)
    file.write_bytes(b"\xef\xbb\xbf" + text.encode())  # the mark is no character of the text
    found = [r for r in told(lint_file(file, TODAY, stock)) if r["ruleId"] == rule]
    assert literal in [cut(text, region_of(r)) for r in found] or (found and not literal)
    for r in told(lint_file(file, TODAY, stock)):
        region = r["locations"][0]["physicalLocation"].get("region")
        if region and "\r" not in cut(text, region).replace("\r\n", ""):  # it alone would overwrite a line when shown
            assert region["snippet"]["text"] == cut(text, region)


def test_a_byte_order_mark_is_no_character(stock: Shelf, tmp_path: Path) -> None:
    """In a file that is refused for something on its first line, too."""
    file = tmp_path / "a.yaml"
    file.write_bytes(b"\xef\xbb\xbfformat:\trecipe/1\n")
    (result,) = told(lint_file(file, TODAY, stock))
    assert region_of(result) == {
        "startLine": 1, "startColumn": 8, "endLine": 1, "endColumn": 9, "snippet": {"text": "\t"},
    }  # fmt: skip


def test_a_region_over_several_lines(stock: Shelf) -> None:
    """From the first letter of a step to its last."""
    text = COAT_HOOK.replace("\n", "\r\n")
    item = lint_document(read(text, "a.yaml"), TODAY, stock)
    (start, end) = (text.index("resin: hdpe"), text.index("\r\n  charge:"))
    regions = [r["locations"][0]["physicalLocation"].get("region", {}) for r in told(item)]
    assert text[start:end] in [region["snippet"]["text"] for region in regions if region]


def test_what_cannot_be_shown_is_left_out(stock: Shelf, tmp_path: Path) -> None:
    """The message names the character; a viewer gets no text that would colour its terminal."""
    file = tmp_path / "a.yaml"
    file.write_text("format: recipe/1\nnote: a\x1b[31mb\n", "utf-8")
    (result,) = told(lint_file(file, TODAY, stock))
    assert region_of(result) == {"startLine": 2, "startColumn": 8, "endLine": 2, "endColumn": 9}
    assert "U+001B" in result["message"]["text"]


def test_a_place_beyond_the_text(linted: Linter, full_finding: Finding) -> None:
    """A file that was cut for its length is reported all the same."""
    (result,) = told(linted(replace(full_finding, span=Span(900, 1, 900, 2))))
    assert region_of(result)["startLine"] == 900
    assert "snippet" not in region_of(result)


def mended(text: str, fix: dict[str, Any]) -> str:
    """The text with a fix applied, from its end to its start."""
    (change,) = fix["artifactChanges"]
    for replacement in reversed(change["replacements"]):
        region = replacement["deletedRegion"]
        start = offset(text, region["startLine"], region["startColumn"])
        end = offset(text, region["endLine"], region["endColumn"])
        text = text[:start] + replacement["insertedContent"]["text"] + text[end:]
    return text


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ("    at_least: 20 min", "    at_least: 12 min", "melt-cut-short"),
        ("    at_least: 20 min", "    at_lest: 20 min", "key-not-known"),
        ("set: 177 °C", "set: 177 c", "quantity-not-read"),
        ("colour: natural", "colour: 'Natural'", "choice-not-known"),
        ("use: [indoor fitting]", "use: indoor fitting", "wrong-shape"),
        ("process: fold", "process: folds", "process-not-known"),
        ("format: recipe/1", "format: recipe", "format-not-read"),
    ],
)
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_every_fix_removes_its_finding(old: str, new: str, rule: str, ends: str, stock: Shelf) -> None:
    """Applied as the standard says, and nothing else of the file changes."""
    text = COAT_HOOK.replace(old, new).replace("\n", ends)
    item = lint_document(read(text, "a.yaml"), TODAY, stock)
    results = [r for r in told(item) if r["ruleId"] == rule]
    assert any("fixes" in r for r in results)
    for r in results:
        for fix in r.get("fixes", ()):
            after = lint_document(read(mended(text, fix), "a.yaml"), TODAY, stock)
            place = r["locations"][0]["logicalLocations"]
            still = [t for t in told(after) if t["ruleId"] == rule and t["locations"][0]["logicalLocations"] == place]
            assert not still
            assert fix["description"]["text"]


def test_a_way_that_is_no_stretch_of_text_is_no_fix(linted: Linter, full_finding: Finding) -> None:
    """Not even in part."""
    good = Change(("procedure", 0, "oven"), "240 °C")
    for bad in (Change(("procedure", 0, "new"), "x"), Change(("procedure", 0, "at_least"), "a: b")):
        (result,) = told(linted(replace(full_finding, advice=(Way("x", (good, bad)), Way("y", (good,))))))
        assert [fix["description"]["text"] for fix in result["fixes"]] == ["y"]
    (result,) = told(linted(replace(full_finding, advice=(Way("x", (bad,)),))))
    assert "fixes" not in result
    (result,) = told(Linted("a.yaml", "a: [", (full_finding,), Verdict.UNUSABLE))
    assert "fixes" not in result


def test_what_a_person_reads(linted: Linter, full_finding: Finding) -> None:
    """What is wrong, by how much, and what to do; the rest beside it."""
    (result,) = told(linted(full_finding))
    assert result["message"]["text"] == (
        "It is too hot. Found: 250 °C (482 °F), 10 K (18 °F) too much. Limit: 240 °C (464 °F) at most."
        " To do: set it lower."
    )
    (short,) = told(linted(replace(full_finding, limit="21 min (17 min to 26 min in nine of ten plausible shops)")))
    assert " Needed: 21 min (17 min to 26 min in nine of ten plausible shops). " in short["message"]["text"]
    assert result["properties"] == {
        "level": "error",
        "absolute": True,
        "found": "250 °C (482 °F)",
        "limit": "240 °C (464 °F) at most",
        "margin": "10 K (18 °F) too much",
        "why": "hot plastic fumes",
        "do": "set it lower",
        "basis": "hdpe sheet: 1 our judgement",
        "origins": ["oven 250 °C (recipe)"],
        "sources": ["judgement"],
    }


def test_what_means_something_in_a_message_means_itself() -> None:
    """Braces are placeholders there, and [text](place) is a link."""
    assert said("{0} of {a}") == {"text": "{{0}} of {{a}}"}
    assert said("[press](https://example.org)") == {"text": "\\[press\\](https://example.org)"}
    assert said("write [natural]") == {"text": "write [natural]"}
    assert said("a\x1b\u202eb\n") == {"text": "a\\x1b\\u202eb\\n"}


def test_a_sentence_ends_once() -> None:
    """Whatever it ends with."""
    assert [sentence(t) for t in ("a", "a.", "a?", "a!")] == ["a.", "a.", "a?", "a!"]


@pytest.mark.parametrize(
    ("file", "wanted"),
    [
        ("a.yaml", "a.yaml"),
        ("./recipes/../recipes/a b.yaml", "recipes/a%20b.yaml"),
        ("réçipes/50%#?[1].yaml", "r%C3%A9%C3%A7ipes/50%25%23%3F%5B1%5D.yaml"),
        ("a:b.yaml", "a%3Ab.yaml"),
        ("a\x1b\n<.yaml", "a%1B%0A%3C.yaml"),
        ("/else where/a.yaml", "file:///else%20where/a.yaml"),
    ],
)
def test_a_uri_leads_to_the_file(file: str, wanted: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Relative where that is possible, and decoded it is the very path."""
    monkeypatch.chdir(tmp_path)
    assert uri(file) == wanted
    path = unquote_to_bytes(uri(file).removeprefix("file://"))
    assert os.path.join(os.fsencode(tmp_path), path) == os.fsencode(os.path.abspath(file))


def test_a_uri_of_a_name_that_is_no_text(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names of files are bytes."""
    monkeypatch.chdir(tmp_path)
    assert uri(os.fsdecode(b"a\xff.yaml")) == "a%FF.yaml"
    assert uri("../a.yaml") == (tmp_path.parent / "a.yaml").as_uri()
