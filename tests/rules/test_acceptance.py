"""What a person at the command line is told of recipes that must never be tried, with the exit status."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import recipes_core.cli.lint
from recipes_core.cli import main
from recipes_core.findings import Kind, Level
from recipes_core.rules.verdict import Verdict
from recipes_core.schema.fields import Absent, fields

if TYPE_CHECKING:
    from collections.abc import Callable

    from recipes_core.findings import Path as Place
    from tests.rules.conftest import Bench

    Edit = Callable[[str, str | Place, str], str]

RANK = (Verdict.NOTHING_FOUND, Verdict.WITH_CARE, Verdict.NOT_YET, Verdict.DO_NOT_TRY)


class Today(date):
    """A clock that stands still, so that no date in the bases grows old."""

    @classmethod
    def today(cls) -> Today:
        return cls(2026, 6, 1)


@pytest.fixture
def lint(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, bench: Bench, edit: Edit
) -> Callable[..., tuple[int, str]]:
    """Runs ``meltbook lint`` on a base with changes; the exit status, and the report on one line."""
    monkeypatch.setattr(recipes_core.cli.lint, "date", Today)

    def run(changes: dict[str, str], base: str = "base") -> tuple[int, str]:
        text = bench.bases[base]
        for at, value in changes.items():
            text = edit(text, at, value)
        file = tmp_path / "recipe.yaml"
        file.write_text(text, "utf-8")
        status = main(["lint", str(file)])
        return status, " ".join(capsys.readouterr().out.split())

    return run


@pytest.mark.parametrize("name", ["base", "base-wood", "base-sheet-press"])
def test_a_whole_recipe_has_nothing_found_against_it(lint: Callable[..., tuple[int, str]], name: str) -> None:
    """Status 0, and no word that it is safe."""
    status, report = lint({}, name)
    assert status == 0
    assert "nothing found against it" in report
    assert "no approval" in report


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"formula.liner.tray": "waxed-paper", "procedure.melt.oven": "177 °C", "procedure.preheat.oven": "177 °C"},
         "liner-over-refusal"),
        ({"procedure.melt.oven": "350 °C", "procedure.preheat.oven": "350 °C"}, "over-resin-cap"),
        ({"procedure.melt.attended": "no"}, "left-alone"),
        ({"procedure.press.force": "5 t"}, "jack-over-rated"),
    ],
    ids=["waxed paper in the oven", "Celsius where Fahrenheit was meant", "unattended", "more than the jack's mark"],
)  # fmt: skip
def test_what_must_never_be_tried(lint: Callable[..., tuple[int, str]], changes: dict[str, str], rule: str) -> None:
    """Do not try, status 1, and the rule by its name."""
    status, report = lint(changes)
    assert status == 1
    assert "do not try ·" in report
    assert rule in report


def test_the_same_number_in_fahrenheit_is_in_order(lint: Callable[..., tuple[int, str]]) -> None:
    """350 °F is 177 °C."""
    status, report = lint({"procedure.melt.oven": "350 °F", "procedure.preheat.oven": "350 °F"})
    assert (status, "nothing found against it" in report) == (0, True)


@pytest.mark.parametrize("field", ["frame_rating", "frame_rated_by"])
def test_an_unrated_frame_is_not_yet_to_be_tried(lint: Callable[..., tuple[int, str]], field: str) -> None:
    """Nobody knows what it bears: do not try yet, status 3."""
    status, report = lint({f"equipment.press.{field}": "unknown"})
    assert status == 3
    assert "do not try yet" in report
    assert "frame-unrated" in report


@pytest.mark.parametrize("held", ["unknown", "null"])
def test_contents_that_nobody_knows_are_not_yet_to_be_heated(lint: Callable[..., tuple[int, str]], held: str) -> None:
    """Leaving the line out reads the same: do not try yet, status 3."""
    status, report = lint({"formula.feedstock.0.past_contents": held})
    assert status == 3
    assert "do not try yet" in report
    assert "What did it hold?" in report
    assert "needed to judge chemical-residue" in report


def test_a_mix_is_computed(lint: Callable[..., tuple[int, str]]) -> None:
    """Two resins in one charge are one blend: times are judged, and nothing of them is open."""
    second = (
        "{lot: caps-2, resin: pp, share: 5 %, grade: injection, form: flake, from: packaging, past_contents: drink, "
        "colour: coloured, outdoor: no, times_melted: 0, origin: post-consumer, "
        "identified_by: [moulded mark, infrared], every_piece_checked: yes, removed: [labels], moisture: dry to touch}"
    )
    status, report = lint({"formula.feedstock.0.share": "95 %", "formula.feedstock.1": second})
    assert "melt-cut-short" in report  # polypropylene melts later
    assert "hdpe + pp sheets" in report
    assert "not computed yet" not in report
    assert status == 1


def test_a_recipe_cannot_allow_itself_anything(lint: Callable[..., tuple[int, str]]) -> None:
    """``allowances:`` is refused with the reason, and silences nothing."""
    status, report = lint({"allowances": "[left-alone]", "procedure.melt.attended": "no"})
    assert status == 1
    assert "A recipe cannot silence a finding" in report
    assert "left-alone" in report


def test_not_knowing_never_helps(bench: Bench, edit: Edit) -> None:
    """``unknown`` in a field that must be answered is never better than the base, and the same as silence.

    Where an absolute rule that is for this base reads it, the recipe is not to be tried yet, or not at all: no
    oven need be attended where nothing is heated.
    """
    wrong = []
    for text in bench.bases.values():
        base = RANK.index(bench.judge(text).linted.verdict)
        ran = {name.partition("@")[0] for name in bench.judge(text).judgement.passed}
        for dotted, absolute in _must_be_answered(bench):
            try:
                doubtful = edit(text, dotted, "unknown")
                silent = edit(doubtful, dotted, "null")
            except AssertionError:
                continue  # the base has no such group
            unknown, absent = (bench.judge(t).linted.verdict for t in (doubtful, silent))
            if RANK.index(unknown) < max(base, RANK.index(Verdict.NOT_YET) if absolute & ran else 0):
                wrong.append(f"{dotted}: unknown gives {unknown.words}")
            if absent is not unknown:
                wrong.append(f"{dotted}: unknown gives {unknown.words}, silence {absent.words}")
    assert not wrong, "\n".join(wrong)


def test_an_unknown_answer_of_an_absolute_rule_is_asked_for(bench: Bench, edit: Edit) -> None:
    """It is an open question at error level, and the verdict is do not try yet."""
    asked = 0
    ran = {name.partition("@")[0] for name in bench.judge(bench.bases["base"]).judgement.passed}
    for dotted, absolute in _must_be_answered(bench):
        if not absolute & ran or dotted.endswith("resin"):  # an unknown resin is an error of its own
            continue
        linted = bench.judge(edit(bench.bases["base"], dotted, "unknown")).linted
        assert linted.verdict is Verdict.NOT_YET, dotted
        assert any(f.kind is Kind.OPEN and f.level is Level.ERROR for f in linted.findings), dotted
        asked += 1
    assert asked > 5


def _must_be_answered(bench: Bench) -> list[tuple[str, set[str]]]:
    """The dotted path of each such field outside the steps, and the absolute rules that read it."""
    found = []
    absolute = [rule for rule in bench.shelf.rules if rule.absolute]
    for about in fields(bench.shelf.schemas):
        if about.absent is Absent.ANSWER and about.path[0] != "procedure":
            dotted = ".".join(about.path)
            lot = dotted.replace("formula.feedstock.", "lot.")
            found.append((dotted.replace("feedstock.", "feedstock.0."), {r.id for r in absolute if lot in r.reads}))
    return found
