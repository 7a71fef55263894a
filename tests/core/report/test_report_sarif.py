"""The SARIF log: valid by the standard's own schema, read by a published reader, the same every time."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator
from sarif.loader import load_sarif_file

from recipes_core.app import lint_document, lint_file
from recipes_core.document import read
from recipes_core.findings import Finding, Kind
from recipes_core.report.counts import Count, counts
from recipes_core.report.sarif import render
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from recipes_core.app import Linted
    from recipes_core.shelf import Shelf

    Linter = Callable[..., Linted]

TESTS = Path(__file__).parents[2]
VALIDATOR = Draft202012Validator(json.loads((TESTS / "standards" / "sarif-2.1.0.json").read_bytes()))
TODAY = date(2026, 11, 25)
COAT_HOOK = (TESTS / "recipes" / "coat-hook.yaml").read_text("utf-8")
BROKEN = COAT_HOOK.replace("at_least: 20 min", "at_least: 12 min").replace("layers: 3", "layers: 2")
UNREADABLE = "format: recipe/1\nheader: {id: a\npart: x\n"


@pytest.fixture
def judged(stock: Shelf, tmp_path: Path) -> list[Linted]:
    """A recipe with errors and advice, one with slips, a refused file, a shop, one whose library is broken, a base."""
    library = tmp_path / "library"
    (library / "resins").mkdir(parents=True)
    (library / "library.yaml").write_text("format: library/1\noff: [nothing]\n", "utf-8")
    (library / "resins" / "odd.yaml").write_text("format: resin/1\nid: odd\n", "utf-8")
    texts = {
        "broken": BROKEN,
        "slips": COAT_HOOK.replace("at_least: 20 min", "at_lest: 20 c").replace("use: [indoor", "uses: [indoor"),
        "unreadable": UNREADABLE,
        "shop": "format: shop/1\n",
        "library/in library": COAT_HOOK,
        "base": (TESTS / "cases" / "base.yaml").read_text("utf-8"),
    }
    for name, text in texts.items():
        (tmp_path / f"{name}.yaml").write_text(text, "utf-8")
    return [lint_file(tmp_path / f"{name}.yaml", TODAY, stock) for name in texts]


@pytest.fixture
def log(judged: list[Linted], stock: Shelf) -> dict[str, Any]:
    """The log on all of them."""
    return json.loads(render(judged, stock.rules))


def results(log: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """The results of its one run."""
    (run,) = log["runs"]
    yield from run["results"]


def test_it_is_valid(log: dict[str, Any]) -> None:
    """By the schema of the standard, which the fixture makes it meet every kind of finding for."""
    assert [error.message for error in VALIDATOR.iter_errors(log)] == []
    assert {result["kind"] for result in results(log)} >= {"fail", "open"}
    assert any("fixes" in result for result in results(log))


def test_the_schema_would_tell() -> None:
    """A level of our own making is refused."""
    bad = {"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "a"}}, "results": [{"level": "bad"}]}]}
    assert list(VALIDATOR.iter_errors(bad))


def test_an_empty_log_is_valid(linted: Linter, stock: Shelf) -> None:
    """Nothing judged, and nothing found."""
    for items in ([], [linted()]):
        log = json.loads(render(items, stock.rules))
        assert list(VALIDATOR.iter_errors(log)) == []
        assert log["runs"][0]["results"] == []


def test_every_kind_is_valid(linted: Linter, weights: dict[str, Finding], full_finding: Finding, stock: Shelf) -> None:
    """A kind other than fail has no level; our own then stands in the properties."""
    log = json.loads(render([linted(*weights.values(), full_finding)], stock.rules))
    assert list(VALIDATOR.iter_errors(log)) == []
    told = [(r["kind"], r["level"], r["properties"]["level"]) for r in results(log)]
    assert told == [
        ("fail", "error", "error"),
        ("review", "none", "error"),
        ("open", "none", "error"),
        ("fail", "warning", "warning"),
        ("open", "none", "warning"),
        ("fail", "note", "note"),
        ("fail", "error", "error"),
    ]


def test_a_published_reader_reads_it(judged: list[Linted], stock: Shelf, tmp_path: Path) -> None:
    """It finds as many of each level as the text report counts, at the same lines."""
    file = tmp_path / "report.sarif"
    file.write_text(render(judged, stock.rules), "utf-8")
    records = load_sarif_file(str(file)).get_records()
    findings = [f for item in judged for f in item.findings]
    told = counts(findings)
    for count, severity in ((Count.ERROR, "error"), (Count.WARNING, "warning"), (Count.NOTE, "note")):
        assert told[count] == sum(record["Severity"] == severity for record in records) > 0
    assert [record["Code"] for record in records] == [f.rule for f in findings]
    assert [record["Line"] for record in records if record["Line"]] == [f.span.line for f in findings if f.span]


def test_rules_that_gave_a_result(log: dict[str, Any], stock: Shelf) -> None:
    """Each once, with all that the standard asks of it; a result leads to its own."""
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    names = [rule["id"] for rule in rules]
    assert names == sorted({result["ruleId"] for result in results(log)})
    assert all(names[result["ruleIndex"]] == result["ruleId"] for result in results(log))
    known = {rule.id: rule for rule in stock.rules}
    for told in rules:
        assert told["shortDescription"]["text"].endswith((".", "?"))
        assert told["fullDescription"]["text"]
        assert told["help"]["text"]
        if rule := known.get(told["id"]):
            assert told["defaultConfiguration"]["level"] == rule.level
            assert told["properties"]["absolute"] == rule.absolute
            assert told["shortDescription"]["text"] == rule.message
    assert set(names) & set(known)
    assert set(names) - set(known)


def test_verdict_and_counts(judged: list[Linted], log: dict[str, Any]) -> None:
    """Of each recipe with its artifact, of all of them with the run, and the exit status with the invocation."""
    (run,) = log["runs"]
    assert [artifact["properties"]["verdict"] for artifact in run["artifacts"]] == [i.verdict.words for i in judged]
    broken = run["artifacts"][0]["properties"]
    assert broken["errors"] == counts(judged[0].findings)[Count.ERROR]
    assert broken["passed"] == judged[0].passed
    assert "passed" not in run["artifacts"][2]["properties"]
    assert run["properties"]["verdicts"]["cannot be read"] == 2
    assert run["properties"]["errors"] == counts(f for i in judged for f in i.findings)[Count.ERROR]
    assert run["invocations"] == [{"executionSuccessful": False, "exitCode": 2}]


def test_how_places_are_counted_is_told(log: dict[str, Any]) -> None:
    """In code points, and with every line end that reading knows; the regions themselves are tried one by one."""
    (run,) = log["runs"]
    assert run["columnKind"] == "unicodeCodePoints"
    assert run["newlineSequences"] == ["\r\n", "\n", "\r"]


def test_a_check_that_did_not_run_is_no_success(linted: Linter, weights: dict[str, Finding], stock: Shelf) -> None:
    """An error in a recipe is: meltbook did what it was called for."""
    for name, success in (("an error", True), ("a check that did not run", False)):
        (invocation,) = json.loads(render([linted(weights[name])], stock.rules))["runs"][0]["invocations"]
        assert invocation["executionSuccessful"] is success


def test_a_finding_in_another_file(judged: list[Linted], log: dict[str, Any]) -> None:
    """Stands there, and names the recipe that was judged."""
    (item,) = (i for i in judged if "in library" in i.file)
    others = [r for r in results(log) if "recipe" in r["properties"]]
    assert [r["ruleId"] for r in others] == ["library-not-read", "sheet-not-read"]
    places = [r["locations"][0]["physicalLocation"] for r in others]
    assert places[0]["artifactLocation"]["uri"].endswith("/library/library.yaml")
    assert places[0]["region"] == {"startLine": 2, "startColumn": 7, "endLine": 2, "endColumn": 14}
    assert places[1]["artifactLocation"]["uri"].endswith("/library/resins/odd.yaml")
    assert all(r["properties"]["recipe"].endswith("/library/in%20library.yaml") for r in others)
    assert item.verdict is Verdict.NOT_YET


def test_a_recipe_named_twice_is_one_artifact(linted: Linter, stock: Shelf) -> None:
    """The standard has each artifact once."""
    log = json.loads(render([linted(), linted()], stock.rules))
    assert list(VALIDATOR.iter_errors(log)) == []
    assert len(log["runs"][0]["artifacts"]) == 1


def test_the_same_every_time(judged: list[Linted], stock: Shelf) -> None:
    """Byte for byte, with a line end at the end, whatever the order of the rules."""
    shown = render(judged, stock.rules)
    assert render(judged, stock.rules[::-1]) == shown
    assert shown.endswith("}\n")


def test_nothing_of_this_machine_is_told(linted: Linter, full_finding: Finding, stock: Shelf) -> None:
    """No folder, no time, no user: the same recipe gives the same log everywhere."""
    shown = render([linted(full_finding)], stock.rules)
    assert str(Path.cwd()) not in shown
    assert '"uri": "a.yaml"' in shown
    assert "utc" not in shown.lower()


def test_questions_are_open(stock: Shelf) -> None:
    """With the place where the answer goes, and what to write."""
    item = lint_document(read(COAT_HOOK, "a.yaml"), TODAY, stock)
    log = json.loads(render([item], stock.rules))
    questions = [r for r in results(log) if r["kind"] == "open"]
    assert len(questions) == sum(f.kind is Kind.OPEN for f in item.findings) > 0
    names = [r["locations"][0]["logicalLocations"][0]["fullyQualifiedName"] for r in questions]
    assert "procedure.press.hands" in names
    assert all(r["level"] == "none" and "To do: " in r["message"]["text"] for r in questions)
