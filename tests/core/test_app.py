"""Judging and forecasting files: which files are recipes, what a file that cannot be read comes to, stable order."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from recipes_core import app
from recipes_core.document import DocumentError, read
from recipes_core.errors import UsageError
from recipes_core.facts import Open
from recipes_core.findings import Kind, Level
from recipes_core.rules.verdict import Verdict

if TYPE_CHECKING:
    from tests.conftest import Shop

TODAY = date(2026, 6, 1)
BASE = (Path(__file__).parents[1] / "cases" / "base.yaml").read_text("utf-8")


def judged(shop: Shop, text: str) -> app.Linted:
    """What judging a text comes to."""
    return app.lint_document(read(text, "r.yaml"), TODAY, shop.shelf)


def test_a_sound_recipe(shop: Shop, tmp_path: Path) -> None:
    """Nothing against it, every rule ran or did not apply, and the file is named as it was called."""
    file = tmp_path / "sound.yaml"
    file.write_text(BASE, "utf-8")
    (linted,) = app.lint([file], TODAY, shop.shelf)
    assert linted.findings == ()
    assert linted.verdict is Verdict.NOTHING_FOUND
    assert (linted.file, linted.text) == (str(file), BASE)
    assert linted.passed is not None
    assert linted.passed + linted.not_applicable >= len(shop.shelf.rules)


def test_a_recipe_of_almost_nothing_is_never_passed(shop: Shop) -> None:
    """Questions, and no verdict that lets it be tried."""
    linted = judged(shop, "format: recipe/1\nheader: {id: a, title: A}\nprocedure:\n  - {id: m, process: flake-melt}\n")
    assert linted.verdict in (Verdict.NOT_YET, Verdict.DO_NOT_TRY)
    assert any(f.kind is Kind.OPEN for f in linted.findings)


@pytest.mark.parametrize(
    "text",
    [
        "format: recipe/1\n",
        "format: recipe/1\nprocedure: []\n",
        "format: recipe/1\nprocedure: 3\nequipment: x\n",
    ],
)
def test_any_document_is_judged(shop: Shop, text: str) -> None:
    """Whatever its shape, it is judged without an exception, and not passed."""
    linted = judged(shop, text)
    assert linted.findings
    assert linted.verdict in (Verdict.NOT_YET, Verdict.DO_NOT_TRY)
    assert not any(f.rule.endswith("did-not-run") for f in linted.findings)


def test_a_document_that_is_no_recipe_cannot_be_read(shop: Shop) -> None:
    """One sentence on what is missing, and no list of questions about a recipe that is not there."""
    linted = judged(shop, "a: b\n")
    assert linted.verdict is Verdict.UNUSABLE
    assert [f.rule for f in linted.findings] == ["format-missing"]


def test_a_setting_beyond_all_sense_is_judged(shop: Shop) -> None:
    """Its forecast may not run, but the cap of the plastic stands all the same."""
    linted = judged(
        shop,
        BASE.replace(
            "oven: 180 °C\n    oven_start: hot\n    at_least: 20", "oven: 900 °C\n    oven_start: hot\n    at_least: 20"
        ),
    )
    assert linted.verdict is Verdict.DO_NOT_TRY
    assert any(f.rule == "over-resin-cap" and f.kind is Kind.FAIL and f.level is Level.ERROR for f in linted.findings)
    assert not any(f.rule == "check-did-not-run" for f in linted.findings)


@pytest.mark.parametrize("step", ["melt", "preheat"])
def test_an_oven_that_nobody_has_set_is_asked_about(shop: Shop, step: str) -> None:
    """``oven: unknown`` in a step is a question, and nothing fails to run."""
    linted = judged(shop, shop.text({f"{step}.oven": "unknown"}))
    assert not any(f.rule.endswith("did-not-run") for f in linted.findings)
    at = [f for f in linted.findings if f.path[:1] == ("procedure",) and f.path[2:] == ("oven",)]
    assert [f.kind for f in at] == [Kind.OPEN]


def test_a_file_that_cannot_be_read(shop: Shop, tmp_path: Path) -> None:
    """Its sentence and place, the verdict, and no counts of checks."""
    file = tmp_path / "broken.yaml"
    file.write_text("format: recipe/1\nheader: {id: a\npart: x\n", "utf-8")
    linted = app.lint_file(file, TODAY, shop.shelf)
    assert linted.verdict is Verdict.UNUSABLE
    assert linted.passed is None
    (found,) = linted.findings
    assert (found.level, found.kind) == (Level.ERROR, Kind.FAIL)
    assert found.span is not None
    assert found.message


def test_forecast_of_a_file_that_cannot_be_read(shop: Shop, tmp_path: Path) -> None:
    """It raises what the command line turns into a sentence."""
    file = tmp_path / "broken.yaml"
    file.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(DocumentError):
        app.forecast(file, TODAY, shop.shelf)


def test_forecast_and_lint_compute_the_same(shop: Shop, tmp_path: Path) -> None:
    """The walk of one is the walk of the other."""
    file = tmp_path / "trial.yaml"
    file.write_text(shop.text(), "utf-8")
    walked, _ = app.forecast(file, TODAY, shop.shelf)
    own = shop.walk()
    for one, other in zip(walked.cases, own.cases, strict=True):
        for name, fact in one.facts.items():
            if fact.dimension != "record" and not isinstance(fact.value, Open):
                assert list(fact.numbers) == list(other.facts[name].numbers)


def test_which_files_of_a_folder_are_recipes(tmp_path: Path) -> None:
    """Every YAML file but sheets, libraries and process pages; hidden ones are left; broken ones are not hidden."""
    for name, text in {
        "b.yaml": "format: recipe/1\n",
        "a/c.yaml": "format: recipe/9\n",
        "a/broken.yaml": "a: [\n",
        "a/unformatted.yaml": "header: {}\n",
        "hdpe.yaml": "format: resin/1\n",
        "library.yaml": "format: library/1\n",
        "weigh.yaml": "format: process/1\n",
        "notes.txt": "format: recipe/1\n",
        ".git/x.yaml": "format: recipe/1\n",
        "a/.hidden.yaml": "format: recipe/1\n",
    }.items():
        file = tmp_path / name
        file.parent.mkdir(exist_ok=True)
        file.write_text(text, "utf-8")
    found = [str(p.relative_to(tmp_path)) for p in app.recipe_files([tmp_path])]
    assert found == ["a/broken.yaml", "a/c.yaml", "a/unformatted.yaml", "b.yaml"]
    assert list(app.recipe_files([tmp_path / "hdpe.yaml"])) == [tmp_path / "hdpe.yaml"]


def test_paths_that_hold_no_recipe(tmp_path: Path) -> None:
    """A missing path and a folder without recipes are mistakes of the caller, each with its sentence."""
    with pytest.raises(UsageError, match="there is no file or folder"):
        list(app.recipe_files([tmp_path / "none.yaml"]))
    with pytest.raises(UsageError, match="there is no recipe in"):
        list(app.recipe_files([tmp_path]))


def test_a_missing_path_stops_before_anything_is_judged(shop: Shop, tmp_path: Path) -> None:
    """However many good files stand before it."""
    good = tmp_path / "good.yaml"
    good.write_text(BASE, "utf-8")
    with pytest.raises(UsageError):
        next(iter(app.lint([good, tmp_path / "none.yaml"], TODAY, shop.shelf)))


def test_cautions_for_every_process(shop: Shop) -> None:
    """Each process has some, none is empty."""
    cautions = app.cautions(shop.shelf)
    assert set(cautions) == set(shop.shelf.kinds)
    assert all(text for texts in cautions.values() for text in texts)
    assert cautions["flake-melt"]
