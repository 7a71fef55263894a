"""Every limit, through the command itself: quiet on it, and found one displayed step beyond it."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

import recipes_core.cli.lint
import recipes_core.shelf
from recipes_core.cli import main
from tests.rules.conftest import Bench, load_cases
from tests.rules.test_cases import one_step_apart

CASES = load_cases()
LIMITED = sorted({case.rule for case in CASES if case.on_limit == "yes"})


class Today(date):
    """A clock that stands where the cases were written."""

    @classmethod
    def today(cls) -> Today:
        return cls(2026, 6, 1)


@pytest.mark.parametrize("rule", LIMITED)
def test_a_limit_is_met_by_the_command(
    bench: Bench,
    rule: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """``meltbook lint FOLDER --format json`` over the rule's cases on the limit and their neighbours beyond it."""
    mine = [case for case in CASES if case.rule == rule]
    on_limit = [case for case in mine if case.on_limit == "yes"]
    beyond = [c for c in mine if c.fires and any(one_step_apart(bench, quiet, c) for quiet in on_limit)]
    files = {tmp_path / f"{n}.yaml": case for n, case in enumerate([*on_limit, *beyond])}
    for file, case in files.items():
        file.write_text(bench.edited(case)[0], "utf-8")
    monkeypatch.setattr(recipes_core.cli.lint, "date", Today)
    monkeypatch.setattr(recipes_core.shelf, "shelf", lambda: bench.shelf)
    with bench.memo.working():
        main(["lint", "--format", "json", str(tmp_path)])
    told = {r["file"]: r["findings"] for r in json.loads(capsys.readouterr().out)["recipes"]}
    for file, case in files.items():
        assert fires(told[str(file)], rule) == case.fires, case.id
    assert beyond


def fires(findings: list[dict[str, str]], rule: str) -> bool:
    """Whether the rule found something, an open question aside."""
    return any(f["rule"] == rule and f["kind"] == "fail" for f in findings)


def test_most_rules_with_a_number_are_among_them() -> None:
    """The list is not empty by some slip."""
    assert len(LIMITED) > 50
    assert len(CASES) > 500
