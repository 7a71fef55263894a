"""Looking fields up by their path, and the list of fields that the design demands."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.quantities import Dimension
from recipes_core.schema.compose import Schemas
from recipes_core.schema.fields import Absent, Field, field, fields, split

# path below the recipe: a * answer, - must not be said; then q a quantity, c a choice, l a list of choices,
# t text, n a number or date with a pattern
DEMANDED = """
*t formula.feedstock.resin   q formula.feedstock.share   c formula.feedstock.grade
n formula.feedstock.melt_flow.value   q formula.feedstock.melt_flow.load   q formula.feedstock.melt_flow.at
*c formula.feedstock.form   c formula.feedstock.densified   q formula.feedstock.flake_size
q formula.feedstock.thickness   c formula.feedstock.origin   *c formula.feedstock.from
*c formula.feedstock.past_contents   *c formula.feedstock.colour   -c formula.feedstock.filled
c formula.feedstock.outdoor   c formula.feedstock.bend_test   n formula.feedstock.times_melted
*l formula.feedstock.identified_by
q formula.feedstock.density   *c formula.feedstock.every_piece_checked   *l formula.feedstock.removed
t formula.feedstock.parents.lot   q formula.feedstock.parents.share   q formula.feedstock.moisture
c formula.feedstock.moisture_proof   q formula.feedstock.pair_floats   q formula.charge
q formula.flash_allowance   *t formula.liner.tray   *t formula.liner.over   *t formula.liner.mould
*t formula.liner.platen_top   *t formula.liner.platen_bottom   n formula.liner.uses
c formula.liner.trimmed   c formula.liner.state   c formula.liner.placed   c part.shape   q part.length
q part.width   q part.thickness   q part.volume   q part.projected_area   q part.thickest   *l part.use
-l part.claims   c part.load_tested_by   n part.pieces   q part.tolerance   q part.draft   c part.cores
*c site.place   q site.room_volume   q site.air_changes   c site.door_open   *c site.capture
l site.capture_at   *l site.present   *c site.attended   c site.second_person   q site.clear_of_combustibles
c site.water_for_burns   c site.extinguisher   q site.extinguisher_distance   c site.exit_clear
c site.smoking_or_food   n site.jurisdiction   t site.limits_from.list   n site.limits_from.on
q site.shop_air   c equipment.oven.type   *c equipment.oven.built   *c equipment.oven.dedicated
c equipment.oven.labelled   c equipment.oven.cutout   q equipment.oven.cutout_at   c equipment.oven.element
c equipment.oven.drip_tray   q equipment.oven.measured.set   q equipment.oven.measured.reads
t equipment.oven.measured.by   n equipment.oven.measured.on   q equipment.oven.swing
q equipment.oven.cavity   c equipment.oven.vented   q equipment.oven.power   q equipment.oven.supply.volts
q equipment.oven.supply.amps   q equipment.oven.supply.continuous_for   -c equipment.oven.cord
c equipment.oven.rcd   -c equipment.oven.work_on_wiring   q equipment.tray.length   q equipment.tray.width
q equipment.tray.depth   t equipment.tray.material   q equipment.tray.thickness   c equipment.tray.finish
t equipment.mould.material   q equipment.mould.wall   q equipment.mould.cavity.length
q equipment.mould.cavity.width   q equipment.mould.cavity.depth   q equipment.mould.mass
c equipment.mould.follows   c equipment.mould.vents   q equipment.mould.dry   c equipment.mould.stands
c equipment.mould.release   -c equipment.mould.release_on   -c equipment.mould.food_again
c equipment.press.type   *q equipment.press.rating   *c equipment.press.marked
*q equipment.press.frame_rating   *c equipment.press.frame_rated_by   n equipment.press.proof_tested
q equipment.press.jack_shield   q equipment.press.jack_body   c equipment.press.base
c equipment.press.load   -c equipment.press.handle   -c equipment.press.hands   c equipment.press.prop
q equipment.press.platen.length   q equipment.press.platen.width   q equipment.press.platen.thickness
-c equipment.press.platen.release
t equipment.press.platen.material   c equipment.press.platen.cooled_by
c equipment.press.stands_aside   c equipment.press.release   c equipment.press.shield
t equipment.thermometer.type   n equipment.thermometer.checked   q equipment.scale.resolution
q equipment.scale.capacity   c procedure.hands   l procedure.gear   -c procedure.blade
-c procedure.water_onto   c procedure.cooled_in   -c procedure.flame   -l procedure.until_signs
q procedure.at_least   q procedure.at_most   t procedure.until   t procedure.alongside   t procedure.tool
*c equipment.shredder.guard   *c equipment.shredder.interlock   c equipment.shredder.hands
c equipment.shredder.loose_clothing   c equipment.shredder.restart   c equipment.shredder.dust
q equipment.shredder.dust_layer   -c equipment.shredder.cleaned_by   -c equipment.shredder.food_again
*c equipment.planer.guard   *c equipment.planer.interlock   c equipment.planer.hands
c equipment.planer.loose_clothing   c equipment.planer.restart   c equipment.planer.dust
q equipment.planer.dust_layer   -c equipment.planer.cleaned_by   -c equipment.planer.food_again
*c equipment.sander.guard   *c equipment.sander.interlock   c equipment.sander.hands
c equipment.sander.loose_clothing   c equipment.sander.restart   c equipment.sander.dust
q equipment.sander.dust_layer   -c equipment.sander.cleaned_by   -c equipment.sander.food_again
*c equipment.saw.guard   *c equipment.saw.interlock   c equipment.saw.hands
c equipment.saw.loose_clothing   c equipment.saw.restart   c equipment.saw.dust
q equipment.saw.dust_layer   -c equipment.saw.cleaned_by   -c equipment.saw.food_again
*c equipment.shredder.opening.shape   *q equipment.shredder.opening.size   q equipment.shredder.opening.length
*q equipment.shredder.reach   c equipment.shredder.two_hand   *l equipment.shredder.to_clear_a_jam
n equipment.planer.rpm   n equipment.planer.knives   c equipment.planer.jointed   q equipment.planer.feed
q equipment.planer.cutter_diameter   q equipment.planer.roller_gap   q equipment.planer.min_length
q equipment.planer.min_thickness   c equipment.planer.push_block   q equipment.sander.speed   n equipment.sander.grit
q equipment.sander.power   q equipment.sander.contact_area   q equipment.sander.contact_time
"""
PAIRS = list(zip(DEMANDED.split()[::2], DEMANDED.split()[1::2], strict=True))


def kind_of(found: Field) -> str:
    """The letter that the table has for a field."""
    if found.dimension:
        return "q"
    if found.choices:
        return "l" if found.is_list else "c"
    return "t"


@pytest.mark.parametrize(("mark", "path"), PAIRS, ids=[path for _, path in PAIRS])
def test_every_field_of_the_design_is_there(mark: str, path: str) -> None:
    """With its kind, and with what its absence means."""
    found = field(tuple(path.split(".")))
    absent = {"*": Absent.ANSWER, "-": Absent.UNSAID}.get(mark[0], Absent.ASK)
    assert found.absent == absent
    assert kind_of(found) == mark[-1].replace("n", "t")


def test_no_other_field_must_be_answered_or_left_unsaid(schemas: Schemas) -> None:
    """The two special kinds of absence are given to the fields of the list above and to no other.

    A tray goes back to food as a mould does, and what is ours beyond the design need not be said.
    """
    marked = {path for mark, path in PAIRS if mark[0] in "*-"}
    found = {".".join(f.path) for f in fields(schemas) if f.absent != Absent.ASK and f.process is None}
    ours = {"formula.tray_loss", "formula.machining_stock", "formula.feedstock.bulk_density"}
    ours |= {f"procedure.hazards.{key}" for key in ("limit", "monitor", "corrective")}
    assert found == marked | {"equipment.tray.food_again"} | ours


def test_a_field_knows_all_about_itself() -> None:
    """Dimension, choices, absence and question come from the schema."""
    rating = field(("equipment", "press", "rating"))
    assert (rating.dimension, rating.absent) == (Dimension.FORCE, Absent.ANSWER)
    assert rating.ask == "What load is marked on the jack?"
    assert field(("site", "shop_air")).default == "15 - 30 °C"
    present = field(("site", "present"))
    assert present.is_list
    assert "under 14" in present.choices
    assert field(("equipment", "press", "jack_shield")).choices == ("none",)


def test_list_indexes_may_be_there_or_left_out() -> None:
    """A path of the document and a path of the schema find the same field."""
    assert field(("formula", "feedstock", 3, "resin")) == field(("formula", "feedstock", "resin"))


def test_a_step_is_looked_up_in_its_own_schema(schemas: Schemas) -> None:
    """The same key means what its process says; without one, only the keys of every step are known."""
    assert field(("procedure", 1, "oven"), "flake-melt", schemas).dimension is Dimension.TEMPERATURE
    assert field(("procedure", 0, "scale", "capacity"), "weigh", schemas).dimension is Dimension.MASS
    assert field(("procedure", 0, "attended"), "weigh", schemas).absent is Absent.ANSWER
    assert field(("procedure", 0, "at_least")).dimension is Dimension.TIME
    with pytest.raises(LookupError, match=r"procedure\.oven is no field"):
        field(("procedure", 1, "oven"))


def test_a_group_is_found_too() -> None:
    """A group or a list of groups has neither choices nor a dimension."""
    assert field(("formula", "liner")).is_group
    assert field(("formula", "liner")).absent is Absent.ANSWER
    assert field(("formula", "feedstock")).is_list
    assert field(()).is_group


@pytest.mark.parametrize("path", [("equipment", "toaster"), ("format", "x"), ("x-mine",), ("part", "use", "x")])
def test_what_is_no_field_is_an_error_of_the_caller(path: tuple[str, ...]) -> None:
    """Asking for a field that does not exist is a mistake in the program, not in a recipe."""
    with pytest.raises(LookupError):
        field(path)


def test_every_field_can_be_explained_and_asked_for(schemas: Schemas) -> None:
    """Each has a line of meaning, and a question unless it is a note or what no recipe can be without."""
    unasked = {"format", "id", "title", "process", "notes"}
    for found in fields(schemas):
        assert found.means.endswith(".")
        assert found.ask.endswith("?") or found.path[-1] in unasked, found.path


def test_the_list_of_fields_names_each_once(schemas: Schemas) -> None:
    """And each is found again under its own path."""
    listed = [(f.path, f.process) for f in fields(schemas)]
    assert len(listed) == len(set(listed))
    assert all(field(f.path, f.process, schemas) == f for f in fields(schemas))


@pytest.mark.parametrize(
    ("text", "forms", "form", "quantity"),
    [
        ("60 mm air gap", ("none", "{} air gap"), "{} air gap", "60 mm"),
        ("core below 60 °C", ("core set", "core below {}"), "core below {}", "60 °C"),
        ("core set", ("core set", "core below {}"), "core set", ""),
        ("12 %", ("{}", "wet"), "{}", "12 %"),
        ("wet", ("{}", "wet"), "wet", ""),
    ],
)
def test_a_form_is_told_from_its_quantity(text: str, forms: tuple[str, ...], form: str, quantity: str) -> None:
    """The words of a form stand around the quantity, or alone."""
    found = split(text, forms)
    assert found is not None
    assert (found[0], text[found[1] : found[2]]) == (form, quantity)


@given(st.text(max_size=20))
def test_what_fits_no_form_is_none(text: str) -> None:
    """Only a text with the words of a form is split, and then the rest is the quantity."""
    found = split(text, ("none", "{} air gap"))
    if found is None:
        assert text != "none"
        assert not text.endswith(" air gap") or text == " air gap"
    else:
        assert found[0].replace("{}", text[found[1] : found[2]]) == text


def test_looking_a_field_up_needs_no_validator() -> None:
    """Listing and explaining must not pay for importing jsonschema or numpy."""
    code = (
        "import sys\nfrom recipes_core.schema import check\nfrom recipes_core.schema.fields import field\n"
        "field(('part', 'use'))\nprint(sorted({'jsonschema', 'referencing', 'numpy'} & sys.modules.keys()))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
