"""Pictures in words: numbers in both unit systems, what is missing, and what a plugin broke."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.curves import Mark, Series
from recipes_core.facts import Open, missing
from recipes_core.report.pictures import Picture, pictures, told
from tests.core.report.curves import CUT, HOSTILE, SHARE, WARM, walk_of

if TYPE_CHECKING:
    from tests.conftest import Shop

    Made = Callable[..., tuple[Picture, ...]]


@pytest.fixture
def made(shop: Shop) -> Made:
    """The pictures of a step with these curves."""

    def make(*values: Any, step: str = "melt") -> tuple[Picture, ...]:
        return pictures(walk_of(shop.case(step="melt"), *values, step=step))

    return make


def test_a_curve_in_one_sentence() -> None:
    """Where it starts, each mark with its band, when it passes each limit, and where the others end."""
    assert told(WARM) == (
        "temperature in the layer since noon: coldest inside 27 °C (80 °F) at the start, "
        "at 15 min (at least) 144 °C (291 °F), in nine of ten plausible shops 138 °C (281 °F) to 153 °C (307 °F), "
        "at 25 min (at most) 160 °C (320 °F), in nine of ten plausible shops 151 °C (304 °F) to 175 °C (347 °F); "
        "it rises to 136 °C (277 °F), molten, after 13 min; it stays under 220 °C (428 °F), ceiling; "
        "it stays under 220 °C (428 °F), liner; top from 32 °C (89 °F) to 168 °C (334 °F) at 30 min."
    )


def test_a_share_and_a_cut() -> None:
    """In percent; from the bottom to the top."""
    assert told(SHARE).startswith("molten share since noon: molten 0 % at the start, at 15 min (at least) 50 %,")
    assert told(CUT) == (
        "cut: at least 15 min: 147 °C (296 °F) at the bottom, 152 °C (305 °F) at the top, "
        "nowhere under 137 °C (278 °F) or over 152 °C (305 °F); 136 °C (277 °F) is molten."
    )


def test_a_curve_that_falls() -> None:
    """It falls to what it was over, and stays over what it never meets."""
    (first, *_), x = WARM.series, WARM.x
    falling = replace(WARM, series=(Series("core", first.nominal[::-1]),))
    assert "it falls to 136 °C (277 °F), molten, after 17 min;" in told(falling)
    hot = replace(WARM, series=(Series("core", 500.0 + 0.0 * x),))
    assert "it stays over 136 °C (277 °F), molten" in told(hot)
    assert "plausible shops" not in told(hot)


def test_marks_beyond_the_curve_and_no_marks() -> None:
    """Nothing is read where there is no curve."""
    late = told(replace(WARM, marks=(Mark("opened", 3600.0),)))
    assert "at 30 min (where the curve ends) 163 °C (325 °F)," in late
    assert "opened at 1 h, after its end;" in late
    assert "at 30 min (where the curve ends)" in told(replace(WARM, marks=()))


def test_pictures_in_order(made: Made) -> None:
    """With the step, and the curves that they tell of."""
    found = made(WARM, CUT)
    assert [(p.step, p.title, p.curves) for p in found] == [
        ("melt", "melt: temperature in the layer", WARM),
        ("melt", "melt: cut", CUT),
    ]
    assert found[0].words == f"melt, {told(WARM)}"


def test_what_is_missing_is_asked_once(made: Made) -> None:
    """One sentence for a step, after what can be drawn of it, with each question once."""
    thick = missing(("a",), "How thick is the tray?")
    found = made(thick, WARM, thick | missing(("b",), "How hot is it?"))
    assert [p.curves for p in found] == [WARM, None]
    words = "Not all of melt can be drawn until this is answered: How hot is it?; How thick is the tray?"
    assert found[1].words == words
    assert not found[1].broken


def test_what_is_missing_and_asked_elsewhere(made: Made) -> None:
    """A step that found nothing of what it needs says so."""
    (found,) = made(Open(frozenset({((), "")})))
    assert found.words.endswith("a step before it did not leave what it needs")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: 1 / 0,
        lambda: (_ for _ in ()).throw(SystemExit(3)),
        lambda: replace(WARM, series=()),
        "no curves at all",
        None,
    ],
    ids=["raises", "exits", "is refused", "is no curves", "is nothing"],
)
def test_a_plugin_that_breaks_is_named_and_the_others_stay(made: Made, wrong: Any) -> None:
    """Foreign code is contained, as forecasts are."""
    found = made(wrong, WARM)
    assert [p.broken for p in found] == [True, False]
    assert found[0].curves is None
    assert found[0].words.startswith("The curves of melt could not be made: ")


def test_hostile_text_is_shown_escaped(made: Made) -> None:
    """In ids, questions and titles; and a long id is cut."""
    ask = missing(("a",), HOSTILE)
    found = made(replace(WARM, title=HOSTILE), ask, lambda: 1 / 0, step=HOSTILE)
    assert len(found) == 3
    for one in found:
        assert one.title.isprintable()
        assert one.words.isprintable()
        assert one.step == HOSTILE
    (long,) = made(WARM, step="x" * 500)
    assert long.title == f"{'x' * 59}…: temperature in the layer"
