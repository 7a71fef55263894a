"""Reading a data sheet: what a value, a range, a curve and a missing value are, and each thing refused."""

from __future__ import annotations

import subprocess
import sys
import time
from datetime import date

import pytest

from recipes_core.document import read
from recipes_core.errors import DataError
from recipes_core.facts import Basis, Given, Open, Source
from recipes_core.sheets import Sheet, load_sheet
from recipes_core.sheets.measures import MeasureError, Plain, read_number, read_table
from recipes_core.sheets.properties import PROPERTIES

TODAY = date(2026, 11, 25)
ICE = 273.15

GOOD = """\
format: resin/1
id: demo
name: Demonstration resin
symbol: PE-X
kind: semicrystalline
family: polyolefin
sources:
  book: {cite: A book of numbers, seen: text, checked: 2026-11-25}
values:
  melting peak:
    value: 130 °C
    range: 125 - 135 °C
    basis: published
    source: book
    locator: p. 7
    alternatives:
      - {value: 131 °C, basis: memory, instead: not seen}
  latent heat: {value: 190 kJ/kg, basis: memory}
  emissivity: {value: 0.85 - 0.95, basis: judgement, note: usual for plastics}
  thermal expansion: {value: 175 µm/(m K), basis: memory}
  moisture: {value: dry to touch, basis: common practice}
  melting curve:
    table: {100 °C: 0 %, 130 °C: 80 %, 136 °C: 100 %}
    basis: derived
    from: a triangle
  consistency:
    by:
      bottle: {value: 20000 Pa s^n, basis: memory}
"""
LINER = """\
format: liner/1
id: cloth
name: A cloth
values:
  sticks to: {value: [hdpe, ldpe], basis: common practice}
"""


def sheet(text: str = GOOD) -> Sheet:
    """The sheet in a text."""
    return load_sheet(read(text.encode(), "demo.yaml"))


def given(value: Given | Open) -> Given:
    """The value, which must be there."""
    assert isinstance(value, Given)
    return value


def sentences(text: str) -> list[str]:
    """What is wrong with the sheet in a text."""
    return [problem.sentence for problem in sheet(text).problems(TODAY)]


def test_a_good_sheet_has_no_problems() -> None:
    """The samples that the other tests bend out of shape are sound."""
    assert sentences(GOOD) == []
    assert sentences(LINER) == []


def test_value_comes_in_si_with_its_words_and_origin() -> None:
    """130 °C is 403.15 K; the origin names sheet, entry and basis, and no place of a recipe."""
    peak = given(sheet().get("melting peak"))
    assert peak.value == pytest.approx(403.15)
    assert peak.text == "130 °C"
    assert peak.origin.source is Source.SHEET
    assert peak.origin.where == "demo sheet: melting peak"
    assert peak.origin.basis is Basis.PUBLISHED
    assert (peak.origin.path, peak.origin.span) == ((), None)


def test_range_is_stated_or_the_value_itself() -> None:
    """A stated range; a value without one stands at both ends; a value that is a range is one."""
    assert given(sheet().range("melting peak")).value == pytest.approx((398.15, 408.15))
    assert given(sheet().range("latent heat")).value == (190e3, 190e3)
    assert given(sheet().range("emissivity")).value == (0.85, 0.95)
    assert given(sheet().get("emissivity")).value == (0.85, 0.95)


def test_plain_units_are_scaled() -> None:
    """175 µm/(m K) is 175e-6 1/K."""
    assert given(sheet().get("thermal expansion")).value == pytest.approx(175e-6)


def test_texts_and_lists() -> None:
    """A text stays one; a list is a tuple; both keep their words."""
    assert given(sheet().get("moisture")).value == "dry to touch"
    sticks = given(sheet(LINER).get("sticks to"))
    assert sticks.value == ("hdpe", "ldpe")
    assert sticks.text == "hdpe, ldpe"


def test_curve_is_a_pair_of_columns() -> None:
    """Temperatures in K and values in SI, and a summary for display."""
    curve = given(sheet().get("melting curve"))
    assert curve.value[0] == pytest.approx((373.15, 403.15, 409.15))
    assert curve.value[1] == pytest.approx((0.0, 0.8, 1.0))
    assert curve.text == "3 points, 100 °C to 136 °C"


def test_head_is_a_value_too() -> None:
    """Rules ask for the family and the id as they ask for a number."""
    assert [given(sheet().get(name)).value for name in ("id", "family", "kind", "symbol")] == [
        "demo",
        "polyolefin",
        "semicrystalline",
        "PE-X",
    ]


def test_value_by_grade() -> None:
    """The grade is part of the name; another grade, or none, is open."""
    assert given(sheet().get("consistency, bottle")).value == 20000
    assert isinstance(sheet().get("consistency, injection"), Open)
    assert isinstance(sheet().get("consistency"), Open)
    assert "consistency, bottle" in list(sheet().names())


def test_missing_value_asks() -> None:
    """What the sheet lacks is open, with a question that names the sheet and the value."""
    lacking = sheet().get("freezing peak")
    assert isinstance(lacking, Open)
    assert [question for _, question in lacking.needs] == ["the data sheet of demo gives no freezing peak"]
    assert sheet().range("freezing peak") == lacking
    assert sheet().find("freezing peak") is None


def test_name_that_no_sheet_knows_is_a_mistake_of_the_caller() -> None:
    """A misspelt name in code raises, with the near name; so does the range of a curve or a text."""
    with pytest.raises(LookupError, match='did you mean "melting peak"'):
        sheet().get("meltin peak")
    for name in ("melting curve", "moisture"):
        with pytest.raises(LookupError, match="has no range"):
            sheet().range(name)


def test_provenance_can_be_asked_for() -> None:
    """Basis, source, locator and the alternatives with their reasons."""
    found = sheet().find("melting peak")
    assert found is not None
    entry = found[2]
    assert (entry.basis, entry.source, entry.locator) == (Basis.PUBLISHED, "book", "p. 7")
    assert [(other.value, other.instead) for other in entry.alternatives] == [("131 °C", "not seen")]
    assert sheet().citation("book").cite == "A book of numbers"
    with pytest.raises(DataError):
        sheet().citation("novel")


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("basis: published", "", "basis is missing"),
        ("basis: published", "basis: publisht", 'no basis: one of.*did you mean "published"'),
        ("    locator: p. 7\n", "", "this published value needs a locator"),
        ("    source: book\n", "", "this published value needs a source"),
        ("source: book", "source: boook", 'lists no source "boook"; did you mean "book"'),
        ("    from: a triangle\n", "", "this derived value needs from"),
        (", note: usual for plastics", "", "this judgement value needs a note"),
        (", instead: not seen", "", "this alternative needs instead"),
        ("value: 131 °C, ", "", "this alternative needs a value"),
        ("value: 131 °C", "value: 131", "°C"),
        ("value: 130 °C", "value: 130", "°C"),
        ("value: 130 °C", "value: 130 kg", "kg"),
        ("value: 130 °C", "value: [130 °C]", "not a list"),
        ("    value: 130 °C\n", "", "either a value or a table"),
        ("range: 125 - 135 °C", "range: 131 - 135 °C", "outside this range"),
        ("range: 125 - 135 °C", "range: 135 - 125 °C", "backwards"),
        ("range: 125 - 135 °C", "range: 130 °C", "lower and the upper end"),
        ("0.85 - 0.95", "0.95 - 0.85", "backwards"),
        ("0.85 - 0.95", "0.85 %", "such as 5"),
        ("175 µm/(m K)", "175", "such as 5 µm"),
        ("130 °C: 80 %", "130 °C: 80", "%"),
        ("130 °C: 80 %, 136 °C: 100 %", "136 °C: 80 %, 130 °C: 100 %", "must rise"),
        ("130 °C: 80 %", "130 °C: 70 - 80 %", "no ranges"),
        ("value: dry to touch", "value: [dry, wet]", "one text"),
        ("  latent heat:", "  latent heet:", 'no value of a resin sheet; did you mean "latent heat"'),
        ("  latent heat:", "  refusal line:", "no value of a resin sheet"),
        ("note: usual", "notes: usual", '"notes" is not known here; did you mean "note"'),
        ("kind: semicrystalline", "kind: crystalline", "semicrystalline, amorphous or unknown"),
        ("family: polyolefin\n", "", "does not say family"),
        ("family:", "famly:", 'did you mean "family"'),
        ("checked: 2026-11-25", "checked: 2026-11-26", "still to come"),
        ("checked: 2026-11-25", "checked: 25.11.2026", "write the date as"),
        ("seen: text", "seen: title", "seen is one of text, abstract, secondary"),
        ("cite: A book of numbers, ", "", "does not say cite"),
        (
            "sources:\n",
            "sources:\n  spare: {cite: x, seen: text, checked: 2026-11-25}\n",
            "no value names this",
        ),
        ("  latent heat: {value: 190 kJ/kg, basis: memory}", "  latent heat: 190 kJ/kg", "names with values"),
        (
            "  latent heat: {value: 190 kJ/kg, basis: memory}",
            "  latent heat: {by: {bottle: {value: 190 kJ/kg, basis: memory}}}",
            "does not depend on anything",
        ),
    ],
)
def test_each_mistake_has_its_sentence_and_place(old: str, new: str, sentence: str) -> None:
    """One mistake made on purpose is found, in words, at a line of the sheet."""
    assert old in GOOD
    found = sheet(GOOD.replace(old, new)).problems(TODAY)
    assert any(_matches(sentence, problem.sentence) for problem in found), [p.sentence for p in found]
    assert all(problem.span is not None and problem.file == "demo.yaml" for problem in found)


def _matches(pattern: str, text: str) -> bool:
    import re

    return re.search(pattern, text) is not None


def test_a_mistake_in_a_value_is_met_when_it_is_asked_for() -> None:
    """Loading looks at the head only; the entry is refused on access, the others still serve."""
    broken = sheet(GOOD.replace("190 kJ/kg", "190"))
    assert isinstance(broken.get("melting peak"), Given)
    with pytest.raises(DataError):
        broken.get("latent heat")


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("format: resin/1", "format: recipe/1", "one of resin/1, liner/1, material/1"),
        ("format: resin/1", "format: resin/2", "resin/1 is"),
        ("id: demo", "id: De mo", "needs an id"),
        ("id: demo\n", "", "needs an id"),
        ("name: Demonstration resin\n", "", "needs a name"),
    ],
)
def test_what_is_no_sheet_is_refused(old: str, new: str, sentence: str) -> None:
    """Wrong format, id or name: a sentence at loading."""
    with pytest.raises(DataError, match=sentence):
        sheet(GOOD.replace(old, new))


def test_loading_is_cheap() -> None:
    """Under 2 ms once the document is read (best of twenty)."""
    document = read(GOOD.encode(), "demo.yaml")
    times = []
    for _ in range(20):
        start = time.perf_counter()
        load_sheet(document)
        times.append(time.perf_counter() - start)
    assert min(times) < 2e-3


def test_reading_sheets_imports_neither_jsonschema_nor_numpy() -> None:
    """The shipped sheets are validated in tests, not in every run."""
    code = (
        "import sys; from recipes_core.sheets import load_sheet;"
        "print(sorted({'jsonschema', 'numpy', 'difflib'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_property_is_explained() -> None:
    """Plain words for each, and a known kind of sheet; no name holds the separator of cases."""
    for name, prop in PROPERTIES.items():
        assert prop.meaning
        assert prop.meaning[-1] != "."
        assert set(prop.sheets) <= {"resin", "liner", "material"}
        assert prop.sheets
        assert ", " not in name


def test_numbers_without_unit_only_where_they_have_none() -> None:
    """A plain number is read as it stands; a wrong unit is refused."""
    assert read_number("0.9", Plain()) == 0.9
    assert read_number("2 - 4", Plain()) == (2.0, 4.0)
    for words in ("0.9 K", "about 0.9", "", "0,9", "1e3", "nan"):
        with pytest.raises(MeasureError):
            read_number(words, Plain())
    with pytest.raises(MeasureError):
        read_table({"20 °C": "1", "20 °C ": "2"}, Plain())
