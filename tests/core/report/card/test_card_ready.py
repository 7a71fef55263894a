"""The boxes above the first step: what is too hot for any part of it, and what is laid out, as the recipe has it."""

from __future__ import annotations

import pytest

from tests.core.report.card.conftest import Make


def test_what_is_hot_comes_first_in_the_stop_box(make: Make) -> None:
    """However many steps come before the heat."""
    card = make("hdpe/planed-block")
    assert card.stop[0] == "Oven air above 215 °C (419 °F): heat off"
    assert card.stop[1].startswith("Smoke")
    assert len(card.stop) <= 6


@pytest.mark.parametrize(
    ("name", "changes", "line"),
    [
        ("hdpe/coat-hook", (), "Oven air above 215 °C (419 °F): heat off"),  # the paper's limit
        (
            "hdpe/coat-hook",
            (("tray: parchment, over", "tray: bare metal, over"),),
            "Oven air above 220 °C (428 °F): heat off",
        ),
        ("ldpe/knee-pad-plate", (), "Oven air above 200 °C (392 °F): heat off"),  # the skin of the plastic
    ],
    ids=["liner", "no liner", "skin"],
)
def test_the_stop_line_is_the_lowest_that_the_air_must_not_pass(
    make: Make, name: str, changes: tuple[tuple[str, str], ...], line: str
) -> None:
    """What lint refuses is never above it: the liner's limit, the ceiling of the skin, the cap of the plastic."""
    assert make(name, *changes).stop[0] == line


def test_what_is_laid_out_is_what_the_recipe_has(make: Make) -> None:
    """Its liners and where they go, its air, its gear; a gauge for the force; gauntlets are not asked for twice."""
    found = make().bring
    assert {"outdoors, upwind of it", "parchment: tray, mould", "gauge, prop, screen, tongs"} <= set(found)
    assert {"gloves EN 407 contact heat 2", "face shield, closed shoes"} <= set(found)
    assert not any("gauntlet" in item for item in found)
    hooded = make("hdpe/coat-hook", ("capture: none", "capture: hood ducted outdoors"))
    assert "hood ducted outdoors, on" in hooded.bring


def test_a_liner_that_nobody_named_is_not_passed_over(make: Make) -> None:
    """The line may be lower than the one that is printed, and the box says so."""
    card = make("hdpe/coat-hook", ("tray: parchment, over", "tray: unknown, over"))
    assert card.stop[:2] == ("Oven air above 220 °C (428 °F): heat off", "What liner or plastic stands is not known")
    assert not any("not known" in line for line in make("pc/lamp-skirt").stop), "nobody asks for a skin in a bend"


def test_no_step_before_the_heat_crowds_out_one_after_it(make: Make) -> None:
    """A mould that spits goes before a piece that nobody can name."""
    assert "It hisses, spits or is soft: shut it, wait" in make("hdpe/planed-block").stop
