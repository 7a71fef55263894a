"""What is switched off is named with its plugin; what does not apply is said in a sentence of the resin's sheet."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from recipes_core.app import Linted, lint
from recipes_core.findings import Kind
from recipes_core.rules.verdict import Verdict
from tests.conftest import Shop

TODAY = date(2026, 11, 25)


def linted(shop: Shop, folder: Path, off: str) -> Linted:
    """The trial recipe in a library that switches something off."""
    (folder / "library.yaml").write_text(f"format: library/1\noff: [{off}]\n", "utf-8")
    (folder / "trial.yaml").write_text(shop.text(), "utf-8")
    (found,) = lint([folder / "trial.yaml"], TODAY, shop.shelf)
    return found


@pytest.mark.parametrize(
    ("off", "place"),
    [
        ("hdpe", ("formula", "feedstock", 0, "resin")),
        ("parchment", ("formula", "liner", "tray")),
        ("steel", ("equipment", "tray", "material")),
        ("cool", ("procedure", 5, "process")),
    ],
)
def test_a_recipe_that_needs_it_says_which_plugin_is_off(
    shop: Shop, tmp_path: Path, off: str, place: tuple[str | int, ...]
) -> None:
    """Named where the recipe names it, and never called fully checked (exit status 3 unless an error stands)."""
    found = [f for f in linted(shop, tmp_path, off).findings if f.rule == "plugin-off"]
    assert place in [f.path for f in found]
    for finding in found:
        assert finding.message.startswith(f"{off} is switched off in this library; it belongs to the plugin ")
        assert finding.kind is Kind.OPEN
        assert finding.absolute


def test_the_verdict_is_not_yet(tmp_path: Path) -> None:
    """A sound recipe of the shipped library without its plastic: nothing stands against it, and it is not checked."""
    sound = Path(__file__).resolve().parents[2] / "recipes" / "hdpe" / "label-blank.yaml"
    (tmp_path / "label.yaml").write_bytes(sound.read_bytes())
    (tmp_path / "library.yaml").write_text("format: library/1\noff: [hdpe]\n", "utf-8")
    (found,) = lint([tmp_path / "label.yaml"], TODAY)
    assert found.verdict is Verdict.NOT_YET
    assert found.verdict.exit_status == 3
    assert {f.rule for f in found.findings if f.absolute} == {"plugin-off"}


def test_nothing_changes_where_it_is_not_needed(shop: Shop, tmp_path: Path) -> None:
    """Another liner is off."""
    assert not [f for f in linted(shop, tmp_path, "waxed-paper").findings if f.rule == "plugin-off"]
