"""Checking a recipe against the schemas: one fault gives one finding, at the smallest text that is wrong."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.document import DocumentError, read
from recipes_core.findings import Change, Finding, Kind, Level, Path, Span, Way
from recipes_core.schema.check import MOST, check
from recipes_core.schema.compose import Schemas, compose

# what the recipe says; what it says instead, the wrong part between « and »; the rule; a piece of the message
FAULTS = [
    # keys
    ("  thickness: 10 mm\n", "  «thikness»: 10 mm\n", "key-not-known", "did you mean `thickness`?"),
    ("    colour: natural\n", "    «paint»: red\n", "key-not-known", "entry 1 of `formula.feedstock`"),
    ("swing: 8 K", "«swings»: 8 K", "key-not-known", "`equipment.oven`: did you mean `swing`?"),
    ("by: probe, on", "«bye»: probe, on", "key-not-known", "measured`: did you mean `by`?"),
    ("repress_every: 2 min", "«repress_evry»: 2 min", "key-not-known", "step 5: did you mean"),
    ("scale: {resolution", "scale: {«resolutoin»", "key-not-known", "`scale` of step 1"),
    ("layers: 3", "«force»: 3 t", "key-not-known", "`force` is not a key of step 4."),
    ("procedure:\n", "«proceedure»:\n", "key-not-known", "did you mean `procedure`?"),
    ("{id: fold, process: fold", "{id: fold, «proces»: fold", "key-not-known", "did you mean `process`?"),
    ("  title: Coat", "  «titel»: Coat", "key-not-known", "did you mean `title`?"),
    ("{id: cool, process: cool, in", "{«process»: cool, in", "key-missing", "`id` is missing from step 6"),
    ("header:\n  id: hdpe-coat-hook-blank\n", "«header»:\n", "key-missing", "`id` is missing from `header`"),
    ("  - id: melt\n    process: flake-melt\n", "  - «id»: melt\n", "key-missing", "`process` is missing"),
    ("notes: |", "«allowances»: []\nnotes: |", "allowances-in-recipe", "profile of the shop"),
    # shapes
    ("  charge: 97 g\n", "  «charge»: [97 g]\n", "wrong-shape", "takes one value, not a list"),
    ("  charge: 97 g\n", "  «charge»: {mass: 97 g}\n", "wrong-shape", "one value, not a group of keys"),
    ("scale: {resolution: 1 g, capacity: 5 kg}", "scale: «1 g»", "wrong-shape", "`scale` of step 1"),
    ("  use: [indoor fitting]", "  use: «indoor fitting»", "wrong-shape", "`part.use` takes a list"),
    ("  use: [indoor fitting]", "  use: [«[indoor fitting]»]", "wrong-shape", "Entry 1 of `part.use`"),
    ("site: {place", "«site»: [place]\nx-site: {place", "wrong-shape", "group of keys, not a list"),
    ("  shape: plate  ", '  «shape»: ""  ', "value-missing", "`part.shape` has no value"),
    ("  charge: 97 g\n", "  «charge»: ''\n", "value-missing", "`formula.charge` has no value"),
    # choices
    ("colour: natural", "colour: «naturel»", "choice-not-known", "did you mean `natural`?"),
    ("colour: natural", "colour: «beige»", "choice-not-known", "`colour` of entry 1 of"),
    ("attended: always", "attended: «Always»", "choice-not-known", "did you mean `always`?"),
    ("present: [none]", "present: [none, «dogs»]", "choice-not-known", "entry 2 of `site.present`"),
    ("marked: yes", "marked: «maybe»", "choice-not-known", "`equipment.press.marked`"),
    ("hands: EN 407 contact heat 2", "hands: «EN 407»", "choice-not-known", "`hands` of step 7"),
    ("moisture: dry to touch", "moisture: «damp»", "choice-not-known", "formula.feedstock"),
    ("done: core below 60 °C", "done: «core below»", "choice-not-known", "`done` of step 6."),
    ("done: core below 60 °C", "done: «core blow 60 °C»", "choice-not-known", "`done` of step 6"),
    # texts
    ("id: hdpe-coat-hook-blank", "id: «HDPE coat hook»", "text-not-read", "does not fit `header.id`"),
    ("times_melted: 0", "times_melted: «never»", "text-not-read", "does not fit"),
    ("by: probe, on: 2026-05-01", "by: probe, on: «2026-13-01»", "text-not-read", "does not fit"),
    ("layers: 3", "layers: «3.5»", "text-not-read", "`layers` of step 4"),
    ("jurisdiction: GB ", "jurisdiction: «Britain» ", "text-not-read", "`header.jurisdiction`"),
    # quantities
    ("    oven: 177 °C\n", "    oven: «350»\n", "unit-missing", "350 °C or 350 °F?"),
    ("at_least: 20 min\n", "at_least: «5 - 7»\n", "unit-missing", ""),
    ("    oven: 177 °C\n", "    oven: «hot»\n", "quantity-not-read", ""),
    ("  charge: 97 g\n", "  charge: 97 «fl oz»\n", "quantity-not-read", "fl oz is a volume"),
    ("  thickness: 10 mm\n", "  thickness: «3,5» mm\n", "quantity-not-read", "decimal comma"),
    ('  thickness: 10 mm\n', '  thickness: "10 «lightyears»"\n', "quantity-not-read", ""),
    ("swing: 8 K", "swing: 8 «°C»", "quantity-not-read", ""),
    ("jack_shield: 60 mm air gap", "jack_shield: «60» air gap", "unit-missing", "60 mm"),
    ("done: core below 60 °C", "done: core below «60»", "unit-missing", "60 °C or 60 °F?"),
    # the steps together
    ("  - id: melt\n", "  - «idd»: melt\n", "key-not-known", "did you mean `id`?"),
    ("  - id: melt\n", "  - id: «Melt»\n", "text-not-read", "`id` of step 2"),
    ("process: fold", "process: «fol»", "process-not-known", "did you mean `fold`?"),
    ("process: fold, layers", "process: «melt-spin», spin: 90, layers", "process-not-known", "`melt-spin`"),
    ("{id: cool,", "{id: «melt»,", "step-id-twice", "already"),
    ("alongside: melt", "alongside: «molt»", "step-not-known", "did you mean `melt`?"),
    ("alongside: melt", "alongside: «preheat»", "step-not-known", "`preheat`"),
    # the format
    ("format: recipe/1\n", "format: «recipe/2»\n", "format-too-new", "must not guess"),
    ("format: recipe/1\n", "format: «shop/1»\n", "format-of-another-kind", "a shop, not a recipe"),
    ("format: recipe/1\n", "format: «recipe-1»\n", "format-not-read", "not a format of a recipe"),
    ("format: recipe/1\n", "format: «recipe/1.3»\n", "format-newer", "reads it as recipe/1.0"),
    ("format: recipe/1\n\nheader:", "«header»:", "format-missing", "which format"),
]  # fmt: skip


def changed(text: str, old: str, new: str) -> str:
    """The text with its one ``old`` replaced."""
    assert text.count(old) == 1, f"{old!r} stands there {text.count(old)} times"
    return text.replace(old, new)


def marked_span(text: str) -> tuple[str, Span]:
    """The text without its marks, and the place of what stood between them."""
    before, _, rest = text.partition("«")
    wrong, _, after = rest.partition("»")
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    return before + wrong + after, Span(line, column, line, column + len(wrong))


def found_in(text: str, schemas: Schemas) -> tuple[Finding, ...]:
    """The findings of a recipe text."""
    return check(read(text), schemas)


def test_the_recipe_of_the_format_is_valid(coat_hook: str, schemas: Schemas) -> None:
    """The recipe that the description of the format prints has nothing against it."""
    assert found_in(coat_hook, schemas) == ()


@pytest.mark.parametrize("fault", FAULTS, ids=[fault[1].strip()[:30] for fault in FAULTS])
def test_one_fault_is_one_finding(coat_hook: str, schemas: Schemas, fault: tuple[str, str, str, str]) -> None:
    """It is found once, by its own rule, at exactly the wrong text."""
    old, new, rule, said = fault
    text, span = marked_span(changed(coat_hook, old, new))
    found = found_in(text, schemas)
    assert [(f.rule, f.span) for f in found] == [(rule, span)]
    assert said in found[0].message
    assert found[0].level == (Level.NOTE if rule == "format-newer" else Level.ERROR)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("site: {place: outdoors", "site: unknown\nx-site: {place: outdoors"),
        ("resin: hdpe", "resin: unknown"),
        ("  use: [indoor fitting]", "  use: unknown"),
        ("  use: [indoor fitting]", "  use: [unknown]"),
        ("  use: [indoor fitting]", "  use: none"),
        ("  charge: 97 g", "  charge: unknown"),
        ("times_melted: 0", "times_melted: unknown"),
        ("measured: {set: 177 °C, reads: 174 °C, by: probe, on: 2026-05-01}", "measured: unknown"),
        ("marked: yes", "marked: true"),
        ("marked: yes", "marked: False"),
        ("dry: yes", "dry: true"),
        ("dry: yes", "dry: 12 %"),
        ("  charge: 97 g", "  x-charge: {anything: [at, all]}\n  charge: 97 g"),
        ("layers: 3", "layers: 3, x-note: folded by hand"),
        ("layers: 3", "layers: 3, attended: while hot, gear: [gauntlet]"),
        ("scale: {resolution: 1 g, capacity: 5 kg}", "notes: free text"),
        ("at_least: 20 min\n", "at_least: 20 - 25 min\n"),
        ("moisture: dry to touch", "moisture: 0.2 %"),
        ("done: core below 60 °C", "done: core solid"),
        ("revision: 1.2.0", "revision: 1.10"),
        ("formula:\n", "x-formula: {a: b}\nformula:\n"),
        ("jack_shield: 60 mm air gap", "jack_shield: none"),
    ],
)
def test_what_may_be_said_is_not_remarked_on(coat_hook: str, schemas: Schemas, old: str, new: str) -> None:
    """Unknown anywhere, true for yes, ranges, keys of one's own, the step's own site: none is a fault."""
    assert found_in(changed(coat_hook, old, new), schemas) == ()


def test_a_short_recipe_is_valid(schemas: Schemas) -> None:
    """What is not said is a matter of rules; the schema asks for little."""
    text = "format: recipe/1\nheader: {id: a, title: A}\nprocedure:\n  - {id: weigh, process: weigh}\n"
    assert found_in(text, schemas) == ()


def test_what_a_recipe_cannot_be_without_is_never_unknown(schemas: Schemas) -> None:
    """A header, a procedure and a step must be there."""
    text = "format: recipe/1\nheader: unknown\nprocedure: [unknown]\n"
    assert [(f.rule, f.path) for f in found_in(text, schemas)] == [
        ("wrong-shape", ("header",)),
        ("wrong-shape", ("procedure", 0)),
    ]


def test_a_recipe_needs_a_step(schemas: Schemas) -> None:
    """An empty procedure is one finding, at its key."""
    (found,) = found_in("format: recipe/1\nheader: {id: a, title: A}\nprocedure: []\n", schemas)
    assert (found.rule, found.span) == ("key-missing", Span(3, 1, 3, 10))


def test_every_fault_is_found_in_the_order_of_the_text(coat_hook: str, schemas: Schemas) -> None:
    """Faults do not hide each other, and both passes come out in one order."""
    text = changed(changed(coat_hook, "layers: 3", "layers: many"), "colour: natural", "colour: beige")
    text = changed(changed(text, "rating: 4 t,", "rating: 4 ton,"), "  width: 60 mm\n", "  wide: 60\n")
    found = found_in(text, schemas)
    assert [f.rule for f in found] == [
        "key-not-known",
        "choice-not-known",
        "quantity-not-read",
        "text-not-read",
    ]
    assert [f.span for f in found] == sorted(f.span for f in found if f.span)


@pytest.mark.parametrize(
    ("old", "new", "change"),
    [
        ("  thickness: 10 mm\n", "  thikness: 10 mm\n", Change(("part", "thikness"), "thickness", key=True)),
        ("colour: natural", "colour: Natural", Change(("formula", "feedstock", 0, "colour"), "natural")),
        ("process: fold", "process: folds", Change(("procedure", 3, "process"), "fold")),
        ("alongside: melt", "alongside: mellt", Change(("procedure", 2, "alongside"), "melt")),
        ("  use: [indoor fitting]", "  use: indoor fitting", Change(("part", "use"), "[indoor fitting]")),
    ],
)
def test_a_sure_slip_comes_with_its_cure(coat_hook: str, schemas: Schemas, old: str, new: str, change: Change) -> None:
    """Where only one thing can have been meant, the finding offers the edit."""
    (found,) = found_in(changed(coat_hook, old, new), schemas)
    assert found.advice == (Way("", (change,)),)


@pytest.mark.parametrize(("old", "new"), [("colour: natural", "colour: beige"), ("marked: yes", "marked: yos")])
def test_a_doubtful_slip_is_left_to_the_author(coat_hook: str, schemas: Schemas, old: str, new: str) -> None:
    """A short or strange word may have meant anything; it is not changed for the author."""
    (found,) = found_in(changed(coat_hook, old, new), schemas)
    assert found.advice == ()


def test_too_new_a_format_hides_the_rest(coat_hook: str, schemas: Schemas) -> None:
    """What a newer format means by its words is not guessed at."""
    text = changed(changed(coat_hook, "recipe/1", "recipe/2"), "layers: 3", "layers: many")
    assert [f.rule for f in found_in(text, schemas)] == ["format-too-new"]


def test_a_quoted_value_is_marked_inside_its_quotes(schemas: Schemas) -> None:
    """The column counts the quote; a folded value, whose columns do not match, is marked as a whole."""
    start = "format: recipe/1\nheader: {id: a, title: A}\nprocedure:\n  - {id: weigh, process: weigh}\npart:\n"
    (found,) = found_in(start + '  length: "16 yards long"\n', schemas)
    assert found.span is not None
    assert found.span.line == 6
    assert found.span.column > 12
    (found,) = found_in(start + "  length: >\n    16\n    beards\n", schemas)
    assert found.span is not None
    assert (found.span.line, found.span.column) == (6, 11)


def test_without_plugins_every_process_is_unknown(coat_hook: str) -> None:
    """The core knows no process by name."""
    found = found_in(coat_hook, compose({}))
    assert [f.rule for f in found] == ["process-not-known"] * 7


def test_the_check_stops_where_nobody_reads_on(schemas: Schemas) -> None:
    """A flood of faults is cut off after the first hundred, and that is said."""
    steps = "".join(f"  - {{id: step-{n}, process: weigh, wiegh: a, alongside: b}}\n" for n in range(1500))
    found = found_in("format: recipe/1\nheader: {id: a, title: A}\nprocedure:\n" + steps, schemas)
    assert len(found) == MOST + 1
    assert [f.rule for f in found].count("too-many-faults") == 1


def test_a_decimal_comma_that_yaml_splits_is_one_sentence(coat_hook: str) -> None:
    """In a flow mapping the reader itself answers, before any key could be called unknown."""
    with pytest.raises(DocumentError) as raised:
        read(changed(coat_hook, "thickness: 0.8 mm, finish", "thickness: 0,8 mm, finish"))
    (problem,) = raised.value.problems
    assert "decimal comma" in problem.sentence


class Tree:
    """A document of any data at all, each place with a span of its own."""

    def __init__(self, data: Any) -> None:
        self.data = data

    def span(self, path: Path) -> Span:
        return Span(1, 1, 1, 2)

    key_span = span


WORDS = st.sampled_from(["unknown", "none", "", "350", "hot", "fold", "recipe/1", "10 mm", "yes", "x", "5 mm"])
KEYS = st.sampled_from(
    [
        *(
            "format",
            "header",
            "id",
            "title",
            "part",
            "use",
            "formula",
            "feedstock",
            "liner",
            "site",
            "equipment",
        ),
        *("oven", "press", "procedure", "process", "alongside", "allowances", "x-a", "thikness", "notes"),
    ]
)
TREES = st.recursive(
    WORDS | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS | st.text(max_size=4), inner, max_size=5),
    max_leaves=20,
)
STEPS = st.lists(
    st.fixed_dictionaries(
        {"process": st.sampled_from(["fold", "weigh", "cool", "x"])}, optional={"id": WORDS, "scale": TREES}
    )
)


@given(TREES | st.fixed_dictionaries({"procedure": STEPS | TREES, "header": TREES}))
def test_any_tree_gives_findings_and_no_exception(schemas: Schemas, tree: Any) -> None:
    """Whatever a document holds, it is answered with findings, each a whole sentence."""
    for found in check(Tree(tree), schemas):  # type: ignore[arg-type]
        assert found.kind in (Kind.FAIL, Kind.INFORMATIONAL)
        assert found.message.endswith((".", "?"))
        assert found.why or found.rule == "format-newer"
        assert "\n" not in found.message
