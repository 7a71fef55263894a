"""Reading documents: the data and the places, the same from both parsers."""

from __future__ import annotations

import hashlib
from io import StringIO
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq

from recipes_core.document import Document, Entry, read
from recipes_core.findings import Path, Span

TRICKY = {
    "block": "a: b\nc:\n- x\n- y  # hi\n\n# foo\nd:\n    e: f\n",
    "flow": "a: {b: 1, c: [x, 'y', {d: e}]}\nf: [ ]\ng: { }\n",
    "flow on lines": "a: {\n  b: 1,\n  c: [x,\n    y]\n}\n",
    "quotes": "a: 'it''s'\nb: \"tab\\tand \\u263a\"\n\"c d\": ''\n",
    "many lines": "a: one\n  two\n\n  three # c\nb: 'x\n\n  y'\nc: \"x \\\n  y\"\n",
    "literal": "a: |\n  x\n   y\n\n\n# c\nb: |- # d\n  z\n\nc: |+\n  k\n\nd: |2\n   m\n",
    "folded": "a: >\n  x\n  y\n\n  z\n\nb: >-\n  t",
    "unicode": "größe: 5 mm\n名: 値 # 註\n😀: [😀😀, a]\nb: '😀' # c\n",
    "comments": "# top\n\na: b # c\n  # d\nb: # e\n  # f\n  - x # g\n# end\n",
    "CRLF": "a: b\r\nc:\r\n- |\r\n  x\r\n  y\r\n- z\r\n",
    "CR": "a: b\rc:\r- x\r- y\r",
    "BOM": "\ufeffa: b\nc: d\n",
    "no last line end": "a: b",
    "markers": "--- # c\na: b\n...\n",
    "texts": "a: no\nb: 012\nc: 12:30\nd: 1.10\ne: ~\nf: null\ng: 2026-05-01\nh: 0x1F\ni: 1_000\n",
    "tabs": "a: \"x\ty\" # c\tc\nb: |\n  a\tb\nc: 't\t'\n#\tend\n",
    "nested lists": "a:\n- - x\n  - y\n- b: c\n  d: e\n-\n  - f\n",
    "odd texts": "a: what?\nb: x#y\nc: http://x/y?z\nd: a'b\ne: -x\nf: '?'\ng: :x\nh: [a b, -c]\n",
}


def placed(document: Document) -> dict[Path, Entry]:
    """All places of a document."""
    return dict(document.spans)


@pytest.mark.parametrize("source", TRICKY.values(), ids=TRICKY)
def test_both_parsers_agree(source: str) -> None:
    """Data and places do not depend on the parser."""
    fast, slow = read(source, stream="c"), read(source, stream="pure")
    assert fast.data == slow.data
    assert placed(fast) == placed(slow)
    assert fast == slow


@pytest.mark.parametrize("name", [name for name in TRICKY if name != "tabs"])
def test_data_agrees_with_ruamel(name: str) -> None:
    """The texts are what ruamel.yaml's loader reads when it leaves every scalar a text (outside check)."""
    loader = YAML(typ="base", pure=True)
    assert read(TRICKY[name]).data == loader.load(TRICKY[name].removeprefix("\ufeff"))


def test_every_scalar_is_text() -> None:
    """What looks like a number, a date or a truth value keeps the author's letters."""
    document = read("revision: 1.10\na: no\nb: 012\nc: 12:30\nd: [1e3, ~, 0.50]\n")
    assert document.data == {
        "revision": "1.10",
        "a": "no",
        "b": "012",
        "c": "12:30",
        "d": ["1e3", "~", "0.50"],
    }


SAMPLE = """\
# a hook
header: {title: 'Coat hook'}
steps:
- id: melt   # first
  at_least: 20 min
- id: press
notes: |
  Free text.
  More.

"""


def test_spans() -> None:
    """Places count from 1, their end is exclusive; a block ends with its last value."""
    document = read(SAMPLE, "hook.yaml")
    assert document.spans[("header",)] == Entry(Span(2, 1, 2, 7), Span(2, 9, 2, 29), False)
    assert document.spans[("header", "title")] == Entry(Span(2, 10, 2, 15), Span(2, 17, 2, 28), False)
    assert document.spans[("steps",)] == Entry(Span(3, 1, 3, 6), Span(4, 1, 6, 12), False)
    assert document.spans[("steps", 0)] == Entry(None, Span(4, 3, 5, 19), False)
    assert document.spans[("steps", 0, "id")] == Entry(Span(4, 3, 4, 5), Span(4, 7, 4, 11), True)
    assert document.spans[("notes",)] == Entry(Span(7, 1, 7, 6), Span(7, 8, 9, 8), False)
    assert document.spans[()].value == Span(2, 1, 9, 8)


def test_looking_up() -> None:
    """An absent path is shown at its nearest parent; a list item has no key: its value stands in."""
    document = read(SAMPLE, "hook.yaml")
    assert document.span(("steps", 0, "at_most")) == document.spans[("steps", 0)].value
    assert document.span(("nothing", 3, "here")) == document.spans[()].value
    assert document.key_span(("steps", 0, "id")) == Span(4, 3, 4, 5)
    assert document.key_span(("steps", 1)) == document.spans[("steps", 1)].value
    assert document.key_span(("steps", 0, "at_most")) == document.spans[("steps", 0)].value
    assert document.literal(("header",)) == "{title: 'Coat hook'}"
    assert document.literal(("header", "title")) == "'Coat hook'"
    assert document.literal(("notes",)) == "|\n  Free text.\n  More."
    with pytest.raises(KeyError):
        document.literal(("nothing",))


def test_hash_and_mark() -> None:
    """The hash is that of the bytes as they came; a byte order mark moves no place and is not in the text."""
    raw = b"\xef\xbb\xbfa: b\n"
    marked, bare = read(raw), read(raw[3:])
    assert marked.sha256 == hashlib.sha256(raw).hexdigest() != bare.sha256
    assert marked.text == bare.text == "a: b\n"
    assert placed(marked) == placed(bare)


WORDS = st.text(alphabet="abcxyz éß名😀019.-_/%°", min_size=1, max_size=12).filter(
    lambda text: text == text.strip() and text[0] not in "-.%" and text[-1] not in "-"
)


def data_of(marks: str) -> st.SearchStrategy[dict[str, Any]]:
    """Documents of groups, lists and texts, the texts with the given marks among others."""
    texts = WORDS | st.text(alphabet="ab'\"\\ #[]{},&*!|>%@`-\n é😀" + marks, max_size=12)
    values = st.recursive(
        texts,
        lambda inner: st.lists(inner, min_size=1, max_size=3) | st.dictionaries(WORDS, inner, min_size=1, max_size=3),
        max_leaves=12,
    )
    return st.dictionaries(WORDS, values, min_size=1, max_size=4)


def written(data: dict[str, Any], flow: bool) -> str:
    """The data as ruamel.yaml writes it, wrapped at short lines."""
    writer = YAML(typ="safe", pure=True)
    writer.default_flow_style = flow
    writer.width = 40
    writer.allow_unicode = True
    out = StringIO()
    writer.dump(data, out)
    return out.getvalue()


DOCUMENTS = data_of(":?").map(lambda data: written(data, flow=False))
FLOW_DOCUMENTS = data_of("").map(lambda data: written(data, flow=True))  # : and ? need quotes there
WRITTEN = DOCUMENTS | FLOW_DOCUMENTS


@settings(deadline=2000)
@given(source=WRITTEN)
def test_generated_documents(source: str) -> None:
    """What ruamel.yaml writes is read as by its own loader (outside check), with the same places."""
    fast, slow = read(source, stream="c"), read(source, stream="pure")
    assert fast.data == slow.data == YAML(typ="base", pure=True).load(source)
    assert placed(fast) == placed(slow)


def leaves(value: Any, path: Path = ()) -> list[tuple[Path, str]]:
    """All texts with their paths."""
    if isinstance(value, dict):
        return [leaf for key, item in value.items() for leaf in leaves(item, (*path, key))]
    if isinstance(value, list):
        return [leaf for index, item in enumerate(value) for leaf in leaves(item, (*path, index))]
    return [(path, value)]


@settings(deadline=2000)
@given(source=WRITTEN)
def test_span_holds_its_value(source: str) -> None:
    """The text inside a value's place reads as that value; a plain one on one line is the value itself."""
    document = read(source)
    for path, value in leaves(document.data):
        entry, literal = document.spans[path], document.literal(path)
        if entry.plain and entry.value.line == entry.value.end_line:
            assert literal == value
        elif entry.value.line == entry.value.end_line:
            assert read(f"v: {literal}\n").data == {"v": value}


@settings(deadline=2000)
@given(source=WRITTEN, lines=st.lists(st.sampled_from(["", "# c", "  # 😀"]), max_size=5))
def test_lines_on_top_move_all_spans(source: str, lines: list[str]) -> None:
    """Comments and blank lines above move every place down by as many lines, and nothing else."""

    def moved(span: Span) -> Span:
        return Span(span.line + len(lines), span.column, span.end_line + len(lines), span.end_column)

    below = read("".join(line + "\n" for line in lines) + source)
    expected = {
        path: Entry(entry.key and moved(entry.key), moved(entry.value), entry.plain)
        for path, entry in read(source).spans.items()
    }
    assert placed(below) == expected


@settings(deadline=2000)
@given(source=DOCUMENTS)
def test_positions_agree_with_ruamel(source: str) -> None:
    """Keys and values start where ruamel.yaml's round-trip loader says (its .lc positions; outside check)."""
    document = read(source)

    def compare(node: Any, path: Path) -> None:
        if isinstance(node, CommentedMap):
            for key, child in node.items():
                line, column = node.lc.key(key)
                span = document.key_span((*path, key))
                assert (span.line, span.column) == (line + 1, column + 1)
                starts_at((*path, key), node.lc.value(key))
                compare(child, (*path, key))
        elif isinstance(node, CommentedSeq):
            for index, child in enumerate(node):
                starts_at((*path, index), node.lc.item(index))
                compare(child, (*path, index))

    def starts_at(path: Path, theirs: tuple[int, int]) -> None:
        span = document.span(path)
        assert (span.line, span.column) == (theirs[0] + 1, theirs[1] + 1)

    loader = YAML(typ="rt", pure=True)
    loader.preserve_quotes = True
    compare(loader.load(source), ())
