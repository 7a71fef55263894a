"""``meltbook explain``: names of one or more words, and names that nothing goes by."""

from __future__ import annotations

import pytest

from recipes_core.cli import main
from recipes_core.explain import explain
from recipes_core.shelf import shelf


@pytest.mark.parametrize("name", ["", "melt-cut-short", "flake-melt", "hdpe", "hdpe melting peak", "parchment limit"])
def test_words_make_one_name(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """With or without quotation marks; no name lists the rules."""
    assert main(["explain", *name.split()]) == 0
    shown = capsys.readouterr().out
    assert shown == explain(shelf(), name)
    if name:
        assert main(["explain", name]) == 0
        assert capsys.readouterr().out == shown


def test_an_unknown_name_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    """Status 2, one sentence with the near names."""
    assert main(["explain", "melt-cut-shrt"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert "melt-cut-short" in shown.err
    assert shown.err.count("\n") == 1
