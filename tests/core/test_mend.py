"""Only spelling is mended: the data stays equal but for it, and the text but for the stretches that are mended."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes_core.document import Document, read
from recipes_core.findings import Path as Place
from recipes_core.mend import mended
from recipes_core.quantities import Dimension, QuantityError, parse
from recipes_core.quantities.units import UNITS
from recipes_core.schema.fields import field
from recipes_core.schema.near import certain
from recipes_core.shelf import shelf

ROOT = Path(__file__).parents[1]
BASES = {file.stem: file.read_text("utf-8") for file in sorted((ROOT / "cases").glob("base*.yaml"))}
COAT_HOOK = (ROOT / "recipes" / "coat-hook.yaml").read_text("utf-8")


SCHEMAS = shelf().schemas


def mend(text: str) -> str:
    """The text, mended."""
    return mended(read(text, "a.yaml"), SCHEMAS).text


def value_at(data: Any, path: Place) -> Any:
    """What stands at a path."""
    for part in path:
        data = data[part]
    return data


def quantities(document: Document) -> list[tuple[Place, str, Dimension, int, int]]:
    """Path, text and dimension of every quantity that can be read, and where in the text it begins and ends."""
    found = []
    for path in document.spans:
        value = value_at(document.data, path)
        process = document.data["procedure"][path[1]]["process"] if path[:1] == ("procedure",) and path[1:] else None
        if not isinstance(value, str):
            continue
        try:
            about = field(path, process, SCHEMAS)
        except LookupError:
            continue
        worded = about.dimension and about.split(value)
        if worded and about.dimension and worded[1] < worded[2]:
            try:
                parse(value[worded[1] : worded[2]], about.dimension)
            except QuantityError:
                continue
            found.append((path, value, about.dimension, worded[1], worded[2]))
    return found


@pytest.mark.parametrize("name", BASES)
def test_what_is_spelt_well_is_the_very_same_document(name: str) -> None:
    """Nothing to mend is nothing to write."""
    document = read(BASES[name])
    assert mended(document, SCHEMAS) is document


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("oven: 177 °C\n", "oven: 177 c\n"),
        ("oven: 177 °C\n", "oven: 177 degC\n"),
        ("oven: 177 °C\n", 'oven: "177 degC"  # dial\n'),
        ("at_least: 20 min", "at_lest: 20 Mins"),
        ("done: core below 60 °C", "done: core below 60 celsius"),
        ("set: 177 °C", "set: 177 degC"),
        ("thickness: 10 mm", "Thickness: 10 millimetres"),
        ("charge: 97 g", "charge: 97 grams"),
        ("equipment:  ", "equipmnt:  "),
    ],
)
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_slips_are_mended_where_they_stand(old: str, new: str, ends: str) -> None:
    """A unit, a key, both at once; in quotes, in flow style, in a key that hides others; whatever ends the lines."""
    assert COAT_HOOK.count(old) == 1
    wanted = COAT_HOOK
    if '"' in new:  # quotes and comment of the author stay
        wanted = COAT_HOOK.replace(old, 'oven: "177 °C"  # dial\n')
    assert mend(COAT_HOOK.replace(old, new).replace("\n", ends)) == wanted.replace("\n", ends)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("oven: 177 °C\n", "oven: 177\n"),
        ("oven: 177 °C\n", "oven: hot\n"),
        ("thickness: 10 mm", "thickness: 10 MM"),
        ("process: fold", "process: folds"),
        ("colour: natural", "colour: Natural"),
        ("form: flake", "fom: flake"),
        ("until: no white or grainy core when folded", "until: the probe reads 177 degC"),
        ("  charge: 97 g", "  x-charge: 97 grams\n  charge: 97 g"),
        ("    at_least: 20 min\n", "    at_lest: 20 min\n    at_leas: 30 min\n"),
        ("format: recipe/1", "format: recipe/1.9"),
    ],
)
def test_what_is_not_certain_stays(old: str, new: str) -> None:
    """A value, a word, a slip for either of two keys, free text, a key of the author's own, two slips for one key."""
    assert COAT_HOOK.count(old) == 1
    text = COAT_HOOK.replace(old, new)
    assert mend(text) == text


def test_a_newer_format_is_left_alone() -> None:
    """What is a slip here may be a key there."""
    slip = COAT_HOOK.replace("at_least: 20 min", "at_lest: 20 Mins")
    for form in ("recipe/1.9", "recipe/2", "shop/1", "recipe"):
        text = slip.replace("recipe/1", form, 1)
        assert mend(text) == text


@given(st.sampled_from(sorted(BASES)), st.data())
def test_every_spelling_comes_back_as_it_is_printed(name: str, data: st.DataObject) -> None:
    """A unit of a shipped base in any of its spellings: the base itself comes back, to the byte.

    So the SI values are the same, as are all other values, the order, the comments and the line ends.
    """
    ends = data.draw(st.sampled_from(["\n", "\r\n"]))
    text = BASES[name].replace("\n", ends)
    document = read(text)
    path, value, dimension, start, end = data.draw(st.sampled_from(quantities(document)))
    unit = parse(value[start:end], dimension).unit
    alike = [word for word, known in UNITS[dimension].items() if known.name == unit]
    spelling = data.draw(st.sampled_from(alike))
    if value.count(unit) != 1 or (spelling[0] in "'\"" and document.spans[path].plain is False):
        return
    other = value.replace(unit, spelling)
    if any(mark in other for mark in "'\""):  # an inch mark needs quotes, which would stay
        return
    written = text.replace(document.literal(path), document.literal(path).replace(unit, spelling))
    changed = read(written)
    assert parse(_quantity(changed, path), dimension).low == parse(value[start:end], dimension).low
    after = mended(changed, SCHEMAS)
    assert after.text == text
    assert after.data == document.data


def _quantity(document: Document, path: Place) -> str:
    """The text of the quantity at a path."""
    return next(value[start:end] for at, value, _, start, end in quantities(document) if at == path)


@given(st.sampled_from(sorted(BASES)), st.data())
def test_a_key_comes_back_or_stays_as_it_was_written(name: str, data: st.DataObject) -> None:
    """One letter of one key dropped, doubled or changed: mended to what it was, or not at all; never to another."""
    document = read(BASES[name])
    keys = [path for path, entry in document.spans.items() if entry.key]
    path = data.draw(st.sampled_from(keys))
    key = str(path[-1])
    at = data.draw(st.integers(0, len(key) - 1))
    slip = key[:at] + data.draw(st.sampled_from(["", key[at] * 2, "z"])) + key[at + 1 :]
    siblings = value_at(document.data, path[:-1])
    if not slip or slip in siblings or not re.fullmatch(r"[a-z_]+", slip):
        return
    span = document.spans[path].key
    assert span is not None
    lines = BASES[name].split("\n")
    line = lines[span.line - 1]
    lines[span.line - 1] = line[: span.column - 1] + slip + line[span.end_column - 1 :]
    text = "\n".join(lines)
    after = mend(text)
    assert after in (BASES[name], text), f"{key} written {slip}"
    assert after == text or certain(slip, key)


def test_an_edit_that_says_more_than_it_should_is_not_made(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is written is read again, and must be what was meant; else the document stays the very same."""
    document = read(COAT_HOOK.replace("oven: 177 °C\n", "oven: 177 degC\n"))
    assert mended(document, SCHEMAS) is not document
    monkeypatch.setattr("recipes_core.mend.edited", lambda *_: read(COAT_HOOK.replace("charge: 97 g", "charge: 98 g")))
    assert mended(document, SCHEMAS) is document


def test_a_hostile_file_is_mended_in_time() -> None:
    """Thousands of units on as many lines take seconds, not hours."""
    head = "format: recipe/1\nheader: {id: a, title: b}\nprocedure: []\nformula:\n  feedstock:\n"
    lots = "".join(f"  - {{share: {number} percent}}\n" for number in range(6000))
    after = mend(head + lots)
    assert after.count(" %}") == 6000


def test_the_bases_hold_quantities() -> None:
    """The properties above have something to try: every base but a few has dozens."""
    assert sum(len(quantities(read(text))) for text in BASES.values()) > 200
