"""A recipe as typed values: SI with the author's words and place, three kinds of absence, ``unknown`` anywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.document import read
from recipes_core.facts import Given, Open, Source
from recipes_core.recipe import Recipe

if TYPE_CHECKING:
    from tests.conftest import Shop


def test_a_value_comes_in_si_with_its_words_and_place(shop: Shop) -> None:
    """Where it stands is known to the column, so that a finding can point at it."""
    recipe = shop.recipe()
    charge = recipe.get(("formula", "charge"))
    assert isinstance(charge, Given)
    assert (charge.value, charge.text, charge.origin.source) == (0.375, "375 g", Source.RECIPE)
    assert charge.origin.path == ("formula", "charge")
    span = charge.origin.span
    assert span is not None
    line = recipe.document.text.splitlines()[span.line - 1]
    assert line[span.column - 1 : span.end_column - 1].strip('"') == "375 g"


@pytest.mark.parametrize(
    ("text", "value"),
    [("170 - 180 °C", (443.15, 453.15)), ("350 °F", 449.81667), ("177 °C", 450.15)],
)
def test_ranges_stay_ranges(shop: Shop, text: str, value: object) -> None:
    """A single value is a number, a range its two ends."""
    found = shop.recipe({"melt.oven": text}).get(("procedure", 1, "oven"), "flake-melt")
    assert isinstance(found, Given)
    assert found.value == pytest.approx(value)
    assert found.text == text


def test_a_field_that_asks(shop: Shop) -> None:
    """Absent or unknown, it is open with the schema's question; neither is ever a no."""
    path = ("equipment", "oven", "type")
    absent = shop.recipe({"equipment.oven.type": None}).get(path)
    unknown = shop.recipe({"equipment.oven.type": "unknown"}).get(path)
    assert isinstance(absent, Open)
    assert absent == unknown
    ((where, question),) = absent.needs
    assert where == path
    assert question.endswith("?")


def test_a_field_that_must_be_answered(shop: Shop) -> None:
    """A hazard that nobody mentions is not absent: it is asked about."""
    found = shop.recipe().get(("formula", "feedstock", 0, "past_contents"))
    assert isinstance(found, Open)
    assert all(question for _, question in found.needs)


def test_a_field_that_is_only_said_where_it_is_so(shop: Shop) -> None:
    """Nothing said means no, and nobody is asked; unknown is still a question."""
    path = ("equipment", "oven", "cord")
    assert shop.recipe().get(path) is None
    assert isinstance(shop.recipe({"equipment.oven.cord": "unknown"}).get(path), Open)


def test_unknown_anywhere_above_reads_as_unknown(shop: Shop) -> None:
    """A whole oven, a whole list, or one item that nobody knows."""
    recipe = shop.recipe({"equipment.oven": "unknown", "part.use": ["unknown"]})
    assert isinstance(recipe.get(("equipment", "oven", "type")), Open)
    assert isinstance(recipe.get(("equipment", "oven", "measured", "reads")), Open)
    assert isinstance(recipe.get(("part", "use")), Open)


def test_a_value_that_the_schema_refused_is_open_without_a_question(shop: Shop) -> None:
    """The schema check has said what is wrong; asking again would be noise, computing with it wrong."""
    wrong = {"formula.charge": "375 s", "equipment.oven.type": "steam", "melt.oven": "hot", "fold.layers": "three"}
    recipe = shop.recipe(wrong)
    for path, process in (
        (("procedure", 3, "layers"), "fold"),
        (("formula", "charge"), None),
        (("equipment", "oven", "type"), None),
        (("procedure", 1, "oven"), "flake-melt"),
    ):
        found = recipe.get(path, process)
        assert isinstance(found, Open)
        assert {question for _, question in found.needs} == {""}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("core set", "core set"),
        ("core solid", "core solid"),
        ("cool to touch", "cool to touch"),
        ("core below 60 °C", 333.15),
        ("core below 140 °F", 333.15),
    ],
)
def test_forms(shop: Shop, text: str, value: object) -> None:
    """A field may take plain words, or words around a quantity: then the value is the quantity."""
    found = shop.recipe({"cool.done": text}).get(("procedure", 5, "done"), "cool")
    assert isinstance(found, Given)
    assert found.value == pytest.approx(value) if isinstance(value, float) else found.value == value
    assert found.text == text


def test_yes_and_no_have_one_spelling(shop: Shop) -> None:
    """``true`` reads as yes, in a field of its own and in a list."""
    found = shop.recipe({"equipment.mould.vents": "true"}).get(("equipment", "mould", "vents"))
    assert isinstance(found, Given)
    assert (found.value, found.text) == ("yes", "true")


def test_a_list_keeps_its_items(shop: Shop) -> None:
    """Items as a tuple, the words joined; one text in the place of a list is a list of one."""
    path = ("part", "use")
    many = shop.recipe({"part.use": ["decoration", "indoor fitting"]}).get(path)
    assert isinstance(many, Given)
    assert (many.value, many.text) == (("decoration", "indoor fitting"), "decoration, indoor fitting")
    one = shop.recipe({"part.use": "decoration"}).get(path)
    assert isinstance(one, Given)
    assert one.value == ("decoration",)


@pytest.mark.parametrize("items", [[], ["unknown"], ["metal", "unknown"]])
def test_a_list_that_does_not_answer_is_open(shop: Shop, items: list[str]) -> None:
    """An empty one says nothing, not even none; an item that nobody knows leaves the whole list open."""
    recipe = shop.recipe({"formula.feedstock.0.removed": items, "part.claims": items})
    assert isinstance(recipe.get(("formula", "feedstock", 0, "removed")), Open)
    assert recipe.get(("part", "claims")) is None if not items else isinstance(recipe.get(("part", "claims")), Open)


def test_steps_and_lots(shop: Shop) -> None:
    """Steps keep their place in the list even where one before them names no process."""
    recipe = shop.recipe({"weigh.process": None, "fold.id": None})
    assert [(s.id, s.process, s.index) for s in recipe.steps][:3] == [
        ("melt", "flake-melt", 1),
        ("preheat", "mould-preheat", 2),
        ("step 4", "fold", 3),
    ]
    assert recipe.steps[0].path == ("procedure", 1)
    assert recipe.lots == (0,)
    assert recipe.id == "trial-plate"


@pytest.mark.parametrize("text", ["format: recipe/1", "format: recipe/1\nprocedure: none\nformula: 3\nheader: x"])
def test_a_recipe_of_any_shape_can_be_read(shop: Shop, text: str) -> None:
    """What is not there, or is something else, yields no steps and no lots, and never an exception."""
    recipe = Recipe(read(text, "odd.yaml"), shop.shelf.schemas)
    assert (recipe.steps, recipe.lots, recipe.id) == ((), (), "")
    assert isinstance(recipe.get(("formula", "charge")), Open)


def test_a_path_that_is_no_field_is_a_mistake_of_the_caller(shop: Shop) -> None:
    """A misspelt name in code raises instead of reading as open."""
    with pytest.raises(LookupError, match="is no field"):
        shop.recipe().get(("formula", "chrage"))


def test_a_list_of_quantities_comes_in_si(shop: Shop) -> None:
    """Words among them stay words; one that is no quantity leaves the list open, without a question."""

    def meshes(*told: str) -> Given | Open | None:
        step = {"id": "wash", "process": "wash", "filter": list(told)}
        return shop.recipe({"procedure": [step]}).get(("procedure", 0, "filter"), "wash")

    found = meshes("100 µm", "5 µm")
    assert isinstance(found, Given)
    assert found.value == pytest.approx((1e-4, 5e-6))
    assert found.text == "100 µm, 5 µm"
    none = meshes("none")
    assert isinstance(none, Given)
    assert none.value == ("none",)
    wrong = meshes("100 µm", "fine")
    assert isinstance(wrong, Open)
    assert {question for _, question in wrong.needs} == {""}
    assert isinstance(meshes("unknown"), Open)
