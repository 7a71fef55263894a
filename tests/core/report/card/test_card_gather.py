"""A card says what its recipe and the forecast say, and gives nobody a number to set a machine by too early."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

import pytest

from recipes_core.report.card.content import Card, Line
from recipes_core.report.card.gather import LONGEST_NOTES
from tests.core.report.card.conftest import COAT_HOOK, NOT_YET, RECIPES, REFUSED, Make, steps


def by_id(card: Card) -> dict[str, Line]:
    """The steps of a card by id."""
    return {step.id: step for step in steps(card)}


def test_the_head_is_that_of_the_recipe(make: Make) -> None:
    """Title, size in both systems, mark, charge, and the digest of the file as anybody can compute it."""
    card = make()
    assert card.title == "Coat hook, pressed and bent from milk bottles"
    assert card.size == "160 × 60 × 8 mm (6.3 × 2.4 × 0.31 in)"
    assert card.mark == ">PE-HD(REC100)<"
    assert card.lots == ("milk-bottles-31",)
    assert card.charge is not None
    assert (card.charge.first, card.charge.second) == ("78 g", "2.8 oz")
    assert card.digest == sha256(COAT_HOOK.read_bytes()).hexdigest()
    assert card.evidence == "no runs recorded"
    assert card.banner == ""


def test_a_step_has_its_numbers(make: Make) -> None:
    """The state the process wants, the dial with its dated reading, and the times of the recipe."""
    melt = by_id(make())["melt"]
    plastic, dial = melt.numbers
    assert (plastic.label, plastic.first, plastic.second, plastic.says) == (
        "PLASTIC",
        "136 °C",
        "277 °F",
        "at least",
    )
    assert (dial.first, dial.second, dial.says) == ("177 °C", "351 °F", "")
    assert make().readings == ("oven set to 177 °C gave 174 °C on 2026-05-01",)
    assert melt.asides == (
        "oven at first: hot",
        "core, by forecast: 162 °C (324 °F)",
        "tray: 180 × 160 mm (7.1 × 6.3 in)",
    )
    assert melt.times is not None
    assert (melt.times.least, melt.times.most, melt.times.beside) == ("16 min", "22 min", "")
    assert melt.until == "no white or grainy core when folded"


def test_an_oven_that_nobody_measured_is_said_to_be_so(make: Make) -> None:
    """At every step that sets it, with what the air may be: the band of the forecast."""
    card = make(
        "hdpe/coat-hook", ("    measured: {set: 177 °C, reads: 174 °C, by: probe at tray height, on: 2026-05-01}\n", "")
    )
    assert card.readings == ("oven not measured: go by a thermometer",)
    doubts = {step.id: step.limits[0] for step in steps(card) if "measured" in "".join(step.limits)}
    assert list(doubts) == ["melt", "preheat", "fold", "bend"]
    assert doubts["melt"] == "oven not measured: 159 to 207 °C (318 to 405 °F)"


def test_where_the_forecast_needs_longer_it_stands_beside(make: Make) -> None:
    """The upper end of the spread; 11 min of 9 to 14 that the melt takes against 12 that it is given."""
    card = make("hdpe/coat-hook", ("at_least: 16 min", "at_least: 12 min"))
    times = by_id(card)["melt"].times
    assert times is not None
    assert times.least == "12 min"
    assert times.beside == "forecast: up to 14 min"


def test_ticks_stand_for_doing_it_again(make: Make) -> None:
    """25 min of force, topped up every 90 s: sixteen times."""
    times = by_id(make())["press"].times
    assert times is not None
    assert (times.ticks, times.every) == (16, "90 s")


def test_pauses_open_the_blocks(make: Make) -> None:
    """In the order of the work; what comes before any stop has none."""
    assert [block.pause for block in make().blocks] == [
        "",
        "before heat",
        "before the press",
        "before the mould is opened",
        "before the bend",
    ]


def test_a_refused_recipe_gives_no_settings(make: Make) -> None:
    """A banner and why, and no number of any step; the cautions stay."""
    card = make("hdpe/coat-hook", REFUSED)
    assert card.banner == "DO NOT TRY THIS RECIPE"
    assert "Step 2: The oven is set hotter than this plastic stands." in card.why
    assert (card.charge, card.readings, card.record) == (None, (), ())
    assert all(not step.numbers and not step.asides and step.times is None for step in steps(card))
    assert all(step.caution for step in steps(card))


def test_a_recipe_with_open_questions_leaves_dial_and_force_blank(make: Make) -> None:
    """What somebody must answer first stands on the card."""
    card = make("hdpe/coat-hook", NOT_YET)
    assert card.banner.startswith("DO NOT TRY YET")
    assert "What load is marked on the jack?" in card.why
    by_label = {n.label: n.first for step in steps(card) for n in step.numbers}
    assert by_label["SET DIAL"] == by_label["FORCE"] == by_label["CHARGE"] == ""
    assert by_label["PLASTIC"] == "135 °C"
    assert all(step.times is None and not step.asides for step in steps(card)), "a running clock invites a pencil"
    assert (card.charge, card.record) == (None, ())


def test_what_is_to_be_minded_stands_on_the_card(make: Make) -> None:
    """Warnings and open questions of a recipe that may be tried with care; nothing is weighed for a bend."""
    card = make("petg/cable-cover")
    assert (card.banner, card.charge) == ("", None)
    assert len(card.care) == 1
    assert make().care == ()


def test_a_hazard_that_the_recipe_adds_stands_before_its_step(make: Make) -> None:
    """It adds to what the process says, and takes nothing away."""
    own = (
        "\n    hazards: [{hazard: low beam over the press, injury: slight, signal: CAUTION, "
        "controls: [{level: engineer, do: foam on the beam}]}]"
    )
    press = by_id(make("hdpe/coat-hook", ("\n    repress_every: 90 s", f"\n    repress_every: 90 s{own}")))["press"]
    before = by_id(make())["press"]
    assert press.own == (*before.own, "CAUTION: low beam over the press. foam on the beam")
    assert press.caution == before.caution
    assert all(own.startswith("DANGER") for own in before.own), "no danger is left out; what is less may be"
    assert before.own


@pytest.mark.parametrize("file", sorted(RECIPES.glob("*/*.yaml")), ids=lambda file: file.stem)
def test_every_shipped_recipe_has_a_card(make: Make, file: Path) -> None:
    """Each step of it has its caution, its end test, and its number."""
    card = make(f"{file.parent.name}/{file.stem}")
    told = steps(card)
    assert [step.number for step in told] == list(range(1, len(told) + 1))
    assert all(step.caution and step.until and step.action for step in told)
    assert len(card.record) <= 12


def test_a_forecast_that_counts_from_an_earlier_start_is_told_from_this_one(make: Make) -> None:
    """The core is cold enough up to 58 min after full force; 25 min of that are the press step's hold."""
    times = by_id(make("hdpe/coat-hook", ("at_least: 60 min", "at_least: 30 min")))["cool"].times
    assert times is not None
    assert times.beside == "forecast: up to 33 min"
    whole = by_id(make())["cool"].times
    assert whole is not None
    assert whole.beside == ""


def test_what_a_step_shares_its_time_with_is_said(make: Make) -> None:
    """The mould goes into the oven with the flake; the part must be shut in within its times."""
    card = by_id(make())
    assert card["preheat"].asides[0] == "beside step 2, to be ready when that is"
    assert card["press"].limits == ("oven to mould: 15 s at most", "to full force: 15 s at most")
    assert card["bend"].asides[1:] == (
        "turned: 90 deg",
        "radius: 20 mm (0.79 in)",
        "first, second leg: 90 × 88 mm (3.5 × 3.5 in)",
    )


def test_notes_are_on_the_card(make: Make) -> None:
    """As they stand, or cut with a mark."""
    assert make().notes.startswith("The bend is the slow step")
    long = make("hdpe/coat-hook", ("  The bend is the slow step", "  " + "The bend is slow. " * 60))
    assert len(long.notes) == LONGEST_NOTES
    assert long.notes.endswith("…")


def test_the_unit_of_the_dial_comes_first(make: Make) -> None:
    """On every temperature of the card, so that nobody turns a dial in °F to a number in °C."""
    for step in steps(make("hdpe/planed-block")):
        for number in step.numbers:
            if number.second.endswith(("°C", "°F")):
                assert number.first.endswith("°F"), (step.id, number)
    assert by_id(make())["cool"].numbers[0].first == "60 °C"


def test_what_is_written_down_is_what_the_work_gives_rise_to(make: Make) -> None:
    """Nothing is weighed, pressed or opened for a bend alone."""
    assert make("pmma/leaflet-stand").record == ("part", "oven at the tray", "thickness 1", "2", "3", "4")
    assert len(make().record) == 10


def test_topping_up_is_counted_over_the_hold(make: Make) -> None:
    """12 min of force on a sheet, topped up every 40 s: eighteen times, however long it melted; pressed by then."""
    (press,) = (step for step in steps(make("hips/label-sheet")) if step.times and step.times.ticks)
    assert press.times is not None
    assert (press.times.ticks, press.times.by, press.times.least) == (18, "press by", "8 min")


def test_a_dial_that_is_set_to_a_range_shows_both_ends(make: Make) -> None:
    """In both systems."""
    dial = by_id(make("hdpe/coat-hook", ("oven: 163 °C", "oven: 162 - 164 °C")))["bend"].numbers[1]
    assert (dial.first, dial.second) == ("162 - 164 °C", "324 °F to 327 °F")
